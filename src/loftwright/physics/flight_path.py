"""The path of a ball through the air, point by point, for pictures and checks."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.physics.conditions import Conditions
from loftwright.physics.landing import LONGEST_FLIGHT, falls_at_once, touch_down
from loftwright.physics.motion import State, Triple, runge_kutta_step


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlightPath:
    """A ball from the tee to its first landing.

    Attributes
    ----------
    time : FloatArray, shape (n,)
        [s]
    position : FloatArray, shape (n, 3)
        Along X (target), Y (up) and Z (right) [m].
    velocity : FloatArray, shape (n, 3)
        Over the ground, along the same axes [m s^-1].
    spin : FloatArray, shape (n,)
        [rad s^-1]
    """

    time: FloatArray
    position: FloatArray
    velocity: FloatArray
    spin: FloatArray

    def __post_init__(self) -> None:
        for name in ("time", "position", "velocity", "spin"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))


def trace(start: State, axis: Triple, conditions: Conditions, step: float) -> FlightPath:
    """Follow a ball from the tee to its landing.

    Parameters
    ----------
    start : tuple of float
        State on the tee.
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    conditions : Conditions
    step : float
        Time between points, the last of which is the landing [s].

    Returns
    -------
    FlightPath
    """
    medium = conditions.medium
    times, states = [0.0], [start]
    landed = falls_at_once(start, axis, medium)
    while not landed and times[-1] < LONGEST_FLIGHT:
        before = states[-1]
        after, took = runge_kutta_step(before, step, axis, medium), step
        landed = after[1] <= 0.0
        if landed:
            after, took = touch_down(before, after, step, axis, medium)
        times.append(times[-1] + took)
        states.append(after)
    points = np.array(states)
    return FlightPath(
        time=np.array(times),
        position=points[:, 0:3],
        velocity=points[:, 3:6],
        spin=points[:, 6],
    )
