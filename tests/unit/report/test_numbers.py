"""Figures as the trade says them."""

import pytest

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.evidence.result import Estimate
from loftwright.report.numbers import (
    angle,
    carry_and_run,
    count,
    fixed,
    height,
    listed,
    percent,
    side,
    signed,
    speed,
    spin,
    yards,
    yards_apart,
    yards_range,
)


def test_minus_is_a_true_minus_sign() -> None:
    assert fixed(-3.2, 1) == "−3.2"
    assert signed(-3.2) == "−3.2"


def test_differences_always_have_a_sign_but_nothing_has_none() -> None:
    assert signed(3.25) == "+3.2"
    assert signed(0.04) == "0.0"
    assert signed(-0.04) == "0.0"
    assert fixed(-0.4) == "0"


def test_levels_have_no_sign_and_keep_their_unit() -> None:
    assert yards(231.6 * YARD) == "232 yd"
    assert speed(148.04 * MILE_PER_HOUR) == "148.0 mph"
    assert height(95.6 * FOOT) == "96 ft"
    assert angle(13.46 * DEGREE) == "13.5°"
    assert yards_apart(5.44 * YARD) == "+5.4 yd"


def test_spin_is_given_to_ten_turns() -> None:
    assert spin(2654.0 * REVOLUTION_PER_MINUTE) == "2650 rpm"


@pytest.mark.parametrize(
    ("yards_right", "words"), [(3.2, "3 R"), (-3.2, "3 L"), (0.4, "0"), (-0.4, "0")]
)
def test_left_and_right_are_letters(yards_right: float, words: str) -> None:
    assert side(yards_right * YARD) == words


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.5, "50 %"), (0.999, "99 %"), (0.001, "1 %"), (0.0, "0 %"), (1.0, "100 %")],
)
def test_a_doubt_is_never_written_as_certainty(share: float, words: str) -> None:
    assert percent(share) == words


def test_a_range_holds_nine_chances_in_ten() -> None:
    wide = Estimate(mean=5.4 * YARD, sd=2.7 * YARD, df=1e9)
    # 1.645 standard deviations to either side.
    assert yards_range(wide) == "+1.0 to +9.8"


def test_counts_and_lists_read_as_words() -> None:
    assert count(1, "ball") == "1 ball"
    assert count(3, "ball") == "3 balls"
    assert count(2, "fairway", "fairways") == "2 fairways"
    assert listed([]) == ""
    assert listed(["Ash"]) == "Ash"
    assert listed(["Ash", "Birch", "Cedar"]) == "Ash, Birch and Cedar"


@pytest.mark.parametrize(
    ("carry", "total"), [(202.4953, 227.7159), (246.4, 269.8), (203.76, 220.38)]
)
def test_carry_and_run_add_up_to_the_total_that_is_shown(carry: float, total: float) -> None:
    carried, run = carry_and_run(carry * YARD, total * YARD)
    assert int(carried) + int(run) == round(total)


def test_a_run_that_is_not_known_is_a_dash() -> None:
    assert carry_and_run(200.0 * YARD, float("nan"))[1] == "–"
