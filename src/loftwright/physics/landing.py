"""From the last moments of a flight to the ball at rest.

The functions here are shared by every way of integrating a flight, so that all of them agree on
where a ball peaks, lands and stops.
"""

from math import atan2, hypot, nan, sqrt
from typing import Final, NamedTuple

from numba.extending import register_jitable

from loftwright.constants import BALL_RADIUS, DEGREE
from loftwright.physics.motion import (
    Function,
    Medium,
    State,
    Triple,
    exact_inverse_root,
    exact_logarithm,
    rates,
    runge_kutta_step,
)
from loftwright.physics.turf import GroundLaw, run_out

LONGEST_FLIGHT: Final = 60.0
STEEPEST_RUN: Final = 60.0 * DEGREE

_NEWTON_LIMIT: Final = 20
_NEWTON_TOLERANCE: Final = 1e-12


class Outcome(NamedTuple):
    """Where and how a ball lands and stops, as in `Flight`; last its signed rest along X [m]."""

    carry: float
    total: float
    carry_offline: float
    total_offline: float
    peak_height: float
    flight_time: float
    landing_angle: float
    landing_speed: float
    landing_spin: float
    bounces: float
    rest_along: float


@register_jitable
def falls_at_once(state: State, axis: Triple, medium: Medium) -> bool:
    """Return whether a ball that lies on the ground does not leave it."""
    rate = rates(state, axis, medium, exact_logarithm, exact_inverse_root)
    return state[4] < 0.0 or (state[4] == 0.0 and rate[4] <= 0.0)


@register_jitable
def hermite(begin: float, begin_rate: float, end: float, end_rate: float, part: float) -> float:
    """Return a value within a step from the values and slopes at its ends.

    Parameters
    ----------
    begin, end : float
    begin_rate, end_rate : float
        Change per whole step.
    part : float
        How much of the step has passed, 0 to 1.

    Returns
    -------
    float

    References
    ----------
    Hairer, Norsett and Wanner 1993, Solving ordinary differential equations I, section II.6,
        cubic Hermite interpolation.
    """
    rise = end - begin
    bend = part * (part - 1.0)
    return (
        (1.0 - part) * begin
        + part * end
        + bend * ((1.0 - 2.0 * part) * rise + (part - 1.0) * begin_rate + part * end_rate)
    )


@register_jitable
def hermite_rate(
    begin: float, begin_rate: float, end: float, end_rate: float, part: float
) -> float:
    """Return the change per whole step of what `hermite` returns."""
    bend = part * (part - 1.0)
    return (
        -6.0 * bend * (end - begin)
        + (1.0 + 3.0 * bend - part) * begin_rate
        + (part + 3.0 * bend) * end_rate
    )


@register_jitable
def peak_within(before: State, after: State, time: float) -> float:
    """Return the greatest height in a step that begins rising and ends falling [m]."""
    part = before[4] / (before[4] - after[4])
    return hermite(before[1], time * before[4], after[1], time * after[4], part)


@register_jitable
def touch_down(
    before: State,
    after: State,
    time: float,
    axis: Triple,
    medium: Medium,
    logarithm: Function,
    inverse_root: Function,
) -> tuple[State, float]:
    """Return the state at the landing, and the time it takes from the start of the last step.

    Parameters
    ----------
    before, after : tuple of float
        The states at the two ends of the step in which the ball meets the ground.
    time : float
        Length of that step [s].
    axis : tuple of float
    medium : Medium
    logarithm, inverse_root : callable
        As in `rates`.

    Returns
    -------
    state : tuple of float
    time : float
        [s]
    """
    begin, end = time * before[4], time * after[4]
    part = 1.0
    for _ in range(_NEWTON_LIMIT):
        height = hermite(before[1], begin, after[1], end, part)
        change = height / hermite_rate(before[1], begin, after[1], end, part)
        part -= change
        if abs(change) < _NEWTON_TOLERANCE:
            break
    x, y, z, vx, vy, vz, spin = runge_kutta_step(
        before, part * time, axis, medium, logarithm, inverse_root
    )
    left = -y / vy
    return (x + left * vx, 0.0, z + left * vz, vx, vy, vz, spin), part * time + left


@register_jitable
def outcome(
    landing: State, flight_time: float, peak: float, axis: Triple, ground: GroundLaw, refused: bool
) -> Outcome:
    """Return where the ball has landed and where it stops.

    Parameters
    ----------
    landing : tuple of float
        State at the landing.
    flight_time : float
        [s]
    peak : float
        Greatest height [m].
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    ground : GroundLaw
    refused : bool
        Whether the shot is outside the run law, so that its total is not a number.

    Returns
    -------
    Outcome

    Notes
    -----
    The run law gives a ball that drops steeper than 60 degrees a spurious backward run; its total
    is its carry.
    """
    x, _, z, vx, vy, vz, spin = landing
    forward = sqrt(vx * vx + vz * vz)
    heading_x, heading_z = (vx / forward, vz / forward) if forward > 0.0 else (1.0, 0.0)
    angle = atan2(-vy, forward)
    backspin = BALL_RADIUS * spin * (axis[2] * heading_x - axis[0] * heading_z)
    run, impacts = run_out(forward, -vy, backspin, ground)
    if angle > STEEPEST_RUN:
        run = 0.0
    if refused:
        run = nan
    rest_x, rest_z = x + run * heading_x, z + run * heading_z
    return Outcome(
        hypot(x, z),
        hypot(rest_x, rest_z),
        z,
        rest_z,
        peak,
        flight_time,
        angle,
        sqrt(forward * forward + vy * vy),
        spin,
        float(impacts),
        rest_x,
    )
