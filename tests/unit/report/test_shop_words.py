"""What a shop's record knows, in words and in the shop's units."""

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.shop_words import (
    Believed,
    Known,
    figure_words,
    golfers_like,
    known_words,
    leverage_words,
    nothing_learned,
    offset_words,
    shop_sentence,
    with_unit,
)

METRIC = Show(units="metric", decimal="comma")
SPIN = Believed(mean=-180.0 * REVOLUTION_PER_MINUTE, sd=48.6 * REVOLUTION_PER_MINUTE)
LAUNCH = Believed(mean=0.3 * DEGREE, sd=0.2 * DEGREE)
SPEED = Believed(mean=0.5 * MILE_PER_HOUR, sd=0.2 * MILE_PER_HOUR)
KNOWN = Known(
    level="piece",
    name="Heron",
    fittings=12,
    figures={"spin": SPIN, "launch": LAUNCH, "ball_speed": SPEED},
)


def test_a_figure_bears_its_range_of_nine_in_ten() -> None:
    assert figure_words("spin", SPIN, TRADE) == "spin −180 rpm (−260 to −100)"
    assert SPIN.sure
    assert not LAUNCH.sure


@pytest.mark.parametrize(
    ("figure", "value", "trade", "metric"),
    [
        ("ball_speed", 2.0 * MILE_PER_HOUR, "+2.0 mph", "+0,9 m/s"),
        ("launch", -0.25 * DEGREE, "−0.2°", "−0,2°"),
        ("spin", 104.0 * REVOLUTION_PER_MINUTE, "+100 rpm", "+100 rpm"),
        ("toe", -1.5 * MILLIMETRE, "−1.5 mm", "−1,5 mm"),
        ("spin", -3.0 * REVOLUTION_PER_MINUTE, "0 rpm", "0 rpm"),
    ],
)
def test_differences_speak_in_the_shop_s_units(
    figure: str, value: float, trade: str, metric: str
) -> None:
    assert with_unit(figure, value, TRADE) == trade
    assert with_unit(figure, value, METRIC) == metric


def test_a_shaft_says_for_whom_it_holds_and_from_how_many() -> None:
    assert known_words(KNOWN, TRADE) == (
        "Over all golfers: spin −180 rpm (−260 to −100), launch +0.3° (0.0 to +0.6), ball speed "
        "+0.5 mph (+0.2 to +0.8); 12 fittings."
    )
    whom = golfers_like("fast", "", "low")
    assert whom == "for golfers like this one (fast, low)"
    assert known_words(KNOWN, METRIC, whom).startswith("For golfers like this one (fast, low): ")
    assert "(0,0 to +0,6)" in known_words(KNOWN, METRIC, whom)
    assert golfers_like("", "", "") == "over all golfers"


def test_a_shaft_that_nobody_hit_says_so() -> None:
    nothing = Known(level="", name="Sedge", fittings=0, figures={})
    assert known_words(nothing, TRADE) == "Nothing in the shop record."


def test_the_sentence_counts_what_taught_and_what_is_physics() -> None:
    assert shop_sentence(fittings=143, golfers=96, balls=5720, physics=0.12) == (
        "143 fittings of 96 golfers (5720 balls) have taught this shop; 12 % of what is believed "
        "is still physics."
    )
    assert shop_sentence(fittings=1, golfers=1, balls=40, physics=0.95).startswith(
        "1 fitting of 1 golfer (40 balls) has taught this shop"
    )


def test_nothing_learned_says_what_is_there() -> None:
    assert nothing_learned(0, 20).endswith("the shop record is empty, so physics leads.")
    assert "1 of about 20 fittings is there" in nothing_learned(1, 20)
    assert "7 of about 20 fittings are there" in nothing_learned(7, 20)
    assert "31 fittings are in the record and wait" in nothing_learned(31, 20)


def test_a_bay_says_by_how_much_it_reads_otherwise() -> None:
    more = Believed(mean=180.0 * REVOLUTION_PER_MINUTE, sd=50.0 * REVOLUTION_PER_MINUTE)
    assert offset_words("bay", "Bay 2", "spin", more, TRADE) == (
        "Bay 2 reads 180 rpm more spin than the others (100 to 260): compare clubs within a bay."
    )
    less = Believed(mean=-1.0 * DEGREE, sd=0.2 * DEGREE)
    assert offset_words("device", "Slate", "launch", less, METRIC) == (
        "Slate reads 1,0° less launch than the others (0,7 to 1,3): compare clubs within one "
        "device."
    )


def test_a_golfer_who_moves_much_is_not_named() -> None:
    told = leverage_words("golfer", "3f2a", "Heron 60 firm", "spin", 1.62, METRIC)
    assert told.startswith(
        "One golfer alone moves the spin of Heron 60 firm by 1,6 standard errors"
    )
    assert "3f2a" not in told
    assert leverage_words("bay", "Bay 2", "Heron", "launch", 1.2, TRADE).startswith("Bay 2 alone")
