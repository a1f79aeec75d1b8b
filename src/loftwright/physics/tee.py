"""A ball as it leaves the tee: its velocity, its spin axis, and shots no run can be given for."""

from math import cos, sin
from typing import Final

from numba.extending import register_jitable

from loftwright.physics.motion import State, Triple

_TOPSPIN: Final = -1e-9


@register_jitable
def start_state(ball_speed: float, launch: float, spin: float, direction: float) -> State:
    """Return a ball's state on the tee.

    Parameters
    ----------
    ball_speed : float
        [m s^-1]
    launch, direction : float
        Upwards and to the right of the target line [rad].
    spin : float
        Spin rate [rad s^-1].

    Returns
    -------
    tuple of float
    """
    level = ball_speed * cos(launch)
    return (
        0.0,
        0.0,
        0.0,
        level * cos(direction),
        ball_speed * sin(launch),
        level * sin(direction),
        spin,
    )


@register_jitable
def spin_axis(axis: float, direction: float) -> Triple:
    """Return the unit vector about which a ball turns right-handed.

    Parameters
    ----------
    axis : float
        Tilt from the horizontal in the upright plane across the start line; to the right
        positive, beyond a quarter turn topspin [rad].
    direction : float
        Of the start line, to the right of the target line [rad].

    Returns
    -------
    tuple of float
    """
    level = cos(axis)
    return -level * sin(direction), -sin(axis), level * cos(direction)


@register_jitable
def has_no_run(start: State, axis: Triple) -> bool:
    """Return whether a shot is topped: it starts level or downwards, or with topspin.

    Notes
    -----
    The run law was measured on balls that fall to the ground with backspin; it would let a topped
    ball run two hundred yards.
    """
    topspin = axis[2] * start[3] - axis[0] * start[5] < _TOPSPIN * abs(start[3])
    return start[4] <= 0.0 or (topspin and start[6] > 0.0)
