"""The equations of motion of a spinning ball in air.

World axes are X along the target line, Y up and Z to the right of the target. The state of a
ball is x, y, z [m], its velocity over the ground along the same axes [m/s] and its spin rate
[rad/s]; the spin axis stays fixed in space.

References
----------
Smits and Smith 1994, A new aerodynamic model of a golf ball in flight, Science and Golf II:
    spin decay proportional to speed and spin, coefficient 2.0e-5, the same for Reynolds numbers
    1.0 to 2.5e5. Taken here as proportional to the density of the air, as its torque is, with
    1.20 kg/m3 as the density it was measured at (judgement).
"""

from collections.abc import Callable
from math import log, pi, sqrt
from typing import Final, NamedTuple, TypeAlias

from numba.extending import register_jitable

from loftwright.constants import BALL_DIAMETER, BALL_MASS, BALL_RADIUS, GRAVITY
from loftwright.physics.aero import (
    GREATEST_REYNOLDS,
    LEAST_REYNOLDS,
    clamp,
    drag_coefficient,
    lift_from_inverse_square,
)
from loftwright.physics.air import WIND_HEIGHT, Air

_SPIN_DECAY: Final = 2.0e-5
_SPIN_DECAY_DENSITY: Final = 1.20
_FRONTAL_AREA: Final = pi * BALL_RADIUS**2
_TINY: Final = 1e-24

Triple: TypeAlias = tuple[float, float, float]
State: TypeAlias = tuple[float, float, float, float, float, float, float]
Function: TypeAlias = Callable[[float], float]


class Medium(NamedTuple):
    """What the equations of flight need to know of ball, air and wind.

    Attributes
    ----------
    force : float
        Density times frontal area over twice the mass [m^-1].
    reynolds : float
        Reynolds number per speed [s m^-1].
    decay : float
        Relative loss of spin per metre of air passed [m^-1].
    drag_scale, lift_scale : float
        Of the ball, relative to the published example ball.
    wind_along, wind_across : float
        At 10 m; from behind and towards the right positive [m s^-1].
    wind_on_ground, wind_growth, inverse_roughness : float
        The wind at a height, as a part of the wind at 10 m, is that on the ground and the growth
        times the natural logarithm of one and the height times the inverse roughness [m^-1].
    """

    force: float
    reynolds: float
    decay: float
    drag_scale: float
    lift_scale: float
    wind_along: float
    wind_across: float
    wind_on_ground: float
    wind_growth: float
    inverse_roughness: float


def medium_of(air: Air, *, ball: tuple[float, float], wind: tuple[float, float, float]) -> Medium:
    """Return the constants of flight for a ball in an air and a wind.

    Parameters
    ----------
    air : Air
    ball : tuple of float
        Drag scale and lift scale, relative to the published example ball.
    wind : tuple of float
        Along and across at 10 m [m s^-1], and the roughness length of the ground [m]; without
        roughness the wind is the same at every height.

    Returns
    -------
    Medium

    References
    ----------
    The logarithmic wind profile of open ground, shifted so that the wind is zero on the ground.
    """
    drag_scale, lift_scale = map(float, ball)
    along, across, roughness = map(float, wind)
    calm = along == 0.0 and across == 0.0
    uniform = calm or roughness == 0.0
    return Medium(
        force=air.density * _FRONTAL_AREA / (2.0 * BALL_MASS),
        reynolds=air.density * BALL_DIAMETER / air.viscosity,
        decay=_SPIN_DECAY * air.density / (_SPIN_DECAY_DENSITY * BALL_RADIUS),
        drag_scale=drag_scale,
        lift_scale=lift_scale,
        wind_along=along,
        wind_across=across,
        wind_on_ground=1.0 if uniform else 0.0,
        wind_growth=0.0 if uniform else 1.0 / log(1.0 + WIND_HEIGHT / roughness),
        inverse_roughness=0.0 if uniform else 1.0 / roughness,
    )


@register_jitable
def air_flow(velocity: Triple, axis: Triple, wind: float, medium: Medium) -> tuple[Triple, Triple]:
    """Return the velocity relative to the air, and the spin axis crossed with it.

    Parameters
    ----------
    velocity : tuple of float
        Over the ground [m s^-1].
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    wind : float
        The wind at the ball's height as a part of the wind at 10 m.
    medium : Medium

    Returns
    -------
    flow, cross : tuple of float
        [m s^-1]
    """
    x = velocity[0] - medium.wind_along * wind
    y = velocity[1]
    z = velocity[2] - medium.wind_across * wind
    cross = (axis[1] * z - axis[2] * y, axis[2] * x - axis[0] * z, axis[0] * y - axis[1] * x)
    return (x, y, z), cross


@register_jitable
def square(vector: Triple) -> float:
    """Return the square of a vector's length, never quite zero so that it can divide."""
    return vector[0] * vector[0] + vector[1] * vector[1] + vector[2] * vector[2] + _TINY


@register_jitable
def acceleration(
    flow: Triple,
    cross: Triple,
    inverse_speed: float,
    inverse_cross: float,
    spin: float,
    medium: Medium,
) -> tuple[float, float, float, float]:
    """Return the acceleration of a ball in flight and the change of its spin rate.

    Parameters
    ----------
    flow, cross : tuple of float
        From `air_flow` [m s^-1].
    inverse_speed, inverse_cross : float
        One over their lengths [s m^-1].
    spin : float
        Spin rate [rad s^-1].
    medium : Medium

    Returns
    -------
    tuple of float
        Along X, Y and Z [m s^-2], and of the spin rate [rad s^-2].

    Notes
    -----
    Only the spin across the flow makes lift; it also sets the spin ratio.
    """
    speed_square = square(flow)
    speed = speed_square * inverse_speed
    across = square(cross) * inverse_cross
    spin_ratio = BALL_RADIUS * spin * across * inverse_speed * inverse_speed
    reynolds = medium.reynolds * speed
    inverse_reynolds = clamp(
        inverse_speed * (1e5 / medium.reynolds), 1e5 / GREATEST_REYNOLDS, 1e5 / LEAST_REYNOLDS
    )
    drag = medium.drag_scale * drag_coefficient(reynolds, spin_ratio)
    lift = medium.lift_scale * lift_from_inverse_square(
        inverse_reynolds * inverse_reynolds, spin_ratio
    )
    pull = -medium.force * drag * speed
    push = medium.force * lift * speed_square * inverse_cross
    return (
        pull * flow[0] + push * cross[0],
        pull * flow[1] + push * cross[1] - GRAVITY,
        pull * flow[2] + push * cross[2],
        -medium.decay * speed * spin,
    )


@register_jitable
def exact_inverse_root(value: float) -> float:
    """Return one over the square root."""
    return 1.0 / sqrt(value)


@register_jitable
def rates(
    state: State,
    axis: Triple,
    medium: Medium,
    logarithm: Function = log,
    inverse_root: Function = exact_inverse_root,
) -> State:
    """Return how fast each part of a ball's state changes.

    Parameters
    ----------
    state : tuple of float
        Position [m], velocity [m s^-1], spin rate [rad s^-1].
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    medium : Medium
    logarithm, inverse_root : callable
        Natural logarithm, and one over the square root; a loop may bring quicker ones.

    Returns
    -------
    tuple of float
        In the same order, per second.
    """
    _, y, _, vx, vy, vz, spin = state
    height = max(0.0, y)
    wind = medium.wind_on_ground + medium.wind_growth * logarithm(
        1.0 + height * medium.inverse_roughness
    )
    flow, cross = air_flow((vx, vy, vz), axis, wind, medium)
    ax, ay, az, slowing = acceleration(
        flow, cross, inverse_root(square(flow)), inverse_root(square(cross)), spin, medium
    )
    return vx, vy, vz, ax, ay, az, slowing


@register_jitable
def moved(state: State, rate: State, time: float) -> State:
    """Return a state carried along at a steady rate for a time [s]."""
    return (
        state[0] + time * rate[0],
        state[1] + time * rate[1],
        state[2] + time * rate[2],
        state[3] + time * rate[3],
        state[4] + time * rate[4],
        state[5] + time * rate[5],
        state[6] + time * rate[6],
    )


@register_jitable
def runge_kutta_step(
    state: State,
    time: float,
    axis: Triple,
    medium: Medium,
    logarithm: Function = log,
    inverse_root: Function = exact_inverse_root,
) -> State:
    """Return a ball's state after a step of the classical fourth-order method.

    Parameters
    ----------
    state : tuple of float
    time : float
        Length of the step [s].
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    medium : Medium
    logarithm, inverse_root : callable
        As in `rates`.

    Returns
    -------
    tuple of float

    References
    ----------
    Kutta 1901; Hairer, Norsett and Wanner 1993, Solving ordinary differential equations I, section
        II.1, table 1.2.
    """
    half = 0.5 * time
    first = rates(state, axis, medium, logarithm, inverse_root)
    second = rates(moved(state, first, half), axis, medium, logarithm, inverse_root)
    third = rates(moved(state, second, half), axis, medium, logarithm, inverse_root)
    fourth = rates(moved(state, third, time), axis, medium, logarithm, inverse_root)
    after = moved(moved(state, first, time / 6.0), second, time / 3.0)
    return moved(moved(after, third, time / 3.0), fourth, time / 6.0)
