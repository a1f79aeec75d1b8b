"""The compiled loop over the steps of one flight."""

from math import nan

from numba import njit

from loftwright.arrays import FloatArray
from loftwright.physics.aero import clamp
from loftwright.physics.landing import (
    LONGEST_FLIGHT,
    Outcome,
    come_to_rest,
    falls_at_once,
    peak_within,
    touch_down,
)
from loftwright.physics.motion import (
    Medium,
    State,
    Triple,
    runge_kutta_step,
)
from loftwright.physics.tee import has_no_run, spin_axis, start_state
from loftwright.physics.turf import GroundLaw


@njit(cache=True, error_model="numpy")
def fly_one(
    start: State,
    axis: Triple,
    medium: Medium,
    ground: GroundLaw,
    first_step: float,
    step: float,
    refused: bool,
) -> Outcome:
    """Fly one ball, each step as long as the time passed, from `first_step` up to `step`."""
    state, time, peak, length = start, 0.0, 0.0, first_step
    if falls_at_once(start, axis, medium):
        return come_to_rest(start, 0.0, 0.0, axis, ground, refused)
    while time < LONGEST_FLIGHT:
        after = runge_kutta_step(state, length, axis, medium)
        if state[4] > 0.0 and after[4] <= 0.0:
            peak = max(peak, peak_within(state, after, length))
        if after[1] <= 0.0:
            state, last = touch_down(state, after, length, axis, medium)
            return come_to_rest(state, time + last, peak, axis, ground, refused)
        state = after
        time += length
        length = clamp(time, first_step, step)
    return Outcome(nan, nan, nan, nan, nan, nan, nan, nan, nan, nan, nan)


@njit(cache=True, error_model="numpy")
def fly_each(
    launches: FloatArray,
    medium: Medium,
    ground: GroundLaw,
    first_step: float,
    step: float,
    table: FloatArray,
) -> None:
    """Fly the ball of every row in launch order into the same row of the table."""
    for i in range(launches.shape[0]):
        ball_speed, launch, spin, tilt, direction = launches[i]
        start = start_state(ball_speed, launch, spin, direction)
        axis = spin_axis(tilt, direction)
        refused = has_no_run(start, axis)
        flown = fly_one(start, axis, medium, ground, first_step, step, refused)
        for k in range(table.shape[1]):
            table[i, k] = flown[k]
