"""The clubs that a golfer carries, as far as each is known."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import isfinite
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.build_sheet import LengthMethod
from loftwright.errors import InputError
from loftwright.physics.build.pendulum import Pendulum, pendulum_inertia

MOST_IN_PLAY: Final = 14
"""Rules of Golf, rule 4.1b (from memory): at most so many clubs on a round."""

MOST_CLUBS: Final = 30
LONGEST_NAME: Final = 40


class BagKind(StrEnum):
    """What a club of a bag is."""

    WOOD = "wood"
    HYBRID = "hybrid"
    IRON = "iron"
    WEDGE = "wedge"
    PUTTER = "putter"


class Known(StrEnum):
    """What may be known of a club in a bag."""

    LOFT = "loft"
    LENGTH = "length"
    MASS = "mass"
    BALANCE = "balance"
    SWINGWEIGHT = "swingweight"
    INERTIA = "inertia"
    FREQUENCY = "frequency"


@dataclass(frozen=True, slots=True, kw_only=True)
class Swung:
    """A club that hung near its butt and was let swing.

    Attributes
    ----------
    pivot : float
        From the top of the grip [m].
    period : float
        There and back [s].
    """

    pivot: float
    period: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """A frequency with what it means nothing without.

    Attributes
    ----------
    frequency : float
        [s^-1]
    clamp : float
        How much of the butt is held [m].
    tip_mass : float or None
        On the tip end [kg]; None for the club's own head.
    """

    frequency: float
    clamp: float
    tip_mass: float | None = None

    def __post_init__(self) -> None:
        _between(self.frequency / CYCLE_PER_MINUTE, 100.0, 500.0, "frequency", "cpm")
        _between(self.clamp / INCH, 2.0, 12.0, "clamp", "in")
        if self.tip_mass is not None:
            _between(self.tip_mass / GRAM, 20.0, 500.0, "tip_mass", "g")


@dataclass(frozen=True, slots=True, kw_only=True)
class BagClub:
    """One club; SI and radians, swingweight in points above A0.

    Attributes
    ----------
    name : str
        As the golfer calls it, unlike any other of the bag.
    spare : bool
        At home, not in play.
    loft : float or None
    length : float or None
    method : LengthMethod
        How the length was measured.
    mass, balance : float or None
        The balance point from the top of the grip.
    swingweight : float or None
        As a scale read it; else weight and balance point give it.
    inertia : float or None
        Club MOI about the top of the grip, as somebody measured it.
    swung : Swung or None
        Of which it is worked out where nobody gave it.
    timed : Timed or None
    doubts : mapping of Known to float
        Half-widths of the ranges that hold a figure 95 times in 100, where they were given.
    source : str
        From where the club came; empty for one that was typed.
    """

    name: str
    kind: BagKind
    spare: bool = False
    loft: float | None = None
    length: float | None = None
    method: LengthMethod = LengthMethod.PLANE
    mass: float | None = None
    balance: float | None = None
    swingweight: float | None = None
    inertia: float | None = None
    swung: Swung | None = None
    timed: Timed | None = None
    doubts: Mapping[Known, float] = field(default_factory=dict)
    source: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError(
                "a club needs a name", place="name", mend="Call it as the golfer does: 7 iron."
            )
        if len(self.name) > LONGEST_NAME:
            raise InputError(
                f"a name of {len(self.name)} letters is too long",
                place="name",
                mend=f"Give {LONGEST_NAME} at most.",
            )
        _angle(self.loft, self.kind)
        _between(_over(self.length, INCH), 18.0, 60.0, "length", "in")
        _between(_over(self.mass, GRAM), 200.0, 900.0, "mass", "g")
        _between(_over(self.balance, INCH), 8.0, 45.0, "balance", "in")
        _between(self.swingweight, 0.0, 70.0, "swingweight", "points above A0")
        unit = KILOGRAM_SQUARE_CENTIMETRE
        _between(_over(self.inertia, unit), 1500.0, 5000.0, "inertia", "kg cm²")
        if self.inertia is not None and self.swung is not None:
            raise InputError(
                "the club MOI is given, and worked out from a pendulum as well",
                place="inertia",
                mend="Give one of the two.",
            )
        if self.swung is not None and (self.mass is None or self.balance is None):
            raise InputError(
                "a pendulum tells the club MOI only with weight and balance point",
                place="period",
                mend="Weigh and balance the club too, or leave the pendulum out.",
            )
        if self.pendulum is not None:
            pendulum_inertia(self.pendulum)
        for known, doubt in self.doubts.items():
            if not (isfinite(doubt) and doubt > 0.0):
                raise InputError(
                    f"a doubt of {doubt:g} cannot be",
                    place=known.value,
                    mend="Give half the width of the range that holds it 95 times in 100.",
                )

    @property
    def pendulum(self) -> Pendulum | None:
        """The club as it swung; None where nobody let it swing."""
        if self.swung is None or self.mass is None or self.balance is None:
            return None
        return Pendulum(
            mass=self.mass,
            balance=self.balance,
            pivot=self.swung.pivot,
            period=self.swung.period,
        )

    def value(self, known: Known) -> float | None:
        """Return a figure as it was given; None where it was not."""
        if known is Known.FREQUENCY:
            return None if self.timed is None else self.timed.frequency
        found: float | None = getattr(self, known.value)
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """What a golfer carries.

    Attributes
    ----------
    clubs : tuple of BagClub
    local_length : bool
        Whether the golfer's competition uses the local rule on length.
    before : tuple of BagClub or None
        The clubs before the last change, to be put back; None where nothing was changed.
    change : str
        What the last change was, in words.
    """

    clubs: tuple[BagClub, ...] = ()
    local_length: bool = False
    before: tuple[BagClub, ...] | None = None
    change: str = ""

    def __post_init__(self) -> None:
        names = [one.name.casefold() for one in self.clubs]
        twice = next((one.name for one in self.clubs if names.count(one.name.casefold()) > 1), "")
        if twice:
            raise InputError(
                f"two clubs are called {twice!r}",
                place="name",
                mend="Call one of them otherwise, such as 7 iron, old.",
            )
        if len(self.in_play) > MOST_IN_PLAY:
            raise InputError(
                f"{len(self.in_play)} clubs in play are more than a round allows",
                place="spare",
                mend=f"Leave {MOST_IN_PLAY} in play and mark the others as spare.",
            )
        if len(self.clubs) > MOST_CLUBS:
            raise InputError(
                f"{len(self.clubs)} clubs are too many",
                place="name",
                mend=f"Keep {MOST_CLUBS} at most, spares among them.",
            )

    @property
    def in_play(self) -> tuple[BagClub, ...]:
        """The clubs that are carried, in the order of a bag."""
        return tuple(in_order(one for one in self.clubs if not one.spare))

    @property
    def spares(self) -> tuple[BagClub, ...]:
        """The clubs that stay at home, in the same order."""
        return tuple(in_order(one for one in self.clubs if one.spare))

    def club(self, name: str) -> BagClub | None:
        """Return a club by its name; None if there is none."""
        return next((one for one in self.clubs if one.name == name), None)


def in_order(clubs: Iterable[BagClub]) -> list[BagClub]:
    """Return clubs as they stand in a bag: kind by kind, the least loft first.

    Within a kind in which a loft is not known the longest comes first, if every length is known.
    """
    every = list(clubs)
    found: list[BagClub] = []
    for kind in BagKind:
        row = [one for one in every if one.kind is kind]
        by_loft = all(one.loft is not None for one in row)
        by_length = not by_loft and all(one.length is not None for one in row)
        found += sorted(row, key=_by_length if by_length else _by_loft)
    return found


def _by_loft(one: BagClub) -> tuple[bool, float, float]:
    loft = 0.0 if one.loft is None else one.loft
    length = 0.0 if one.length is None else -one.length
    return one.loft is None, loft, length


def _by_length(one: BagClub) -> tuple[bool, float, float]:
    return one.length is None, 0.0 if one.length is None else -one.length, 0.0


def _over(value: float | None, unit: float) -> float | None:
    return None if value is None else value / unit


def _angle(loft: float | None, kind: BagKind) -> None:
    low, high = (0.0, 12.0) if kind is BagKind.PUTTER else (4.0, 75.0)
    _between(_over(loft, DEGREE), low, high, "loft", "deg")


def _between(value: float | None, low: float, high: float, place: str, unit: str) -> None:
    if value is not None and not low <= value <= high:
        raise InputError(
            f"a {place.replace('_', ' ')} of {value:.4g} {unit} cannot be",
            place=place,
            mend=f"Give {low:g} to {high:g} {unit}; check the unit.",
        )
