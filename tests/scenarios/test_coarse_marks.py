"""Half the marks told in words, 6 mm off instead of 1.75.

Golfers of four abilities by turns, seeds 1 to n and no others, five clubs in sets of three, 40
balls, everything measured, widths of the product's own rule, undoubled. The bounds were set
before the figures were known; one that is missed is an expected failure with its figure beside
it.
"""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest

from bay_fittings import NAMES, drawn, with_coarse_marks
from dealt_fittings import ability_of
from loftwright.arrays import FloatArray
from loftwright.domain.fitting import MARK_ERROR
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.visit import Beliefs
from loftwright.training.balls import balls_of
from loftwright.training.device import DEVICES
from loftwright.training.judging import covered, launch_coverage, pair_variance, pairs_of
from loftwright.training.sequence import shuffled_sets
from loftwright.training.summary import mean_of
from loftwright.training.truth import common_swing_shifts, true_figures, true_values
from loftwright.training.visit import simulate_visit
from study_tables import Say

GOLFERS = 160
FLOWN = 400
CLUBS, BALLS = 5, 40

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("coarse marks")]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """Per cent of pairs whose difference lies in its 80 % range."""

    swung: FloatArray
    same: FloatArray
    value: float


def compared(balls: Balls) -> Comparison:
    return compare(balls, Home(), Beliefs(doubt=1.0))


def slopes_of(comparison: Comparison) -> FloatArray:
    """Return spin per height and axis per toe over the impact model's own."""
    setup = comparison.visit.setup
    toe, high = setup.columns.index("toe", "high")
    theta, true = comparison.visit.launch.theta, setup.slopes.strike
    return np.array([theta[2, high] / true[2, 1], theta[3, toe] / true[3, 0]])


@cache
def found() -> list[Found]:
    told = []
    for seed in range(1, GOLFERS + 1):
        golfer, shifts, rng = drawn(seed, ability_of(seed), CLUBS)
        visit = simulate_visit(golfer, shifts, shuffled_sets(CLUBS, BALLS, rng), rng)
        comparison = compared(with_coarse_marks(visit, balls_of(visit, NAMES[:CLUBS]), rng))
        swung = true_figures(golfer, shifts, comparison.home, FLOWN)
        common = common_swing_shifts(golfer, shifts, DEVICES["full"])
        same = true_figures(golfer, common, comparison.home, FLOWN)
        worth = true_values(swung, comparison.home)
        first, second = pairs_of(CLUBS)
        hits = covered(
            comparison.value[first] - comparison.value[second],
            pair_variance(comparison.value_covariance, first, second),
            worth[first] - worth[second],
            comparison.df,
            0.80,
        )
        told.append(
            Found(
                swung=100.0 * launch_coverage(comparison, swung, same=False)[0],
                same=100.0 * launch_coverage(comparison, same, same=True)[0],
                value=100.0 * float(hits.mean()),
            )
        )
    return told


@pytest.mark.parametrize("place", range(5), ids=LAUNCH_NAMES)
def test_launch_as_swung_lies_in_its_range_four_times_in_five(place: int, say: Say) -> None:
    share = mean_of([float(one.swung[place]) for one in found()])
    say(f"coarse and usual marks, {LAUNCH_NAMES[place]} as swung, 80 %: {share}")
    assert 74.0 <= share.mean <= 86.0


@pytest.mark.parametrize(
    "place",
    [
        pytest.param(
            0,
            marks=pytest.mark.xfail(
                strict=True,
                reason="93 % of ball speeds lie in their 80 % range; 88 with usual marks",
            ),
        ),
        1,
        2,
        *(
            pytest.param(
                place,
                marks=pytest.mark.xfail(
                    strict=True,
                    reason="97 to 100 % in the 80 % range, as with usual marks: these clubs have "
                    "no axis or direction of their own from the same swing",
                ),
            )
            for place in (3, 4)
        ),
    ],
    ids=lambda place: LAUNCH_NAMES[place],
)
def test_launch_from_the_same_swing_lies_in_its_range_four_times_in_five(
    place: int, say: Say
) -> None:
    share = mean_of([float(one.same[place]) for one in found()])
    say(f"coarse and usual marks, {LAUNCH_NAMES[place]} from the same swing, 80 %: {share}")
    assert 74.0 <= share.mean <= 86.0


def test_value_lies_in_its_range_four_times_in_five(say: Say) -> None:
    share = mean_of([one.value for one in found()])
    say(f"coarse and usual marks, value, 80 %: {share}")
    assert 74.0 <= share.mean <= 86.0


@cache
def taken_for_usual() -> tuple[list[Comparison], list[Comparison]]:
    """Return fittings whose coarse marks are told, and the same ones where they are not."""
    told, untold = [], []
    for seed in range(1, GOLFERS // 2 + 1):
        golfer, shifts, rng = drawn(seed, ability_of(seed), CLUBS)
        visit = simulate_visit(golfer, shifts, shuffled_sets(CLUBS, BALLS, rng), rng)
        balls = with_coarse_marks(visit, balls_of(visit, NAMES[:CLUBS]), rng)
        told.append(compared(balls))
        untold.append(compared(replace(balls, mark_error=np.full(len(balls), MARK_ERROR))))
    return told, untold


def test_slopes_are_not_flattened_by_marks_known_to_be_coarse(say: Say) -> None:
    told, untold = (
        np.mean([slopes_of(one) for one in which], axis=0) for which in taken_for_usual()
    )
    say(
        f"coarse and usual marks, spin per height and axis per toe over the true: {told[0]:.2f} "
        f"and {told[1]:.2f}; taken for usual {untold[0]:.2f} and {untold[1]:.2f}"
    )
    assert np.abs(told - 1.0).max() < 0.12
    assert (untold < told - 0.1).all()
