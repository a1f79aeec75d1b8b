"""What a device shows of a virtual visit."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.flight_map import conditions_at
from loftwright.physics.flight import fly_many
from loftwright.physics.impact import strike_many
from loftwright.training.balls import balls_of
from loftwright.training.device import DEVICES, LAUNCH_NOISE, Device, device_named
from loftwright.training.golfer import HEAD_SPEED, VirtualGolfer, make_golfer
from loftwright.training.visit import Disturbances, VisitArrays, simulate_visit

BALLS = 4000
CLUBS = np.zeros((4, 7))
SEQUENCE = np.repeat(np.arange(4), 3)
GOLFER = make_golfer("mid", np.random.default_rng(1))


def visit(
    device: str = "full",
    disturbances: Disturbances | None = None,
    golfer: VirtualGolfer = GOLFER,
    balls: int = BALLS,
) -> VisitArrays:
    sequence = np.resize(SEQUENCE, balls).astype(np.int64)
    rng = np.random.default_rng(8)
    return simulate_visit(golfer, CLUBS, sequence, rng, DEVICES[device], disturbances)


def test_launch_and_delivery_stray_by_the_devices_errors() -> None:
    golfer = replace(GOLFER, sd=np.zeros(7))
    shown = visit(golfer=golfer, disturbances=Disturbances(misreads=0))
    warm = slice(200, None)
    true = strike_many(golfer.head, golfer.mean[None, :])[0]
    stray = (shown.launch[warm] - true) / LAUNCH_NOISE
    assert stray.std(axis=0) == pytest.approx(np.ones(5), rel=0.05)
    assert stray.mean(axis=0) == pytest.approx(np.zeros(5), abs=0.06)
    error = shown.delivery[warm] - golfer.mean[:4]
    units = [0.3 * MILE_PER_HOUR, 0.3 * DEGREE, np.hypot(0.25, 0.25) * DEGREE, 0.25 * DEGREE]
    assert error.std(axis=0) == pytest.approx(np.array(units), rel=0.05)
    face_to_path = error[:, 3] - error[:, 2]
    assert face_to_path.std() == pytest.approx(0.25 * DEGREE, rel=0.05)
    assert np.corrcoef(face_to_path, error[:, 3])[0, 1] == pytest.approx(0.0, abs=0.06)


def test_marks_stray_by_their_error_and_one_in_five_is_missing() -> None:
    shown = visit()
    marked = np.isfinite(shown.strike).all(axis=1)
    assert marked.mean() == pytest.approx(0.80, abs=0.02)
    error = (shown.strike - shown.true_strike)[marked]
    assert error.std(axis=0) == pytest.approx(np.full(2, 1.75 * MILLIMETRE), rel=0.05)


def test_mishits_and_misreads_come_at_their_shares() -> None:
    shown = visit()
    assert shown.mishit.mean() == pytest.approx(0.05, abs=0.012)
    assert shown.misread.mean() == pytest.approx(0.04, abs=0.012)
    assert np.array_equal(shown.odd, shown.mishit | shown.misread)
    assert not shown.ghost.any()


def test_a_stated_number_of_balls_is_misread_in_one_cell_each() -> None:
    clean = visit(disturbances=Disturbances(misreads=0), balls=60)
    spoilt = visit(disturbances=Disturbances(misreads=7), balls=60)
    assert spoilt.misread.sum() == 7
    off = np.abs(spoilt.launch - clean.launch) / LAUNCH_NOISE
    assert ((off > 1e-9).sum(axis=1) == spoilt.misread).all()
    assert off.max() > 1.0


def test_a_misread_cell_is_four_to_eight_deviations_off() -> None:
    golfer = replace(GOLFER, sd=np.zeros(7))
    shown = visit(golfer=golfer, disturbances=Disturbances(misreads=300))
    true = strike_many(golfer.head, golfer.mean[None, :])[0]
    late = shown.misread & (np.arange(BALLS) > 200)
    worst = (np.abs(shown.launch - true) / LAUNCH_NOISE)[late].max(axis=1)
    assert worst.min() >= 4.0 - 1e-6
    assert worst.max() <= 8.0 + 1e-6


def test_a_device_that_shows_less_shows_the_same_balls() -> None:
    full, no_marks, ball_only = visit(), visit("no-marks"), visit("ball-only")
    assert np.array_equal(full.launch, no_marks.launch)
    assert np.array_equal(full.launch, ball_only.launch)
    assert np.array_equal(full.delivery, no_marks.delivery)
    assert np.isnan(no_marks.strike).all()
    assert np.isnan(ball_only.delivery).all()
    assert np.isnan(ball_only.strike).all()
    assert np.isnan(ball_only.carry).all()


def test_speed_and_carry_shows_speed_and_carry() -> None:
    shown = visit("speed-and-carry")
    assert np.isfinite(shown.launch[:, 0]).all()
    assert np.isnan(shown.launch[:, 1:]).all()
    assert np.isnan(shown.delivery).all()
    assert np.isfinite(shown.carry).all()
    moved = np.abs(shown.launch - visit().launch)[:, 0] > 0.0
    assert not moved[~(shown.misread | visit().misread)].any()


def test_carry_is_the_flights_own_with_its_error() -> None:
    golfer = replace(GOLFER, sd=np.zeros(7))
    shown = visit(golfer=golfer)
    true = strike_many(golfer.head, golfer.mean[None, :])
    flown = fly_many(true, conditions_at(Home())).carry[0]
    error = shown.carry[200:] - flown
    assert error.std() == pytest.approx(1.5 * YARD, rel=0.05)
    assert error.mean() == pytest.approx(0.0, abs=0.2 * YARD)


def test_ghosts_stand_between_the_balls_and_change_none() -> None:
    plain = visit(balls=60)
    haunted = visit(disturbances=Disturbances(ghosts=9), balls=60)
    assert haunted.ghost.sum() == 9
    assert len(haunted.club) == 69
    own = ~haunted.ghost
    assert np.array_equal(haunted.launch[own], plain.launch)
    assert np.array_equal(haunted.club[own], plain.club)
    assert np.isnan(haunted.strike[~own]).all()
    assert np.isnan(haunted.true_strike[~own]).all()
    assert not haunted.odd[~own].any()


def test_ghosts_are_waggles_or_a_neighbours_irons() -> None:
    haunted = visit(disturbances=Disturbances(ghosts=200), balls=60)
    speed = haunted.launch[haunted.ghost, 0] / MILE_PER_HOUR
    head = haunted.delivery[haunted.ghost, HEAD_SPEED]
    waggle = speed < 60.0
    assert 60 < waggle.sum() < 140
    assert np.isfinite(head[waggle]).all()
    assert np.isnan(head[~waggle]).all()
    assert np.abs(haunted.launch[haunted.ghost, 4][~waggle]).min() >= 6.0 * DEGREE
    assert np.isfinite(haunted.carry).all()


def test_marks_of_unknown_order_are_shuffled_within_one_clubs_successive_balls() -> None:
    ordered = visit(balls=60)
    shuffled = visit(disturbances=Disturbances(unordered_marks=3), balls=60)
    assert (ordered.mark_set == -1).all()
    assert not np.array_equal(shuffled.strike, ordered.strike, equal_nan=True)
    for number in np.unique(shuffled.mark_set):
        rows = np.flatnonzero(shuffled.mark_set == number)
        assert len(rows) <= 3
        assert np.all(np.diff(rows) == 1)
        assert len(set(shuffled.club[rows].tolist())) == 1
        assert np.array_equal(
            np.sort(shuffled.strike[rows], axis=0),
            np.sort(ordered.strike[rows], axis=0),
            equal_nan=True,
        )
    assert np.array_equal(shuffled.true_strike, ordered.true_strike)


def test_every_place_in_a_set_gets_the_first_mark_alike() -> None:
    golfer = replace(GOLFER, sd=np.zeros(7))
    ordered = visit(golfer=golfer, balls=3996)
    shuffled = visit(golfer=golfer, balls=3996, disturbances=Disturbances(unordered_marks=3))
    first = ordered.strike[0::3, 0]
    places = [
        np.mean(shuffled.strike[place::3, 0][np.isfinite(first)] == first[np.isfinite(first)])
        for place in range(3)
    ]
    assert places == pytest.approx([1.0 / 3.0] * 3, abs=0.06)


def test_sets_do_not_exist_where_no_marks_are_taken() -> None:
    assert (visit("no-marks", Disturbances(unordered_marks=3)).mark_set == -1).all()


def test_a_left_handers_balls_are_the_mirror_image_readings_and_ghosts_too() -> None:
    right = visit(disturbances=Disturbances(ghosts=2))
    left = visit(golfer=replace(GOLFER, hand="left"), disturbances=Disturbances(ghosts=2))
    assert np.array_equal(left.delivery, right.delivery, equal_nan=True)
    assert np.array_equal(left.strike, right.strike, equal_nan=True)
    assert np.array_equal(left.launch[:, :3], right.launch[:, :3])
    assert np.array_equal(left.launch[:, 3:], -right.launch[:, 3:])


def test_balls_of_a_left_hander_are_in_world_signs() -> None:
    shown = visit(balls=30)
    right = balls_of(shown, ("Own", "Ash", "Birch", "Cedar"))
    left = balls_of(shown, ("Own", "Ash", "Birch", "Cedar"), "left")
    assert np.array_equal(left.launch, right.launch)
    assert np.array_equal(left.delivery[:, :2], right.delivery[:, :2])
    assert np.array_equal(left.delivery[:, 2:], -right.delivery[:, 2:])
    assert np.array_equal(left.marks[:, 0], -right.marks[:, 0], equal_nan=True)
    assert np.array_equal(left.marks[:, 1], right.marks[:, 1], equal_nan=True)
    assert right.own == 0


def test_the_same_generator_gives_the_same_visit() -> None:
    first, second = visit(balls=40), visit(balls=40)
    for name in ("launch", "delivery", "strike", "carry", "true_strike"):
        assert np.array_equal(getattr(first, name), getattr(second, name), equal_nan=True)


@pytest.mark.parametrize("name", ["ghosts", "misreads", "unordered_marks"])
def test_fewer_than_none_are_refused(name: str) -> None:
    with pytest.raises(InputError, match=name):
        Disturbances(**{name: -1})


def test_more_misreads_than_balls_are_refused() -> None:
    with pytest.raises(InputError, match="misreads"):
        visit(disturbances=Disturbances(misreads=31), balls=30)


def test_devices_are_known_by_name() -> None:
    assert device_named("no-marks") == Device(marks=False)
    with pytest.raises(InputError, match="radar"):
        device_named("radar")


def test_a_visit_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="read-only"):
        visit(balls=12).launch[0, 0] = 1.0
