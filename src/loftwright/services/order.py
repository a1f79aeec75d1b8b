"""From a choice to an order: quote, take the golfer's word, send it, or call it off."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.order import PriceLine, Quote
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted, Withdrawn
from loftwright.domain.terms import Terms
from loftwright.errors import ConflictError, InputError
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.report.numbers import count
from loftwright.report.order_prices import untold
from loftwright.report.order_words import day_words
from loftwright.services.job import job_act
from loftwright.services.studio import Studio
from loftwright.services.wanted import Wanted, balls_with
from loftwright.workshop.order import OrderNow, OrderState, order_now, ready_by
from loftwright.workshop.quote import sums_of

OWN_WORKSHOP: Final = "own workshop"
_GONE: Final = frozenset({OrderState.NONE, OrderState.OFF})
_BOUND: Final = frozenset({OrderState.AGREED, OrderState.SENT})


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """Who writes into a job's record, under which key, from a page that showed what.

    Attributes
    ----------
    by : str
    key : str
        Idempotency key; the same key writes once.
    seen : int or None
        Sequence of the last entry that the page showed; 0 for none.
    """

    by: str = ""
    key: str = ""
    seen: int | None = None


def order_of(studio: Studio, fitting: str) -> OrderNow:
    """Return how the order of a fitting stands today.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    """
    return order_now(studio.store.job_record(fitting), studio.today())


def usual_lines(wanted: Wanted, terms: Terms) -> tuple[PriceLine, ...]:
    """Return the lines that a new quote begins with: the choice's price, then the usual ones.

    Where only the sleeve is turned nothing is built, and the usual lines do not go with it.
    """
    if not wanted.built:
        return wanted.lines
    listed_ones = (
        PriceLine(what=one.what, kind=one.kind, price=one.price)
        for one in terms.prices
        if one.usual
    )
    return (*wanted.lines, *listed_ones)


def last_day(terms: Terms, today: date) -> date:
    """Return the last day of a quote that is made today."""
    return today + timedelta(days=terms.valid_days)


def balls_missing(studio: Studio, fitting: str, quote: Quote) -> int:
    """Return how many balls with just this club are missing before it may be agreed to."""
    if quote.few_balls_known:
        return 0
    return max(0, CONFIRMING_BALLS - balls_with(studio.standing(fitting), quote.spec.label))


def give_quote(
    studio: Studio, fitting: str, quote: Quote, writing: Writing
) -> tuple[JobEntry, ...]:
    """Write a quote; it takes the place of the one before, and no agreement goes with it.

    Raises
    ------
    InputError
        If it has no line, or its last day is over.
    ConflictError
        If the record went on since the page was drawn.
    """

    def make(_: OrderNow) -> JobAct:
        if not quote.lines:
            raise InputError(
                "a quote needs a line", place="what-1", mend="Write what it is for, with a price."
            )
        if quote.valid_until < studio.today():
            raise InputError(
                f"{day_words(quote.valid_until)} is over",
                place="valid_until",
                mend="Give today or a later day.",
            )
        return Quoted(quote=quote)

    return _write(studio, fitting, make, writing)


def agree(
    studio: Studio, fitting: str, agreed: Agreed, quoted: int, writing: Writing
) -> tuple[JobEntry, ...]:
    """Write that the golfer agreed to the quote that stands.

    Parameters
    ----------
    studio : Studio
    fitting : str
    agreed : Agreed
    quoted : int
        Sequence of the quote that the golfer saw.
    writing : Writing

    Raises
    ------
    InputError
        If the quote has run out, has a line without a price, or stands on too few balls.
    ConflictError
        If another quote took its place, or the record went on.
    """

    def make(now: OrderNow) -> JobAct:
        quote = _quoted(now)
        if now.sequence != quoted:
            raise ConflictError(
                "another quote took the place of the one that was read",
                place="quote",
                mend="Read the one that stands now, then agree to it.",
            )
        _may_be_agreed(studio, fitting, now, quote)
        if not agreed.name.strip():
            raise InputError(
                "an agreement needs a name", place="name", mend="Write the name as signed."
            )
        return agreed

    return _write(studio, fitting, make, writing)


def send_order(
    studio: Studio, fitting: str, sent: OrderSent, writing: Writing
) -> tuple[JobEntry, ...]:
    """Write that the order went out, and when the club is promised; again for another day.

    Raises
    ------
    InputError
        If nobody agreed to it, or the day is over.
    ConflictError
        If the record went on since the page was drawn.
    """

    def make(now: OrderNow) -> JobAct:
        _quoted(now)
        if now.state not in _BOUND:
            raise InputError(
                "nobody agreed to the quote yet",
                place="to",
                mend="Take the golfer's agreement first.",
            )
        if not sent.to.strip():
            raise InputError(
                "an order goes to somebody", place="to", mend=f"Write who, or {OWN_WORKSHOP}."
            )
        if sent.promised is None or sent.promised < studio.today():
            told = "no day" if sent.promised is None else day_words(sent.promised)
            raise InputError(
                f"{told} cannot be promised", place="promised", mend="Give today or a later day."
            )
        return sent

    return _write(studio, fitting, make, writing)


def withdraw(studio: Studio, fitting: str, reason: str, writing: Writing) -> tuple[JobEntry, ...]:
    """Write that the order is off.

    Raises
    ------
    InputError
        If there is nothing to call off, or no reason.
    ConflictError
        If the record went on since the page was drawn.
    """

    def make(now: OrderNow) -> JobAct:
        _quoted(now)
        if not reason.strip():
            raise InputError(
                "a reason is missing", place="reason", mend="Write why: too dear, another club."
            )
        return Withdrawn(reason=reason.strip())

    return _write(studio, fitting, make, writing)


def promised_day(studio: Studio, quote: Quote) -> date:
    """Return when a club is ready that is ordered today."""
    return ready_by(quote, studio.today())


def _quoted(now: OrderNow) -> Quote:
    if now.quote is None or now.state in _GONE:
        off = now.state is OrderState.OFF
        raise InputError(
            "the order is off" if off else "nothing is quoted yet",
            place="quote",
            mend="Quote it again." if off else "Quote a club first.",
        )
    return now.quote


def _may_be_agreed(studio: Studio, fitting: str, now: OrderNow, quote: Quote) -> None:
    if now.state in _BOUND:
        raise InputError(
            "the golfer agreed to this quote already",
            place="name",
            mend="Undo the agreement if it was wrong.",
        )
    if now.state is OrderState.RUN_OUT:
        raise InputError(
            f"the quote ran out on {day_words(quote.valid_until)}",
            place="quote",
            mend="Quote it again: the form below is filled. Then it can be agreed to.",
        )
    if sums_of(quote) is None:
        raise InputError(
            f"no sum can be agreed to: {untold(quote)}",
            place="quote",
            mend="Quote it again with every price.",
        )
    missing = balls_missing(studio, fitting, quote)
    if missing:
        raise InputError(
            f"{count(missing, 'ball')} with just this club are missing"
            if missing > 1
            else "1 ball with just this club is missing",
            place="quote",
            mend="Hit them in the bay, or quote it again with the tick that the golfer knows it.",
        )


def _write(
    studio: Studio, fitting: str, make: Callable[[OrderNow], JobAct], writing: Writing
) -> tuple[JobEntry, ...]:
    """Write the act that suits how the order stands, looked at and written under one lock."""
    with studio.lock:
        record = studio.store.job_record(fitting)
        known = bool(writing.key) and any(one.key == writing.key for one in record)
        last = record[-1].sequence if record else 0
        stale = writing.seen is not None and writing.seen != last
        # What is written already, or comes from a stale page, is answered by the writer itself.
        idle = known or stale
        acts = [] if idle else [make(order_now(record, studio.today()))]
        return job_act(studio, fitting, acts, by=writing.by, key=writing.key, seen=writing.seen)
