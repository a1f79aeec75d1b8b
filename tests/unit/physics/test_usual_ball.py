"""The mean ball of a visit, solved backwards once."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.errors import EvidenceError
from loftwright.evidence.spreads import Spreads
from loftwright.physics.ball_reading import GOOD
from loftwright.physics.delivery_belief import DELIVERY
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many
from loftwright.physics.usual_ball import compared, usual_ball, usual_delivery
from struck import USUAL, swings

SPREAD = Spreads(factor=1.0).delivery
MIRROR = np.array([1.0, 1.0, 1.0, -1.0, -1.0])


def many(count: int, seed: int = 1) -> tuple[FloatArray, FloatArray]:
    """Return deliveries that spread as is believed, and their balls."""
    rng = np.random.default_rng(seed)
    deliveries = rng.multivariate_normal(USUAL, SPREAD, count)
    return deliveries, strike_many(REFERENCE_HEAD, deliveries)


def mark_of(deliveries: FloatArray) -> tuple[float, float]:
    toe, high = deliveries[:, 5:].mean(axis=0)
    return float(toe), float(high)


def test_the_mean_of_many_balls_is_freed_from_what_their_spread_adds() -> None:
    """Self-consistent: two thousand balls of one head against the ball of their mean delivery."""
    deliveries, launch = many(2000)
    plain = compared(launch).mean(axis=0)
    ball = compared(strike_many(REFERENCE_HEAD, deliveries.mean(axis=0)[None]))[0]
    found = usual_ball(launch, SPREAD, mark=mark_of(deliveries)).reading
    assert ball[0] - plain[0] > 0.8 * MILE_PER_HOUR
    assert found.ball_speed == pytest.approx(ball[0], abs=0.25 * MILE_PER_HOUR)
    assert found.launch == pytest.approx(ball[1], abs=0.15 * DEGREE)
    assert found.spin == pytest.approx(np.hypot(ball[3], ball[4]), rel=0.02)


def test_marked_balls_tell_face_and_path() -> None:
    deliveries, launch = many(60)
    found = usual_delivery(launch, SPREAD, mark=mark_of(deliveries))
    face, path = DELIVERY.index("face"), DELIVERY.index("path")
    mean = deliveries.mean(axis=0)
    assert found.mean[face] == pytest.approx(mean[face], abs=0.3 * DEGREE)
    assert found.mean[path] == pytest.approx(mean[path], abs=0.5 * DEGREE)
    assert found.strike_told


def test_many_balls_do_not_claim_to_know_more_than_one() -> None:
    few, many_balls = (usual_delivery(many(count)[1], SPREAD) for count in (5, 500))
    assert (many_balls.sd > 0.7 * few.sd).all()
    assert not many_balls.strike_told


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(1, 1000))
def test_a_left_handers_balls_have_the_mirrored_delivery(seed: int) -> None:
    deliveries, launch = many(12, seed)
    toe, high = mark_of(deliveries)
    right = usual_delivery(launch, SPREAD, mark=(toe, high))
    left = usual_delivery(launch * MIRROR, SPREAD, REFERENCE_HEAD.mirrored(), mark=(-toe, high))
    sides = np.array([1.0, 1.0, -1.0, -1.0, 1.0, -1.0, 1.0])
    assert left.mean == pytest.approx(sides * right.mean, abs=1e-6)


def test_balls_that_were_not_read_whole_are_refused() -> None:
    launch = many(5)[1].copy()
    launch[2, 3] = np.nan
    for balls in (launch, launch[:0]):
        with pytest.raises(EvidenceError, match="all five launch numbers"):
            usual_delivery(balls, SPREAD)


def test_balls_that_hardly_any_swing_gives_say_so() -> None:
    launch = many(5)[1].copy()
    assert not usual_delivery(launch, SPREAD).hardly_fits
    launch[:, 1] = -80.0 * DEGREE
    assert usual_delivery(launch, SPREAD).hardly_fits


def test_what_the_spread_adds_is_doubtful_too() -> None:
    launch = many(60)[1]
    assert usual_ball(launch, SPREAD).errors.ball_speed > 1.3 * GOOD.ball_speed
    narrow = usual_ball(launch, 0.01 * SPREAD).errors
    assert narrow.ball_speed == pytest.approx(GOOD.ball_speed, rel=0.01)


def test_a_few_marked_swings_come_back_within_their_doubt() -> None:
    deliveries = swings(30, seed=4)
    launch = strike_many(REFERENCE_HEAD, deliveries)
    found = usual_delivery(launch, SPREAD, mark=mark_of(deliveries))
    away = (found.mean - deliveries.mean(axis=0)) / found.sd
    assert np.abs(away).max() < 1.5
    assert 5.0 * MILLIMETRE > found.sd[DELIVERY.index("toe")] > 1.0 * MILLIMETRE
