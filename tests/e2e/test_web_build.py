"""A club built from its sheet in Chromium: issue, a light head, the mend, the bond, the bay."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from browser import (
    LYING,
    NARROW,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
    wider_than_window,
)
from built_jobs import DRAFT, BuiltJob, a_job
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.parts_acts import Part, PartCame
from loftwright.domain.sheet_acts import Step
from loftwright.services.bonding import Mixed, bond
from loftwright.services.build_sheets import build_now
from loftwright.services.fittings import join_club
from loftwright.services.job import job_act
from loftwright.services.sheet_issue import depart
from serving import served
from studios import app_of

LOOKS = (("bright", LYING), ("dark", UPRIGHT), ("bright", NARROW), ("dark", LYING))


@pytest.fixture
def job() -> BuiltJob:
    return a_job()


@pytest.fixture
def address(job: BuiltJob) -> Iterator[str]:
    with served(app_of(job.studio)) as found:
        yield found


def fill(page: Page, name: str, text: str) -> None:
    page.locator(f'[name="{name}"]').first.fill(text)


def tick_off(page: Page, after: str) -> None:
    """Read what the sheet says at the hold point and tick the step."""
    for hint in page.locator("#next .field:has(.hint)").all():
        said = hint.locator(".hint").inner_text()
        if said.startswith("The sheet says"):
            figure = said.removeprefix("The sheet says ").split(";")[0].rstrip(".")
            hint.locator("input").fill(figure.replace(" g", "").replace(" in", ""))
    fill(page, "initials", "K.L.")
    page.locator("#next button").first.click()
    expect(page.locator("#next h2")).to_have_text(after)


def test_a_second_person_builds_a_club_whose_head_came_three_grams_light(
    browse: Browse, faults: Faults, job: BuiltJob, address: str
) -> None:
    faults.allow("status of 4(09|22)")
    page = browse()
    page.goto(f"{address}/fittings/{job.fitting}/build")
    expect(page.locator("h1")).to_contain_text("No sheet yet")
    for name, text in DRAFT.items():
        field = page.locator(f'[name="{name}"]').first
        if not field.is_visible() or name in {"bond", "material", "condition", "grip_by"}:
            continue
        field.fill(text)
    page.get_by_role("button", name="Solve it first").click()
    expect(page.locator("h1")).to_contain_text("6.9 g into the head, 3.2 g into the butt")
    page.get_by_role("button", name="Issue revision 1").click()
    expect(page.locator("#next h2")).to_have_text("Step 1: Weigh every part")

    tick_off(page, "Step 2: Compare with the sheet")
    for name in (
        "shaft.mass_g",
        "grip.mass_g",
        *(one for one in DRAFT if one.startswith("parts.")),
    ):
        if name.endswith("mass_g"):
            fill(page, name, DRAFT[name])
    fill(page, "head.mass_g", "192")
    fill(page, "initials", "K.L.")
    page.get_by_role("button", name="Done: compare with the sheet").click()
    expect(page.locator("#next .wrong")).to_contain_text("3.0 g light of the sheet")
    fill(page, "note", "Lighter than the tested one")
    page.get_by_role("button", name="Log it and compute again").click()
    expect(page.locator("h1")).to_have_text(
        "As built it misses swingweight and mass; the target stays."
    )
    expect(page.locator("#built")).to_contain_text("−1.8 points")
    expect(page.locator("#departures")).to_contain_text("Lighter than the tested one")
    expect(page.locator("#targets")).to_contain_text("D3.0")
    page.get_by_role("button", name="Take the mend").click()
    expect(page.locator("h1")).to_have_text("Built otherwise, and still on its targets.")

    for number, name in enumerate(
        ("Tip trim", "Dry fit", "Butt trim", "Dry check", "Bond"), start=3
    ):
        tick_off(page, f"Step {number}: {name}")
    fill(page, "batch", "B7")
    fill(page, "hours", "24")
    fill(page, "initials", "M.N.")
    page.get_by_role("button", name="Bonded: lock the club until its time").click()
    until = "12:00 on 26 November 2026"
    expect(page.locator("h1")).to_have_text(f"Nobody hits this club before {until}.")
    made = build_now(job.studio, job.fitting).progress.bond
    assert made is not None
    name = join_club(job.studio, job.fitting, made.assembly).clubs[-1].name
    answer = page.request.post(
        f"{address}/fittings/{job.fitting}/acts/hand-over",
        form={"club": name},
        headers={"Accept": "application/json"},
    )
    assert answer.status == 409
    assert "the bond is curing" in answer.text()


@pytest.mark.parametrize(("theme", "size"), LOOKS)
def test_no_build_page_has_a_finding_in_any_state_size_or_theme(
    browse: Browse, theme: str, size: tuple[int, int]
) -> None:
    found = []
    for job, path in states():
        with served(app_of(job.studio)) as address:
            page = browse(theme=theme, size=size)
            page.goto(address + path)
            expect(page.locator("h1")).to_be_visible()
            found += [f"{path}: {one}" for one in axe_findings(page)]
            found += [f"{path}: small {one}" for one in small_targets(page)]
            assert wider_than_window(page) == 0, path
            page.context.close()
    assert found == []


def states() -> Iterator[tuple[BuiltJob, str]]:
    """Yield jobs and the pages to look at: empty, form, at work, an old revision, list, curing."""
    waiting = a_job(agreed=False)
    yield waiting, f"/fittings/{waiting.fitting}/build"
    asked = a_job()
    job_act(
        asked.studio, asked.fitting, [PartCame(part=Part.HEAD, figures=PartFigures(mass=0.192))]
    )
    yield asked, f"/fittings/{asked.fitting}/build"
    going = a_job()
    going.issue()
    going.work(Step.WEIGHED)
    depart(going.studio, going.fitting, {"head.mass_g": "192"}, "Light")
    yield going, f"/fittings/{going.fitting}/build"
    yield going, f"/build/{going.fitting}/sheet/1"
    yield going, "/build"
    cures = a_job()
    cures.issue()
    cures.work(Step.DRY_CHECKED)
    glue = Mixed(adhesive="Slow glue (invented)", batch="B7", hours=24.0, mixed=cures.clock.at)
    bond(cures.studio, cures.fitting, glue)
    yield cures, f"/build/{cures.fitting}"
