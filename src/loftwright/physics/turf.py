"""How a ball bounces and rolls out after it has landed.

Everything happens in the upright plane of the landing direction. Forward speed and downward (then
upward) speed are over the ground; the backspin surface speed is that of the ball's surface, and
slows the ball when it grips. Wind and drag are left out after the landing.

References
----------
Biber, Jones, Champneys, Green and Szalai 2023, Sports Engineering 26, table 3 (natural tee turf:
    tilt 18.4 degrees, restitution 0.147, friction 0.998).
Penner 2002, The run of a golf ball, Can. J. Phys. 80:931-940, eqs. (2)-(8): the tilted surface,
    and the end of bouncing at a hop of 5 mm.
Daish 1972, The physics of ball games: a ball that grips or slides.
"""

from collections.abc import Mapping
from math import atan2, cos, sin
from types import MappingProxyType
from typing import Final, NamedTuple

from numba.extending import register_jitable

from loftwright.constants import DEGREE, GRAVITY, MILLIMETRE
from loftwright.physics.aero import clamp

_STEEPENING: Final = 55.0 * DEGREE
_LEAST_HOP: Final = 5.0 * MILLIMETRE
_MOST_IMPACTS: Final = 50
_ROLLING_INERTIA: Final = 5.0 / 7.0
_TO_GRIP: Final = 2.0 / 7.0
_SPIN_PER_SPEED: Final = 5.0 / 2.0


class GroundLaw(NamedTuple):
    """How a ground answers a landing ball.

    Attributes
    ----------
    base_tilt : float
        Angle by which the dented ground seems tilted towards the ball [rad].
    restitution : float
        Rebound speed over impact speed along the tilted normal.
    friction : float
        Coefficient of sliding friction.
    rolling_resistance : float
        Rolling force over weight.
    """

    base_tilt: float
    restitution: float
    friction: float
    rolling_resistance: float


# Normal is measured (Biber et al. 2023); firm, soft and every rolling resistance are judgement.
GROUNDS: Final[Mapping[str, GroundLaw]] = MappingProxyType(
    {
        "normal": GroundLaw(18.4 * DEGREE, 0.147, 0.998, 0.25),
        "firm": GroundLaw(16.0 * DEGREE, 0.20, 0.998, 0.20),
        "soft": GroundLaw(22.0 * DEGREE, 0.10, 0.998, 0.35),
    }
)


@register_jitable
def bounce(
    forward: float, down: float, backspin: float, ground: GroundLaw
) -> tuple[float, float, float]:
    """Return the ball's motion just after it has struck the ground.

    Parameters
    ----------
    forward, down : float
        Speeds before the impact [m s^-1].
    backspin : float
        Surface speed of the backspin [m s^-1].
    ground : GroundLaw

    Returns
    -------
    forward, up, backspin : float
        After the impact [m s^-1].

    Notes
    -----
    The ground seems tilted by its base tilt, and by more for a ball that comes in flatter than
    35 degrees, in proportion to the angle from the vertical (judgement after Penner 2002).

    References
    ----------
    Penner 2002, eqs. (2)-(7); Biber et al. 2023, table 3; Daish 1972, grip and slide.
    """
    sense = -1.0 if forward < 0.0 else 1.0
    u, s = sense * forward, sense * backspin
    flatness = atan2(u, down) / _STEEPENING if u > down else 1.0
    tilt = ground.base_tilt * max(1.0, flatness)
    cosine, sine = cos(tilt), sin(tilt)
    along = u * cosine - down * sine
    into = u * sine + down * cosine
    out = ground.restitution * into
    # A ball that grips ends without slip, which takes two sevenths of the slip.
    slide = ground.friction * (into + out)
    stopped = clamp((along + s) * _TO_GRIP, -slide, slide)
    along -= stopped
    return (
        sense * (along * cosine - out * sine),
        along * sine + out * cosine,
        sense * (s - _SPIN_PER_SPEED * stopped),
    )


@register_jitable
def run_out(forward: float, down: float, backspin: float, ground: GroundLaw) -> tuple[float, int]:
    """Return how far a ball runs after it has landed, and how often it strikes the ground.

    Parameters
    ----------
    forward, down : float
        Speeds at the landing [m s^-1].
    backspin : float
        Surface speed of the backspin [m s^-1].
    ground : GroundLaw

    Returns
    -------
    run : float
        Along the landing direction; negative when the ball comes back [m].
    impacts : int

    Notes
    -----
    Trusted for landings at 25 to 50 degrees.

    References
    ----------
    Penner 2002, eq. (8) and the end of bouncing.
    """
    run = 0.0
    impacts = 0
    while impacts < _MOST_IMPACTS:
        forward, up, backspin = bounce(forward, down, backspin, ground)
        impacts += 1
        if up <= 0.0 or up * up < 2.0 * GRAVITY * _LEAST_HOP:
            break
        run += forward * 2.0 * up / GRAVITY
        down = up
    roll = forward * abs(forward) / (2.0 * _ROLLING_INERTIA * ground.rolling_resistance * GRAVITY)
    return run + roll, impacts
