"""How far a careful bench's readings of a whole club may be off, where nobody said so."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Reading, too_tight
from loftwright.physics.build.swingweight import swingweight_error


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchDoubts:
    """Half-widths of the ranges that hold the true figure 95 times in 100.

    Attributes
    ----------
    length, ruler : float
        By the 60-degree plane, and by a ruler at the playing lie [m].
    mass, part_mass : float
        Of a whole club and of a part by itself [kg].
    balance : float
        Of a whole club's balance point over an edge [m].
    swingweight : float
        Read on a scale, in points.
    inertia : float
        About the top of the grip, as a pendulum gives it [kg m^2].
    period, pivot : float
        Of a swing timed over twenty, and of where the club hangs [s, m].
    frequency : float
        [s^-1]
    loft, lie, face : float
        On a gauge [rad].
    grip : float
        Of a callipered diameter [m].

    Notes
    -----
    A judgement. Twenty swings timed to a tenth of a second are known to 5 ms each, which is 13 kg
    cm² of a driver; a gauge is read to an eighth of a degree.
    """

    length: float = 0.05 * INCH
    ruler: float = 2.0 * MILLIMETRE
    mass: float = 1.0 * GRAM
    part_mass: float = 0.2 * GRAM
    balance: float = 2.0 * MILLIMETRE
    swingweight: float = 0.5
    inertia: float = 13.0 * KILOGRAM_SQUARE_CENTIMETRE
    period: float = 0.005
    pivot: float = 1.0 * MILLIMETRE
    frequency: float = 2.0 * CYCLE_PER_MINUTE
    loft: float = 0.25 * DEGREE
    lie: float = 0.25 * DEGREE
    face: float = 0.25 * DEGREE
    grip: float = 0.002 * INCH


USUAL_DOUBTS: Final = BenchDoubts()


WORKED_OUT: Final = swingweight_error(0.3156, 33.5 * INCH, USUAL_DOUBTS.mass, USUAL_DOUBTS.balance)
"""Half-width of a driver's swingweight from its weight and balance point, in points."""


def tighter_than_the_bench(tolerances: Tolerances) -> dict[str, float]:
    """Return the tolerances that such a bench cannot tell, with what it can, in SI and points."""
    return dict(_tighter(tolerances))


def _tighter(tolerances: Tolerances) -> Iterator[tuple[str, float]]:
    for one in fields(tolerances):
        doubt = getattr(USUAL_DOUBTS, one.name)
        if too_tight(Reading(value=0.0, half_width=doubt), getattr(tolerances, one.name)):
            yield one.name, doubt
