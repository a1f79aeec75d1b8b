"""From the last moments of a flight to the ball at rest.

The functions here are shared by every way of integrating a flight, so that all of them agree on
where a ball peaks, lands and stops.
"""

from math import atan2, log, nan, sqrt
from typing import Final, NamedTuple

from numba.extending import register_jitable

from loftwright.constants import BALL_RADIUS, DEGREE
from loftwright.physics.motion import (
    Function,
    Medium,
    State,
    Triple,
    exact_inverse_root,
    rates,
    runge_kutta_step,
)
from loftwright.physics.turf import GroundLaw, run_out

LONGEST_FLIGHT: Final = 60.0
STEEPEST_RUN: Final = 60.0 * DEGREE

_NEWTON_STEPS: Final = 8
_TINY: Final = 1e-12


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
    rate = rates(state, axis, medium)
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
    logarithm: Function = log,
    inverse_root: Function = exact_inverse_root,
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
    for _ in range(_NEWTON_STEPS):
        height = hermite(before[1], begin, after[1], end, part)
        part -= height / hermite_rate(before[1], begin, after[1], end, part)
    x, y, z, vx, vy, vz, spin = runge_kutta_step(
        before, part * time, axis, medium, logarithm, inverse_root
    )
    left = -y / vy
    return (x + left * vx, 0.0, z + left * vz, vx, vy, vz, spin), part * time + left


@register_jitable
def landing_speeds(landing: State, axis: Triple) -> Triple:
    """Return forward speed, downward speed and backspin surface speed at a landing [m/s].

    Notes
    -----
    Backspin is the part of the spin about the horizontal across the landing direction.
    """
    _, _, _, vx, vy, vz, spin = landing
    forward = sqrt(vx * vx + vz * vz)
    across = (axis[2] * vx - axis[0] * vz) / max(forward, _TINY)
    return forward, -vy, BALL_RADIUS * spin * across


@register_jitable
def outcome(
    landing: State, flight_time: float, peak: float, run: float, impacts: float, refused: bool
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
    run : float
        Along the landing direction [m].
    impacts : float
        On the ground.
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
    angle = atan2(-vy, forward)
    ahead = (0.0 if angle > STEEPEST_RUN else run) / max(forward, _TINY)
    if refused:
        ahead = nan
    rest_x, rest_z = x + ahead * vx, z + ahead * vz
    return Outcome(
        sqrt(x * x + z * z),
        sqrt(rest_x * rest_x + rest_z * rest_z),
        z,
        rest_z,
        peak,
        flight_time,
        angle,
        sqrt(forward * forward + vy * vy),
        spin,
        impacts,
        rest_x,
    )


@register_jitable
def come_to_rest(
    landing: State, flight_time: float, peak: float, axis: Triple, ground: GroundLaw, refused: bool
) -> Outcome:
    """Return the outcome of a flight from its landing; parameters as of `outcome`."""
    forward, down, backspin = landing_speeds(landing, axis)
    run, impacts = run_out(forward, down, backspin, ground)
    return outcome(landing, flight_time, peak, run, float(impacts), refused)
