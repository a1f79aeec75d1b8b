"""Quote, agreement, sending, calling off: what is written, and what is refused with its mend."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest

from bays import Bay, a_bay
from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.order import PriceKind, PriceLine, Quote
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted, Withdrawn
from loftwright.domain.terms import ListedPrice, Terms
from loftwright.errors import ConflictError, InputError
from loftwright.services.job import undo_job
from loftwright.services.order import (
    Writing,
    agree,
    balls_missing,
    give_quote,
    last_day,
    order_of,
    promised_day,
    send_order,
    usual_lines,
    withdraw,
)
from loftwright.services.wanted import Wanted
from loftwright.services.ways_on import ChoiceRow, Way
from loftwright.workshop.order import OrderState
from orders import LAST, LINES, a_quote, a_spec

SIGNED = Agreed(name="Ottoline Brambleby")
SENT = OrderSent(to="own workshop", promised=date(2026, 12, 9))
KNOWN = a_quote(few_balls_known=True)


@pytest.fixture
def bay() -> Bay:
    return a_bay()


def acts(record: tuple[JobEntry, ...]) -> list[JobAct]:
    return [one.act for one in record]


def quoted(bay: Bay, quote: Quote = KNOWN, **more: str | int) -> int:
    """Quote a club and return the sequence of the quote."""
    record = give_quote(bay.studio, bay.fitting, quote, Writing(**more))  # type: ignore[arg-type]
    return record[-1].sequence


def agreed(bay: Bay) -> None:
    agree(bay.studio, bay.fitting, SIGNED, quoted(bay), Writing())


def test_an_order_goes_from_quote_to_promise(bay: Bay) -> None:
    agreed(bay)
    send_order(bay.studio, bay.fitting, SENT, Writing(by="Tablet"))
    now = order_of(bay.studio, bay.fitting)
    assert (now.state, now.promised) == (OrderState.SENT, date(2026, 12, 9))
    record = withdraw(bay.studio, bay.fitting, " too dear ", Writing())
    assert acts(record) == [Quoted(quote=KNOWN), SIGNED, SENT, Withdrawn(reason="too dear")]
    assert record[2].by == "Tablet"
    undo_job(bay.studio, bay.fitting, record[-1].sequence)
    assert order_of(bay.studio, bay.fitting).state is OrderState.SENT


def test_the_same_key_writes_once(bay: Bay) -> None:
    number = quoted(bay, key="one")
    assert quoted(bay, key="one") == number
    for _ in range(2):
        record = agree(bay.studio, bay.fitting, SIGNED, number, Writing(key="two"))
    assert len(record) == 2


def test_a_stale_page_writes_nothing(bay: Bay) -> None:
    number = quoted(bay, seen=0)
    with pytest.raises(ConflictError, match="meantime"):
        quoted(bay, seen=0)
    with pytest.raises(ConflictError, match="meantime"):
        agree(bay.studio, bay.fitting, SIGNED, number, Writing(seen=0))
    assert len(bay.studio.store.job_record(bay.fitting)) == 1


def test_an_agreement_is_to_the_quote_that_was_read(bay: Bay) -> None:
    first = quoted(bay)
    quoted(bay, replace(KNOWN, lines=LINES[:1]))
    with pytest.raises(ConflictError, match="another quote") as told:
        agree(bay.studio, bay.fitting, SIGNED, first, Writing())
    assert "Read the one that stands now" in told.value.mend


def test_a_quote_that_ran_out_is_not_agreed_to(bay: Bay) -> None:
    number = quoted(bay)
    bay.clock.at += timedelta(days=31)
    assert order_of(bay.studio, bay.fitting).state is OrderState.RUN_OUT
    with pytest.raises(InputError, match=r"ran out on 25\sDecember\s2026") as told:
        agree(bay.studio, bay.fitting, SIGNED, number, Writing())
    assert "Quote it again" in told.value.mend


@pytest.mark.parametrize(
    ("hours", "state"), [(21.9, OrderState.QUOTED), (22.1, OrderState.RUN_OUT)]
)
def test_the_last_day_is_that_of_the_shop_s_zone(
    bay: Bay, hours: float, state: OrderState
) -> None:
    bay.studio.zone = timezone(timedelta(hours=2))
    quoted(bay)
    bay.clock.at = datetime(2026, 12, 25, tzinfo=UTC) + timedelta(hours=hours)
    assert order_of(bay.studio, bay.fitting).state is state


def test_a_quote_without_a_price_is_not_agreed_to(bay: Bay) -> None:
    bare = PriceLine(what="Reedmace", kind=PriceKind.PART, price=None)
    number = quoted(bay, replace(KNOWN, lines=(bare,)))
    with pytest.raises(InputError, match="no price for “Reedmace”"):
        agree(bay.studio, bay.fitting, SIGNED, number, Writing())


def test_too_few_balls_wait_for_the_tick_or_for_more_balls(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(4)
    unknown = a_quote()
    assert balls_missing(bay.studio, bay.fitting, unknown) == 1
    assert balls_missing(bay.studio, bay.fitting, KNOWN) == 0
    number = quoted(bay, unknown)
    with pytest.raises(InputError, match="1 ball with just this club is missing") as told:
        agree(bay.studio, bay.fitting, SIGNED, number, Writing())
    assert "Hit them in the bay" in told.value.mend
    bay.ball()
    assert balls_missing(bay.studio, bay.fitting, unknown) == 0
    agree(bay.studio, bay.fitting, SIGNED, number, Writing())


def test_balls_with_another_club_do_not_count(bay: Bay) -> None:
    bay.hand("Birch")
    bay.balls(6)
    assert balls_missing(bay.studio, bay.fitting, a_quote()) == 5


def test_nobody_agrees_twice_or_to_nothing(bay: Bay) -> None:
    with pytest.raises(InputError, match="nothing is quoted yet"):
        agree(bay.studio, bay.fitting, SIGNED, 1, Writing())
    number = quoted(bay)
    with pytest.raises(InputError, match="needs a name"):
        agree(bay.studio, bay.fitting, Agreed(name=" "), number, Writing())
    agree(bay.studio, bay.fitting, SIGNED, number, Writing())
    with pytest.raises(InputError, match="already"):
        agree(bay.studio, bay.fitting, SIGNED, number, Writing())


def test_an_order_goes_out_after_the_agreement_alone(bay: Bay) -> None:
    quoted(bay)
    with pytest.raises(InputError, match="nobody agreed"):
        send_order(bay.studio, bay.fitting, SENT, Writing())
    agreed(bay)
    for promised in (None, date(2026, 11, 24)):
        with pytest.raises(InputError, match="cannot be promised"):
            send_order(bay.studio, bay.fitting, replace(SENT, promised=promised), Writing())
    with pytest.raises(InputError, match="goes to somebody"):
        send_order(bay.studio, bay.fitting, replace(SENT, to=" "), Writing())


def test_a_later_day_is_promised_in_the_same_way(bay: Bay) -> None:
    agreed(bay)
    send_order(bay.studio, bay.fitting, SENT, Writing())
    later = replace(SENT, promised=date(2026, 12, 20))
    send_order(bay.studio, bay.fitting, later, Writing())
    assert order_of(bay.studio, bay.fitting).promised == date(2026, 12, 20)


def test_an_order_is_called_off_once_and_with_a_reason(bay: Bay) -> None:
    with pytest.raises(InputError, match="nothing is quoted yet"):
        withdraw(bay.studio, bay.fitting, "too dear", Writing())
    quoted(bay)
    with pytest.raises(InputError, match="a reason is missing"):
        withdraw(bay.studio, bay.fitting, "", Writing())
    withdraw(bay.studio, bay.fitting, "too dear", Writing())
    with pytest.raises(InputError, match="the order is off"):
        withdraw(bay.studio, bay.fitting, "too dear", Writing())


@pytest.mark.parametrize(
    ("quote", "message"),
    [(a_quote(lines=()), "needs a line"), (a_quote(valid_until=date(2026, 11, 24)), "is over")],
)
def test_a_quote_that_nobody_could_agree_to_is_not_made(
    bay: Bay, quote: Quote, message: str
) -> None:
    with pytest.raises(InputError, match=message):
        quoted(bay, quote)
    assert bay.studio.store.job_record(bay.fitting) == ()


def test_a_new_quote_begins_with_the_price_and_the_usual_lines() -> None:
    terms = Terms(
        prices=(
            ListedPrice(what="Build", kind=PriceKind.LABOUR, price=6000, usual=True),
            ListedPrice(what="Spare sleeve", kind=PriceKind.PART, price=2450),
        )
    )
    row = ChoiceRow(label="Ash", club="Ash", way=Way.HIT, set_up=None)
    built = Wanted(label="Ash", row=row, spec=a_spec(), lines=LINES[:1])
    assert [one.what for one in usual_lines(built, terms)] == [LINES[0].what, "Build"]
    turned = replace(built, built=False)
    assert usual_lines(turned, terms) == LINES[:1]


def test_days_are_counted_from_today(bay: Bay) -> None:
    assert last_day(Terms(valid_days=30), date(2026, 11, 25)) == LAST
    assert promised_day(bay.studio, KNOWN) == date(2026, 12, 9)
