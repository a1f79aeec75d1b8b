"""Who would lead elsewhere, or struck elsewhere, without a new ball."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.home import Hole, Home, Trouble, Turf
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.visit import Beliefs
from loftwright.evidence.what_changes import (
    STRIKE,
    Change,
    struck_elsewhere,
    usual_changes,
    what_changes,
)
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

HOME = Home(holes=(Hole(trouble=Trouble.RIGHT, trouble_from=25.0 * YARD), Hole()))


def balls_of(device: str = "full", seed: int = 5) -> Balls:
    fitting = simulate_fitting(World(device=DEVICES[device], clubs=4, strength=2.0), "low", seed)
    return fitting.play(shuffled_blocks(4, 40, np.random.default_rng(2)))


def compared(device: str = "full", home: Home = HOME, seed: int = 5) -> Comparison:
    return compare(balls_of(device, seed), home, Beliefs())


def test_the_usual_changes_are_turf_wind_course_and_strike() -> None:
    names = [change.name for change in usual_changes(HOME)]
    assert names == [
        "turf firmer",
        "turf softer",
        "10 mph more wind into",
        "10 mph more wind behind",
        "a narrower course",
        "a wider course",
        "trouble left",
        "trouble right",
        "strike 10 mm to the toe",
        "strike 10 mm to the heel",
        "strike 10 mm higher",
        "strike 10 mm lower",
    ]


def test_what_is_no_change_and_what_the_flight_cannot_take_is_left_out() -> None:
    firm = replace(
        HOME,
        turf=Turf.FIRM,
        wind_along=-25.0 * MILE_PER_HOUR,
        holes=tuple(replace(one, trouble=Trouble.LEFT) for one in HOME.holes),
    )
    names = {change.name for change in usual_changes(firm)}
    assert not names & {"turf firmer", "10 mph more wind into", "trouble left"}
    assert names >= {"turf softer", "10 mph more wind behind", "trouble right"}


def test_a_narrow_course_stays_one_that_can_be() -> None:
    tight = replace(HOME, holes=(Hole(fairway=5.0 * YARD), Hole(fairway=140.0 * YARD)))
    for change in usual_changes(tight):
        assert all(5.0 * YARD <= one.fairway <= 150.0 * YARD for one in change.home.holes)


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_no_change_changes_nothing(device: str) -> None:
    comparison = compared(device)
    (same,) = what_changes(comparison, (Change(name="none", home=comparison.home),))
    assert comparison.standing is not None
    leader = comparison.visit.setup.balls.clubs[comparison.standing.leader]
    assert (same.before, same.after, same.gain, same.p) == (leader, leader, None, None)
    assert not same.changes


def test_another_home_says_what_a_comparison_there_says() -> None:
    windy = replace(HOME, wind_along=-10.0 * MILE_PER_HOUR, turf=Turf.SOFT)
    for seed in (5, 6, 7, 8):
        comparison = compared(seed=seed)
        there = compared(home=windy, seed=seed)
        (found,) = what_changes(comparison, (Change(name="there", home=windy),))
        assert there.standing is not None
        assert found.after == there.visit.setup.balls.clubs[there.standing.leader]


def test_a_change_of_leader_is_told_with_how_much_and_how_surely() -> None:
    """Two clubs as good as level: the one with less spin gains into the wind."""
    comparison = compared()
    changed = [
        answer
        for seed in range(5, 20)
        for answer in what_changes(compared(seed=seed), usual_changes(comparison.home))
        if answer.changes
    ]
    assert changed
    for answer in changed:
        assert answer.gain is not None
        assert answer.p is not None
        assert answer.gain.mean > 0.0
        assert answer.gain.sd > 0.0
        assert answer.p > 0.5


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_a_strike_on_the_toe_draws_and_slows_every_club(device: str) -> None:
    visit = compared(device).visit
    toe = struck_elsewhere(visit, np.array([STRIKE, 0.0])).launches
    heel = struck_elsewhere(visit, np.array([-STRIKE, 0.0])).launches
    assert (toe[:, 3] < heel[:, 3]).all()
    high = struck_elsewhere(visit, np.array([0.0, STRIKE])).launches
    assert (high[:, 1] > visit.swung.launches[:, 1]).all()
    assert (high[:, 2] < visit.swung.launches[:, 2]).all()


def test_a_left_handers_toe_lies_left() -> None:
    seen = set()
    for seed in range(5, 15):
        comparison = compared(seed=seed)
        toe = Change(name="toe", home=comparison.home, strike=(STRIKE, 0.0))
        heel = replace(toe, strike=(-STRIKE, 0.0))
        (left,) = what_changes(comparison, (toe,), toe=-1.0)
        (mirrored,) = what_changes(comparison, (heel,))
        assert (left.after, left.gain, left.p) == (mirrored.after, mirrored.gain, mirrored.p)
        (right,) = what_changes(comparison, (toe,))
        seen.add((left.after, left.p) == (right.after, right.p))
    assert False in seen


def test_a_strike_never_leaves_the_face() -> None:
    visit = compared().visit
    far = struck_elsewhere(visit, np.array([100.0 * MILLIMETRE, 0.0]))
    edge = struck_elsewhere(visit, np.array([200.0 * MILLIMETRE, 0.0]))
    assert (far.launches == edge.launches).all()


def test_before_two_clubs_may_be_ranked_nothing_is_told() -> None:
    balls = balls_of()
    one = balls.take(np.flatnonzero(balls.club == 0))
    comparison = compare(one, HOME, Beliefs())
    assert what_changes(comparison, usual_changes(comparison.home)) == ()
