"""How a club's length changes with the lie at which it is measured."""

from dataclasses import dataclass
from math import cos, isfinite, sin, tan
from typing import Final

from loftwright.constants import DEGREE
from loftwright.errors import InputError

RULE_LIE: Final = 60.0 * DEGREE
LIES: Final = (40.0 * DEGREE, 80.0 * DEGREE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sole:
    """The sole where it meets the ground, in the plane of shaft and contact.

    Attributes
    ----------
    along : float
        Of the centre of its arc, along the shaft towards the head [m].
    across : float
        Of the centre, from the shaft's line to the toe [m].
    radius : float
        Of the arc; 0 for an edge that the club stands on [m].
    """

    along: float
    across: float
    radius: float = 0.0

    def __post_init__(self) -> None:
        if not (isfinite(self.along) and isfinite(self.across) and 0.0 <= self.radius < 10.0):
            raise InputError(
                "a sole needs a finite place and a radius from nothing up",
                place="sole",
                mend="Give them in metres.",
            )

    def contact(self, lie: float) -> float:
        """Return how far from the shaft's line it touches the ground at a lie [rad]; [m]."""
        return self.across - self.radius * cos(lie)


def ground_at(sole: Sole, lie: float) -> float:
    """Return where the ground cuts the shaft's line.

    Parameters
    ----------
    sole : Sole
    lie : float
        Of the shaft above the ground [rad].

    Returns
    -------
    float
        Along the shaft, from where the sole's centre counts [m].

    Raises
    ------
    InputError
        If no club stands so.

    Notes
    -----
    A = along - across cot(lie) + radius / sin(lie). Its slope is contact / sin^2(lie) for any
    smooth sole: by the rules' 60 degrees a driver measures longer than at its own lie, an iron
    shorter, by nearly a millimetre a degree.
    """
    if not LIES[0] <= lie <= LIES[1]:
        raise InputError(
            f"a lie of {lie / DEGREE:.1f} deg cannot be", place="lie", mend="Give 40 to 80 deg."
        )
    return sole.along - sole.across / tan(lie) + sole.radius / sin(lie)
