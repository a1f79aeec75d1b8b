"""Kinds of clubs, and which figures may be told of each.

Flight, run and impact were checked for drives. Build, rack and bench are geometry and weighing,
which hold for any club; where a fairway wood's or an iron's ball goes at home was not checked.

The flight model was made for drivers, launched with spin ratios of 0.04 to 0.22; a mid iron's ball
has some 0.3 and more (from memory). The impact model solves a driver's head: its centre of gravity
lies far behind a bulged face, an iron's does not.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loftwright.constants import DEGREE, INCH
from loftwright.domain.fitting import ClubCard
from loftwright.errors import InputError


class Kind(StrEnum):
    """What a club is made for."""

    DRIVER = "driver"
    FAIRWAY_WOOD = "fairway_wood"
    HYBRID = "hybrid"
    IRON = "iron"


class Told(StrEnum):
    """What may be told of a club."""

    BUILD = "build"
    """Length, weight, balance, loft, lie, sleeve."""
    RACK = "rack"
    """Stock, price, balls, care."""
    BENCH = "bench"
    """Frequency, deflection and shape of its shaft."""
    AS_READ = "as_read"
    """What the device shows, beside its own words for it."""
    DELIVERY = "delivery"
    """How a ball was delivered and where it met the face, from what the device read."""
    FLIGHT = "flight"
    """Carry, height, landing and run at home."""
    VALUE = "value"
    """Fairways, strokes a round, which club is worth more."""
    NOT_HIT = "not_hit"
    """What a club that was not hit would do."""


ALWAYS: Final = frozenset({Told.BUILD, Told.RACK, Told.BENCH, Told.AS_READ})
SHORTEST_DRIVER: Final = 43.0 * INCH
MOST_DRIVER_LOFT: Final = 16.0 * DEGREE
LEAST_WOOD_LOFT: Final = 12.5 * DEGREE
"""Below it a short wood is a short driver, as juniors have them."""
MOST_LONG_LOFT: Final = 20.0 * DEGREE
"""No club as long as a driver has more."""
SHORTEST_WOOD: Final = 41.0 * INCH
SHORTEST_HYBRID: Final = 39.5 * INCH
"""Common practice, no source."""

_NAMES: Final = {
    Kind.DRIVER: "driver",
    Kind.FAIRWAY_WOOD: "fairway wood",
    Kind.HYBRID: "hybrid",
    Kind.IRON: "iron",
}
_WHY: Final = {
    Told.DELIVERY: "Impact is that of a driver's head.",
    Told.FLIGHT: "Flight and run were checked for drives. Higher spin and steeper landings were "
    "not, and the run of short irons is known to be wrong.",
    Told.VALUE: "Strokes are counted from where a drive ends. Where a ball of this club ends was "
    "not checked.",
    Told.NOT_HIT: "What a change of build does was looked at for drivers only.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """Whether a figure may be told, and why not; no words where it may."""

    may: bool
    why: str = ""


def kind_of(loft: float, length: float) -> Kind:
    """Return what kind of club a loft and a length make.

    Parameters
    ----------
    loft : float
        As printed [rad].
    length : float
        Playing length [m].

    Returns
    -------
    Kind
        By common practice: who knows better says so.
    """
    least = SHORTEST_WOOD if loft < LEAST_WOOD_LOFT else SHORTEST_DRIVER
    if length >= least and loft <= MOST_DRIVER_LOFT:
        return Kind.DRIVER
    if length >= SHORTEST_WOOD:
        return Kind.FAIRWAY_WOOD
    return Kind.HYBRID if length >= SHORTEST_HYBRID else Kind.IRON


def kind_of_card(card: ClubCard) -> Kind:
    """Return what kind of club a club of a fitting is."""
    return kind_of(card.loft, card.length)


def kind_words(kind: Kind) -> str:
    """Return what a kind is called, with its article."""
    return f"an {_NAMES[kind]}" if kind is Kind.IRON else f"a {_NAMES[kind]}"


def check_loft(loft: float, length: float) -> None:
    """Raise where a head's loft cannot be that of a club so long: a slip of the pen.

    Parameters
    ----------
    loft : float
        [rad]
    length : float
        Playing length [m].

    Raises
    ------
    InputError
        If a club of a driver's length has the loft of an iron.
    """
    if length >= SHORTEST_DRIVER and loft > MOST_LONG_LOFT:
        raise InputError(
            f"a driver of {loft / DEGREE:.1f} deg cannot be used",
            place="loft",
            mend="Give the loft printed on the head, 4 to 20 deg; clubs with more loft are "
            f"shorter than {SHORTEST_DRIVER / INCH:.0f} in.",
        )


def may_tell(kind: Kind, told: Told) -> Rule:
    """Return whether a figure may be told of a kind of club."""
    if kind is Kind.DRIVER or told in ALWAYS:
        return Rule(may=True)
    return Rule(may=False, why=f"Not for {kind_words(kind)}. {_WHY[told]}")
