"""The prior of another shaft: the table's figures, the named turn of loft, what is refused."""

from dataclasses import replace
from math import cos, hypot, inf, log, nan, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from scipy.optimize import brentq

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.errors import InputError
from loftwright.evidence.shaft_prior import (
    SPREADS,
    STATED_CHANGE,
    Belief,
    Effect,
    scatter_prior,
    shaft_prior,
)
from loftwright.physics.shaft_swing.bracket import Bracket, SwingChange
from loftwright.physics.shaft_swing.players import Loading
from loftwright.physics.sleeve import Convention

NOTHING = SwingChange(
    head_speed=0.0,
    bend_loft=0.0,
    delivered_loft=0.0,
    droop_angle=0.0,
    lead=0.0,
    lag=0.0,
    kick=0.0,
    attack=0.0,
)
LATE, EARLY = Loading.QUICK_LATE, Loading.SMOOTH_EARLY


def bracket(
    by_torques: float, by_motion: float, *, mph: float = 0.0, droop: float = 0.0
) -> Bracket:
    """Return a bracket of delivered lofts and droop [deg] and a change of speed."""
    return Bracket(
        held_torques=replace(
            NOTHING,
            delivered_loft=by_torques * DEGREE,
            head_speed=mph * MILE_PER_HOUR,
            droop_angle=droop * DEGREE,
        ),
        held_motion=replace(
            NOTHING,
            delivered_loft=by_motion * DEGREE,
            head_speed=7.0,
            droop_angle=droop * DEGREE,
        ),
    )


# Judgements: SD of one stiffness, SD for 15 % of stiffness, factor for a quick late golfer.
TABLE = {
    Effect.DYNAMIC_LOFT: (0.5, 0.7, 1.4),
    Effect.LAUNCH: (0.45, 0.6, 1.4),
    Effect.HEAD_SPEED: (0.6, 0.9, 1.0),
    Effect.FACE: (0.7, 0.8, 1.2),
    Effect.PATH: (0.7, 0.8, 1.2),
    Effect.ATTACK: (0.4, 0.5, 1.0),
    Effect.LIE: (0.3, 0.4, 1.0),
}


@pytest.mark.parametrize("effect", Effect)
def test_spreads_are_the_tables(effect: Effect) -> None:
    shape, stiffness, factor = TABLE[effect]
    unit = MILE_PER_HOUR if effect is Effect.HEAD_SPEED else DEGREE
    for change, expected in ((0.0, shape), (0.15, stiffness), (-0.15, stiffness)):
        early = shaft_prior({EARLY: bracket(0.0, 0.0)}, change)[effect]
        late = shaft_prior({LATE: bracket(0.0, 0.0)}, change)[effect]
        assert early.sd / unit == pytest.approx(expected)
        assert late.sd / unit == pytest.approx(expected * factor)
    assert SPREADS[effect].basis


def test_means_are_shrunk_from_the_bracket() -> None:
    found = shaft_prior({EARLY: bracket(0.2, 0.6, mph=0.9, droop=0.5)}, 0.0)
    loft = 0.5 * 0.4 / sin(radians(50.0))
    assert found[Effect.DYNAMIC_LOFT].mean / DEGREE == pytest.approx(loft)
    assert found[Effect.LAUNCH].mean / DEGREE == pytest.approx(0.85 * loft)
    assert found[Effect.HEAD_SPEED].mean / MILE_PER_HOUR == pytest.approx(0.33 * 0.9)
    assert found[Effect.LIE].mean / DEGREE == pytest.approx(0.5)
    for effect in (Effect.FACE, Effect.PATH, Effect.ATTACK):
        assert found[effect].mean == 0.0


@pytest.mark.parametrize("angle", [0.3, 1.0])
def test_the_turn_of_loft_is_the_geometry_of_a_tilted_plane(angle: float) -> None:
    """A face at no loft is turned within a plane of 50 degrees; it may be squared about the shaft.

    The shaft stands in that plane, so that a face squared about it keeps its angle to the shaft.
    """
    tilt, turn = radians(50.0), radians(angle)
    shaft_line = np.array([-sin(turn), cos(turn) * cos(tilt), cos(turn) * sin(tilt)])
    normal = np.array([cos(turn), sin(turn) * cos(tilt), sin(turn) * sin(tilt)])
    upright = np.array([0.0, cos(tilt), sin(tilt)])
    assert shaft_line @ normal == pytest.approx(0.0, abs=1e-15)
    left = shaft_prior({EARLY: bracket(angle, angle)}, 0.0, convention=Convention.A)
    assert left[Effect.DYNAMIC_LOFT].mean / 0.5 == pytest.approx(np.arcsin(normal[2]), rel=1e-3)

    def out_of_square(roll: float) -> float:
        turned = cos(roll) * normal + sin(roll) * np.cross(shaft_line, normal)
        return float(turned[1])

    roll = brentq(out_of_square, -0.5, 0.5)
    square = cos(roll) * normal + sin(roll) * np.cross(shaft_line, normal)
    made = shaft_prior({EARLY: bracket(angle, angle)}, 0.0)[Effect.DYNAMIC_LOFT].mean / 0.5
    assert made == pytest.approx(np.arcsin(square[2]), rel=1e-3)
    assert upright @ normal == pytest.approx(sin(turn))


def test_a_club_soled_flat_says_nothing() -> None:
    with pytest.raises(InputError, match="soled flat"):
        shaft_prior({EARLY: bracket(0.1, 0.2)}, 0.0, convention=Convention.B)


def test_two_loadings_average_and_widen() -> None:
    both = {LATE: bracket(0.0, 0.0, mph=1.0), EARLY: bracket(0.4, 0.4, mph=1.0)}
    found = shaft_prior(both, 0.0)
    late, early = (shaft_prior({key: both[key]}, 0.0) for key in (LATE, EARLY))
    loft = Effect.DYNAMIC_LOFT
    assert found[loft].mean == pytest.approx(0.5 * (late[loft].mean + early[loft].mean))
    apart = 0.5 * (early[loft].mean - late[loft].mean)
    assert found[loft].sd == pytest.approx(hypot(late[loft].sd, apart))
    assert found[Effect.HEAD_SPEED] == late[Effect.HEAD_SPEED] == early[Effect.HEAD_SPEED]


@given(st.floats(-0.6, 0.6), st.floats(-0.6, 0.6))
def test_more_change_of_stiffness_is_more_doubt(one: float, other: float) -> None:
    less, more = sorted((one, other), key=abs)
    sds = [
        shaft_prior({LATE: bracket(0.1, 0.2)}, change)[Effect.HEAD_SPEED].sd
        for change in (less, more)
    ]
    assert sds[0] <= sds[1]


@pytest.mark.parametrize(
    ("mean", "told"), [(0.49, False), (-0.49, False), (0.5, True), (-0.6, True)]
)
def test_a_mean_within_its_doubt_is_not_distinguishable(mean: float, told: bool) -> None:
    assert Belief(mean=mean, sd=0.5).distinguishable is told


def test_the_scale_of_a_student_t_has_the_stated_deviation() -> None:
    belief = Belief(mean=0.0, sd=0.7)
    assert stats.t(5, scale=belief.scale).std() == pytest.approx(0.7)
    assert belief.scale == pytest.approx(0.7 * sqrt(0.6))


def test_scatters_are_believed_by_the_root_of_their_ratio() -> None:
    found = scatter_prior(1.44, 0.0)
    assert found.mean == pytest.approx(log(1.2))
    assert found.sd == pytest.approx(log(1.25))
    assert scatter_prior(1.44, STATED_CHANGE).sd == pytest.approx(log(1.3))
    assert scatter_prior(1.0, 0.0).mean == 0.0


@pytest.mark.parametrize("ratio", [0.0, -1.0, nan, inf])
def test_a_ratio_that_cannot_be_is_refused(ratio: float) -> None:
    with pytest.raises(InputError, match="ratio of scatters"):
        scatter_prior(ratio, 0.0)


@pytest.mark.parametrize("change", [nan, inf])
def test_a_stiffness_that_is_no_number_is_refused(change: float) -> None:
    with pytest.raises(InputError, match="change of stiffness"):
        shaft_prior({LATE: bracket(0.1, 0.2)}, change)


def test_a_golfer_without_a_swing_is_refused() -> None:
    with pytest.raises(InputError, match="no swing"):
        shaft_prior({}, 0.0)
