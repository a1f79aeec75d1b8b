"""The compiled loops that fly many balls side by side in the lanes of the processor's vectors.

Sixteen balls, one a lane, take each step together; a lane whose ball has come down takes the next
ball from the tee, so no lane waits for another. Balls that have come down gather in a second
workspace, and run out together when it is full. The compiler turns a loop over lanes into vector
instructions only when the workspace is one flat array indexed by constants, and when nothing in
the loop branches or calls a library.
"""

from typing import Final

import numpy as np
from numba import njit
from numba.extending import register_jitable

from loftwright.arrays import FloatArray, IntArray
from loftwright.physics._quick_math import (
    quick_arctangent,
    quick_cosine,
    quick_inverse_root,
    quick_logarithm,
    quick_sine,
)
from loftwright.physics.aero import clamp
from loftwright.physics.landing import (
    LONGEST_FLIGHT,
    landing_speeds,
    outcome,
    peak_within,
    touch_down,
)
from loftwright.physics.motion import Medium, State, Triple, runge_kutta_step
from loftwright.physics.tee import spin_axis, start_state
from loftwright.physics.turf import MOST_IMPACTS, GroundLaw, bounce, hop_length, hops, roll_length

LANES: Final = 16

# Where each quantity begins in a workspace: the state, the state a step ago, the spin axis, the
# time, the length of the last step, and the greatest height.
_STATE: Final = 0 * LANES
_BEFORE: Final = 7 * LANES
_AXIS: Final = 14 * LANES
_TIME: Final = 17 * LANES
_STEP: Final = 18 * LANES
_PEAK: Final = 19 * LANES
_FLIGHT_SIZE: Final = 20 * LANES

# The same for the run: forward, downward and backspin speed, the way run, the impacts, and one
# while the ball still moves.
_FORWARD: Final = 20 * LANES
_DOWN: Final = 21 * LANES
_BACKSPIN: Final = 22 * LANES
_RUN: Final = 23 * LANES
_IMPACTS: Final = 24 * LANES
_MOVING: Final = 25 * LANES
_SIZE: Final = 26 * LANES

_PARKED_HEIGHT: Final = 1e9
_PARKED: Final = (0.0, _PARKED_HEIGHT, 0.0, 1.0, 0.0, 0.0, 0.0)


@register_jitable
def _state(work: FloatArray, begin: int, lane: int) -> State:
    return (
        work[begin + lane],
        work[begin + LANES + lane],
        work[begin + 2 * LANES + lane],
        work[begin + 3 * LANES + lane],
        work[begin + 4 * LANES + lane],
        work[begin + 5 * LANES + lane],
        work[begin + 6 * LANES + lane],
    )


@register_jitable
def _put_state(work: FloatArray, begin: int, lane: int, state: State) -> None:
    work[begin + lane] = state[0]
    work[begin + LANES + lane] = state[1]
    work[begin + 2 * LANES + lane] = state[2]
    work[begin + 3 * LANES + lane] = state[3]
    work[begin + 4 * LANES + lane] = state[4]
    work[begin + 5 * LANES + lane] = state[5]
    work[begin + 6 * LANES + lane] = state[6]


@register_jitable
def _axis(work: FloatArray, lane: int) -> Triple:
    return work[_AXIS + lane], work[_AXIS + LANES + lane], work[_AXIS + 2 * LANES + lane]


@njit(cache=True, fastmath=True, error_model="numpy", forceinline=True)
def advance(work: FloatArray, medium: Medium, first_step: float, step: float) -> float:
    """Take one step in every lane; return the lowest height, negative where time is up."""
    for j in range(LANES):
        before, axis = _state(work, _STATE, j), _axis(work, j)
        length = clamp(work[_TIME + j], first_step, step)
        after = runge_kutta_step(before, length, axis, medium, quick_logarithm, quick_inverse_root)
        top = peak_within(before, after, length)
        peaks = before[4] > 0.0 and after[4] <= 0.0 and top > work[_PEAK + j]
        work[_PEAK + j] = top if peaks else work[_PEAK + j]
        work[_TIME + j] += length
        work[_STEP + j] = length
        _put_state(work, _BEFORE, j, before)
        _put_state(work, _STATE, j, after)
    lowest = 1.0
    for j in range(LANES):
        height = work[_STATE + LANES + j] if work[_TIME + j] < LONGEST_FLIGHT else -1.0
        lowest = min(lowest, height)
    return lowest


@njit(cache=True, fastmath=True, error_model="numpy", forceinline=True)
def settle(work: FloatArray, medium: Medium, ground: GroundLaw) -> None:
    """Bring the ball of every lane down to the ground, and to rest."""
    for j in range(LANES):
        before, after, axis = _state(work, _BEFORE, j), _state(work, _STATE, j), _axis(work, j)
        length = work[_STEP + j]
        landing, last = touch_down(
            before, after, length, axis, medium, quick_logarithm, quick_inverse_root
        )
        forward, down, backspin = landing_speeds(landing, axis)
        _put_state(work, _STATE, j, landing)
        work[_TIME + j] += last - length
        work[_FORWARD + j] = forward
        work[_DOWN + j] = down
        work[_BACKSPIN + j] = backspin
        work[_RUN + j] = 0.0
        work[_IMPACTS + j] = 0.0
        work[_MOVING + j] = 1.0
    moving = 1.0
    impacts = 0
    while moving > 0.0 and impacts < MOST_IMPACTS:
        impacts += 1
        moving = _impact(work, ground)
    for j in range(LANES):
        work[_RUN + j] += work[_MOVING + j] * roll_length(work[_FORWARD + j], ground)


@register_jitable
def _impact(work: FloatArray, ground: GroundLaw) -> float:
    """Let every ball that still moves strike the ground; return how many hop on."""
    moving = 0.0
    for j in range(LANES):
        forward, up, backspin = bounce(
            work[_FORWARD + j],
            work[_DOWN + j],
            work[_BACKSPIN + j],
            ground,
            quick_arctangent,
            quick_sine,
            quick_cosine,
        )
        moved = work[_MOVING + j]
        again = moved if hops(up) else 0.0
        work[_IMPACTS + j] += moved
        work[_RUN + j] += again * hop_length(forward, up) + (moved - again) * roll_length(
            forward, ground
        )
        work[_FORWARD + j] = forward
        work[_DOWN + j] = max(0.0, up)
        work[_BACKSPIN + j] = backspin
        work[_MOVING + j] = again
        moving += again
    return moving


@register_jitable
def _tee_up(work: FloatArray, lane: int, launches: FloatArray, row: int) -> None:
    """Give a lane the ball of a row, or park a ball high in the sky when there is none left."""
    state, axis, time = _PARKED, (0.0, 0.0, 1.0), -_PARKED_HEIGHT
    if row < launches.shape[0]:
        ball_speed, launch, spin, tilt, direction = launches[row]
        state, axis = start_state(ball_speed, launch, spin, direction), spin_axis(tilt, direction)
        time = 0.0
    _put_state(work, _STATE, lane, state)
    work[_AXIS + lane], work[_AXIS + LANES + lane], work[_AXIS + 2 * LANES + lane] = axis
    work[_TIME + lane] = time
    work[_PEAK + lane] = 0.0


@register_jitable
def _write(work: FloatArray, rows: IntArray, count: int, table: FloatArray) -> None:
    """Write the flights of the first lanes to their rows of the table."""
    for lane in range(count):
        flown = outcome(
            _state(work, _STATE, lane),
            work[_TIME + lane],
            work[_PEAK + lane],
            work[_RUN + lane],
            work[_IMPACTS + lane],
            False,
        )
        for k in range(table.shape[1]):
            table[rows[lane], k] = flown[k]


@njit(cache=True, error_model="numpy")
def fly_in_lanes(
    launches: FloatArray,
    medium: Medium,
    ground: GroundLaw,
    first_step: float,
    step: float,
    table: FloatArray,
) -> None:
    """Fly every row in launch order, none of them topped, into the same row of the table."""
    flying, landed = np.zeros(_SIZE), np.zeros(_SIZE)
    rows, landed_rows = np.arange(LANES), np.zeros(LANES, dtype=np.int64)
    for lane in range(LANES):
        _tee_up(flying, lane, launches, lane)
    waiting, left, count = LANES, launches.shape[0], 0
    while left > 0:
        if advance(flying, medium, first_step, step) > 0.0:
            continue
        for lane in range(LANES):
            overdue = flying[_TIME + lane] >= LONGEST_FLIGHT
            if flying[_STATE + LANES + lane] > 0.0 and not overdue:
                continue
            if overdue:
                table[rows[lane], :] = np.nan
            else:
                for k in range(0, _FLIGHT_SIZE, LANES):
                    landed[k + count] = flying[k + lane]
                landed_rows[count] = rows[lane]
                count += 1
            left -= 1
            if count == LANES or left == 0:
                settle(landed, medium, ground)
                _write(landed, landed_rows, count, table)
                count = 0
            rows[lane] = waiting
            _tee_up(flying, lane, launches, waiting)
            waiting += 1
