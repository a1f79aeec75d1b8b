"""How an order stands after every act, and after each is taken back."""

from datetime import date, timedelta

import pytest

from loftwright.domain.job_acts import JobAct, JobUndone
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted, Withdrawn
from loftwright.workshop.order import OrderState, order_now, ready_by
from loftwright.workshop.stages import agreed_quote, stages_done
from orders import LAST, a_quote, a_record, a_spec

TODAY = date(2026, 11, 25)
QUOTED = Quoted(quote=a_quote())
OTHER = Quoted(quote=a_quote(spec=a_spec(label="Birch", club="Birch")))
AGREED = Agreed(name="Ottoline Brambleby")
SENT = OrderSent(to="own workshop", promised=date(2026, 12, 9))
OFF = Withdrawn(reason="too dear")


@pytest.mark.parametrize(
    ("acts", "state"),
    [
        ((), OrderState.NONE),
        ((QUOTED,), OrderState.QUOTED),
        ((QUOTED, AGREED), OrderState.AGREED),
        ((QUOTED, AGREED, SENT), OrderState.SENT),
        ((QUOTED, AGREED, SENT, OFF), OrderState.OFF),
        ((QUOTED, OFF), OrderState.OFF),
        ((QUOTED, AGREED, QUOTED), OrderState.QUOTED),
        ((QUOTED, AGREED, SENT, OTHER), OrderState.QUOTED),
        ((QUOTED, OFF, QUOTED), OrderState.QUOTED),
        ((QUOTED, AGREED, JobUndone(act=2)), OrderState.QUOTED),
        ((QUOTED, AGREED, SENT, OFF, JobUndone(act=4)), OrderState.SENT),
        ((QUOTED, AGREED, OTHER, JobUndone(act=3)), OrderState.AGREED),
        ((QUOTED, JobUndone(act=1)), OrderState.NONE),
    ],
)
def test_the_last_act_that_stands_tells_how_an_order_stands(
    acts: tuple[JobAct, ...], state: OrderState
) -> None:
    record = a_record(*((act,) for act in acts))
    assert order_now(record, TODAY).state is state


@pytest.mark.parametrize(
    ("day", "state"),
    [(LAST, OrderState.QUOTED), (LAST + timedelta(days=1), OrderState.RUN_OUT)],
)
def test_a_quote_holds_to_the_end_of_its_last_day(day: date, state: OrderState) -> None:
    assert order_now(a_record((QUOTED,)), day).state is state


def test_what_was_agreed_in_time_does_not_run_out() -> None:
    record = a_record((QUOTED,), (AGREED,))
    assert order_now(record, LAST + timedelta(days=400)).state is OrderState.AGREED


def test_an_order_tells_its_quote_agreement_and_promise() -> None:
    now = order_now(a_record((QUOTED,), (AGREED,), (SENT,)), TODAY)
    assert (now.quote, now.sequence, now.agreed) == (QUOTED.quote, 1, AGREED)
    assert (now.sent, now.promised) == (SENT, date(2026, 12, 9))
    later = OrderSent(to="own workshop", promised=date(2026, 12, 20))
    again = order_now(a_record((QUOTED,), (AGREED,), (SENT,), (later,)), TODAY)
    assert again.promised == date(2026, 12, 20)


def test_another_quote_takes_agreement_and_promise_with_it() -> None:
    now = order_now(a_record((QUOTED,), (AGREED,), (SENT,), (OTHER,)), TODAY)
    assert (now.quote, now.sequence) == (OTHER.quote, 4)
    assert (now.agreed, now.sent, now.promised) == (None, None, None)


def test_an_order_that_is_off_keeps_its_quote_and_reason() -> None:
    now = order_now(a_record((QUOTED,), (AGREED,), (OFF,)), TODAY)
    assert (now.quote, now.reason, now.agreed) == (QUOTED.quote, "too dear", None)
    silent = order_now(a_record((QUOTED,), (Withdrawn(reason=""),)), TODAY)
    assert silent.state is OrderState.OFF


def test_the_order_agrees_with_the_step_that_is_done() -> None:
    for acts in ((QUOTED,), (QUOTED, AGREED), (QUOTED, AGREED, SENT), (QUOTED, AGREED, OFF)):
        record = a_record(*((act,) for act in acts))
        bound = order_now(record, TODAY).state in {OrderState.AGREED, OrderState.SENT}
        assert bound == ("order" in stages_done(record))
        assert bound == (agreed_quote(record) is not None)


def test_a_club_is_ready_so_many_days_after_the_order() -> None:
    assert ready_by(a_quote(lead_days=14), TODAY) == date(2026, 12, 9)
    assert ready_by(a_quote(lead_days=0), TODAY) == TODAY
