"""The linear bay follows its printed constants."""

from dataclasses import replace

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
    LinearWorld,
    make_linear_golfer,
    simulate_linear,
)
from loftwright.training.sequence import shuffled_blocks

BALLS = 12_000
CLEAN = LinearWorld(mishits=0.0, misreads=0.0, mark_error=0.0)


def order(clubs: int = 6, balls: int = BALLS) -> np.ndarray:
    return shuffled_blocks(clubs, balls, np.random.default_rng(1))


def test_mean_and_covariance_are_those_of_many_balls() -> None:
    linear = simulate_linear(CLEAN, 3, most=BALLS // 6)
    balls = linear.play(order())
    late = np.arange(BALLS) > 100
    launch = balls.launch / LAUNCH_UNITS
    expected = linear.from_the_same_swing / LAUNCH_UNITS
    rest = (launch - expected[balls.club])[late]
    sd = np.sqrt(np.diag(linear.launch_covariance)) / LAUNCH_UNITS
    assert np.all(np.abs(rest.mean(axis=0)) < 4.0 * sd / np.sqrt(late.sum()))
    assert rest.std(axis=0) == pytest.approx(sd, rel=0.03)


def test_launch_follows_true_strike_and_delivery() -> None:
    world = replace(CLEAN, clubs=2, no_difference=True)
    balls = simulate_linear(world, 4, most=BALLS // 2).play(order(2))
    keep = np.isfinite(balls.marks).all(axis=1)
    strike = balls.marks[keep] / (10.0 * MILLIMETRE)
    design = np.column_stack([np.ones(keep.sum()), strike, strike**2])
    spin = balls.launch[keep, 2] / LAUNCH_UNITS[2]
    axis = balls.launch[keep, 3] / LAUNCH_UNITS[3]
    speed = balls.launch[keep, 0] / LAUNCH_UNITS[0]
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
    effects = np.concatenate([simulate_linear(CLEAN, seed, most=1).effects for seed in range(150)])
    assert effects.std(axis=0) == pytest.approx(CLUB_EFFECT, rel=0.08)


def test_constants_are_those_printed() -> None:
    assert BASE_LAUNCH.tolist() == [150.0, 12.5, 2600.0, 0.0, 0.0]
    assert RESIDUAL.tolist() == [0.6, 0.5, 130.0, 1.0, 0.4]
    assert CLUB_EFFECT.tolist() == [0.7, 0.5, 150.0, 0.6, 0.25]
    assert 1.2 * SLOPES[0, 2] == pytest.approx(1.78)


def test_equal_clubs_have_one_truth() -> None:
    linear = simulate_linear(LinearWorld(clubs=4, no_difference=True), 6)
    assert np.ptp(linear.truth(Home(), 200).as_you_swing_it.total) == 0.0
    assert not linear.effects.any()


def test_clubs_differ_by_about_two_yards_in_total() -> None:
    # Self-consistent: the sd of value between clubs is about 2 yd.
    spread = [
        np.var(simulate_linear(CLEAN, seed).truth(Home(), 64).as_you_swing_it.total)
        for seed in range(60)
    ]
    assert 1.4 <= np.sqrt(np.mean(spread) * 6.0 / 5.0) / YARD <= 3.0


def test_clubs_that_move_the_strike_part_the_two_truths() -> None:
    still = simulate_linear(LinearWorld(), 8)
    assert np.array_equal(still.as_you_swing_it, still.from_the_same_swing)
    world = LinearWorld(strike_moves=1.5 * MILLIMETRE, speed_moves=0.5 * MILE_PER_HOUR)
    moving = simulate_linear(world, 8)
    apart = (moving.as_you_swing_it - moving.from_the_same_swing) / LAUNCH_UNITS
    assert apart[:, 0].std() > 0.2
    assert apart[:, 3].std() > 0.2
    truth = moving.truth(Home(), 64)
    assert truth.from_the_same_swing is not None
    assert not np.array_equal(truth.from_the_same_swing.total, truth.as_you_swing_it.total)


def test_a_club_s_balls_are_the_same_in_every_order_once_warm() -> None:
    linear = simulate_linear(LinearWorld(clubs=2), 9)
    late = np.zeros(40, dtype=np.int64)
    one = linear.play(np.concatenate([late, [1, 1, 0, 0]]))
    other = linear.play(np.concatenate([late, [0, 1, 0, 1]]))
    for club in (0, 1):
        first, second = (balls.launch[40:][balls.club[40:] == club] for balls in (one, other))
        assert first == pytest.approx(second, rel=2e-3)


def test_a_hidden_shift_stays_until_the_club_changes_in_the_linear_bay() -> None:
    calm, shifted = (simulate_linear(LinearWorld(handovers=size), 4) for size in (0.0, 1.0))
    sequence = np.array([0, 0, 1, 1, 0])
    moved = shifted.play(sequence).launch - calm.play(sequence).launch
    assert moved[0] == pytest.approx(moved[1])
    assert moved[0] != pytest.approx(moved[2])
    assert moved[0] != pytest.approx(moved[4])


def test_the_same_seed_gives_the_same_balls_in_the_linear_bay() -> None:
    first, second = (simulate_linear(LinearWorld(), 9).play(order(6, 20)) for _ in range(2))
    assert np.array_equal(first.launch, second.launch)
    assert np.array_equal(first.marks, second.marks, equal_nan=True)
