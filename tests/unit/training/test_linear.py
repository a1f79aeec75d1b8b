"""The linear bay follows its printed constants."""

import numpy as np
import pytest

from loftwright.constants import MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.home import Home
from loftwright.training.linear import (
    BASE_LAUNCH,
    CLUB_EFFECT,
    LAUNCH_UNITS,
    RESIDUAL,
    SLOPES,
    linear_truth,
    make_linear_golfer,
    simulate_linear,
)
from loftwright.training.sequence import shuffled_blocks

BALLS = 12_000


def order(clubs: int = 6, balls: int = BALLS) -> np.ndarray:
    return shuffled_blocks(clubs, balls, np.random.default_rng(1))


def test_mean_and_covariance_are_those_of_many_balls() -> None:
    linear = simulate_linear(6, order(), np.random.default_rng(3))
    visit = linear.visit
    late = (np.arange(BALLS) > 100) & ~visit.odd
    launch = visit.launch / LAUNCH_UNITS
    expected = linear.from_the_same_swing / LAUNCH_UNITS
    rest = (launch - expected[visit.club])[late]
    sd = np.sqrt(np.diag(linear.launch_covariance)) / LAUNCH_UNITS
    assert np.all(np.abs(rest.mean(axis=0)) < 4.0 * sd / np.sqrt(late.sum()))
    assert rest.std(axis=0) == pytest.approx(sd, rel=0.03)


def test_launch_follows_true_strike_and_delivery() -> None:
    linear = simulate_linear(2, order(2), np.random.default_rng(4), no_difference=True)
    visit = linear.visit
    keep = ~visit.misread
    strike = visit.true_strike[keep] / (10.0 * MILLIMETRE)
    design = np.column_stack([np.ones(keep.sum()), strike, strike**2])
    spin = visit.launch[keep, 2] / LAUNCH_UNITS[2]
    axis = visit.launch[keep, 3] / LAUNCH_UNITS[3]
    speed = visit.launch[keep, 0] / LAUNCH_UNITS[0]
    by_spin, by_axis, by_speed = (
        np.linalg.lstsq(design, response, rcond=None)[0] for response in (spin, axis, speed)
    )
    # Within the 20 % (three deviations) by which golfers differ.
    assert by_spin[2] == pytest.approx(-600.0, rel=0.6)
    assert by_axis[1] == pytest.approx(-6.0, rel=0.6)
    assert by_speed[3] == pytest.approx(-1.5, rel=0.7)
    assert by_speed[4] == pytest.approx(-1.5, rel=0.7)


def test_golfers_and_clubs_differ_as_printed() -> None:
    rng = np.random.default_rng(5)
    golfers = [make_linear_golfer(rng) for _ in range(1500)]
    assert np.std([golfer.head_speed for golfer in golfers]) == pytest.approx(4.0, rel=0.06)
    assert np.std([golfer.strike for golfer in golfers], axis=0) == pytest.approx(
        np.array([4.0, 3.0]), rel=0.06
    )
    spins = np.array([golfer.slopes[2, 1] for golfer in golfers])
    assert spins.mean() == pytest.approx(-600.0, rel=0.02)
    assert spins.std() == pytest.approx(120.0, rel=0.06)
    effects = np.concatenate(
        [simulate_linear(6, order(6, 6), rng).effects / LAUNCH_UNITS for _ in range(150)]
    )
    assert effects.std(axis=0) == pytest.approx(CLUB_EFFECT, rel=0.08)


def test_constants_are_those_printed() -> None:
    assert BASE_LAUNCH.tolist() == [150.0, 12.5, 2600.0, 0.0, 0.0]
    assert RESIDUAL.tolist() == [0.6, 0.5, 130.0, 1.0, 0.4]
    assert CLUB_EFFECT.tolist() == [0.7, 0.5, 150.0, 0.6, 0.25]
    assert 1.2 * SLOPES[0, 2] == pytest.approx(1.78)


def test_equal_clubs_have_one_truth() -> None:
    linear = simulate_linear(4, order(4, 20), np.random.default_rng(6), no_difference=True)
    truth = linear_truth(linear, Home(), 200)
    assert np.ptp(truth.as_you_swing_it.total) == 0.0
    assert not linear.effects.any()


def test_clubs_differ_by_about_two_yards_in_total() -> None:
    # Self-consistent: the sd of value between clubs is about 2 yd.
    rng = np.random.default_rng(7)
    spread = [
        np.var(
            linear_truth(simulate_linear(6, order(6, 6), rng), Home(), 64).as_you_swing_it.total
        )
        for _ in range(60)
    ]
    assert 1.4 <= np.sqrt(np.mean(spread) * 6.0 / 5.0) / YARD <= 3.0


def test_clubs_that_move_the_strike_part_the_two_truths() -> None:
    rng = np.random.default_rng(8)
    still = simulate_linear(6, order(6, 12), rng)
    assert np.array_equal(still.as_you_swing_it, still.from_the_same_swing)
    moving = simulate_linear(
        6,
        order(6, 12),
        rng,
        strike_moves=1.5 * MILLIMETRE,
        speed_moves=0.5 * MILE_PER_HOUR,
    )
    apart = (moving.as_you_swing_it - moving.from_the_same_swing) / LAUNCH_UNITS
    assert apart[:, 0].std() > 0.2
    assert apart[:, 3].std() > 0.2
    truth = linear_truth(moving, Home(), 64)
    assert truth.from_the_same_swing is not None
    assert not np.array_equal(truth.from_the_same_swing.total, truth.as_you_swing_it.total)


def test_the_same_generator_gives_the_same_linear_visit() -> None:
    first = simulate_linear(6, order(6, 20), np.random.default_rng(9)).visit
    second = simulate_linear(6, order(6, 20), np.random.default_rng(9)).visit
    assert np.array_equal(first.launch, second.launch)
    assert np.array_equal(first.strike, second.strike, equal_nan=True)
