"""The compiled loops over the stages and steps of a swing."""

from typing import NamedTuple

import numpy as np
from numba import njit

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing._matrices import (
    Work,
    assemble,
    dot,
    head_across,
    solve,
)
from loftwright.physics.shaft_swing.equations import (
    ClubNumbers,
    PlayerNumbers,
    hub_torque,
    wrist_torque,
)

STRUCK, NEVER_STRUCK, NOT_POSITIVE = 0, 1, 2


class Motion(NamedTuple):
    """The state of a swing, the state before it, and the stages of a step."""

    place: FloatArray
    rate: FloatArray
    before: FloatArray
    stage_place: FloatArray
    stage_rate: FloatArray
    rates: FloatArray
    accelerations: FloatArray


class Ended(NamedTuple):
    """How a run ended: at what time it struck, its greatest lag, and how many rows it wrote."""

    status: int
    time: float
    lag: float
    lag_time: float
    steps: int


@njit(cache=True, error_model="numpy")
def _accelerate(
    time: float,
    driven: FloatArray,
    row: int,
    place: FloatArray,
    rate: FloatArray,
    club: ClubNumbers,
    player: PlayerNumbers,
    work: Work,
    answer: FloatArray,
) -> bool:
    """Fill the second derivatives; a driven swing takes those of theta and phi from its row."""
    if driven.shape[0] == 0:
        assemble(place, rate, club, player, work)
        work.force[0] += hub_torque(time, rate[0], player)
        work.force[1] += wrist_torque(time, place[1], rate[1], player)
        return solve(work.mass, work.force, 0, answer)
    for i in range(2):
        place[i], rate[i], answer[i] = driven[row, i], driven[row, 2 + i], driven[row, 4 + i]
    assemble(place, rate, club, player, work)
    for i in range(2, place.shape[0]):
        work.force[i] -= work.mass[i, 0] * answer[0] + work.mass[i, 1] * answer[1]
    return solve(work.mass, work.force, 2, answer)


@njit(cache=True, error_model="numpy")
def _take_stages(
    time: float,
    step: float,
    driven: FloatArray,
    row: int,
    motion: Motion,
    club: ClubNumbers,
    player: PlayerNumbers,
    work: Work,
) -> bool:
    """Fill the four stages of a step; return whether the mass matrix was positive in all."""
    place, rate = motion.stage_place, motion.stage_rate
    size = place.shape[0]
    for stage in range(4):
        length = 0.0 if stage == 0 else (step if stage == 3 else 0.5 * step)
        for i in range(size):
            place[i] = motion.place[i] + length * motion.rates[stage - 1, i]
            rate[i] = motion.rate[i] + length * motion.accelerations[stage - 1, i]
        answer = motion.accelerations[stage]
        half = row + (stage + 1) // 2
        if not _accelerate(time + length, driven, half, place, rate, club, player, work, answer):
            return False
        for i in range(size):
            motion.rates[stage, i] = rate[i]
    return True


@njit(cache=True, error_model="numpy")
def _advance(step: float, driven: FloatArray, row: int, motion: Motion) -> None:
    """Add the weighted stages; a driven grip is where its row says."""
    rates, bends = motion.rates, motion.accelerations
    for i in range(motion.place.shape[0]):
        sum_rate = rates[0, i] + 2.0 * (rates[1, i] + rates[2, i]) + rates[3, i]
        sum_bend = bends[0, i] + 2.0 * (bends[1, i] + bends[2, i]) + bends[3, i]
        motion.before[0, i] = motion.place[i]
        motion.before[1, i] = motion.rate[i]
        motion.place[i] += step / 6.0 * sum_rate
        motion.rate[i] += step / 6.0 * sum_bend
    if driven.shape[0] > 0:
        for i in range(2):
            motion.place[i], motion.rate[i] = driven[row, i], driven[row, 2 + i]


@njit(cache=True, error_model="numpy")
def _write(row: FloatArray, motion: Motion) -> None:
    size = motion.place.shape[0]
    for i in range(size):
        row[i] = motion.place[i]
        row[size + i] = motion.rate[i]
        row[2 * size + i] = motion.accelerations[0, i]


@njit(cache=True, error_model="numpy")
def _between(share: float, motion: Motion, struck: FloatArray) -> None:
    """Store the state at a share of the step just taken."""
    size = motion.place.shape[0]
    for i in range(size):
        before, before_rate = motion.before[0, i], motion.before[1, i]
        struck[i] = before + share * (motion.place[i] - before)
        struck[size + i] = before_rate + share * (motion.rate[i] - before_rate)


@njit(cache=True, error_model="numpy")
def swing_through(
    club: ClubNumbers,
    player: PlayerNumbers,
    driven: FloatArray,
    step: float,
    steps: int,
    line: float,
    steps_after: int,
    struck: FloatArray,
    record: FloatArray,
) -> Ended:
    """Swing by steps of Runge and Kutta's fourth order until the head crosses the line upwards.

    `driven` holds place, rate and acceleration of a grip at every half step, or no row. `struck`
    takes place and rate at impact; `record`, if it has rows, those and the second derivatives at
    every step, and of `steps_after` more.
    """
    n = club.frequencies.shape[0]
    size = 2 + 2 * n
    work = Work(np.zeros((size, size)), np.zeros(size), np.zeros((3, size)), np.zeros((2, n)))
    motion = Motion(
        np.zeros(size),
        np.zeros(size),
        np.zeros((2, size)),
        np.zeros(size),
        np.zeros(size),
        np.zeros((4, size)),
        np.zeros((4, size)),
    )
    motion.place[0], motion.place[1] = player.start, player.cock
    before = head_across(motion.place, club, player)
    status, impact, lag, lag_time, last = NEVER_STRUCK, 0.0, 0.0, 0.0, steps
    for k in range(steps + 1):
        if not _take_stages(k * step, step, driven, 2 * k, motion, club, player, work):
            return Ended(NOT_POSITIVE, k * step, lag, lag_time, k)
        if record.shape[0] > 0:
            _write(record[k], motion)
        if k == last:
            return Ended(status, impact, lag, lag_time, k + 1)
        _advance(step, driven, 2 * k + 2, motion)
        across = head_across(motion.place, club, player)
        bent = -dot(club.end_shapes, motion.place, 2, n)
        if status == NEVER_STRUCK and before < line <= across:
            share = (line - before) / (across - before)
            _between(share, motion, struck)
            status, impact, last = STRUCK, (k + share) * step, min(steps, k + 1 + steps_after)
            if record.shape[0] == 0:
                break
        elif status == NEVER_STRUCK and bent > lag:
            lag, lag_time = bent, (k + 1) * step
        before = across
    return Ended(status, impact, lag, lag_time, 0)
