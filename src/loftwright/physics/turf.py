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
from math import atan, cos, pi, sin, sqrt, tan
from types import MappingProxyType
from typing import Final, NamedTuple

from numba.extending import register_jitable

from loftwright.constants import DEGREE, GRAVITY, MILLIMETRE
from loftwright.physics.aero import clamp
from loftwright.physics.motion import Function, Triple

MOST_IMPACTS: Final = 50

_FLATTER_FROM: Final = 55.0 * DEGREE
_STEEP: Final = tan(0.5 * pi - _FLATTER_FROM)
_LEAST_HOP_SPEED: Final = sqrt(2.0 * GRAVITY * 5.0 * MILLIMETRE)
_ROLLING_INERTIA: Final = 5.0 / 7.0
_TO_GRIP: Final = 2.0 / 7.0
_SPIN_PER_SPEED: Final = 5.0 / 2.0
_TINY: Final = 1e-12


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
def apparent_tilt(
    forward: float, down: float, base_tilt: float, arctangent: Function = atan
) -> float:
    """Return the angle by which the dented ground seems tilted towards the ball [rad].

    Parameters
    ----------
    forward, down : float
        Speeds before the impact [m s^-1].
    base_tilt : float
        Of the ground [rad].
    arctangent : callable
        A loop may bring a quicker one.

    Returns
    -------
    float

    Notes
    -----
    Penner's tilt grows with the angle from the vertical. That growth is kept only for a ball that
    comes in flatter than 35 degrees (judgement).

    References
    ----------
    Penner 2002, eq. (4); Biber et al. 2023, table 3.
    """
    steepness = arctangent(clamp(down / max(abs(forward), _TINY), 0.0, _STEEP))
    return base_tilt * (0.5 * pi - steepness) / _FLATTER_FROM


@register_jitable
def bounce(
    forward: float,
    down: float,
    backspin: float,
    ground: GroundLaw,
    arctangent: Function = atan,
    sine: Function = sin,
    cosine: Function = cos,
) -> Triple:
    """Return the ball's motion just after it has struck the ground.

    Parameters
    ----------
    forward, down : float
        Speeds before the impact [m s^-1].
    backspin : float
        Surface speed of the backspin [m s^-1].
    ground : GroundLaw
    arctangent, sine, cosine : callable
        A loop may bring quicker ones.

    Returns
    -------
    forward, up, backspin : float
        After the impact [m s^-1].

    Notes
    -----
    The ball is reflected by the tilted ground with its restitution. It either slides through the
    impact or grips; a ball that grips ends without slip, which takes two sevenths of the slip.

    References
    ----------
    Penner 2002, eqs. (2)-(7); Biber et al. 2023, table 3; Daish 1972, grip and slide.
    """
    tilt = apparent_tilt(forward, down, ground.base_tilt, arctangent)
    s, c = sine(tilt), cosine(tilt)
    sense = -1.0 if forward < 0.0 else 1.0
    along = sense * forward * c - down * s
    into = sense * forward * s + down * c
    out = ground.restitution * into
    slide = ground.friction * (into + out)
    stopped = clamp((along + sense * backspin) * _TO_GRIP, -slide, slide)
    along -= stopped
    return (
        sense * (along * c - out * s),
        along * s + out * c,
        backspin - sense * _SPIN_PER_SPEED * stopped,
    )


@register_jitable
def hops(up: float) -> bool:
    """Return whether a ball that leaves the ground with an upward speed [m/s] hops once more."""
    return up > _LEAST_HOP_SPEED


@register_jitable
def hop_length(forward: float, up: float) -> float:
    """Return the length of a hop [m] from the speeds at its start [m/s]."""
    return forward * up * (2.0 / GRAVITY)


@register_jitable
def roll_length(forward: float, ground: GroundLaw) -> float:
    """Return how far a ball rolls [m] from a forward speed [m/s].

    References
    ----------
    Penner 2002, eq. (8).
    """
    slowing = _ROLLING_INERTIA * ground.rolling_resistance * GRAVITY
    return forward * abs(forward) / (2.0 * slowing)


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
    Penner 2002, the end of bouncing.
    """
    run, impacts = 0.0, 0
    while impacts < MOST_IMPACTS:
        forward, down, backspin = bounce(forward, down, backspin, ground)
        impacts += 1
        if not hops(down):
            break
        run += hop_length(forward, down)
    return run + roll_length(forward, ground), impacts
