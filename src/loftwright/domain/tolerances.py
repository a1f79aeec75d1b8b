"""How far a finished club may be off its sheet, as a careful shop holds it; every one editable."""

from dataclasses import dataclass, fields
from math import isfinite

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
)
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerances:
    """Tolerances to either side (common practice, no source).

    Attributes
    ----------
    length : float
        [m]
    swingweight : float
        In points.
    mass, part_mass : float
        Of the club, and of a part against its sheet [kg].
    balance : float
        Of the balance point; not held in the trade by itself (judgement) [m].
    inertia : float
        About the top of the grip [kg m^2].
    loft, lie, face : float
        [rad]
    frequency : float
        [s^-1]
    grip : float
        Of the grip's diameter [m].
    """

    length: float = INCH / 16.0
    swingweight: float = 0.5
    mass: float = 2.0 * GRAM
    part_mass: float = 1.0 * GRAM
    balance: float = INCH / 8.0
    inertia: float = 10.0 * KILOGRAM_SQUARE_CENTIMETRE
    loft: float = 0.5 * DEGREE
    lie: float = 0.5 * DEGREE
    face: float = 0.5 * DEGREE
    frequency: float = 2.0 * CYCLE_PER_MINUTE
    grip: float = 0.005 * INCH

    def __post_init__(self) -> None:
        for one in fields(self):
            value = getattr(self, one.name)
            if not (isfinite(value) and value > 0.0):
                raise InputError(
                    f"a tolerance of {value:g} cannot be",
                    place=f"tolerance, {one.name}",
                    mend="Give how far it may be off to either side, more than nothing.",
                )
