"""Players: the two questions, the clock, the match with a golfer's head speed."""

from dataclasses import replace
from math import inf, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.constants import MILE_PER_HOUR
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing import matching
from loftwright.physics.shaft_swing.matching import matched, squared
from loftwright.physics.shaft_swing.players import (
    PLAYERS,
    QUICK_LATE,
    SMOOTH_EARLY,
    Change,
    Loading,
    Player,
    Release,
    loadings,
    paced,
)
from loftwright.physics.shaft_swing.swings import swing
from swung_shafts import shaft

BOTH = pytest.mark.parametrize("player", [QUICK_LATE, SMOOTH_EARLY], ids=["late", "steady"])
unhurried = settings(deadline=None, max_examples=8)


@pytest.mark.parametrize(
    ("change", "release", "expected"),
    [
        (Change.QUICK, Release.LATE, (Loading.QUICK_LATE,)),
        (Change.SMOOTH, Release.EARLY, (Loading.SMOOTH_EARLY,)),
        (Change.QUICK, Release.EARLY, (Loading.QUICK_LATE, Loading.SMOOTH_EARLY)),
        (Change.SMOOTH, Release.LATE, (Loading.SMOOTH_EARLY, Loading.QUICK_LATE)),
    ],
)
def test_answers_that_disagree_leave_both_loadings(
    change: Change, release: Release, expected: tuple[Loading, ...]
) -> None:
    assert loadings(change, release) == expected


def test_every_loading_has_a_player() -> None:
    assert set(PLAYERS) == set(Loading)


@given(st.floats(0.5, 2.0))
def test_a_clock_that_is_set_back_leaves_the_player(pace: float) -> None:
    there = paced(paced(QUICK_LATE, pace), 1.0 / pace)
    assert there.numbers == pytest.approx(QUICK_LATE.numbers)


@BOTH
def test_a_rigid_swing_without_weight_is_the_same_at_another_pace(player: Player) -> None:
    """The equations hold torque over inertia and squared rates only, which scale alike."""
    fast = paced(player, 1.25)
    for name in ("hub_torque", "wrist_torque", "range_torque", "cock_stiffness", "cock_limit"):
        assert getattr(fast, name) == pytest.approx(1.5625 * getattr(player, name))
    for name in ("hub_speed", "wrist_damping", "cock_damping"):
        assert getattr(fast, name) == pytest.approx(1.25 * getattr(player, name))
    for name in ("hub_rise", "release", "release_length"):
        assert getattr(fast, name) == pytest.approx(getattr(player, name) / 1.25)


@unhurried
@given(st.floats(75.0, 125.0), st.sampled_from([QUICK_LATE, SMOOTH_EARLY]))
def test_a_player_comes_to_the_golfers_own_speed_with_a_square_face(
    mph: float, player: Player
) -> None:
    found = matched(player, shaft(), mph * MILE_PER_HOUR)
    made = swing(shaft(), found)
    assert made.head_speed == pytest.approx(mph * MILE_PER_HOUR, abs=1e-3)
    assert made.wrist_angle == pytest.approx(found.square, abs=1e-5)


@BOTH
def test_a_slower_player_lags_less(player: Player) -> None:
    slow, fast = (swing(shaft(), matched(player, shaft(), speed)) for speed in (38.0, 51.0))
    assert slow.lag < fast.lag


@BOTH
def test_the_players_are_square_with_the_reference_shaft(player: Player) -> None:
    """Self-consistent: both were squared with it by a separate prototype."""
    assert squared(player, shaft(), step=1e-4).square == pytest.approx(player.square, abs=2e-5)


@pytest.mark.parametrize("speed", [19.9, 70.1, nan, 110.0])
def test_a_head_speed_that_cannot_be_is_refused(speed: float) -> None:
    with pytest.raises(InputError, match="head speed"):
        matched(QUICK_LATE, shaft(), speed)


def test_a_player_who_does_not_settle_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(matching, "_ROUNDS", 1)
    with pytest.raises(ConvergenceError, match="is not reached within 1 swings"):
        matched(QUICK_LATE, shaft(), 40.0)
    with pytest.raises(ConvergenceError, match="does not come square"):
        squared(replace(QUICK_LATE, square=-0.5), shaft())


@pytest.mark.parametrize(
    ("name", "value"),
    [
        *(("hand_inertia", 0.0), ("wrist_damping", 0.0), ("cock_damping", -5.0)),
        *(("hub_torque", nan), ("cock", inf), ("release_length", 0.0), ("hub_rise", 0.0)),
    ],
)
def test_a_player_who_cannot_be_is_refused(name: str, value: float) -> None:
    with pytest.raises(InputError, match=name.replace("_", " ")):
        replace(QUICK_LATE, **{name: value})


@pytest.mark.parametrize("pace", [0.0, -1.0, nan, inf])
def test_a_clock_that_stands_or_runs_back_is_refused(pace: float) -> None:
    with pytest.raises(InputError, match="pace"):
        paced(QUICK_LATE, pace)
