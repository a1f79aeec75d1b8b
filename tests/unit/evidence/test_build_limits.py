"""How far two clubs of one sheet may differ: tolerances carried through the impact."""

from dataclasses import replace
from functools import cache
from statistics import NormalDist

import numpy as np
import pytest

from bay_fittings import two_visits
from loftwright.constants import DEGREE, GRAM, INCH, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.build_limits import (
    BALL_SHARE,
    NUMBERS,
    build_limits,
    tolerance_effects,
)
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.visit import Beliefs
from loftwright.physics.impact import strike_many

SPEED, LAUNCH, SPIN, AXIS, DIRECTION, TOTAL = range(6)


@cache
def a_comparison(ability: str = "mid") -> Comparison:
    _, _, balls = two_visits(4, ability, clubs=((0, 1, 2), (0, 1, 2)))
    return compare(balls, Home(), Beliefs())


def test_half_a_degree_of_loft_is_what_the_impact_makes_of_it() -> None:
    """The slope is a difference over a degree either way; a half lies on the same line."""
    setup = a_comparison().visit.setup
    row = np.append(setup.slopes.delivery, [0.0, 0.0])
    rows = np.array([row, row])
    rows[0, 4] += 0.5 * DEGREE
    rows[1, 4] -= 0.5 * DEGREE
    weak, strong = strike_many(setup.head, rows)
    loft = tolerance_effects(setup, Tolerances())[0]
    assert loft[:3] == pytest.approx(0.5 * (weak - strong)[:3], rel=0.02)


def test_half_a_degree_of_loft_moves_launch_less_than_itself_and_adds_spin() -> None:
    loft = tolerance_effects(a_comparison().visit.setup, Tolerances())[0]
    assert 0.35 * DEGREE < loft[LAUNCH] < 0.5 * DEGREE
    assert 60.0 < loft[SPIN] / REVOLUTION_PER_MINUTE < 200.0
    assert loft[SPEED] < 0.0


def test_the_face_moves_the_start_line_and_the_axis_to_its_side() -> None:
    face = tolerance_effects(a_comparison().visit.setup, Tolerances())[1]
    assert 0.3 * DEGREE < face[DIRECTION] < 0.5 * DEGREE
    assert face[AXIS] > face[DIRECTION]


def test_a_heavier_head_is_a_faster_ball_and_a_longer_club_a_faster_head() -> None:
    effects = tolerance_effects(a_comparison().visit.setup, Tolerances())
    assert effects[5, SPEED] > 0.0
    assert effects[3, SPEED] > 0.0


def test_every_tolerance_counts_and_more_of_it_explains_more() -> None:
    comparison = a_comparison()
    usual = build_limits(comparison, Tolerances()).explained
    wider = {
        "loft": 1.0 * DEGREE,
        "face": 1.0 * DEGREE,
        "lie": 1.0 * DEGREE,
        "length": INCH / 4.0,
        "inertia": 5.0 * Tolerances().inertia,
        "part_mass": 5.0 * GRAM,
    }
    for name, value in wider.items():
        more = build_limits(comparison, replace(Tolerances(), **{name: value})).explained
        assert (more >= usual - 1e-12).all(), name
        assert (more > usual).any(), name


def test_the_margin_is_what_the_build_explains_and_half_a_ball_s_spread() -> None:
    comparison = a_comparison()
    limits = build_limits(comparison, Tolerances())
    single = np.sqrt(np.diag(comparison.visit.scatter))
    assert limits.margin[:5] - limits.explained[:5] == pytest.approx(BALL_SHARE * single)
    assert limits.margin[TOTAL] > limits.explained[TOTAL]


def test_at_half_a_spread_a_ball_tells_its_club_sixty_times_in_a_hundred() -> None:
    assert NormalDist().cdf(BALL_SHARE / 2.0) == pytest.approx(0.60, abs=0.005)


def test_a_wilder_golfer_has_wider_margins_and_the_same_build() -> None:
    tour, high = (build_limits(a_comparison(one), Tolerances()) for one in ("tour", "high"))
    assert (high.margin[1:5] > tour.margin[1:5]).all()
    assert high.explained[LAUNCH] == pytest.approx(tour.explained[LAUNCH], rel=0.1)


def test_what_a_device_does_not_give_has_no_limit() -> None:
    _, _, balls = two_visits(4, "mid", clubs=((0, 1, 2), (0, 1, 2)))
    launch = np.array(balls.launch)
    launch[:, AXIS:] = np.nan
    comparison = compare(replace(balls, launch=launch), Home(), Beliefs())
    limits = build_limits(comparison, Tolerances())
    given = dict(zip(NUMBERS, np.isfinite(limits.margin).tolist(), strict=True))
    assert given == {
        "ball_speed": True,
        "launch": True,
        "spin": True,
        "axis": False,
        "direction": False,
        "total": True,
    }
