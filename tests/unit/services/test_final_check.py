"""A finished club held against its sheet: verdicts, refusals, rounds."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from builds import BUILD_TOML
from final_checks import (
    BUILD,
    LOOKED,
    a_bond,
    a_built_job,
    a_golfers_fitting,
    a_receipt,
    readings,
    without,
)
from loftwright.constants import GRAM
from loftwright.domain.build_sheet import CheckedBuild, Mind
from loftwright.domain.built import Checked, Contradiction
from loftwright.domain.check_acts import Outcome
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.sheet_acts import Deviated, SheetIssued
from loftwright.domain.verdict import Fit
from loftwright.errors import ConflictError, InputError
from loftwright.services.final_check import held, held_rounds, keep_check, open_points
from loftwright.services.job import job_act
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.studio import Studio
from loftwright.workshop.final import HandCheck, final_now
from studios import Clock, studio_in_memory

LIGHT = Deviated(key="head.mass_g", sheet="195", built="192", why="the head that came")


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def the_sheet(studio: Studio, fitting: str) -> SheetNow:
    found = sheet_now(studio.store.job_record(fitting))
    assert found is not None
    return found


def fits(checked: CheckedBuild) -> dict[Checked, Fit]:
    return {line.checked: line.fit for line in checked.targets}


def checked_of(measured: str, build: str = BUILD) -> CheckedBuild:
    act = SheetIssued(build=build, fields={})
    at = datetime(2026, 11, 25, tzinfo=UTC)
    sheet = sheet_now([JobEntry(sequence=1, at=at, by="", act=act, group=1)])
    assert sheet is not None
    return held(sheet, measured)


def test_every_target_of_the_sheet_is_told_in_when_it_is() -> None:
    checked = checked_of(readings())
    assert fits(checked) == dict.fromkeys(
        (
            *(Checked.LENGTH, Checked.SWINGWEIGHT, Checked.MASS, Checked.BALANCE),
            *(Checked.LOFT, Checked.FREQUENCY, Checked.GRIP),
        ),
        Fit.IN,
    )
    assert not open_points(checked, LOOKED).any
    assert checked.contradicted == ()


def test_a_reading_at_its_tolerance_is_neither_in_nor_out() -> None:
    found = fits(checked_of(readings(loft_deg__value=11.1)))
    assert found[Checked.LOFT] is Fit.CANNOT_TELL


def test_a_light_head_is_foreseen_as_it_was_built_and_the_target_stays(studio: Studio) -> None:
    fitting = a_built_job(studio, LIGHT)
    sheet = the_sheet(studio, fitting)
    light = readings(mass_g__value=322.1, balance_inch__value=32.98, swingweight__value="D1.1")
    checked = held(sheet, light)
    mass = next(line for line in checked.targets if line.checked is Checked.MASS)
    assert mass.target / GRAM == pytest.approx(325.0)
    assert checked.predicted[Checked.MASS].value / GRAM == pytest.approx(322.0, abs=0.05)
    assert checked.contradicted == ()
    assert open_points(checked, LOOKED).out == (Checked.SWINGWEIGHT, Checked.MASS)


def test_without_what_was_put_in_the_parts_are_taken_with_what_the_sheet_asks_for() -> None:
    checked = checked_of(without("built"))
    assert checked.predicted[Checked.MASS].value / GRAM == pytest.approx(325.0)


def test_of_readings_that_contradict_nothing_is_told() -> None:
    checked = checked_of(readings(swingweight__value="D6.0"))
    assert [one.what for one in checked.contradicted] == [Contradiction.SCALE]
    found = fits(checked)
    touched = (Checked.SWINGWEIGHT, Checked.MASS, Checked.BALANCE)
    assert {found[one] for one in touched} == {Fit.CANNOT_TELL}
    assert found[Checked.LENGTH] is Fit.IN
    points = open_points(checked, LOOKED)
    assert (points.out, points.untold) == ((), touched)


def test_a_target_that_was_not_read_is_named() -> None:
    points = open_points(checked_of(without("loft_deg", "grip_inch")), LOOKED)
    assert points.unread == (Checked.LOFT, Checked.GRIP)


def test_a_frequency_of_another_set_up_tells_nothing() -> None:
    checked = checked_of(readings(frequency_cpm__clamp_mm=152.0))
    assert Mind.SET_UP in checked.minds
    assert fits(checked)[Checked.FREQUENCY] is Fit.CANNOT_TELL


def test_a_frequency_without_its_set_up_is_refused() -> None:
    with pytest.raises(InputError, match="without its clamp") as caught:
        checked_of(readings(frequency_cpm__clamp_mm=None))
    assert caught.value.place == "final check, frequency_cpm, clamp_mm"


def test_a_sheet_without_a_mass_says_which(studio: Studio) -> None:
    fitting = a_built_job(studio, build=BUILD_TOML.replace("mass_g = 195\n", ""))
    with pytest.raises(InputError, match="mass of the head is missing"):
        held(the_sheet(studio, fitting), readings())


def test_a_good_club_is_accepted(studio: Studio) -> None:
    fitting = a_built_job(studio)
    record = keep_check(studio, fitting, a_receipt(studio))
    assert record[-1].act == a_receipt(studio)


@pytest.mark.parametrize(
    ("changed", "place", "said"),
    [
        ({"second": " "}, "second", "nobody is named"),
        ({"second": "Quentin Rook"}, "second", "among those who built it"),
        ({"day": None}, "day", "day is missing"),
        ({"looked": LOOKED | {"rattle": False}}, "reason", "not everything stands"),
        (
            {"looked": {k: v for k, v in LOOKED.items() if k != "turns"}},
            "turns",
            "was not looked at",
        ),
        ({"outcome": Outcome.REWORK}, "rework", "is not written"),
        ({"outcome": Outcome.REJECT}, "reason", "rejected is not written"),
        ({"measured": without("length_inch")}, "reason", "not everything stands"),
    ],
)
def test_a_receipt_that_leaves_something_open_is_not_kept(
    studio: Studio, changed: dict[str, Any], place: str, said: str
) -> None:
    fitting = a_built_job(studio)
    before = studio.store.job_record(fitting)
    with pytest.raises(InputError, match=said) as caught:
        keep_check(studio, fitting, a_receipt(studio, **changed))
    assert caught.value.place == place
    assert studio.store.job_record(fitting) == before


def test_tomorrow_has_not_been_looked_at(studio: Studio) -> None:
    fitting = a_built_job(studio)
    with pytest.raises(InputError, match="still to come"):
        keep_check(studio, fitting, a_receipt(studio, day=studio.today() + timedelta(days=1)))


def test_the_builder_may_look_alone_if_that_is_said(studio: Studio) -> None:
    fitting = a_built_job(studio)
    keep_check(studio, fitting, a_receipt(studio, second="QR", alone=True))


def test_what_a_club_does_not_have_need_not_be_looked_at(studio: Studio) -> None:
    fitting = a_built_job(studio)
    looked = {k: v for k, v in LOOKED.items() if k not in {"screw", "index", "ferrule"}}
    keep_check(studio, fitting, a_receipt(studio, looked=looked))


def test_a_club_with_a_line_out_is_accepted_with_a_reason(studio: Studio) -> None:
    fitting = a_built_job(studio)
    out = readings(loft_deg__value=11.5)
    with pytest.raises(InputError):
        keep_check(studio, fitting, a_receipt(studio, out))
    keep_check(studio, fitting, a_receipt(studio, out, reason="the golfer wants it so"))


def test_a_curing_bond_is_refused_with_its_time_on_the_shops_clock() -> None:
    clock = Clock()
    studio = studio_in_memory(clock)
    fitting = a_built_job(studio, hours=2.5)
    with pytest.raises(ConflictError, match="cures until 14:30 on 25 November"):
        keep_check(studio, fitting, a_receipt(studio))
    clock.forward(150.0)
    keep_check(studio, fitting, a_receipt(studio))


def test_without_a_sheet_or_with_the_order_off_nothing_is_kept(studio: Studio) -> None:
    with pytest.raises(ConflictError, match="no build sheet"):
        keep_check(studio, a_golfers_fitting(studio), a_receipt(studio))
    with pytest.raises(ConflictError, match="order is off"):
        keep_check(studio, a_built_job(studio, Withdrawn(reason="")), a_receipt(studio))


def test_a_stale_page_keeps_nothing_and_a_repeated_one_keeps_it_once(studio: Studio) -> None:
    fitting = a_built_job(studio)
    seen = studio.store.job_record(fitting)[-1].sequence
    keep_check(studio, fitting, a_receipt(studio), key="k", seen=seen)
    record = keep_check(studio, fitting, a_receipt(studio), key="k", seen=seen)
    assert len(record) == seen + 1
    with pytest.raises(ConflictError):
        keep_check(studio, fitting, a_receipt(studio), key="other", seen=seen)


def test_out_then_reworked_then_in_with_what_changed_between(studio: Studio) -> None:
    fitting = a_built_job(studio)
    out = readings(grip_inch__value=0.905)
    looked = LOOKED | {"rattle": False}
    first = a_receipt(
        studio, out, outcome=Outcome.REWORK, rework="two turns of tape", looked=looked
    )
    keep_check(studio, fitting, first)
    job_act(studio, fitting, [LIGHT, a_bond(studio)])
    light = readings(mass_g__value=322.2, swingweight__value="D1.2", balance_inch__value=32.98)
    keep_check(studio, fitting, a_receipt(studio, light, reason="the golfer likes it light"))
    record = studio.store.job_record(fitting)
    rounds = held_rounds(record, final_now(record, studio.now()))
    assert [one.open_points.out for one in rounds] == [
        (Checked.GRIP,),
        (Checked.SWINGWEIGHT, Checked.MASS),
    ]
    assert rounds[0].reread == ()
    assert [one.checked for one in rounds[1].reread] == [
        Checked.SWINGWEIGHT,
        Checked.MASS,
        Checked.BALANCE,
        Checked.GRIP,
    ]
    assert rounds[1].put_right == (HandCheck.RATTLE,)
    assert rounds[1].round.departures == (LIGHT,)
    assert rounds[1].round.bonded
    # The first round stays held against the sheet as it stood then.
    assert rounds[0].checked.sheet.parts.head.mass / GRAM == pytest.approx(195.0)
    assert rounds[1].checked.sheet.parts.head.mass / GRAM == pytest.approx(192.0)
