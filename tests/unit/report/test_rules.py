"""Graduated rules drawn with letters."""

from loftwright.constants import YARD
from loftwright.evidence.result import Estimate
from loftwright.report.rules import graduations, rule_over, strip


def yards(mean: float, sd: float) -> Estimate:
    return Estimate(mean=mean * YARD, sd=sd * YARD, df=1e6)


def test_a_rule_holds_every_range_and_nothing() -> None:
    rule = rule_over([yards(5.0, 2.0), yards(3.0, 1.0)], 41)
    assert (rule.low, rule.high, rule.step) == (0.0, 10.0, 2)


def test_a_rule_over_nothing_has_room_on_both_sides() -> None:
    rule = rule_over([yards(0.0, 0.0)], 21)
    assert rule.low < 0.0 < rule.high


def test_numerals_stand_under_their_ticks() -> None:
    rule = rule_over([yards(0.0, 5.0)], 41)
    ticks, numerals = graduations(rule)
    assert ticks == "┴─────────┴─────────┴─────────┴─────────┴"
    assert ticks[numerals.index("0", 12)] == "┴"
    assert numerals.split() == ["−10", "−5", "0", "+5", "+10"]


def test_numerals_never_run_into_each_other() -> None:
    _, numerals = graduations(rule_over([yards(0.0, 0.6)], 12))
    assert all(len(numeral) <= 4 for numeral in numerals.split())


def test_a_range_is_a_line_with_its_best_guess() -> None:
    rule = rule_over([yards(0.0, 5.0)], 41)
    # Half a yard a character from -10; 1.2159 standard deviations of 1.645 are two yards.
    assert strip(rule, yards(5.0, 1.2159)) == f"{'│':>21}{'────●────':>14}{'':6}"
    assert strip(rule, yards(1.0, 1.2159)) == f"{'──┼─●────':>27}{'':14}"


def test_the_own_club_is_a_ring_on_the_line_of_nothing() -> None:
    rule = rule_over([yards(5.0, 2.0)], 11)
    assert strip(rule, yards(0.0, 0.0), own=True) == "○          "
