"""How an order stands: quoted, run out, agreed, sent or off."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import Quote
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted, Withdrawn
from loftwright.workshop.standing import standing


class OrderState(StrEnum):
    """How far an order is."""

    NONE = "none"
    QUOTED = "quoted"
    RUN_OUT = "run_out"
    """Quoted, not agreed to, and its last day is over."""
    AGREED = "agreed"
    SENT = "sent"
    OFF = "off"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderNow:
    """An order as it stands.

    Attributes
    ----------
    quote : Quote or None
        The newest one, also of an order that is off.
    sequence : int
        Of its act; 0 without a quote.
    quoted_at : datetime or None
    agreed : Agreed or None
        To this quote; an agreement to an earlier one is gone with it.
    agreed_at : datetime or None
    sent : OrderSent or None
        The newest since the agreement.
    sent_at : datetime or None
    promised : date or None
        When the club is to be ready, as it was said to the golfer.
    reason : str
        Why the order is off; empty while it is not.
    """

    state: OrderState
    quote: Quote | None = None
    sequence: int = 0
    quoted_at: datetime | None = None
    agreed: Agreed | None = None
    agreed_at: datetime | None = None
    sent: OrderSent | None = None
    sent_at: datetime | None = None
    promised: date | None = None
    reason: str = ""


def order_now(record: Sequence[JobEntry], today: date) -> OrderNow:
    """Return how an order stands.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record of the job, in order.
    today : date
        In the shop's zone; the last day of a quote still counts.
    """
    quoted: tuple[JobEntry, Quoted] | None = None
    agreed: tuple[JobEntry, Agreed] | None = None
    sent: tuple[JobEntry, OrderSent] | None = None
    off: Withdrawn | None = None
    for entry in standing(record):
        if isinstance(entry.act, Quoted):
            quoted, agreed, sent, off = (entry, entry.act), None, None, None
        elif isinstance(entry.act, Agreed):
            agreed = (entry, entry.act)
        elif isinstance(entry.act, OrderSent):
            sent = (entry, entry.act)
        elif isinstance(entry.act, Withdrawn):
            agreed, sent, off = None, None, entry.act
    quote = None if quoted is None else quoted[1].quote
    return OrderNow(
        state=_state(quote, today, off=off is not None, agreed=bool(agreed), sent=bool(sent)),
        quote=quote,
        sequence=0 if quoted is None else quoted[0].sequence,
        quoted_at=None if quoted is None else quoted[0].at,
        agreed=None if agreed is None else agreed[1],
        agreed_at=None if agreed is None else agreed[0].at,
        sent=None if sent is None else sent[1],
        sent_at=None if sent is None else sent[0].at,
        promised=None if sent is None else sent[1].promised,
        reason="" if off is None else off.reason,
    )


def ready_by(quote: Quote, day: date) -> date:
    """Return when a club is ready that is ordered on a day."""
    return day + timedelta(days=quote.lead_days)


def _state(quote: Quote | None, today: date, *, off: bool, agreed: bool, sent: bool) -> OrderState:
    if off:
        return OrderState.OFF
    if quote is None:
        return OrderState.NONE
    if not agreed:
        return OrderState.RUN_OUT if today > quote.valid_until else OrderState.QUOTED
    return OrderState.SENT if sent else OrderState.AGREED
