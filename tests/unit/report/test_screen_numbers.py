"""The shop's own units and decimal mark on every screen."""

from math import nan

import pytest

from loftwright.constants import DEGREE, FOOT, INCH, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.evidence.result import Estimate
from loftwright.report.numbers import LIKELY_RANGE, NONE
from loftwright.report.screen_numbers import UNITS, Show
from loftwright.units import parse_quantity

TRADE = Show()
METRIC = Show(units="metric", decimal="comma")


def test_trade_units_are_the_trade_s() -> None:
    assert TRADE.yards(241.2 * YARD) == "241 yd"
    assert TRADE.speed(101.25 * MILE_PER_HOUR) == "101.2 mph"
    assert TRADE.length(45.25 * INCH) == "45.25 in"
    assert TRADE.temperature(297.0388888888889) == "75 °F"
    assert TRADE.height(31.0) == "102 ft"


def test_metric_units_with_a_comma() -> None:
    assert METRIC.yards(220.4) == "220 m"
    assert METRIC.speed(45.26) == "45,3 m/s"
    assert METRIC.length(45.25 * INCH) == "1149 mm"
    assert METRIC.temperature(297.0388888888889) == "24 °C"
    assert METRIC.angle(12.34 * DEGREE) == "12,3°"


def test_a_difference_has_a_true_minus_and_none_on_zero() -> None:
    assert TRADE.yards_apart(-5.04 * YARD) == "\N{MINUS SIGN}5.0 yd"
    assert TRADE.yards_apart(0.01 * YARD) == "0.0 yd"
    assert METRIC.length_apart(0.5 * INCH) == "+13 mm"
    assert METRIC.yards_range(-1.0, 2.5) == "\N{MINUS SIGN}1,0 to +2,5"


def test_left_and_right_are_letters() -> None:
    assert TRADE.side(-6.0 * YARD) == "6 L"
    assert METRIC.side(6.0) == "6 R"
    assert METRIC.side(0.2) == "0"


def test_a_side_in_words_has_its_unit_by_itself() -> None:
    assert TRADE.sideways(-6.0 * YARD) == "6 yd left"
    assert METRIC.sideways(6.0) == "6 m right"
    assert METRIC.sideways(-0.2) == "0 m"
    assert METRIC.sideways(nan) == NONE


def test_carry_and_run_add_up_as_shown() -> None:
    carry, run = METRIC.carry_and_run(200.4, 220.6)
    assert int(carry) + int(run) == 221
    assert METRIC.carry_and_run(200.4, float("nan")) == ("200", "–")


def test_spin_stays_in_revolutions_a_minute_to_ten() -> None:
    assert METRIC.spin(2514.0 * REVOLUTION_PER_MINUTE) == "2510 rpm"
    assert METRIC.turn_rate(2514.0 * REVOLUTION_PER_MINUTE) == "2510"


def test_money_is_written_whole_where_it_is_whole() -> None:
    assert TRADE.money(45000, "EUR") == "450 EUR"
    assert METRIC.money(45050, "EUR") == "450,50 EUR"
    assert TRADE.money(900, "") == "9"


@pytest.mark.parametrize("show", [TRADE, METRIC], ids=["trade", "metric"])
@pytest.mark.parametrize("quantity", list(UNITS["trade"]))
def test_what_a_field_holds_reads_back_as_it_was(show: Show, quantity: str) -> None:
    unit = show.unit(quantity)
    value = 45.25 * unit.scale + unit.offset
    text = show.typed(quantity, value)
    assert parse_quantity(text, unit.typed, place="field") == pytest.approx(value, rel=1e-12)


def test_a_field_without_a_value_is_empty() -> None:
    assert TRADE.typed("mass", None) == ""
    assert TRADE.typed("mass", float("nan")) == ""
    assert TRADE.typed("wind", -0.0) == "0"


def test_bare_figures_and_differences_are_in_the_shop_s_unit() -> None:
    metric = Show(units="metric", decimal="comma")
    assert (TRADE.figure("height", 9.144), metric.figure("height", 9.144)) == ("30", "9")
    assert TRADE.figure("temperature", 273.15 + 25.0) == "77"
    assert metric.figure("temperature", 273.15 + 25.0) == "25"
    assert (TRADE.apart("speed", 0.44704), metric.apart("speed", 0.44704)) == ("+1.0", "+0,4")
    assert (TRADE.lengths, metric.lengths) == ("yards", "metres")
    assert (TRADE.one_length, metric.one_length) == ("a yard", "a metre")


def test_a_sentence_takes_the_decimal_mark_in_its_figures_alone() -> None:
    said = "Elm\u2019s 4 balls launch 1.2\u00b0 higher. 3 of 4."
    assert Show(decimal="comma").words(said) == said.replace("1.2", "1,2")
    assert TRADE.words(said) == said


def test_levels_have_no_sign_and_keep_their_unit() -> None:
    assert TRADE.yards(231.6 * YARD) == "232 yd"
    assert TRADE.speed(148.04 * MILE_PER_HOUR) == "148.0 mph"
    assert TRADE.height(95.6 * FOOT) == "96 ft"
    assert TRADE.angle(13.46 * DEGREE) == "13.5\u00b0"
    assert TRADE.yards_apart(5.44 * YARD) == "+5.4 yd"


def test_a_range_of_lengths_has_both_its_signs() -> None:
    wide = Estimate(mean=5.4 * YARD, sd=2.7 * YARD, df=1e9)
    # 1.645 standard deviations to either side.
    assert TRADE.yards_range(*wide.interval(LIKELY_RANGE)) == "+1.0 to +9.8"


@pytest.mark.parametrize(
    ("carry", "total"), [(202.4953, 227.7159), (246.4, 269.8), (203.76, 220.38)]
)
def test_carry_and_run_add_up_to_the_total_that_is_shown(carry: float, total: float) -> None:
    carried, run = TRADE.carry_and_run(carry * YARD, total * YARD)
    assert int(carried) + int(run) == round(total)


def test_a_run_that_is_not_known_is_a_dash() -> None:
    assert TRADE.carry_and_run(200.0 * YARD, float("nan"))[1] == "\N{EN DASH}"
