"""The engine on the linear bay, with the constants printed for it.

It asks whether the machinery is right where its assumptions hold. Nothing found here may be said
of golfers: their launch follows the impact model, and their clubs act on the swing.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
)
from loftwright.domain.home import Hole, Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.compare import Comparison, fly_home
from loftwright.evidence.flight_map import OFFLINE, TOTAL, conditions_at, outcomes
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.value import value
from loftwright.evidence.visit import Beliefs, Setup, fit_visit, set_up
from loftwright.training.balls import balls_of
from loftwright.training.linear import (
    BASE_HEAD_SPEED,
    BASE_LAUNCH,
    BENDS,
    CLUB_EFFECT,
    LAUNCH_UNITS,
    RESIDUAL,
    SLOPES,
    linear_truth,
    simulate_linear,
)
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.study import BUDGETS, TRUE_SWINGS, Outcome, judge_against
from loftwright.training.truth import true_values

LINEAR_HOME: Final = Home(re_aim=False, holes=(Hole(),))
"""One hole of 430 yd, aimed at its middle whatever the club does."""

RESIDUAL_DF: Final = 12.0
_MARKED_VARIANCE: Final = 2.8 * MILLIMETRE**2
_RMS_STRIKE: Final = (8.9 * MILLIMETRE, 6.7 * MILLIMETRE)
_DELIVERY_ERROR: Final = (0.3, 0.3, 0.25, 0.25)

_TO_SCALED: Final = LAUNCH_UNITS / LAUNCH_SCALE


def printed_slopes() -> Slopes:
    """Return the linear bay's mean slopes as the comparison's prior means.

    Face and path stand in for face to path and face: their slopes are such that the regression
    on the two printed columns has the printed coefficients.
    """
    scaled = SLOPES * _TO_SCALED[:, None]
    speed, attack, face_to_path, face = scaled[:, 2:].T
    return Slopes(
        origin=BASE_LAUNCH * LAUNCH_UNITS,
        delivery=np.array([BASE_HEAD_SPEED * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0]),
        parts=np.column_stack([speed, attack, -face_to_path, face + face_to_path, 0.0 * speed]),
        strike=scaled[:, :2],
        curvature=BENDS * _TO_SCALED[:, None],
    )


def printed_residual(slopes: Slopes) -> FloatArray:
    """Return the printed residual scale matrix, scaled: at the expected strike given a mark."""
    total = np.diag((RESIDUAL * _TO_SCALED) ** 2)
    for axis, rms in enumerate(_RMS_STRIKE):
        slope = slopes.strike[:, axis] + 2.0 * slopes.curvature[:, axis] * rms / STRIKE_UNIT
        total += np.outer(slope, slope) * _MARKED_VARIANCE / STRIKE_UNIT**2
    delivery = SLOPES[:, 2:] * _TO_SCALED[:, None]
    return total + (delivery * np.square(_DELIVERY_ERROR)) @ delivery.T


def printed_setup(setup: Setup) -> Setup:
    """Return a visit's set-up with the printed constants, ranked on the same swing alone."""
    clubs = len(setup.balls.clubs)
    between: FloatArray = np.diag((CLUB_EFFECT * _TO_SCALED) ** -2.0)
    prior = replace(
        setup.launch_prior,
        residual=printed_residual(setup.slopes),
        residual_df=RESIDUAL_DF,
        effect_precisions=np.asarray(np.kron(between, np.eye(clubs))[None], dtype=np.float64),
        scale_grid=np.array([0.35, 0.6, 1.0, 1.7, 2.9]),
    )
    expected = np.diag(_PATTERN**2) / np.outer(LAUNCH_SCALE, LAUNCH_SCALE)
    return replace(
        setup, launch_prior=prior, swing_rows=None, swing_prior=None, ball_scatter=expected
    )


_PATTERN: Final = np.array(
    [
        2.5 * MILE_PER_HOUR,
        1.2 * DEGREE,
        380.0 * REVOLUTION_PER_MINUTE,
        5.0 * DEGREE,
        1.2 * DEGREE,
    ]
)
"""Ten balls' worth of scatter that join a visit's own."""


def simulate_linear_fitting(
    seed: int, budgets: Sequence[int] = BUDGETS, clubs: int = 6, *, no_difference: bool = False
) -> list[Outcome]:
    """Simulate one fitting of the linear bay and decide it after each number of balls.

    Parameters
    ----------
    seed : int
    budgets : sequence of int
    clubs : int
    no_difference : bool
        All clubs the same.

    Returns
    -------
    list of Outcome
        One a budget, ranked on *from the same swing*.
    """
    rng = np.random.default_rng(np.random.PCG64(seed))
    for_order, for_balls = rng.spawn(2)
    sequence = shuffled_blocks(clubs, max(budgets), for_order)
    linear = simulate_linear(clubs, sequence, for_balls, no_difference=no_difference)
    truth = linear_truth(linear, LINEAR_HOME, TRUE_SWINGS)
    if truth.from_the_same_swing is None:
        raise AssertionError("the linear bay measures everything")
    truth = replace(truth, as_you_swing_it=truth.from_the_same_swing)
    worth = true_values(truth.as_you_swing_it, LINEAR_HOME)
    balls = balls_of(linear.visit, (OWN, *TREES)[:clubs])
    found = []
    for budget in budgets:
        setup = printed_setup(set_up(balls.take(np.arange(budget)), Beliefs(), printed_slopes()))
        comparison = fly_home(fit_visit(setup), LINEAR_HOME)
        found.append(judge_against(comparison, truth, worth, plain_values(comparison)))
    return found


def plain_values(comparison: Comparison) -> FloatArray:
    """Return the value of each club's plain mean total and offline [m]."""
    balls = comparison.visit.setup.balls
    flown = outcomes(balls.launch, conditions_at(LINEAR_HOME))
    worth = np.full(len(balls.clubs), -np.inf)
    for club in range(len(balls.clubs)):
        member = comparison.counted & (balls.club == club)
        if member.any():
            mean = flown[member].mean(axis=0)
            drives = replace(
                comparison.swung.drives(club),
                total=float(mean[TOTAL]),
                offline=float(mean[OFFLINE]),
            )
            worth[club] = value(LINEAR_HOME, drives)
    return worth
