"""Value of drives on the golfer's own holes."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.evidence.strokes import DISTANCES, STROKES, STROKES_PER_METRE, expected_strokes
from loftwright.evidence.value import (
    Drives,
    best_finish,
    fairways_in_14,
    lie_shares,
    strokes_per_round,
    value,
    value_gradient,
    with_holes,
)

DRIVES = Drives(
    total=250.0 * YARD, offline=6.0 * YARD, total_sd=10.0 * YARD, offline_sd=15.0 * YARD
)
STANDARD = with_holes(Home(), 280.0 * YARD)
TROUBLE_RIGHT = Hole(trouble=Trouble.RIGHT, trouble_from=25.0 * YARD)


@pytest.mark.parametrize("lie", list(STROKES))
def test_strokes_pass_through_the_rows_of_the_published_table(lie: Lie) -> None:
    """Broadie 2012 (working paper table 9, read in transcriptions); tolerance asked for 0.03."""
    at_rows = expected_strokes(np.array(DISTANCES) * YARD, lie)
    assert at_rows == pytest.approx(STROKES[lie], abs=1e-9)


def test_fairway_slope_near_160_yd_is_what_a_yard_of_value_stands_for() -> None:
    near, far = expected_strokes(np.array([140.0, 180.0]) * YARD, Lie.FAIRWAY)
    assert (far - near) / (40.0 * YARD) == pytest.approx(STROKES_PER_METRE, rel=0.06)


def test_beyond_the_table_strokes_go_on_rising() -> None:
    end, beyond = expected_strokes(np.array([360.0, 420.0]) * YARD, Lie.FAIRWAY)
    assert beyond - end == pytest.approx(3.95 - 3.78, abs=1e-9)


def test_the_standard_hole_is_430_yd_for_a_long_hitter() -> None:
    assert with_holes(Home(), 290.0 * YARD).holes == (Hole(),)


def test_a_slower_golfer_plays_the_own_total_plus_170_yd() -> None:
    hole = with_holes(Home(), 168.0 * YARD).holes[0]
    assert hole.length == pytest.approx(340.0 * YARD)


def test_holes_that_are_given_are_kept() -> None:
    home = Home(holes=(Hole(length=300.0 * YARD),))
    assert with_holes(home, 168.0 * YARD) is home


@given(
    aim=st.floats(-40.0, 40.0),
    trouble=st.sampled_from(list(Trouble)),
    lie=st.sampled_from([Lie.ROUGH, Lie.SAND, Lie.RECOVERY]),
)
def test_lie_shares_sum_to_one(aim: float, trouble: Trouble, lie: Lie) -> None:
    hole = Hole(trouble=trouble, trouble_from=20.0 * YARD, trouble_lie=lie)
    shares = lie_shares(hole, DRIVES, aim * YARD)
    assert sum(shares.values()) == pytest.approx(1.0, abs=1e-12)
    assert min(shares.values()) >= 0.0


@given(total=st.floats(150.0, 330.0))
def test_a_longer_drive_is_worth_more_on_a_longer_hole(total: float) -> None:
    home = Home(holes=(Hole(length=520.0 * YARD),))
    short = replace(DRIVES, total=total * YARD)
    longer = replace(DRIVES, total=(total + 5.0) * YARD)
    assert value(home, longer) > value(home, short)


def test_a_yard_of_total_is_worth_about_a_yard_on_the_standard_hole() -> None:
    along, across = value_gradient(STANDARD, DRIVES)
    assert along == pytest.approx(1.0, abs=0.15)
    assert across == 0.0


def test_without_re_aiming_a_miss_costs() -> None:
    home = replace(STANDARD, re_aim=False)
    off = replace(DRIVES, offline=20.0 * YARD)
    assert value(home, off) < value(home, replace(DRIVES, offline=0.0))
    assert value_gradient(home, off)[1] < 0.0
    assert best_finish(home, off) == off.offline


def test_re_aiming_makes_a_steady_fade_cost_nothing() -> None:
    fade = replace(DRIVES, offline=20.0 * YARD)
    assert value(STANDARD, fade) == pytest.approx(value(STANDARD, replace(fade, offline=0.0)))


def test_trouble_on_the_right_moves_the_aim_left() -> None:
    home = Home(holes=(TROUBLE_RIGHT,))
    finish = best_finish(home, DRIVES)
    assert -20.0 * YARD < finish < -1.0 * YARD
    assert value(home, DRIVES) < value(STANDARD, DRIVES)


def test_the_aim_is_the_mirror_image_for_trouble_on_the_left() -> None:
    left = Home(holes=(replace(TROUBLE_RIGHT, trouble=Trouble.LEFT),))
    right = Home(holes=(TROUBLE_RIGHT,))
    assert best_finish(left, DRIVES) == pytest.approx(-best_finish(right, DRIVES), abs=1e-4)
    assert value(left, DRIVES) == pytest.approx(value(right, DRIVES), abs=1e-9)


def test_trouble_on_both_sides_keeps_the_middle() -> None:
    home = Home(holes=(replace(TROUBLE_RIGHT, trouble=Trouble.BOTH),))
    assert best_finish(home, DRIVES) == 0.0


def test_fairways_in_fourteen_follow_the_normal_law() -> None:
    """Sd 15 yd on a fairway 30 yd wide: two thirds of the drives (68.27 %), handbook table."""
    home = Home(holes=(Hole(fairway=30.0 * YARD),))
    assert fairways_in_14(home, DRIVES) == pytest.approx(14 * 0.6827, abs=1e-3)


def test_a_round_counts_fourteen_drives() -> None:
    expected = -14.0 * value(STANDARD, DRIVES) * STROKES_PER_METRE
    assert strokes_per_round(STANDARD, DRIVES) == pytest.approx(expected)
