"""A device locked by its PIN in a real browser: every tab of it, and nothing but its lock."""

import pytest
from fastapi import FastAPI
from playwright.sync_api import Page, expect

from bays import Bay, a_bay
from browser import NARROW, THEMES, Browse, Faults, axe_findings, small_targets, wider_than_window
from serving import served

PIN = "4711"


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def app(bay: Bay) -> FastAPI:
    return bay.app()


def sound(page: Page) -> None:
    assert axe_findings(page) == []
    assert small_targets(page) == []
    assert wider_than_window(page) == 0


def test_a_lock_is_set_shut_and_opened_and_shuts_every_tab(
    browse: Browse, faults: Faults, bay: Bay, app: FastAPI
) -> None:
    faults.allow("423")
    faults.allow("422")
    with served(app) as address:
        page = browse()
        page.goto(f"{address}/lock")
        sound(page)
        page.get_by_label("PIN", exact=True).fill(PIN)
        page.get_by_label("Once more").fill(PIN)
        page.get_by_label("5 minutes", exact=True).check()
        page.keyboard.press("Enter")
        expect(page.get_by_role("status").filter(has_text="has its PIN")).to_be_visible()
        sound(page)
        other = page.context.new_page()
        other.goto(f"{address}{bay.path}")
        expect(other.locator("body")).to_have_attribute("data-lock-after", "300")
        expect(other.locator("#link")).to_contain_text("live", ignore_case=True)
        still = page.context.new_page()
        still.goto(f"{address}/fittings/{bay.fitting}/golfer")
        page.goto(f"{address}/rack")
        page.locator("header.shop").get_by_role("button", name="Lock").click()
        expect(page.get_by_role("heading", name="This machine is locked.")).to_be_visible()
        for tab in (other, still):
            expect(tab).to_have_url(f"{address}/lock")
        page.reload()
        expect(page.get_by_label("PIN")).to_be_visible()
        sound(page)
        page.get_by_label("PIN").fill("0000")
        page.get_by_role("button", name="Unlock").click()
        expect(page.get_by_text("4 tries are left")).to_be_visible()
        sound(page)
        page.get_by_label("PIN").fill(PIN)
        page.get_by_role("button", name="Unlock").click()
        page.wait_for_url(f"{address}/")


def test_a_page_that_nobody_touches_goes_to_the_lock_by_itself(
    browse: Browse, bay: Bay, app: FastAPI
) -> None:
    app.state.locks.set("", PIN, idle=5)
    with served(app) as address:
        page = browse()
        page.clock.install()
        page.goto(f"{address}/fittings/{bay.fitting}/golfer")
        page.clock.run_for(4 * 60 * 1000)
        page.keyboard.press("Tab")
        page.clock.run_for(4 * 60 * 1000)
        assert "/golfer" in page.url
        page.clock.run_for(70 * 1000)
        page.wait_for_url("**/lock")
        expect(page.get_by_label("PIN")).to_be_visible()


@pytest.mark.parametrize("theme", THEMES)
def test_who_opened_a_record_and_the_lock_are_sound_in_bright_and_dark(
    browse: Browse, bay: Bay, app: FastAPI, theme: str
) -> None:
    app.state.openings.note(bay.path, fitting=bay.fitting)
    app.state.openings.settle()
    with served(app) as address:
        page = browse(theme=theme, size=NARROW)
        page.goto(f"{address}/fittings/{bay.fitting}/golfer#opened")
        expect(page.locator("#opened").get_by_text("this machine")).to_be_visible()
        assert axe_findings(page) == []
        page.goto(f"{address}/lock")
        sound(page)
