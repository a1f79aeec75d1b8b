"""What a sheet's form holds before anybody typed, and what of it is missing."""

from datetime import date

import pytest

from built_jobs import DRAFT, BuiltJob, a_job, another_quote
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.built import Checked
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.parts_acts import Part, PartCame, PartSettled, Settled
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.terms import Adhesive, CalibrationClub, Terms
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import InputError
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.services.build_sheets import angles_as_set, build_now, start_of
from loftwright.services.job import job_act
from loftwright.services.sheet_text import draft_of, issued_of, lacking
from loftwright.services.sheet_usual import CAME, OTHER_SAMPLE, TESTED, Usual
from loftwright.services.terms import change_terms
from loftwright.workshop.mends import as_set


@pytest.fixture
def job() -> BuiltJob:
    return a_job()


def start(job: BuiltJob) -> Usual:
    return start_of(job.studio, build_now(job.studio, job.fitting))


def test_targets_are_those_of_the_tested_club(job: BuiltJob) -> None:
    usual = start(job)
    assert usual.draft["target.length_inch"] == "45"
    assert usual.draft["target.swingweight"] == "D3.0"
    assert usual.draft["target.mass_g"] == "325"
    assert "target.club_moi_kgcm2" not in usual.draft
    spec = job.quote.spec
    head = HeadAngles(loft=10.4 * DEGREE, lie=58.5 * DEGREE, face=0.0)
    sat = as_set(head, spec, "one up", Convention.C)
    assert sat.loft > head.loft + 1.0 * DEGREE
    assert float(usual.draft["target.loft_deg"]) == pytest.approx(sat.loft / DEGREE, abs=1e-5)
    assert usual.sources["target.loft_deg"].endswith("as measured, its sleeve at one up.")
    assert usual.sources["target.mass_g"] == TESTED
    assert usual.draft["fitter"] == "K.L."


def test_a_club_whose_swingweight_was_not_read_gives_its_inertia_too(job: BuiltJob) -> None:
    known = PartFigures(swingweight=33.0, inertia=0.28694)
    day = date(2026, 11, 21)
    job.studio.store.keep_card(MeasuredCard(item=job.tested.id, day=day, by="", figures=known))
    draft = start(job).draft
    assert draft["target.club_moi_kgcm2"] == "2869.4"
    assert "target.mass_g" not in draft


def test_a_part_that_did_not_come_yet_says_that_its_mass_is_the_tested_ones(
    job: BuiltJob,
) -> None:
    usual = start(job)
    assert usual.draft["head.mass_g"] == "195"
    assert usual.sources["head.mass_g"] == OTHER_SAMPLE


def test_parts_that_came_bring_their_figures_serials_and_how_they_were_settled(
    job: BuiltJob,
) -> None:
    head = PartFigures(mass=192.0 * GRAM)
    shaft = PartFigures(mass=61.0 * GRAM, length=46.0 * INCH, balance=23.4 * INCH)
    job_act(
        job.studio,
        job.fitting,
        [
            PartCame(part=Part.HEAD, figures=head, serial="H-17"),
            PartCame(part=Part.SHAFT, figures=shaft),
            PartSettled(part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=3.0 * GRAM),
            PartSettled(part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting="middle"),
        ],
    )
    usual = start(job)
    assert usual.draft["head.mass_g"] == "192"
    assert usual.sources["head.mass_g"] == CAME
    assert usual.draft["head_serial"] == "H-17"
    assert usual.draft["shaft.balance_from_tip_inch"] == "23.4"
    assert usual.draft["setting"] == "middle"


def test_a_part_that_goes_back_is_not_there(job: BuiltJob) -> None:
    came = PartCame(part=Part.HEAD, figures=PartFigures(mass=180.0 * GRAM))
    back = PartSettled(part=Part.HEAD, settled=Settled.SEND_BACK)
    job_act(job.studio, job.fitting, [came, back])
    assert start(job).draft["head.mass_g"] == "195"


def test_the_shop_s_terms_are_on_the_sheet(job: BuiltJob) -> None:
    terms = Terms(
        adhesives=(Adhesive(name="Slow glue (invented)", hours=24.0),),
        tolerances=Tolerances(swingweight=0.7),
        calibration=CalibrationClub(mass=0.310, balance=0.8446, reads=28.5),
        edition="Equipment Rules of a later year (invented)",
    )
    change_terms(job.studio, terms, version=0)
    draft = start(job).draft
    assert draft["tolerance.swingweight"] == "0.7"
    assert draft["calibration.reads"] == "C8.5"
    assert draft["rules.edition"].startswith("Equipment Rules of a later year")
    assert draft["adhesive"] == "Slow glue (invented)"


def test_nothing_begins_before_the_golfer_agreed() -> None:
    job = a_job(agreed=False)
    with pytest.raises(InputError, match="not agreed"):
        start(job)


def test_a_next_revision_begins_with_the_sheet_that_stands_and_a_new_quotes_length(
    job: BuiltJob,
) -> None:
    job.issue(ports="none")
    job_act(job.studio, job.fitting, [Quoted(quote=another_quote(job, length=44.5 * INCH))])
    job_act(job.studio, job.fitting, [Agreed(name="S. Bright")])
    now = build_now(job.studio, job.fitting)
    assert now.progress.requoted
    usual = start_of(job.studio, now)
    assert usual.draft["ports"] == "none"
    assert usual.draft["target.length_inch"] == "44.5"
    assert usual.sources["target.length_inch"] == "Of the new quote."


def test_every_mass_that_is_missing_is_named_with_its_part() -> None:
    draft = {name: text for name, text in DRAFT.items() if not name.endswith(".mass_g")}
    found = lacking(draft)
    for part in ("head", "shaft", "grip", "sleeve", "screw"):
        name = f"parts.{part}.mass_g" if part in {"sleeve", "screw"} else f"{part}.mass_g"
        said, mend = found[name]
        assert part in said
        assert mend.startswith("Weigh it")


def test_a_torque_needs_its_source() -> None:
    draft = {name: text for name, text in DRAFT.items() if name != "torque_source"}
    assert list(lacking(draft)) == ["torque_source"]


def test_a_sheet_comes_back_from_its_text_word_for_word() -> None:
    full = dict(DRAFT) | {"dry_fit.without": "grip, tape", "rules.competition_uses_46_inch": "yes"}
    issued = issued_of(full)
    assert draft_of(issued.build, issued.fields) == full
    assert set(full) <= set(FIELDS)


def test_a_strong_head_with_its_sleeve_turned_is_judged_as_it_is_set(job: BuiltJob) -> None:
    head = {"head_loft_deg": "9.4", "head_lie_deg": "58.5", "head_face_deg": "0"}
    now = build_now(job.studio, job.fitting)
    middle = angles_as_set(now, head | {"setting": "middle"})
    turned = angles_as_set(now, head | {"setting": "one up"})
    assert middle[Checked.LOFT] == pytest.approx(9.4 * DEGREE)
    assert turned[Checked.LOFT] > middle[Checked.LOFT] + 1.0 * DEGREE
    assert angles_as_set(now, {"setting": "one up"}) == {}
