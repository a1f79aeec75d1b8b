"""Virtual golfers swing as their ability says."""

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.errors import InputError
from loftwright.physics.impact import strike_many
from loftwright.training.golfer import (
    ABILITIES,
    FACE_EDGE,
    HEAD_SPEED,
    HIGH,
    SWING_UNITS,
    TOE,
    VirtualGolfer,
    make_golfer,
    swing_correlation,
)

SWINGS = 40_000


def typical(ability: str) -> VirtualGolfer:
    kind = ABILITIES[ability]
    return VirtualGolfer(ability=ability, mean=kind.mean, sd=kind.sd)


def swings_of(golfer: VirtualGolfer, count: int = SWINGS) -> FloatArray:
    rng = np.random.default_rng(11)
    return golfer.swings(rng.standard_normal((count, 7)), np.zeros((count, 7)))


@pytest.mark.parametrize(
    ("ability", "ratio", "launch", "spin", "direction"),
    [
        ("tour", 1.440, 1.26, 249, 1.60),
        ("low", 1.444, 1.60, 291, 2.11),
        ("mid", 1.425, 2.30, 359, 3.20),
        ("high", 1.405, 2.87, 424, 4.16),
    ],
)
def test_launch_scatters_as_simulated_before(
    ability: str, ratio: float, launch: float, spin: float, direction: float
) -> None:
    # Self-consistent: speed ratio, and standard deviations in degrees, rpm and degrees, of an
    # earlier and independent simulation of the same table.
    golfer = typical(ability)
    swings = swings_of(golfer)
    launches = strike_many(golfer.head, swings)
    sd = launches.std(axis=0)
    assert np.mean(launches[:, 0] / swings[:, HEAD_SPEED]) == pytest.approx(ratio, abs=0.002)
    assert sd[1] / DEGREE == pytest.approx(launch, rel=0.05)
    assert sd[2] / REVOLUTION_PER_MINUTE == pytest.approx(spin, rel=0.05)
    assert sd[4] / DEGREE == pytest.approx(direction, rel=0.03)


@pytest.mark.parametrize("ability", list(ABILITIES))
def test_swings_vary_as_the_golfer_does(ability: str) -> None:
    golfer = typical(ability)
    swings = swings_of(golfer)
    assert swings.mean(axis=0) / SWING_UNITS == pytest.approx(golfer.mean / SWING_UNITS, abs=0.15)
    # The edge of the face takes a little from the widest strikes.
    assert swings.std(axis=0)[:TOE] == pytest.approx(golfer.sd[:TOE], rel=0.02)
    assert swings.std(axis=0)[TOE:] == pytest.approx(golfer.sd[TOE:], rel=0.04)
    free = np.abs(swing_correlation() - np.corrcoef(swings, rowvar=False))
    assert free.max() < 0.02


def test_a_strike_ends_at_the_edge_of_the_face() -> None:
    strikes = swings_of(typical("high"))[:, TOE:]
    assert np.all(np.abs(strikes) <= FACE_EDGE)
    assert np.any(np.abs(strikes[:, 0]) == FACE_EDGE[0])


def test_the_first_balls_are_slower_and_lower() -> None:
    golfer = typical("mid")
    still = np.zeros((60, 7))
    warm = golfer.swings(still, still)
    cold = golfer.swings(still, still, ball=np.arange(60.0))
    change = cold - warm
    assert change[0, HEAD_SPEED] == pytest.approx(-1.5 * MILE_PER_HOUR)
    assert change[0, HIGH] == pytest.approx(-2.0 * MILLIMETRE)
    assert change[8] == pytest.approx(change[0] / np.e)
    assert np.all(np.delete(change, [HEAD_SPEED, HIGH], axis=1) == 0.0)


def test_a_mishit_strays_two_and_a_half_times_as_far_and_swings_alike() -> None:
    golfer = typical("low")
    normals = np.random.default_rng(2).standard_normal((50, 7))
    shifts = np.zeros((50, 7))
    plain = golfer.swings(normals, shifts)
    mishit = golfer.swings(normals, shifts, mishit=np.ones(50, dtype=np.bool_))
    strayed = golfer.mean[TOE:] + 2.5 * (plain[:, TOE:] - golfer.mean[TOE:])
    assert np.array_equal(mishit[:, :TOE], plain[:, :TOE])
    assert mishit[:, TOE:] == pytest.approx(np.clip(strayed, -FACE_EDGE, FACE_EDGE))


def test_golfers_of_one_ability_differ_in_strike_and_spread() -> None:
    rng = np.random.default_rng(4)
    golfers = [make_golfer("mid", rng) for _ in range(2000)]
    kind = ABILITIES["mid"]
    strikes = np.array([golfer.mean[TOE:] for golfer in golfers])
    factors = np.array([golfer.sd / kind.sd for golfer in golfers])
    assert strikes.std(axis=0) == pytest.approx(kind.between, rel=0.06)
    assert strikes.mean(axis=0) / MILLIMETRE == pytest.approx(np.zeros(2), abs=0.5)
    assert factors.mean(axis=0) == pytest.approx(np.ones(7), abs=0.015)
    assert factors.std(axis=0) == pytest.approx(np.full(7, 0.15), rel=0.08)


def test_a_stated_head_speed_leaves_the_rest_alone() -> None:
    plain = make_golfer("mid", np.random.default_rng(9))
    slow = make_golfer("mid", np.random.default_rng(9), head_speed=75.0 * MILE_PER_HOUR)
    assert slow.mean[HEAD_SPEED] == 75.0 * MILE_PER_HOUR
    assert np.array_equal(slow.mean[1:], plain.mean[1:])
    assert np.array_equal(slow.sd, plain.sd)


def test_the_senior_is_a_slow_mid_golfer_with_more_loft() -> None:
    senior, mid = ABILITIES["senior"], ABILITIES["mid"]
    assert senior.mean[HEAD_SPEED] == pytest.approx(75.0 * MILE_PER_HOUR)
    assert senior.mean[4] == pytest.approx(16.5 * DEGREE)
    assert np.array_equal(senior.sd, mid.sd)


def test_a_left_hander_sends_the_ball_the_other_way() -> None:
    launches = np.array([[60.0, 0.2, 250.0, 0.1, -0.05]])
    right = typical("mid")
    left = VirtualGolfer(ability="mid", mean=right.mean, sd=right.sd, hand="left")
    assert np.array_equal(right.in_the_world(launches), launches)
    assert left.in_the_world(launches).tolist() == [[60.0, 0.2, 250.0, -0.1, 0.05]]


@pytest.mark.parametrize(
    ("ability", "speed", "hand", "place"),
    [
        ("champion", None, "right", "golfer"),
        ("mid", 20.0 * MILE_PER_HOUR, "right", "head_speed"),
        ("mid", np.nan, "right", "head_speed"),
        ("mid", None, "both", "hand"),
    ],
)
def test_a_golfer_that_cannot_be_is_refused(
    ability: str, speed: float | None, hand: str, place: str
) -> None:
    with pytest.raises(InputError) as caught:
        make_golfer(ability, np.random.default_rng(1), speed, hand)
    assert caught.value.place == place
