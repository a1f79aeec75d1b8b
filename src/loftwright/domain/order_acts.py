"""What can happen to an order: it is quoted, agreed, sent, put off or withdrawn."""

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from loftwright.domain.order import Quote


@dataclass(frozen=True, slots=True, kw_only=True)
class Quoted:
    """A quote was made; it takes the place of the one before, and no agreement goes with it."""

    quote: Quote


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """The golfer agreed to the quote that stands.

    Attributes
    ----------
    name : str
        As signed.
    on_paper : bool
        Whether a signed sheet lies with the order.
    """

    name: str
    on_paper: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderSent:
    """Parts were ordered or the workshop was told.

    Attributes
    ----------
    promised : date or None
        When the club is to be ready.
    """

    to: str
    promised: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """The order is off."""

    reason: str


OrderAct: TypeAlias = Quoted | Agreed | OrderSent | Withdrawn
