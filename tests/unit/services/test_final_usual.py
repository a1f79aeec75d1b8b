"""What the form of a final check begins with: how the club was built."""

from dataclasses import replace

import pytest

from final_checks import BUILD, a_built_job, a_receipt, readings
from loftwright.constants import GRAM, INCH
from loftwright.domain.check_acts import Outcome
from loftwright.domain.sheet_acts import Deviated
from loftwright.services.final_check import HeldRound, held_rounds, keep_check
from loftwright.services.final_usual import BuiltAs, built_as
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.studio import Studio
from loftwright.workshop.final import final_now
from studios import studio_in_memory

LIGHT = Deviated(key="head.mass_g", sheet="195", built="192", why="")


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def standing_of(studio: Studio, fitting: str) -> tuple[SheetNow, tuple[HeldRound, ...]]:
    record = studio.store.job_record(fitting)
    sheet = sheet_now(record)
    assert sheet is not None
    return sheet, held_rounds(record, final_now(record, studio.now()))


def in_units(built: BuiltAs | None) -> tuple[float, float, float]:
    assert built is not None
    return built.kept / INCH, built.head / GRAM, built.butt / GRAM


def test_a_club_is_built_as_its_sheet_solves_to(studio: Studio) -> None:
    sheet, rounds = standing_of(studio, a_built_job(studio))
    expected = pytest.approx((43.125, 6.8655, 3.2465), abs=1e-3)
    assert in_units(built_as(sheet, rounds, changed=False)) == expected


def test_a_lighter_head_alone_changes_no_weight_that_was_put_in(studio: Studio) -> None:
    sheet, rounds = standing_of(studio, a_built_job(studio, LIGHT))
    assert in_units(built_as(sheet, rounds, changed=False))[1] == pytest.approx(6.8655, abs=1e-3)


def test_what_was_cut_or_added_otherwise_takes_the_place_of_the_plan(studio: Studio) -> None:
    sheet, rounds = standing_of(studio, a_built_job(studio))
    made = (
        Deviated(key="made.cut_length_inch", sheet="43.125", built="43.0", why=""),
        Deviated(key="made.head_added_g", sheet="6.9", built="8", why=""),
        Deviated(key="made.head_added_g", sheet="6.9", built="9.9", why=""),
    )
    told = replace(sheet, departures=made)
    assert in_units(built_as(told, rounds, changed=False)) == pytest.approx(
        (43.0, 9.9, 3.2465), abs=1e-3
    )


def test_the_last_round_counts_until_something_changes(studio: Studio) -> None:
    fitting = a_built_job(studio)
    measured = readings(built__head_added_g=8.0, built__cut_length_inch=43.1)
    keep_check(
        studio, fitting, a_receipt(studio, measured, outcome=Outcome.REWORK, rework="weigh")
    )
    sheet, rounds = standing_of(studio, fitting)
    assert in_units(built_as(sheet, rounds, changed=False)) == pytest.approx((43.1, 8.0, 3.2))
    assert in_units(built_as(sheet, rounds, changed=True))[1] == pytest.approx(6.8655, abs=1e-3)


def test_of_a_sheet_that_cannot_be_built_nothing_is_known(studio: Studio) -> None:
    heavy = BUILD.replace("mass_g = 195", "mass_g = 215")
    sheet, rounds = standing_of(studio, a_built_job(studio, build=heavy))
    assert built_as(sheet, rounds, changed=False) is None
