"""What a club tries against the golfer's own: big levers first, the shaft last."""

from dataclasses import dataclass
from enum import IntEnum

from loftwright.constants import DEGREE, GRAM, INCH


class Lever(IntEnum):
    """In the order in which they are tried (common practice, no source)."""

    LENGTH = 1
    LOFT = 2
    HEAD = 3
    WEIGHT = 4
    SHAFT = 5
    NOTHING = 6


SMALLEST_LENGTH = 0.2 * INCH
SMALLEST_LOFT = 0.4 * DEGREE
SMALLEST_WEIGHT = 4.0 * GRAM


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What levers move.

    Attributes
    ----------
    length : float
        [m]
    loft : float
        With the sleeve as set [rad].
    head, shaft : str
        Ids of their models.
    shaft_mass : float, optional
        Weighed, else printed [kg].
    """

    length: float
    loft: float
    head: str
    shaft: str
    shaft_mass: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What one club tries.

    Attributes
    ----------
    lever : Lever
        The first that differs.
    length, loft, weight : float
        Differences to the own club [m, rad, kg]; zero where not known.
    levers : tuple of Lever
        All that differ.
    """

    lever: Lever
    length: float
    loft: float
    weight: float
    levers: tuple[Lever, ...]


def tried(build: Build, own: Build | None) -> Tried:
    """Return what a club tries against the own one; its shaft where that is not known."""
    if own is None:
        return Tried(lever=Lever.NOTHING, length=0.0, loft=0.0, weight=0.0, levers=())
    length, loft = build.length - own.length, build.loft - own.loft
    weighed = build.shaft_mass is not None and own.shaft_mass is not None
    weight = (build.shaft_mass or 0.0) - (own.shaft_mass or 0.0) if weighed else 0.0
    moved = {
        Lever.LENGTH: abs(length) >= SMALLEST_LENGTH,
        Lever.LOFT: abs(loft) >= SMALLEST_LOFT,
        Lever.HEAD: build.head != own.head,
        Lever.WEIGHT: abs(weight) >= SMALLEST_WEIGHT,
        Lever.SHAFT: build.shaft != own.shaft,
    }
    levers = tuple(lever for lever, moves in moved.items() if moves)
    first = levers[0] if levers else Lever.NOTHING
    return Tried(lever=first, length=length, loft=loft, weight=weight, levers=levers)
