"""The truth about virtual clubs agrees with what very many balls show."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.domain.home import Home
from loftwright.evidence.flight_map import conditions_at
from loftwright.physics.flight import fly_many
from loftwright.physics.impact import strike_many
from loftwright.training.clubs import make_clubs
from loftwright.training.device import DEVICES, Device
from loftwright.training.golfer import ABILITIES, ATTACK, LOFT, VirtualGolfer, make_golfer
from loftwright.training.truth import (
    common_swing_shifts,
    even_normals,
    true_figures,
    truth_arrays,
)

LAUNCH_UNITS = np.array([MILE_PER_HOUR, DEGREE, REVOLUTION_PER_MINUTE, DEGREE, DEGREE])
FULL = DEVICES["full"]


def golfer_and_clubs(seed: int = 2, ability: str = "mid") -> tuple[VirtualGolfer, np.ndarray]:
    rng = np.random.default_rng(seed)
    return make_golfer(ability, rng), make_clubs(4, rng)


def test_truth_is_the_mean_of_very_many_swings() -> None:
    golfer, clubs = golfer_and_clubs()
    truth = true_figures(golfer, clubs, Home())
    count = 20_000
    normals = np.random.default_rng(5).standard_normal((count, 7))
    for club in range(2):
        swings = golfer.swings(normals, np.tile(clubs[club], (count, 1)))
        launches = strike_many(golfer.head, swings)
        flights = fly_many(launches, conditions_at(Home()), 0.2)
        error = launches.std(axis=0) / np.sqrt(count)
        assert np.all(np.abs(launches.mean(axis=0) - truth.launch[club]) < 4.0 * error)
        sd = np.sqrt(np.diag(truth.launch_covariance[club]))
        assert sd == pytest.approx(launches.std(axis=0), rel=0.03)
        assert np.nanmean(flights.total) == pytest.approx(truth.total[club], abs=0.3 * YARD)
        assert np.nanmean(flights.carry) == pytest.approx(truth.carry[club], abs=0.3 * YARD)
        assert np.nanstd(flights.total) == pytest.approx(truth.total_sd[club], rel=0.04)
        assert np.nanstd(flights.total_offline) == pytest.approx(truth.offline_sd[club], rel=0.04)


def test_differences_between_clubs_need_no_more_swings() -> None:
    golfer, clubs = golfer_and_clubs()
    few = true_figures(golfer, clubs, Home(), 500).total
    many = true_figures(golfer, clubs, Home(), 8000).total
    assert few - few.mean() == pytest.approx(many - many.mean(), abs=0.03 * YARD)


def test_equal_clubs_are_equal() -> None:
    golfer, clubs = golfer_and_clubs()
    truth = truth_arrays(golfer, 0.0 * clubs, Home(), FULL, 200)
    assert truth.from_the_same_swing is not None
    for figures in (truth.as_you_swing_it, truth.from_the_same_swing):
        assert np.ptp(figures.total) == 0.0
        assert np.ptp(figures.launch, axis=0).tolist() == [0.0] * 5
    assert np.array_equal(truth.as_you_swing_it.total, truth.from_the_same_swing.total)


def test_with_everything_measured_only_loft_is_left() -> None:
    golfer, clubs = golfer_and_clubs()
    shifts = common_swing_shifts(golfer, clubs, FULL)
    follows = 0.5 * golfer.sd[LOFT] / golfer.sd[ATTACK]
    assert shifts[:, LOFT] == pytest.approx(clubs[:, LOFT] - follows * clubs[:, ATTACK])
    assert not np.delete(shifts, LOFT, axis=1).any()


def test_without_marks_the_strike_belongs_to_the_club() -> None:
    golfer, clubs = golfer_and_clubs()
    shifts = common_swing_shifts(golfer, clubs, DEVICES["no-marks"])
    assert np.array_equal(shifts[:, 5:], clubs[:, 5:])
    assert not shifts[:, :4].any()


def test_with_marks_alone_the_delivery_belongs_to_the_club() -> None:
    golfer, clubs = golfer_and_clubs()
    shifts = common_swing_shifts(golfer, clubs, Device(delivery=False))
    assert np.array_equal(shifts[:, :5], clubs[:, :5])
    assert not shifts[:, 5:].any()


@pytest.mark.parametrize("device", ["ball-only", "speed-and-carry"])
def test_with_nothing_measured_there_is_no_same_swing(device: str) -> None:
    golfer, clubs = golfer_and_clubs()
    truth = truth_arrays(golfer, clubs, Home(), DEVICES[device], 100)
    assert truth.from_the_same_swing is None


@pytest.mark.parametrize(
    ("ability", "yards"),
    [("tour", 2.1), ("low", 1.5), ("mid", 1.4), ("high", 1.2), ("senior", 1.1)],
)
def test_true_totals_differ_between_clubs_as_simulated_before(ability: str, yards: float) -> None:
    # Self-consistent: an earlier and independent simulation of the same tables.
    rng = np.random.default_rng(12)
    kind = ABILITIES[ability]
    golfer = VirtualGolfer(ability=ability, mean=kind.mean, sd=kind.sd)
    clubs = np.concatenate([make_clubs(12, rng) for _ in range(25)])
    total = true_figures(golfer, clubs, Home(), 64).total
    assert total.std() / YARD == pytest.approx(yards, rel=0.18)


def test_from_the_same_swing_clubs_differ_along_loft_alone() -> None:
    # Self-consistent: with delivery and marks the effects have rank one, about -0.3 mph,
    # +0.41 degrees and +105 to +76 rpm.
    golfer = VirtualGolfer(ability="mid", mean=ABILITIES["mid"].mean, sd=ABILITIES["mid"].sd)
    rng = np.random.default_rng(14)
    clubs = np.concatenate([make_clubs(12, rng) for _ in range(25)])
    shifts = common_swing_shifts(golfer, clubs, FULL)
    launch = true_figures(golfer, shifts, Home(), 64).launch
    effects = (launch - launch.mean(axis=0)) / LAUNCH_UNITS
    speed, angle, spin = effects[:, :3].std(axis=0)
    assert speed == pytest.approx(0.30, abs=0.06)
    assert angle == pytest.approx(0.43, abs=0.04)
    assert 76.0 <= spin <= 105.0
    together = np.corrcoef(effects[:, :3], rowvar=False)
    assert together[0, 1] < -0.98
    assert together[1, 2] > 0.98


def test_a_left_handers_truth_is_the_mirror_image() -> None:
    golfer, clubs = golfer_and_clubs()
    right = true_figures(golfer, clubs, Home(), 400)
    left = true_figures(replace(golfer, hand="left"), clubs, Home(), 400)
    assert left.total == pytest.approx(right.total)
    assert left.offline == pytest.approx(-right.offline)
    assert left.launch[:, 3:] == pytest.approx(-right.launch[:, 3:])
    assert left.launch[:, :3] == pytest.approx(right.launch[:, :3])


def test_wind_at_home_blows_the_same_way_for_both_hands() -> None:
    golfer, clubs = golfer_and_clubs()
    windy = Home(wind_across=5.0)
    calm = true_figures(golfer, clubs, Home(), 400)
    right = true_figures(golfer, clubs, windy, 400)
    left = true_figures(replace(golfer, hand="left"), clubs, windy, 400)
    assert np.all(right.offline > calm.offline + 5.0)
    assert np.all(left.offline > -calm.offline + 5.0)


def test_topped_balls_are_left_out_of_every_clubs_total() -> None:
    golfer, clubs = golfer_and_clubs()
    thin = golfer.mean.copy()
    thin[LOFT], thin[ATTACK] = 5.0 * DEGREE, -3.0 * DEGREE
    truth = true_figures(replace(golfer, mean=thin), clubs, Home(), 400)
    assert np.isfinite(truth.total).all()
    assert np.isfinite(truth.launch).all()


def test_even_points_are_standard_normal_in_every_direction() -> None:
    points = even_normals(2000)
    assert points.mean(axis=0) == pytest.approx(np.zeros(7), abs=1e-12)
    assert points.std(axis=0) == pytest.approx(np.ones(7))
    assert np.abs(np.corrcoef(points, rowvar=False) - np.eye(7)).max() < 1e-12
    assert np.mean(points**4, axis=0) == pytest.approx(np.full(7, 3.0), abs=0.15)
