"""A ball as it flew, and the words for it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

from loftwright.constants import FOOT, YARD
from loftwright.domain.home import Hole
from loftwright.evidence.result import Pattern
from loftwright.report.marks import Mark
from loftwright.report.numbers import count, fixed

_SIDES = {"L": "left", "R": "right"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FlownBall:
    """One ball as it flew.

    Attributes
    ----------
    club : str
    shape : Mark
        The club's.
    path : tuple of (float, float, float)
        Points from the tee to the landing: along, up and to the right [m], such as a flight
        path's positions.
    total, offline : float
        Where it finished: along and to the right [m].
    """

    club: str
    shape: Mark
    path: tuple[tuple[float, float, float], ...]
    total: float
    offline: float

    def __post_init__(self) -> None:
        numbers = [self.total, self.offline, *(part for point in self.path for part in point)]
        if len(self.path) < 2 or not all(isfinite(number) for number in numbers):
            raise ValueError("a flight needs two points or more, every one a number")

    @property
    def carry(self) -> float:
        """How far along it landed [m]."""
        return self.path[-1][0]

    @property
    def peak(self) -> float:
        """Its greatest height [m]."""
        return max(point[1] for point in self.path)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The scatter that all clubs share, where one club's balls finish on average.

    Attributes
    ----------
    total, offline : float
        Its centre [m].
    pattern : Pattern
    """

    total: float
    offline: float
    pattern: Pattern


def flight_words(
    ball: FlownBall | None,
    hole: Hole,
    *,
    earlier: Sequence[tuple[float, float]] = (),
    metres: bool = False,
) -> str:
    """Return what the picture shows, in sentences.

    Parameters
    ----------
    ball : FlownBall, optional
    hole : Hole
    earlier : sequence of (float, float)
        Where earlier balls finished [m].
    metres : bool
        Speak of metres, else of yards and feet.
    """
    unit = "m" if metres else "yd"
    width = f"The fairway is {length_text(hole.fairway, metres)} {unit} wide"
    if ball is None:
        return f"No ball yet. {width}."
    carry, total = round(_in(ball.carry, metres)), round(_in(ball.total, metres))
    side = _sideways(ball.offline, metres)
    where = "in the middle" if side == "0" else f"{side.split()[0]} {unit} {_SIDES[side[-1]]}"
    fairway = "on" if abs(ball.offline) <= 0.5 * hole.fairway else "beside"
    high = height_text(ball.peak, metres)
    told = (
        f"The last ball, with {ball.club}: {high} high, carry {carry} {unit} and run "
        f"{total - carry} {unit}, finished {where}, {fairway} the fairway. {width}."
    )
    return f"{told} {count(len(earlier), 'earlier ball')} marked." if earlier else told


def _in(length: float, metres: bool) -> float:
    return length if metres else length / YARD


def length_text(length: float, metres: bool) -> str:
    """Return a length [m] in whole metres or yards."""
    return fixed(_in(length, metres))


def height_text(height: float, metres: bool) -> str:
    """Return a height [m] in whole metres or feet."""
    return f"{fixed(height)} m" if metres else f"{fixed(height / FOOT)} ft"


def _sideways(offset: float, metres: bool) -> str:
    whole = fixed(abs(_in(offset, metres)))
    return whole if whole == "0" else f"{whole} {'R' if offset > 0.0 else 'L'}"
