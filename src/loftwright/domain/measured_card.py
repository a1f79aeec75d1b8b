"""What was measured of a part or a whole club on the rack, so that new ones can be held to it."""

from dataclasses import dataclass
from datetime import date

from loftwright.constants import DEGREE, GRAM
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFigures:
    """What was measured of a head, a shaft, a grip, a sleeve or a whole club; SI and radians.

    Attributes
    ----------
    mass : float or None
        Of a shaft uncut, where `raw_length` is given [kg].
    balance : float or None
        From the tip for a shaft, from the top for a grip or a whole club [m].
    length : float or None
        Raw for a shaft; of a club by the 60-degree plane [m].
    loft, lie, face : float or None
        Of a head, its sleeve in the middle; open positive.
    swingweight : float or None
        Of a whole club, in points above A0.
    inertia : float or None
        Of a whole club about its butt [kg m^2].
    frequency, clamp, tip_mass : float or None
        Never one without the others [Hz, m, kg].
    """

    mass: float | None = None
    balance: float | None = None
    length: float | None = None
    loft: float | None = None
    lie: float | None = None
    face: float | None = None
    swingweight: float | None = None
    inertia: float | None = None
    frequency: float | None = None
    clamp: float | None = None
    tip_mass: float | None = None

    def __post_init__(self) -> None:
        _between(self.mass, 0.0005, 0.7, "mass", f"Give 0.5 to {0.7 / GRAM:g} g; check the unit.")
        _between(self.balance, 0.01, 1.4, "balance", "Check the unit and from which end.")
        _between(self.length, 0.02, 1.6, "length", "Check the unit.")
        _between(self.loft, 3.0 * DEGREE, 75.0 * DEGREE, "loft", "Give 3 to 75 deg.")
        _between(self.lie, 40.0 * DEGREE, 80.0 * DEGREE, "lie", "Give 40 to 80 deg.")
        _between(self.face, -10.0 * DEGREE, 10.0 * DEGREE, "face", "Give 10 deg at most.")
        _between(self.inertia, 0.1, 0.5, "inertia", "Give 1000 to 5000 kg cm².")
        set_up = (self.frequency, self.clamp, self.tip_mass)
        if any(one is None for one in set_up) and any(one is not None for one in set_up):
            raise InputError(
                "a frequency without its clamp and weight means nothing",
                place="frequency",
                mend="Give frequency, clamp length and tip weight, or none of them.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredCard:
    """What was measured of an item of the rack on a day; the newest of an item stands.

    Attributes
    ----------
    item : str
        Id of a piece or an assembly.
    """

    item: str
    day: date
    by: str
    figures: PartFigures


def _between(value: float | None, least: float, most: float, place: str, mend: str) -> None:
    if value is not None and not least <= value <= most:
        raise InputError(f"a {place} of {value:g} cannot be", place=place, mend=mend)
