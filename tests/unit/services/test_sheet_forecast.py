"""The frequency that a sheet's cuts come to, told of the tested sample's profile."""

from dataclasses import replace

import pytest

from built_jobs import DRAFT, BuiltJob, a_job
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH
from loftwright.domain.build_sheet import Mind, SolvedBuild
from loftwright.domain.built import Checked
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_targets import target_rows
from loftwright.services.build_sheets import build_now
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS
from loftwright.services.measuring import keep_profile
from loftwright.services.sheet_forecast import with_forecast
from loftwright.services.sheet_issue import try_sheet

SET_UP = {"target.frequency_cpm": "270", "target.clamp_mm": "127", "target.tip_mass_g": "205"}


@pytest.fixture
def job() -> BuiltJob:
    made = a_job()
    profile = demo_profile(
        DEMO_SHAFTS[0], piece=made.tested.shaft, day=made.studio.today(), seed=3
    )
    keep_profile(made.studio, profile)
    return made


def tried(job: BuiltJob, **changes: str) -> SolvedBuild:
    kept = job.studio.store.profiles()[job.tested.shaft][-1]
    assert kept.mass is not None
    assert kept.balance is not None
    shaft = {
        "shaft.raw_length_inch": f"{kept.length / INCH:.6f}",
        "shaft.mass_g": f"{kept.mass / GRAM:.6f}",
        "shaft.balance_from_tip_inch": f"{(kept.length - kept.balance) / INCH:.6f}",
    }
    told = {name.replace("__", "."): text for name, text in changes.items()}
    whole = {**DRAFT, **SET_UP, **shaft, **told}
    draft = {name: text for name, text in whole.items() if text}
    return with_forecast(job.studio, job.tested.shaft, draft, try_sheet(draft))


def test_a_cut_shaft_is_told_stiffer_than_the_raw_one_with_its_doubt(job: BuiltJob) -> None:
    solved = tried(job)
    assert solved.frequency is not None
    assert solved.frequency.cut > solved.frequency.raw
    rows = {one.what: one for one in target_rows(solved, {}, Show())}
    row = rows["Frequency (127 mm clamp, 205 g)"]
    assert row.target == "270.0 cpm"
    assert row.predicted == f"{solved.frequency.cut / CYCLE_PER_MINUTE:.1f} cpm"
    assert row.doubt == f"{2.0 * solved.frequency.error / CYCLE_PER_MINUTE:.1f} cpm"


def test_a_longer_tip_trim_raises_it(job: BuiltJob) -> None:
    plain, trimmed = tried(job), tried(job, shaft__tip_trim_inch="0.5")
    assert plain.frequency is not None
    assert trimmed.frequency is not None
    assert trimmed.frequency.cut > plain.frequency.cut


def test_a_shaft_of_another_weight_is_told_with_its_warning(job: BuiltJob) -> None:
    assert Mind.OTHER_SHAFT not in tried(job).minds
    assert Mind.OTHER_SHAFT in tried(job, shaft__mass_g="63").minds


@pytest.mark.parametrize(
    "changes",
    [
        {"shaft__raw_length_inch": "45"},
        {"target__frequency_cpm": "", "target__clamp_mm": "", "target__tip_mass_g": ""},
        {"target__clamp_mm": "900"},
    ],
)
def test_nothing_is_told_of_another_length_or_without_a_set_up(
    job: BuiltJob, changes: dict[str, str]
) -> None:
    assert tried(job, **changes).frequency is None


def test_a_shaft_nobody_measured_has_no_frequency() -> None:
    job = a_job()
    job.issue(**{name.replace(".", "__"): text for name, text in SET_UP.items()})
    now = build_now(job.studio, job.fitting)
    assert now.solved is not None
    assert now.solved.frequency is None
    rows = target_rows(replace(now.solved), {}, Show())
    assert [one.predicted for one in rows if one.what.startswith("Frequency")] == ["–"]
    assert Checked.FREQUENCY in now.solved.sheet.also
