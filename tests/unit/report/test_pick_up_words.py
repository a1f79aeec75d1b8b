"""What is said of a built club, in words and as strokes against margins."""

import re
from dataclasses import replace

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.check_acts import Against
from loftwright.evidence.result import Estimate
from loftwright.evidence.same_club import NumberApart, SameClub
from loftwright.report.pick_up_picture import Apart, pick_up_picture
from loftwright.report.pick_up_words import (
    NAMES,
    amount,
    apart_words,
    level_words,
    limit_words,
    ordered_numbers,
    range_words,
    said_objection,
    said_sentence,
    stands_words,
    told_at_pick_up,
)
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.theme_svg import for_screen

METRIC = Show(units="metric", decimal="comma")


def number(
    name: str, mean: float, sd: float, *, differs: bool = False, within: bool = False
) -> NumberApart:
    return NumberApart(
        name=name,
        built=0.0,
        tested=0.0,
        apart=Estimate(mean=mean, sd=sd, df=30.0),
        explained=sd,
        margin=3.0 * sd,
        belief=0.2,
        differs=differs,
        within=within,
    )


LAUNCH = number("launch", -1.83 * DEGREE, 0.5 * DEGREE, differs=True)
SPIN = number("spin", -404.0 * REVOLUTION_PER_MINUTE, 90.0 * REVOLUTION_PER_MINUTE, differs=True)
TOTAL = number("total", 2.0 * YARD, 3.0 * YARD, within=True)
SIDE = number("direction", -1.2 * DEGREE, 0.7 * DEGREE)
SAID = SameClub(
    against=Against.NOT,
    numbers=(LAUNCH, SPIN, SIDE, TOTAL),
    built=8,
    tested=14,
    had=7,
    needed=7,
    joined=True,
)


def test_too_few_balls_are_counted() -> None:
    few = replace(SAID, against=None, numbers=(), had=4)
    assert said_sentence(few, TRADE) == "Too few balls yet: 4 of 7."
    assert "first set" in said_objection(few, TRADE)


def test_clubs_of_days_that_nothing_joins_are_told_so() -> None:
    apart = replace(SAID, against=None, numbers=(), joined=False)
    assert said_sentence(apart, TRADE) == "Nothing can be said: no club was hit on both days."


def test_what_differs_is_named_with_its_amount_and_way() -> None:
    assert said_sentence(SAID, TRADE) == (
        "Not the same: launch 1.8° lower and spin 400 rpm less, beyond doubt."
    )
    assert said_sentence(SAID, METRIC) == (
        "Not the same: launch 1,8° lower and spin 400 rpm less, beyond doubt."
    )
    assert "gauges" in said_objection(SAID, TRADE)


def test_consistent_says_what_so_few_balls_do_not_show() -> None:
    same = replace(SAID, against=Against.CONSISTENT)
    assert said_sentence(same, TRADE).startswith("Plays as the tested one did")
    assert "half a degree of loft" in said_objection(same, TRADE)
    without = replace(same, numbers=(TOTAL,))
    assert said_objection(without, TRADE).endswith("that is the gauge’s to say.")


def test_open_says_how_many_balls_would_tell_and_what_is_ruled_out() -> None:
    undecided = replace(SAID, against=Against.CANNOT_TELL, numbers=(SIDE, TOTAL), more=3)
    assert said_sentence(undecided, TRADE) == (
        "Cannot tell yet: 3 more balls with each club would tell if the averages stay."
    )
    assert said_sentence(replace(undecided, more=1), TRADE) == (
        "Cannot tell yet: 1 more ball with each club would tell if the averages stay."
    )
    assert said_sentence(replace(undecided, more=None), TRADE) == (
        "Cannot tell today: 12 more balls with each club would not tell."
    )
    assert said_objection(undecided, TRADE) == (
        "No number differs beyond doubt. Ruled out: more than 7.1 yd in total at home."
    )
    assert "6,5 m in total" in said_objection(undecided, METRIC)


@pytest.mark.parametrize(
    ("name", "value", "words", "metric"),
    [
        ("ball_speed", 1.5 * MILE_PER_HOUR, "+1.5 mph", "+0,7 m/s"),
        ("launch", -0.42 * DEGREE, "−0.4°", "−0,4°"),
        ("direction", 1.25 * DEGREE, "1.2° R", "1,2° R"),
        ("axis", -3.0 * DEGREE, "3.0° L", "3,0° L"),
        ("spin", -204.0 * REVOLUTION_PER_MINUTE, "−200 rpm", "−200 rpm"),
        ("spin", 204.0 * REVOLUTION_PER_MINUTE, "+200 rpm", "+200 rpm"),
        ("spin", 0.0, "0 rpm", "0 rpm"),
        ("total", 3.0 * YARD, "+3.0 yd", "+2,7 m"),
        ("direction", 0.0, "0.0°", "0,0°"),
    ],
)
def test_a_difference_is_signed_or_sided_and_in_the_shop_s_units(
    name: str, value: float, words: str, metric: str
) -> None:
    assert apart_words(name, value, TRADE) == words
    assert apart_words(name, value, METRIC) == metric


def test_levels_and_limits_carry_no_sign() -> None:
    assert level_words("ball_speed", 150.0 * MILE_PER_HOUR, TRADE) == "150.0 mph"
    assert level_words("total", 250.4 * YARD, TRADE) == "250 yd"
    assert level_words("spin", 2604.0 * REVOLUTION_PER_MINUTE, TRADE) == "2600 rpm"
    assert level_words("launch", 12.34 * DEGREE, METRIC) == "12,3°"
    assert level_words("axis", -3.0 * DEGREE, TRADE) == "3.0° L"
    assert limit_words("total", 8.44 * YARD, TRADE) == "±8.4 yd"
    assert limit_words("direction", 1.6 * DEGREE, METRIC) == "±1,6°"


def test_a_range_holds_nine_in_ten_and_a_number_stands_in_one_word() -> None:
    assert range_words(TOTAL, TRADE) == "−3.1 yd to +7.1 yd"
    assert [stands_words(one) for one in SAID.numbers] == ["differs", "differs", "open", "within"]


def test_every_number_says_both_ways() -> None:
    for name in NAMES:
        told = {amount(number(name, mean, 1.0), TRADE) for mean in (1.0, -1.0)}
        assert len(told) == 2


def test_numbers_are_shown_in_one_order() -> None:
    assert [one.name for one in ordered_numbers(SAID)] == ["launch", "direction", "spin", "total"]


def test_only_a_club_with_a_sleeve_has_a_screw_to_look_at() -> None:
    assert len(told_at_pick_up(sleeve=True)) == 4
    assert not any("screw" in one for one in told_at_pick_up(sleeve=False))


def drawn(**changes: float) -> str:
    told = {"best": 0.2, "low": -0.5, "high": 0.9, "explained": 0.4} | changes
    row = Apart(name="Launch", words="+0.2°", within=True, **told)
    return pick_up_picture([row, row], title="Fir less Ash", built="Fir", tested="Ash")


def test_the_picture_names_itself_its_clubs_and_its_figures() -> None:
    svg = drawn()
    words = re.findall(r"<text[^>]*>([^<]+)</text>", svg)
    assert words.count("Launch") == 2
    assert words.count("+0.2°") == 2
    assert {"Ash", "Fir differs by", "margin"} <= set(words)
    assert "Fir less Ash" in svg


def test_a_range_beyond_the_picture_ends_in_an_arrow_inside_it() -> None:
    svg = drawn(low=-9.0, high=5.0, explained=3.0)
    assert svg.count("L156.0 ") == 2
    assert svg.count("L596.0 ") == 2
    numbers = [float(x) for x in re.findall(r"M(\d+\.\d) \d+\.\dH\d", svg)]
    assert min(numbers) >= 0.0


def test_the_picture_follows_the_theme() -> None:
    assert "#" not in re.sub(r'"url\(#[^"]*"|aria-labelledby="[^"]*"', "", for_screen(drawn()))
