"""What a shaft and a reading on the bench can be; anything else is most often a unit slip."""

from math import isfinite
from typing import Final, NamedTuple

from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, MILLIMETRE
from loftwright.errors import InputError


class Limit(NamedTuple):
    """The range of a quantity, how it is printed, and which slip puts a figure outside it."""

    name: str
    low: float
    high: float
    unit: str
    scale: float
    slip: str


BENDING: Final = Limit("EI", 5.0, 200.0, "N m^2", 1.0, "lb in^2 instead of N m^2")
TORSION: Final = Limit("GJ", 3.0, 80.0, "N m^2", 1.0, "lb in^2 instead of N m^2")
LINE_DENSITY: Final = Limit(
    "line density", 20.0 * GRAM, 200.0 * GRAM, "g/m", GRAM, "g/in or g/mm instead of g/m"
)
LENGTH: Final = Limit("shaft length", 0.5, 1.4, "m", 1.0, "mm or inches instead of m")
END_WEIGHT: Final = Limit("weight at the free end", 0.0, 0.5, "kg", 1.0, "g instead of kg")
FREQUENCY: Final = Limit(
    "frequency",
    100.0 * CYCLE_PER_MINUTE,
    2500.0 * CYCLE_PER_MINUTE,
    "cpm",
    CYCLE_PER_MINUTE,
    "Hz instead of cycles a minute",
)
DEFLECTION: Final = Limit(
    "three-point deflection",
    0.05 * MILLIMETRE,
    10.0 * MILLIMETRE,
    "mm",
    MILLIMETRE,
    "inches or m instead of mm",
)
SHORTEST_FREE: Final = 0.3


def within(value: float, limit: Limit, place: str = "") -> None:
    """Refuse a value outside its range, naming the unit that was probably meant otherwise."""
    if isfinite(value) and limit.low <= value <= limit.high:
        return
    raise InputError(
        f"{limit.name} of {value / limit.scale:g} {limit.unit} is outside "
        f"{limit.low / limit.scale:g} to {limit.high / limit.scale:g} {limit.unit}",
        place=place or limit.name,
        mend=f"Check the unit: {limit.slip}?",
    )


def all_within(values: FloatArray, limit: Limit, stations: FloatArray) -> None:
    """Refuse the first value of a profile that is outside its range, naming its station."""
    for value, station in zip(values.tolist(), stations.tolist(), strict=True):
        within(value, limit, f"{limit.name} at {station / MILLIMETRE:g} mm from the butt")


def not_negative(value: float, name: str) -> None:
    """Refuse a length or mass below nothing."""
    if not (isfinite(value) and value >= 0.0):
        raise InputError(
            f"{name} of {value:g} cannot be used",
            place=name,
            mend="Give a finite number, nothing or more.",
        )
