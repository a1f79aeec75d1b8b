"""Words for what was not hit, for keeping the own club and for what would change the answer."""

import pytest

from loftwright.constants import YARD
from loftwright.domain.home import Home, Turf
from loftwright.evidence.result import Estimate
from loftwright.evidence.run_band import RunBand
from loftwright.evidence.what_changes import Answer, Change
from loftwright.report.not_hit_words import (
    NOTHING_CHANGES,
    change_lines,
    confirm_sentence,
    keep_words,
    made_words,
    run_words,
    told_words,
)
from loftwright.report.screen_numbers import Show

TRADE = Show()
METRIC = Show(units="metric", decimal="comma")


def answer(name: str, after: str, p: float | None = None) -> Answer:
    gain = None if p is None else Estimate(mean=2.0 * YARD, sd=1.0 * YARD, df=30.0)
    return Answer(
        change=Change(name=name, home=Home(turf=Turf.SOFT)),
        before="Ash",
        after=after,
        gain=gain,
        p=p,
    )


def test_a_club_that_was_not_hit_asks_for_five_balls_before_an_order() -> None:
    told = confirm_sentence(
        "Ash, one down", "Ash", 0.85, "told from Ash and what the sleeve turns"
    )
    assert told == (
        "Ash, one down was not hit, told from Ash and what the sleeve turns, and very likely "
        "scores better than Ash: five balls with it before an order."
    )


@pytest.mark.parametrize(
    ("p", "words"),
    [(0.97, "and scores"), (0.7, "and probably scores"), (0.55, "and perhaps scores")],
)
def test_how_sure_it_is_follows_the_ladder_of_every_claim(p: float, words: str) -> None:
    assert words in confirm_sentence("Birch", "Ash", p)


def test_what_is_told_bears_its_range_in_the_units_shown() -> None:
    value = Estimate(mean=2.0 * YARD, sd=1.5 * YARD, df=30.0)
    assert told_words(value, TRADE) == "+2.0 yd (\N{MINUS SIGN}0.5 to +4.5)"
    assert told_words(value, METRIC) == "+1,8 m (\N{MINUS SIGN}0,5 to +4,2)"


def test_run_is_a_band_unless_it_is_one_number() -> None:
    wide = RunBand(least=12.0 * YARD, here=17.0 * YARD, most=22.0 * YARD)
    assert run_words(wide, TRADE) == "12 to 22 yd"
    assert run_words(RunBand(least=5.1 * YARD, here=5.2 * YARD, most=5.3 * YARD), TRADE) == "5 yd"


def test_keeping_is_told_with_its_chance() -> None:
    assert keep_words(0.53, TRADE).startswith("Keeping your own is right with 53 %")


def test_changes_are_told_one_a_line_and_the_rest_together() -> None:
    lines = change_lines(
        [
            answer("turf softer", "Birch", 0.9),
            answer("trouble left", "Ash"),
            answer("a wider course", "Ash"),
            answer("strike 10 mm higher", "Birch", 0.52),
        ],
        TRADE,
    )
    assert lines == [
        "Turf softer: Birch would very likely lead, +2.0 yd (+0.3 to +3.7) on Ash.",
        "Strike 10 mm higher: Birch would lead, +2.0 yd (+0.3 to +3.7) on Ash; too close to call.",
        "No other leader: trouble left and a wider course.",
    ]


def test_without_a_change_of_leader_that_is_said_and_without_a_look_nothing() -> None:
    assert change_lines([answer("turf softer", "Ash")], TRADE) == [NOTHING_CHANGES]
    assert change_lines([], TRADE) == []


@pytest.mark.parametrize(
    ("label", "metric"),
    [
        ("Own, half an inch longer", "Own, 13 mm longer"),
        ("Own, head 4 g heavier", "Own, head 4 g heavier"),
        ("Ash's head on the own shaft", "Ash's head on the own shaft"),
    ],
)
def test_what_is_made_is_called_in_the_units_shown(label: str, metric: str) -> None:
    assert made_words(label, TRADE) == label
    assert made_words(label, METRIC) == metric
