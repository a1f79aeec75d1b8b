"""What a bag's page says first: what stands out, with its doubt, and nothing beyond it."""

from dataclasses import replace

import pytest

from bags import a_bag, an_iron, irons
from loftwright.constants import GRAM, INCH
from loftwright.domain.bag import BagClub, Known, Timed
from loftwright.domain.bag_runs import runs
from loftwright.domain.limits import Kind, Measured, Rules, limit_lines
from loftwright.domain.verdict import Reading
from loftwright.physics.build.swingweight import USUAL_SCALE
from loftwright.report.bag_words import (
    Finding,
    apart_words,
    bag_finding,
    doubt_words,
    figure_words,
    half_inch_words,
    left_out_words,
    limit_line_words,
    set_up_words,
)
from loftwright.report.screen_numbers import Show

TRADE, METRIC = Show(), Show(units="metric", decimal="comma")
NUMBERS = range(4, 10)


def said(
    clubs: tuple[BagClub, ...] | list[BagClub], show: Show = TRADE, *, scale_known: bool = True
) -> Finding:
    set_ups = {one.name: one.timed for one in clubs if one.timed is not None}
    found = runs(clubs, USUAL_SCALE)
    return bag_finding(len(clubs), found, set_ups, show, scale_known=scale_known)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"points": 3.0}, "7 iron is 3.0 points heavier in swingweight than an even run"),
        ({"points": -3.0}, "7 iron is 3.0 points lighter in swingweight than an even run"),
        ({"longer": -0.6}, "7 iron is 0.55 in shorter than an even run"),
        ({"inertia": -90.0}, "7 iron has 90 kg cm² less club MOI than an even run"),
        (
            {"cycles": 12.0},
            "7 iron swings 12 cpm faster (5.00 in clamp, own head) than an even run",
        ),
    ],
)
def test_the_sentence_names_the_club_and_by_how_much(
    changes: dict[str, float], sentence: str
) -> None:
    found = said([an_iron(one, **(changes if one == 7 else {})) for one in NUMBERS])
    assert found.sentence.startswith(sentence)
    assert found.sentence.endswith("of the irons.")
    assert found.club == "7 iron"
    assert "± " in found.lead


def test_a_length_is_said_in_the_shop_s_units() -> None:
    found = said([an_iron(one, longer=1.0 if one == 7 else 0.0) for one in NUMBERS], METRIC)
    assert "mm longer than an even run of the irons." in found.sentence
    assert " in." not in found.sentence + found.lead


def test_nothing_stands_out_of_an_even_set() -> None:
    found = said(irons())
    assert found.sentence == "Nothing stands out of an even run by more than its doubt."
    assert "irons in length, swingweight, club MOI and frequency" in found.lead
    assert found.club == ""


def test_an_empty_bag_says_what_to_do() -> None:
    assert said(()).sentence == "No club of this bag is written down yet."


def test_too_few_clubs_say_what_is_enough() -> None:
    found = said(irons()[:2])
    assert found.sentence == "2 clubs in play, and no row of three to compare yet."


def test_an_uneven_run_blames_no_club() -> None:
    found = said([an_iron(one, points=4.0 * (one % 2)) for one in NUMBERS])
    assert found.sentence == "The irons make no even run in swingweight."
    assert found.club == ""


def test_two_that_may_be_off_are_both_named() -> None:
    found = said([an_iron(one, points=0.0 if one < 6 else 2.6) for one in range(4, 8)])
    assert found.sentence in {
        "Either 5 iron or 6 iron is off an even swingweight of the irons.",
        "Either 6 iron or 5 iron is off an even swingweight of the irons.",
    }


def test_the_usual_scale_is_objected_to_where_figures_rest_on_it() -> None:
    assert "calibrated" in said(irons(), scale_known=False).lead
    assert "calibrated" not in said(irons()).lead


def test_others_that_stand_out_follow_in_the_lead() -> None:
    found = said(
        [
            an_iron(one, points=5.0 if one == 7 else 0.0, cycles=12.0 if one == 5 else 0.0)
            for one in NUMBERS
        ]
    )
    assert found.club == "7 iron"
    assert "also 5 iron in frequency." in found.lead


@pytest.mark.parametrize(
    ("known", "value", "trade", "metric"),
    [
        (Known.LOFT, 0.6, "34.4°", "34,4°"),
        (Known.LENGTH, 0.94, "37.01 in", "940 mm"),
        (Known.MASS, 0.4203, "420.3 g", "420,3 g"),
        (Known.SWINGWEIGHT, 32.25, "D2.3", "D2,3"),
        (Known.INERTIA, 0.2850, "2850 kg cm²", "2850 kg cm²"),
        (Known.FREQUENCY, 4.2, "252 cpm", "252 cpm"),
    ],
)
def test_figures_are_written_as_the_shop_writes_them(
    known: Known, value: float, trade: str, metric: str
) -> None:
    assert figure_words(known, value, TRADE) == trade
    assert figure_words(known, value, METRIC) == metric


@pytest.mark.parametrize(
    ("known", "value", "doubt", "apart"),
    [
        (Known.LENGTH, 0.05 * INCH, "± 0.05 in", "+0.05 in"),
        (Known.MASS, 0.5 * GRAM, "± 0.5 g", "+0.5 g"),
        (Known.SWINGWEIGHT, 0.5, "± 0.5", "+0.5"),
        (Known.INERTIA, 0.0013, "± 13 kg cm²", "+13 kg cm²"),
        (Known.FREQUENCY, 2.0 / 60.0, "± 2.0 cpm", "+2.0 cpm"),
    ],
)
def test_doubts_and_differences_have_their_units(
    known: Known, value: float, doubt: str, apart: str
) -> None:
    assert doubt_words(known, value, TRADE) == doubt
    assert apart_words(known, value, TRADE) == apart


def test_a_frequency_is_never_said_without_its_set_up() -> None:
    timed = Timed(frequency=4.2, clamp=5.0 * INCH, tip_mass=205.0 * GRAM)
    assert set_up_words(timed, TRADE) == "5.00 in clamp, 205 g"
    assert set_up_words(replace(timed, tip_mass=None), METRIC) == "127 mm clamp, own head"
    assert half_inch_words(METRIC) == "cpm per 12,7 mm shorter"


@pytest.mark.parametrize(
    ("length", "says"),
    [
        (45.5, "below the limit as measured"),
        (48.0, "too close to call, ask the governing body"),
        (48.1, "above the limit as measured"),
    ],
)
def test_a_length_is_told_beside_a_limit_and_never_ruled_on(length: float, says: str) -> None:
    reading = Reading(value=length * INCH, half_width=0.05 * INCH)
    line = limit_lines({Measured.LENGTH: reading}, Kind.WOOD, Rules())[0]
    words = limit_line_words("Driver", line, TRADE)
    assert words == (
        f"Driver: measured length {length:.2f} in (by the 60-degree plane) ± 0.05 in. "
        f"Published limit 48.00 in: {says}."
    )
    assert not {"legal", "conforming", "approved"} & set(words.casefold().split())


def test_the_local_rule_is_named_as_one() -> None:
    reading = Reading(value=45.5 * INCH, half_width=0.05 * INCH)
    lines = limit_lines({Measured.LENGTH: reading}, Kind.WOOD, Rules(local_length=True))
    assert "local rule" in limit_line_words("Driver", lines[1], TRADE)
    assert "lower limit" in limit_line_words("Driver", lines[2], TRADE)


def test_the_bag_of_the_tests_speaks_of_its_seven_iron() -> None:
    assert said(a_bag().in_play).club == "7 iron"


def test_clubs_that_no_run_can_place_are_named_with_what_they_lack() -> None:
    lacking = {Known.LOFT: ["7 iron"], Known.LENGTH: ["PW", "9 iron"]}
    assert left_out_words(lacking) == (
        "Not compared: 7 iron for want of a loft; PW and 9 iron for want of a length."
    )
    assert left_out_words({Known.LOFT: [], Known.LENGTH: []}) == ""
