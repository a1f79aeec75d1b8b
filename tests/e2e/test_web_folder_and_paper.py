"""A watched folder and a paper sheet in Chromium: balls appear by themselves, words are kept."""

import time
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from bays import Bay, a_bay
from browser import Browse, Faults
from fingers import Fingers
from loftwright.constants import MILE_PER_HOUR
from loftwright.web.app import create_app
from serving import served

HEADINGS = "Club;Ball speed (mph);Launch (deg);Spin (rpm)\n"


def rows(*speeds: float) -> str:
    return "".join(f"Own;{speed};12.0;2500\n" for speed in speeds)


def test_a_growing_and_then_replaced_file_fills_an_open_bay_page(
    browse: Browse, tmp_path: Path
) -> None:
    bay = a_bay()
    path = tmp_path / "device.csv"
    path.write_text(HEADINGS + rows(147.1), encoding="utf-8")
    with served(create_app(bay.studio)) as address:
        desk = browse()
        desk.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        watch(desk, path)

        fitter = Fingers(browse(), bay).open(address)
        expect(fitter.page.locator("#part-fly")).to_contain_text("Ball 1", timeout=10_000)
        with path.open("a", encoding="utf-8") as file:
            file.write(rows(148.2, 148.9) + "Own;149")
        expect(fitter.page.locator("#part-fly")).to_contain_text("Ball 3", timeout=10_000)
        path.write_text(HEADINGS + rows(150.3), encoding="utf-8")
        wait_for(bay, 4)
        fitter.painted()

        desk.reload()
        desk.get_by_role("button", name="Stop watching").click()
        expect(desk.get_by_label("File or folder on this machine")).to_be_visible()
        with path.open("a", encoding="utf-8") as file:
            file.write(rows(151.4))
        desk.wait_for_timeout(1500)
        assert len(bay.now.swings) == 4

        watch(desk, path)
        wait_for(bay, 5)
        with path.open("a", encoding="utf-8") as file:
            file.write(rows(152.5))
        wait_for(bay, 6)
        fitter.painted()
        expect(fitter.page.locator("#part-fly")).to_contain_text("Ball 6")
    speeds = [one.numbers.ball_speed or 0.0 for one in bay.now.swings if one.numbers]
    told = [147.1, 148.2, 148.9, 150.3, 151.4, 152.5]
    assert speeds == pytest.approx([speed * MILE_PER_HOUR for speed in told])


def watch(desk: Page, path: Path) -> None:
    """Watch a file with what stands in it; balls that are in already count once."""
    desk.get_by_label("File or folder on this machine").fill(str(path))
    desk.get_by_label("Take what stands there already").check()
    desk.get_by_role("button", name="Watch it").click()
    expect(desk.get_by_text("Watched:")).to_be_visible()


def wait_for(bay: Bay, count: int) -> None:
    """Wait until so many balls stand in the record."""
    until = time.monotonic() + 10.0
    while time.monotonic() < until:
        if len(bay.now.swings) >= count:
            return
        time.sleep(0.05)
    raise AssertionError(f"{count} balls did not come in")


def test_a_sheet_with_a_slip_keeps_every_word_and_is_mended_by_keyboard(
    browse: Browse, faults: Faults
) -> None:
    faults.allow("422")
    bay = a_bay()
    page = browse()
    with served(create_app(bay.studio)) as address:
        page.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        page.get_by_label("Name at the foot of the sheet").focus()
        page.keyboard.insert_text("K4")
        page.keyboard.press("Tab")
        page.keyboard.insert_text("1 own 147.2 12 2500 0 1\n2 own 14x8.1 11 2550 0 2\n")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        wrong = page.get_by_label("One line a ball")
        expect(wrong).to_have_value("1 own 147.2 12 2500 0 1\n2 own 14x8.1 11 2550 0 2\n")
        expect(page.get_by_text("14x8.1").first).to_be_visible()
        assert not bay.now.swings
        wrong.focus()
        page.keyboard.press("Control+a")
        page.keyboard.insert_text("1 own 147.2 12 2500 0 1\n2 own 148.1 11 2550 0 2\n")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.get_by_text("2 balls of the sheet came in.").wait_for()
    assert [one.club for one in bay.now.swings] == ["Own", "Own"]
