"""A sheet worked through: holds, departures, the mend, the bond, and the lock in the bay."""

from datetime import timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from built_jobs import DRAFT, BuiltJob, a_job
from loftwright.constants import GRAM, INCH
from loftwright.domain.acts import HandedOver
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.order import Kept
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.errors import ConflictError, InputError
from loftwright.physics.build.solve import Quantity
from loftwright.services.acting import act
from loftwright.services.bonding import Mixed, bond
from loftwright.services.build_sheets import build_now, mend_of, off_target
from loftwright.services.fittings import join_club
from loftwright.services.job import job_act, undo_job
from loftwright.services.opening import open_studio
from loftwright.services.sheet_issue import depart, issue_sheet
from loftwright.services.sheet_steps import CHECK_LENGTH, do_step, hold_figures, missed


@pytest.fixture
def job() -> BuiltJob:
    made = a_job()
    made.issue()
    return made


def glue(job: BuiltJob, hours: float = 24.0) -> Mixed:
    return Mixed(adhesive="Slow glue (invented)", batch="B7", hours=hours, mixed=job.clock.at)


def light_head(job: BuiltJob) -> None:
    depart(job.studio, job.fitting, {"head.mass_g": "192"}, "Lighter than the tested one")


def test_a_dry_fitted_head_three_grams_light_misses_by_one_point_eight_points(
    job: BuiltJob,
) -> None:
    light_head(job)
    now = build_now(job.studio, job.fitting)
    assert now.built is not None
    assert now.built.apart[Quantity.SWINGWEIGHT] == pytest.approx(-1.8, abs=0.1)
    assert set(off_target(now)) == {Checked.SWINGWEIGHT, Checked.MASS}
    assert now.draft["target.swingweight"] == "D3.0"
    assert [one.sheet for one in now.progress.issues[-1].departures] == ["195"]


def test_the_mend_brings_the_club_back_to_its_target(job: BuiltJob) -> None:
    light_head(job)
    mend = mend_of(build_now(job.studio, job.fitting))
    assert list(mend) == ["made.head_added_g"]
    assert float(mend["made.head_added_g"]) == pytest.approx(6.8655 + 3.0, abs=0.001)
    depart(job.studio, job.fitting, mend, "The mend")
    after = build_now(job.studio, job.fitting)
    assert off_target(after) == ()
    assert mend_of(after) == {}
    assert after.made is not None
    assert after.made.head_added == pytest.approx(9.8655 * GRAM, abs=1e-6)


def test_a_part_more_than_a_gram_off_stops_the_work(job: BuiltJob) -> None:
    job.work(Step.WEIGHED)
    now = build_now(job.studio, job.fitting)
    read = {one.name: one.sheet for one in hold_figures(Step.COMPARED, now)} | {
        "head.mass_g": 192.0
    }
    assert [one.figure.name for one in missed(Step.COMPARED, now, read)] == ["head.mass_g"]
    with pytest.raises(InputError, match="off its sheet"):
        do_step(job.studio, job.fitting, StepDone(step=Step.COMPARED, initials="K.L."), read)
    light_head(job)
    do_step(job.studio, job.fitting, StepDone(step=Step.COMPARED, initials="K.L."), read)
    assert build_now(job.studio, job.fitting).progress.next is Step.TIP_TRIMMED
    with pytest.raises(ConflictError, match="miss its target"):
        do_step(job.studio, job.fitting, StepDone(step=Step.TIP_TRIMMED, initials="K.L."), {})


def test_a_half_gram_is_within_the_hold(job: BuiltJob) -> None:
    now = build_now(job.studio, job.fitting)
    read = {one.name: one.sheet + 0.5 for one in hold_figures(Step.COMPARED, now)}
    assert missed(Step.COMPARED, now, read) == ()


def test_steps_go_in_order(job: BuiltJob) -> None:
    with pytest.raises(ConflictError, match="another step comes first"):
        do_step(job.studio, job.fitting, StepDone(step=Step.BUTT_TRIMMED, initials="K.L."), {})


def test_a_hold_point_waits_for_its_reading(job: BuiltJob) -> None:
    job.work(Step.BUTT_TRIMMED)
    with pytest.raises(InputError, match="length was not read"):
        do_step(job.studio, job.fitting, StepDone(step=Step.DRY_CHECKED, initials="K.L."), {})
    read = {CHECK_LENGTH: 45.2}
    with pytest.raises(InputError, match="length is off"):
        do_step(job.studio, job.fitting, StepDone(step=Step.DRY_CHECKED, initials="K.L."), read)


def test_a_target_is_never_departed_from(job: BuiltJob) -> None:
    with pytest.raises(InputError, match="target stays"):
        depart(job.studio, job.fitting, {"target.swingweight": "D1"}, "Easier")


@pytest.mark.parametrize("name", ["made.head_added_g", "made.cut_length_inch"])
def test_less_than_nothing_is_neither_added_nor_cut(job: BuiltJob, name: str) -> None:
    with pytest.raises(InputError, match="cannot be cut or added"):
        depart(job.studio, job.fitting, {name: "-2"}, "Slip")


def test_a_part_that_cannot_be_is_refused_before_it_is_logged(job: BuiltJob) -> None:
    with pytest.raises(InputError, match="heavier than a part"):
        depart(job.studio, job.fitting, {"head.mass_g": "1950"}, "Slip")
    assert build_now(job.studio, job.fitting).built is None


def test_a_cut_that_the_shaft_does_not_give_is_told_and_stops(job: BuiltJob) -> None:
    depart(job.studio, job.fitting, {"made.cut_length_inch": "47"}, "Slip")
    now = build_now(job.studio, job.fitting)
    assert "too short" in now.cannot
    job.work(Step.COMPARED)
    with pytest.raises(ConflictError, match="comes to no club"):
        do_step(job.studio, job.fitting, StepDone(step=Step.TIP_TRIMMED, initials="K.L."), {})


def test_a_shaft_cut_short_keeps_its_length_in_the_mend(job: BuiltJob) -> None:
    job.work(Step.DRY_FITTED)
    depart(job.studio, job.fitting, {"made.cut_length_inch": "43"}, "Cut in the wrong place")
    now = build_now(job.studio, job.fitting)
    assert now.built is not None
    assert now.built.length_apart == pytest.approx(-0.125 * INCH, abs=1e-9)
    assert "made.cut_length_inch" not in mend_of(now)
    assert Checked.LENGTH in off_target(now)


def test_a_sheet_that_cannot_be_built_is_not_issued(job: BuiltJob) -> None:
    draft = dict(DRAFT) | {"target.swingweight": "D8", "target.mass_g": "318"}
    with pytest.raises(InputError, match="cannot be built"):
        issue_sheet(job.studio, job.fitting, draft)
    assert len(build_now(job.studio, job.fitting).progress.issues) == 1


def test_a_next_revision_asks_for_every_hold_point_again(job: BuiltJob) -> None:
    job.work(Step.COMPARED)
    job.issue(target__swingweight="D2")
    now = build_now(job.studio, job.fitting)
    assert now.sheet is not None
    assert now.sheet.revision == 2
    assert now.progress.next is Step.WEIGHED


def test_an_order_that_is_off_stops_the_work(job: BuiltJob) -> None:
    job_act(job.studio, job.fitting, [Withdrawn(reason="Changed her mind")])
    with pytest.raises(ConflictError, match="order is off"):
        do_step(job.studio, job.fitting, StepDone(step=Step.WEIGHED, initials="K.L."), {})


def test_the_bond_puts_the_golfer_s_new_club_into_the_rack_locked_until_its_time(
    job: BuiltJob,
) -> None:
    job.work(Step.DRY_CHECKED)
    made = bond(job.studio, job.fitting, glue(job))
    rack = job.studio.store.rack()
    club = rack.assemblies[made.assembly]
    assert made.not_before == job.clock.at + timedelta(hours=24)
    assert club.owner == job.golfer
    assert club.length == pytest.approx(45.0 * INCH)
    assert {club.head, club.shaft} == {made.head_piece, made.shaft_piece}
    assert job.tested.head not in {club.head, club.shaft}
    for piece in (club.head, club.shaft):
        assert rack.pieces[piece].locked_until == made.not_before
    assert rack.pieces[club.head].mass == pytest.approx(201.8655 * GRAM, abs=1e-5)


def test_the_bay_refuses_the_club_before_its_time_and_hands_it_over_after(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    made = bond(job.studio, job.fitting, glue(job))
    now = join_club(job.studio, job.fitting, made.assembly)
    name = now.clubs[-1].name
    with pytest.raises(ConflictError, match="the bond is curing"):
        act(job.studio, job.fitting, [HandedOver(club=name)])
    job.clock.forward(24 * 60 + 1)
    assert act(job.studio, job.fitting, [HandedOver(club=name)]).in_hand == name


def test_the_bay_tells_the_hour_that_is_on_the_tag(job: BuiltJob) -> None:
    job.studio.zone = ZoneInfo("Europe/Vienna")
    job.work(Step.DRY_CHECKED)
    made = bond(job.studio, job.fitting, glue(job))
    name = join_club(job.studio, job.fitting, made.assembly).clubs[-1].name
    with pytest.raises(ConflictError, match="before 13:00 on 26 November"):
        act(job.studio, job.fitting, [HandedOver(club=name)])


def test_the_cure_is_not_ticked_before_its_time(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    bond(job.studio, job.fitting, glue(job))
    cured = StepDone(step=Step.CURED, initials="K.L.")
    with pytest.raises(ConflictError, match="still curing"):
        do_step(job.studio, job.fitting, cured, {})
    job.clock.forward(24 * 60 + 1)
    do_step(job.studio, job.fitting, cured, {})
    assert build_now(job.studio, job.fitting).progress.next is Step.GRIPPED


def test_a_studio_on_disk_keeps_the_whole_build(tmp_path: Path) -> None:
    job = a_job(studio=open_studio(tmp_path))
    job.issue()
    light_head(job)
    depart(job.studio, job.fitting, mend_of(build_now(job.studio, job.fitting)), "The mend")
    job.work(Step.DRY_CHECKED)
    made = bond(job.studio, job.fitting, glue(job))
    job.studio.store.close()
    again = open_studio(tmp_path)
    now = build_now(again, job.fitting)
    assert now.progress.bond == made
    assert off_target(now) == ()
    assert again.store.rack().pieces[made.head_piece].locked_until == made.not_before
    again.store.close()


def test_a_club_sent_back_is_bonded_again_on_another_sheet(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    first = bond(job.studio, job.fitting, glue(job))
    back = Received(measured="", looked={}, outcome=Outcome.REWORK, second="M.", rework="Loose")
    job_act(job.studio, job.fitting, [back])
    job.issue()
    job.work(Step.DRY_CHECKED)
    job.clock.forward(60)
    again = bond(job.studio, job.fitting, glue(job))
    assert again.assembly == first.assembly
    assert again.not_before > first.not_before
    assert build_now(job.studio, job.fitting).progress.next is Step.CURED


def test_a_kept_head_is_the_golfer_s_own_sample() -> None:
    job = a_job(kept=Kept.HEAD)
    job.issue()
    job.work(Step.DRY_CHECKED)
    made = bond(job.studio, job.fitting, glue(job))
    store = job.studio.store
    own = store.rack().assemblies[store.golfer(job.golfer).value.own or ""]
    assert made.head_piece == own.head
    assert made.shaft_piece != own.shaft
    assert store.rack().pieces[own.head].locked_until == made.not_before


def test_a_kept_head_of_a_club_that_nobody_wrote_down_is_asked_for() -> None:
    job = a_job(kept=Kept.HEAD, own=False)
    job.issue()
    job.work(Step.DRY_CHECKED)
    before = job.studio.store.rack()
    with pytest.raises(InputError, match="own club"):
        bond(job.studio, job.fitting, glue(job))
    assert job.studio.store.rack() == before
    assert build_now(job.studio, job.fitting).progress.bond is None


def test_a_setting_that_the_sleeve_does_not_have_is_refused_before_anything_is_kept(
    job: BuiltJob,
) -> None:
    job.issue(setting="two up")
    job.work(Step.DRY_CHECKED)
    before = job.studio.store.rack()
    with pytest.raises(InputError, match="no setting"):
        bond(job.studio, job.fitting, glue(job))
    assert job.studio.store.rack() == before


def test_a_bond_made_again_keeps_its_samples(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    first = bond(job.studio, job.fitting, glue(job))
    undo_job(job.studio, job.fitting, build_now(job.studio, job.fitting).seen)
    again = bond(job.studio, job.fitting, glue(job, hours=48.0))
    assert (again.assembly, again.head_piece) == (first.assembly, first.head_piece)
    piece = job.studio.store.rack().pieces[again.head_piece]
    assert piece.locked_until == job.clock.at + timedelta(hours=48)


def test_the_same_key_bonds_once(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    first = bond(job.studio, job.fitting, glue(job), key="k")
    assert bond(job.studio, job.fitting, glue(job), key="k") == first
    assert sum(one.owner == job.golfer for one in job.studio.store.rack().assemblies.values()) == 2


def test_glue_that_is_not_mixed_yet_is_refused(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    late = Mixed(adhesive="G", batch="", hours=24.0, mixed=job.clock.at + timedelta(hours=5))
    with pytest.raises(InputError, match="not mixed yet"):
        bond(job.studio, job.fitting, late)


def test_a_bonded_club_gets_another_sheet_only_when_the_check_sends_it_back(
    job: BuiltJob,
) -> None:
    job.work(Step.DRY_CHECKED)
    bond(job.studio, job.fitting, glue(job))
    with pytest.raises(ConflictError, match="bonded on the sheet"):
        job.issue()
    back = Received(measured="", looked={}, outcome=Outcome.REWORK, second="M.", rework="Loft")
    job_act(job.studio, job.fitting, [back])
    job.issue()
    assert len(build_now(job.studio, job.fitting).progress.issues) == 2
