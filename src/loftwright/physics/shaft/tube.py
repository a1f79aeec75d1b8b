"""What diameter and wall do to a tube, and what tape under a grip does not do to a shaft."""

from math import pi, sqrt

from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError


def second_moment(diameter: float, wall: float) -> float:
    """Return a tube's second moment of area about a diameter [m^4].

    Parameters
    ----------
    diameter : float
        Outside [m].
    wall : float
        Its thickness [m].

    Raises
    ------
    InputError
        If the wall does not fit into the diameter.

    Notes
    -----
    pi / 64 (D^4 - d^4); about the tube's own axis it is twice that.
    """
    _check(diameter, wall)
    return pi / 64.0 * (diameter**4 - (diameter - 2.0 * wall) ** 4)


def wall_of_equal_area(diameter: float, wall: float, other: float) -> float:
    """Return the wall with which a tube of another diameter has as much material [m].

    Parameters
    ----------
    diameter, wall : float
        Of the tube that is known [m].
    other : float
        Outside diameter of the other tube [m].

    Raises
    ------
    InputError
        If the other tube is too thin to hold it.
    """
    _check(diameter, wall)
    hole_squared = other**2 - diameter**2 + (diameter - 2.0 * wall) ** 2
    if not hole_squared >= 0.0:
        raise InputError(
            f"a tube of {other / MILLIMETRE:g} mm cannot hold the section of one of "
            f"{diameter / MILLIMETRE:g} mm with a wall of {wall / MILLIMETRE:g} mm",
            place="diameter",
            mend="Check both diameters.",
        )
    return 0.5 * (other - sqrt(hole_squared))


def diameter_over_tape(diameter: float, tape: float, wraps: int) -> float:
    """Return the diameter in the hand over wraps of tape: it copies a size, not a stiffness.

    Parameters
    ----------
    diameter : float
        Of the shaft [m].
    tape : float
        Its thickness [m].
    wraps : int
    """
    if wraps < 0 or not tape >= 0.0:
        raise InputError("tape and wraps cannot be less than none", place="tape")
    return diameter + 2.0 * tape * wraps


def _check(diameter: float, wall: float) -> None:
    if not 0.0 < 2.0 * wall <= diameter:
        raise InputError(
            f"a wall of {wall / MILLIMETRE:g} mm does not fit a tube of "
            f"{diameter / MILLIMETRE:g} mm",
            place="wall",
            mend="Give the outside diameter and the thickness of the wall in the same unit.",
        )
