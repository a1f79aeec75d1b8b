"""The bench's own page and the quick check in Chromium, sound in every theme."""

import pytest
from playwright.sync_api import Page, expect

from browser import (
    LYING,
    NARROW,
    THEMES,
    Browse,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.services.measuring import keep_profile
from serving import served
from shafts import a_profile
from studios import a_shaft, app_of, studio_in_memory

SIX = {
    "length": "46",
    "mass": "66",
    "balance": "22.4",
    "clamp": "5",
    "tip_mass": "205",
    "frequency": "230",
}
MASTER = {
    "bench": "Bench 1",
    "length": "46",
    "station": "20",
    "s0-span": "12",
    "s0-load": "50",
}


def sound(page: Page) -> list[str]:
    """Return what is wrong with how a page stands."""
    wide = wider_than_window(page)
    return [
        *axe_findings(page),
        *small_targets(page),
        *([f"{wide} px wider than the window"] if wide else []),
    ]


@pytest.mark.parametrize("size", [LYING, NARROW], ids=["lying", "narrow"])
@pytest.mark.parametrize("theme", THEMES)
def test_the_days_of_a_master_and_the_quick_check_are_sound(
    browse: Browse, theme: str, size: tuple[int, int]
) -> None:
    studio = studio_in_memory()
    shaft = a_shaft(studio, "Reedmace")[0].id
    keep_profile(studio, a_profile(piece=shaft))
    page = browse(theme=theme, size=size)
    with served(app_of(studio)) as host:
        page.goto(f"{host}/rack/items/{shaft}/check")
        found = sound(page)
        for name, text in SIX.items():
            page.locator(f"#f-{name}").fill(text)
        page.get_by_role("button", name="Check it").click()
        expect(page.locator("h1")).to_contain_text("does not read as it was kept")
        found += sound(page)
        page.locator("nav").get_by_role("link", name="Bench", exact=True).click()
        for name, text in MASTER.items():
            page.locator(f'[name="{name}"]').fill(text)
        page.get_by_role("button", name="Mark it").click()
        page.locator('[name="three_point"]').fill("0.501")
        page.get_by_role("button", name="Keep today’s reading").click()
        expect(page.locator("h1")).to_contain_text("Bench 1 has read its master on 1 day")
        assert found + sound(page) == []
