"""The final check in Chromium: one value out, reworked, accepted; sound in every theme."""

import pytest
from playwright.sync_api import Page

from browser import (
    LYING,
    NARROW,
    THEMES,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
)
from browser import wider_than_window as excess
from final_checks import TYPED, a_built_job
from loftwright.domain.check_acts import Outcome, Received
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from loftwright.workshop.final import HandCheck
from loftwright.workshop.standing import standing
from serving import served
from studios import studio_in_memory

FIGURES = (
    *("length", "mass", "balance", "swingweight", "loft", "frequency", "clamp", "tip_mass"),
    *("grip", "head_added", "butt_added"),
)


def fill(page: Page, **changed: str) -> None:
    """Type the readings, as they are good or changed."""
    for name in FIGURES:
        page.locator(f"[name={name}]").fill(changed.get(name, TYPED[name]))


def look(page: Page) -> None:
    """Answer every look with yes and say who looked."""
    for one in HandCheck:
        page.locator(f"input[name=look_{one.value}][value=yes]").check()
    page.get_by_label("Who looked").fill("Petronella Vane")


def receipts(studio: Studio, fitting: str) -> list[Received]:
    record = standing(studio.store.job_record(fitting))
    return [one.act for one in record if isinstance(one.act, Received)]


def sound(page: Page) -> tuple[list[str], list[str], int]:
    return axe_findings(page), small_targets(page), excess(page)


def test_one_value_out_is_reworked_and_the_club_accepted(browse: Browse, faults: Faults) -> None:
    faults.allow("422")
    studio = studio_in_memory()
    fitting = a_built_job(studio)
    page = browse()
    with served(create_app(studio)) as address:
        page.goto(f"{address}/fittings/{fitting}/final-check")
        fill(page, grip="0.90")
        page.get_by_role("button", name="Check, without keeping").click()
        page.get_by_role("heading", name="Out: grip size by −0.020 in.").wait_for()
        assert receipts(studio, fitting) == []
        look(page)
        page.get_by_label("Accept", exact=True).check()
        page.get_by_role("button", name="Keep the receipt").click()
        page.get_by_text("It is accepted although not everything stands.").wait_for()
        page.get_by_label("Rework", exact=True).check()
        page.get_by_role("button", name="Keep the receipt").click()
        page.get_by_role("heading", name="Rework round 1, then check the club again.").wait_for()
        fill(page)
        look(page)
        page.get_by_label("Accept", exact=True).check()
        page.get_by_role("button", name="Keep the receipt").click()
        page.get_by_role("heading", name="Accepted on 25 November 2026.").wait_for()
        page.get_by_text("Grip size 0.900 in before, 0.921 in now.").wait_for()
        page.get_by_text("The screw is checked again after the first session.").wait_for()
        kept = receipts(studio, fitting)
        assert [one.outcome for one in kept] == [Outcome.REWORK, Outcome.ACCEPT]
        assert kept[0].rework == "Grip size −0.020 in: more tape under it, or another core."
        page.get_by_role("button", name="Undo final check").click()
        page.get_by_role("heading", name="Rework round 1, then check the club again.").wait_for()
        page.get_by_role("button", name="Do again: final check").click()
        page.get_by_role("heading", name="Accepted on 25 November 2026.").wait_for()
    assert len(receipts(studio, fitting)) == 2


def test_a_receipt_is_kept_by_keyboard_alone(browse: Browse) -> None:
    studio = studio_in_memory()
    fitting = a_built_job(studio)
    page = browse()
    with served(create_app(studio)) as address:
        page.goto(f"{address}/build/{fitting}/final-check")
        page.locator("[name=length]").focus()
        for name in ("length", "mass", "balance", "swingweight"):
            assert page.evaluate("document.activeElement.name") == name
            page.keyboard.type(TYPED[name])
            page.keyboard.press("Tab")
            page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name="All 4 readings with a target are in.").wait_for()
        page.locator("input[name=look_parts]").first.focus()
        for _ in HandCheck:
            page.keyboard.press("Space")
            page.keyboard.press("Tab")
        page.keyboard.type("Petronella Vane")
        page.locator("input[name=outcome]").first.focus()
        page.keyboard.press("Space")
        page.keyboard.press("Tab")
        page.keyboard.press("Tab")
        page.keyboard.type("loft and grip are as the golfer brought them")
        page.locator("button[value=keep]").focus()
        page.keyboard.press("Enter")
        page.get_by_role("heading", name="Accepted on 25 November 2026.").wait_for()
    (kept,) = receipts(studio, fitting)
    assert kept.looked == dict.fromkeys((one.value for one in HandCheck), True)


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW])
def test_the_final_check_is_sound_in_every_state(
    browse: Browse, faults: Faults, theme: str, size: tuple[int, int]
) -> None:
    faults.allow("422")
    studio = studio_in_memory()
    fitting, curing = a_built_job(studio), a_built_job(studio, hours=5.0)
    page = browse(theme=theme, size=size)
    with served(create_app(studio)) as address:
        page.goto(f"{address}/fittings/{curing}/final-check")
        assert sound(page) == ([], [], 0)
        page.goto(f"{address}/build/{fitting}/final-check")
        page.get_by_text("Neck, straightness, grip and head").click()
        page.get_by_text("Club MOI by pendulum").click()
        assert sound(page) == ([], [], 0)
        fill(page, swingweight="D6")
        page.get_by_role("button", name="Check, without keeping").click()
        page.get_by_role("heading", name="Readings contradict each other").wait_for()
        assert sound(page) == ([], [], 0)
        page.get_by_role("button", name="Keep the receipt").click()
        page.get_by_role("heading", name="Nothing was kept").wait_for()
        assert sound(page) == ([], [], 0)
        fill(page)
        look(page)
        page.get_by_label("Accept", exact=True).check()
        page.get_by_role("button", name="Keep the receipt").click()
        page.get_by_role("heading", name="Accepted on 25 November 2026.").wait_for()
        assert sound(page) == ([], [], 0)
