"""How many balls show how small a difference."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.power import (
    QUANTILES,
    SCATTER,
    balls_needed,
    chance_of_telling,
    difference_seen,
)
from loftwright.training.golfer import make_golfer
from loftwright.training.truth import true_figures


@pytest.mark.parametrize(
    ("scatter", "difference", "balls"),
    # Two means, two-sided 5 %, power 80 %, known spread: the closed form worked by hand.
    [(7.9, 3.0, 109), (7.9, 5.0, 40), (4.1, 3.0, 30), (4.1, 5.0, 11)],
)
def test_balls_follow_the_closed_form(scatter: float, difference: float, balls: int) -> None:
    assert balls_needed(difference, scatter) == balls


def test_the_quantiles_are_those_of_the_normal_table() -> None:
    # 1.96 and 0.84, Pearson and Hartley 1954, table 1 (from memory).
    assert pytest.approx(1.960 + 0.842, abs=0.001) == QUANTILES


@given(balls=st.integers(2, 500), scatter=st.floats(0.5, 40.0))
def test_what_is_seen_needs_just_these_balls(balls: int, scatter: float) -> None:
    seen = difference_seen(balls, scatter)
    assert balls_needed(seen * (1.0 + 1e-9), scatter) == balls


def test_two_balls_are_the_least() -> None:
    assert balls_needed(100.0, 1.0) == 2


@pytest.mark.parametrize("difference", [0.0, -1.0, float("nan")])
def test_no_difference_needs_no_plan(difference: float) -> None:
    with pytest.raises(InputError, match="greater than nothing"):
        balls_needed(difference, 10.0)


def test_steadier_golfers_scatter_less() -> None:
    order = [SCATTER[ability] for ability in ("tour", "low", "mid", "high")]
    assert all(a.total < b.total for a, b in pairwise(order))
    assert all(a.offline < b.offline for a, b in pairwise(order))


def test_the_chance_of_telling_is_that_of_simulated_evenings() -> None:
    mean, doubt, scatter, balls, probability = 1.5, 2.5, 8.0, 10, 0.9
    rng = np.random.default_rng(5)
    truth = rng.normal(mean, doubt, 200_000)
    noise = scatter * np.sqrt(2.0 / balls)
    seen = rng.normal(truth, noise)
    later = 1.0 / (1.0 / doubt**2 + 1.0 / noise**2)
    centre = later * (mean / doubt**2 + seen / noise**2)
    told = np.mean(np.abs(centre) / np.sqrt(later) > 1.2815515655446004)
    chance = chance_of_telling(
        mean, doubt, scatter=scatter, balls_each=balls, probability=probability
    )
    assert chance == pytest.approx(told, abs=0.004)


@given(mean=st.floats(-10.0, 10.0), doubt=st.floats(0.1, 10.0), scatter=st.floats(0.5, 30.0))
def test_the_chance_of_telling_does_not_mind_which_club_is_named_first(
    mean: float, doubt: float, scatter: float
) -> None:
    def chance(value: float) -> float:
        return chance_of_telling(value, doubt, scatter=scatter, balls_each=10, probability=0.9)

    assert 0.0 <= chance(mean) <= 1.0
    assert chance(mean) == pytest.approx(chance(-mean), abs=1e-12)


def test_what_is_known_for_sure_needs_no_more_balls() -> None:
    def chance(mean: float, doubt: float, scatter: float) -> float:
        return chance_of_telling(mean, doubt, scatter=scatter, balls_each=10, probability=0.9)

    assert chance(1.0, 0.0, 8.0) == 1.0
    assert chance(0.0, 0.0, 8.0) == 0.0
    assert chance(0.1, 2.0, 0.0) == 0.0


@pytest.mark.parametrize("ability", list(SCATTER))
def test_the_spread_of_one_ball_is_that_of_virtual_golfers(ability: str) -> None:
    # Self-consistent: twelve golfers of 500 swings each.
    spreads = []
    for seed in range(12):
        golfer = make_golfer(ability, np.random.default_rng(seed))
        true = true_figures(golfer, np.zeros((1, 7)), Home(), 500)
        spreads.append((float(true.total_sd[0]), float(true.offline_sd[0])))
    total, offline = np.median(spreads, axis=0)
    assert SCATTER[ability].total == pytest.approx(total, rel=0.2)
    assert SCATTER[ability].offline == pytest.approx(offline, rel=0.2)
