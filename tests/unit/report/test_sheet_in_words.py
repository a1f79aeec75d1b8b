"""A build sheet in words: what to cut and add, its targets, what differs, which cautions."""

from dataclasses import replace

import pytest

from built_jobs import DRAFT
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.build_sheet import SolvedBuild
from loftwright.domain.built import Checked
from loftwright.domain.cautions import CAUTIONS, Hazard
from loftwright.domain.sheet_acts import Deviated, Step
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import Block
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_lines import (
    blocks,
    cautions_of,
    changed_rows,
    departure_rows,
    field_text,
)
from loftwright.report.sheet_targets import apart_rows, cut_rows, target_rows, trade_rows
from loftwright.report.sheet_words import (
    BLOCK_WORDS,
    STEP_WORDS,
    cut_length,
    minds_of,
    off_sentence,
    solved_sentence,
)
from loftwright.services.sheet_issue import try_sheet

TRADE, METRIC = Show(), Show(units="metric", decimal="comma")


@pytest.fixture(scope="module")
def solved() -> SolvedBuild:
    return try_sheet(DRAFT)


def test_every_block_and_step_has_its_words() -> None:
    assert set(BLOCK_WORDS) == set(Block)
    assert set(STEP_WORDS) == set(Step)


def test_a_cut_is_told_to_a_thousandth_of_an_inch_or_a_tenth_of_a_millimetre() -> None:
    assert cut_length(43.125 * INCH, TRADE) == "43.125 in"
    assert cut_length(43.125 * INCH, METRIC) == "1095,4 mm"
    assert cut_length(0.005 * INCH, METRIC) == "0,13 mm"


def test_the_sentence_of_a_solved_sheet_has_ninety_letters_at_most(solved: SolvedBuild) -> None:
    said = solved_sentence(solved, TRADE)
    assert said == (
        "Cut to 43.125 in, 6.9 g into the head, 3.2 g into the butt: 45.00 in, D3.0, 325.0 g."
    )
    assert len(said) <= 90
    assert "D3,0, 325,0 g." in solved_sentence(solved, METRIC)


def test_a_head_alone_names_no_counterweight() -> None:
    draft = {name: text for name, text in DRAFT.items() if name != "target.mass_g"}
    assert "butt" not in solved_sentence(try_sheet(draft), TRADE)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"shaft.raw_length_inch": "43"}, "too short by"),
        ({"head.mass_g": "215"}, "the head would have to be"),
        ({"head.mass_g": "150"}, "the head would have to hold"),
        ({"target.mass_g": "318", "target.swingweight": "D8"}, "or the grip by"),
        ({"grip.mass_g": "20", "target.mass_g": "330"}, "the butt would have to hold"),
    ],
)
def test_what_is_in_the_way_is_named_by_part_and_amount(
    changes: dict[str, str], said: str
) -> None:
    tried = try_sheet(DRAFT | changes)
    assert not tried.answer.feasible
    assert said in solved_sentence(tried, TRADE)


def test_targets_stand_beside_what_the_parts_come_to_and_what_the_bench_cannot_tell(
    solved: SolvedBuild,
) -> None:
    rows = {one.what: one for one in target_rows(solved, {}, TRADE)}
    points = rows["Swingweight"]
    assert (points.target, points.predicted, points.doubt) == ("D3.0", "D3.0", "0.9 points")
    assert points.tight
    assert rows["Balance point"].target == "–"
    assert not rows["Length"].tight


def test_a_target_that_masses_do_not_change_stands_beside_what_was_measured() -> None:
    draft = DRAFT | {"target.loft_deg": "10.5", "target.lie_deg": "58"}
    angles = {Checked.LOFT: 10.4 * DEGREE}
    rows = {one.what: one for one in target_rows(try_sheet(draft), angles, TRADE)}
    assert (rows["Loft"].target, rows["Loft"].predicted) == ("10.5°", "10.4°")
    assert rows["Lie"].predicted == "–"


def test_a_frequency_never_stands_without_clamp_and_weight() -> None:
    draft = DRAFT | {
        "target.frequency_cpm": "252",
        "target.clamp_mm": "127",
        "target.tip_mass_g": "205",
    }
    names = [one.what for one in target_rows(try_sheet(draft), {}, TRADE)]
    assert "Frequency (127 mm clamp, 205 g)" in names


def test_a_club_as_built_is_told_by_how_much_it_is_off(solved: SolvedBuild) -> None:
    light = try_sheet(DRAFT | {"head.mass_g": "192"})
    club = light.answer.club
    assert club is not None
    heavy = replace(club, parts=(replace(club.parts[0], mass=club.parts[0].mass - 3.0 * GRAM),))
    heavy = replace(heavy, parts=(*heavy.parts, *club.parts[1:]))
    rows = apart_rows(solved, heavy, (Checked.SWINGWEIGHT,), TRADE)
    assert [(one.what, one.apart, one.out) for one in rows][1:] == [
        ("Swingweight", "−1.8 points", True),
        ("Mass", "−3.0 g", False),
    ]


def test_the_cuts_are_told_in_the_order_of_the_work(solved: SolvedBuild) -> None:
    assert [one for one, _ in cut_rows(solved.answer, solved.sheet, TRADE)] == [
        "Raw shaft",
        "Tip trim",
        "Dry fit, seated tip to the 60-degree plane",
        "Butt trim",
        "Shaft, cut",
        "Into the head",
        "Into the butt",
    ]


def test_trades_say_what_each_club_meets() -> None:
    tried = try_sheet(DRAFT | {"target.mass_g": "318", "target.swingweight": "D8"})
    said = [one.what for one in trade_rows(tried.trades, tried, TRADE)]
    assert said[:3] == ["swingweight as asked", "mass as asked", "nearest to all targets"]


def test_a_field_s_text_has_the_shop_s_unit() -> None:
    assert field_text("head.mass_g", "195", TRADE) == "195.0 g"
    assert field_text("head.cg_toe_mm", "36", METRIC) == "36,0 mm"
    assert field_text("target.swingweight", "D3.0", METRIC) == "D3,0"
    assert field_text("condition", "pulled", TRADE) == "Pulled from another club"
    assert field_text("made.cut_length_inch", "43.125", TRADE) == "43.125 in"
    assert field_text("rules.competition_uses_46_inch", "yes", TRADE) == "yes"


def test_a_printed_sheet_shows_empty_fields_and_a_screen_leaves_them_out() -> None:
    printed = sum(len(one.rows) for one in blocks(DRAFT, TRADE, blanks="–"))
    assert printed == len(FIELDS)
    assert sum(len(one.rows) for one in blocks(DRAFT, TRADE)) == len(DRAFT)


def test_departures_and_changes_name_what_stood_before() -> None:
    one = Deviated(key="made.head_added_g", sheet="6.8655", built="9.8655", why="The mend")
    assert departure_rows((one,), TRADE) == (("Added to the head", "6.9 g", "9.9 g", "The mend"),)
    after = DRAFT | {"target.swingweight": "D2.0"}
    assert changed_rows(DRAFT, after, TRADE) == (("Targets: Swingweight", "D3.0", "D2.0"),)


def test_cautions_are_those_of_these_parts(solved: SolvedBuild) -> None:
    def hazards(**changes: str) -> set[Hazard]:
        return {one.hazard for one in cautions_of(DRAFT | changes, solved.answer, TRADE)}

    usual = hazards()
    assert Hazard.CARBON_DUST in usual
    assert Hazard.SCREW in usual
    assert Hazard.SOLVENT not in usual
    assert hazards(grip_by="solvent") - usual == {Hazard.SOLVENT}
    assert hazards(condition="pulled") - usual == {Hazard.HEAT, Hazard.PULLED_SHAFT}
    assert Hazard.CARBON_DUST not in hazards(material="steel")
    assert Hazard.UNCURED_BOND not in hazards(bond="none")
    assert set(CAUTIONS) >= usual


def test_a_club_that_misses_says_that_its_target_stays() -> None:
    assert off_sentence((Checked.SWINGWEIGHT,)) == (
        "As built it misses swingweight; the target stays."
    )
    assert off_sentence(()) == ""


def test_an_uncalibrated_scale_and_a_tight_tolerance_are_told(solved: SolvedBuild) -> None:
    said = minds_of(solved, METRIC)
    assert "213,5 oz in from memory" in said[0]
    assert "the tolerance of swingweight" in said[1]
