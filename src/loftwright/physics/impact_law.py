"""The constants of an impact that belong to neither head nor delivery."""

from dataclasses import astuple, dataclass, fields
from math import isfinite

from loftwright.constants import BALL_MASS, GRAM, MILLIMETRE
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class ImpactLaw:
    """The constants of impact that belong to neither head nor delivery.

    Attributes
    ----------
    ball_mass, ball_radius : float
        [kg], [m]; the ball's inertia is that of a uniform sphere.
    shaft_mass : float
        Added to the head [kg].
    restitution_speed : float
        Normal speed at which the head's restitution holds [m/s].
    restitution_slope : float
        Loss of restitution for normal speed [s/m].
    restitution_toe, restitution_high : float
        Loss of restitution for the square of the strike from the face centre [m^-2].
    tangential_restitution : float
        0 for a ball that rolls on the face as it leaves.
    spin_factor : float
        Share of the rigid body's spin that the ball keeps, because the pressure centre leads.
    friction : float
        Coulomb's coefficient between face and ball.

    Notes
    -----
    The restitution at 160 ft/s is the cap of the equipment rules; its slope with speed is set
    by two speeds of the governing bodies' overall distance test (120 mph gives 176 mph, 125 mph
    gives 183 mph). The losses over the face and the friction are assumptions. The spin factor,
    0.87 with a standard deviation of 0.08, is a compromise of published averages and the
    greatest source of error in spin; the tangential restitution is 0 with one of 0.06.

    References
    ----------
    Adjusting a momentum-based golf clubhead-ball impact model to improve accuracy, Proceedings
    2020, 49(1):47: less than 3 g of added head mass removes the deficit in ball speed.
    Wood, Henrikson and Broadie 2018, Influence of face angle and club path on resultant launch
    angle, Proceedings 2(6):249.
    """

    ball_mass: float = BALL_MASS
    ball_radius: float = 21.34 * MILLIMETRE
    shaft_mass: float = 2.5 * GRAM
    restitution_speed: float = 48.77
    restitution_slope: float = 0.0016
    restitution_toe: float = 62.5
    restitution_high: float = 175.0
    tangential_restitution: float = 0.0
    spin_factor: float = 0.87
    friction: float = 0.40

    def __post_init__(self) -> None:
        for name, value in zip((f.name for f in fields(self)), astuple(self), strict=True):
            if not isfinite(value):
                raise InputError(f"{value} is no number", place=name)
        for name in ("ball_mass", "ball_radius"):
            if getattr(self, name) <= 0.0:
                raise InputError("it must be positive", place=name)
        for name in ("shaft_mass", "spin_factor", "friction"):
            if getattr(self, name) < 0.0:
                raise InputError("it must not be negative", place=name)
