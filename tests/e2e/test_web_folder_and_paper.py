"""A watched folder and a paper sheet in Chromium: balls appear by themselves, words are kept."""

from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from bays import Bay, a_bay
from browser import Browse, Faults
from fingers import Fingers
from loftwright.constants import MILE_PER_HOUR
from loftwright.web.app import create_app
from serving import served

HEADINGS = "Club;Ball speed (mph);Launch (deg);Spin (rpm)\n"


def rows(*speeds: float) -> str:
    return "".join(f"Own;{speed};12.0;2500\n" for speed in speeds)


def add(path: Path, text: str) -> None:
    """Let a device write on at the end of its file."""
    with path.open("a", encoding="utf-8") as file:
        file.write(text)


def watch(desk: Page, path: Path) -> None:
    """Have a file watched from its first line on."""
    desk.get_by_label("File or folder on the studio’s machine").fill(str(path))
    desk.get_by_label("Take what stands there already").check()
    desk.get_by_role("button", name="Watch it").click()
    expect(desk.get_by_text("Watched:")).to_be_visible()


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
        page = Fingers(browse(), bay).open(address).page
        page.evaluate("window.neverLoadedAgain = true")
        last = page.locator("#part-fly")
        expect(last).to_contain_text("Ball 1")
        add(path, rows(148.2, 148.9) + "Own;149")
        expect(last).to_contain_text("Ball 3")
        fresh = tmp_path / "device.new"
        fresh.write_text(HEADINGS + rows(150.3), encoding="utf-8")
        fresh.replace(path)
        expect(last).to_contain_text("Ball 4")
        assert page.evaluate("window.neverLoadedAgain")
    assert speeds(bay) == told(147.1, 148.2, 148.9, 150.3)


def test_a_watch_that_pauses_takes_nothing_and_resumed_takes_each_ball_once(
    browse: Browse, tmp_path: Path
) -> None:
    bay = a_bay()
    path = tmp_path / "device.csv"
    path.write_text(HEADINGS + rows(147.1), encoding="utf-8")
    app = create_app(bay.studio)
    with served(app) as address:
        desk = browse()
        desk.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        watch(desk, path)
        last = Fingers(browse(), bay).open(address).page.locator("#part-fly")
        expect(last).to_contain_text("Ball 1")
        desk.get_by_role("button", name="Stop watching").click()
        expect(desk.get_by_label("File or folder on the studio’s machine")).to_be_visible()
        add(path, rows(148.2))
        assert app.state.watches.look() == 0
        assert speeds(bay) == told(147.1)

        watch(desk, path)
        expect(last).to_contain_text("Ball 2")
        add(path, rows(149.4))
        expect(last).to_contain_text("Ball 3")
    assert speeds(bay) == told(147.1, 148.2, 149.4)


def speeds(bay: Bay) -> list[float | None]:
    return [None if one.numbers is None else one.numbers.ball_speed for one in bay.now.swings]


def told(*speeds_mph: float) -> object:
    return pytest.approx([speed * MILE_PER_HOUR for speed in speeds_mph])


def walk_to(page: Page, words: str) -> Locator:
    """Press Tab until a field or button has the focus."""
    wanted = page.get_by_label(words).or_(page.get_by_role("button", name=words, exact=True))
    for _ in range(60):
        page.keyboard.press("Tab")
        if wanted.evaluate("(one) => one === document.activeElement"):
            return wanted
    raise AssertionError(f"Tab does not come to {words}")


def test_a_sheet_with_a_slip_keeps_every_word_and_is_mended_by_keyboard(
    browse: Browse, faults: Faults
) -> None:
    faults.allow("422")
    bay = a_bay()
    page = browse()
    slip = "1 own 147.2 12 2500 0 1\n2 own 14x8.1 11 2550 0 2\n"
    with served(create_app(bay.studio)) as address:
        page.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        walk_to(page, "Name at the foot of the sheet")
        page.keyboard.type("K4")
        walk_to(page, "One line a ball")
        page.keyboard.type(slip)
        walk_to(page, "Take the sheet")
        page.keyboard.press("Enter")
        expect(page.get_by_text("14x8.1").first).to_be_visible()
        expect(page.get_by_label("Name at the foot of the sheet")).to_have_value("K4")
        assert not bay.now.swings
        expect(walk_to(page, "One line a ball")).to_have_value(slip)
        page.keyboard.press("Control+a")
        page.keyboard.type(slip.replace("14x8.1", "148.1"))
        walk_to(page, "Take the sheet")
        page.keyboard.press("Enter")
        expect(page.get_by_text("2 balls of the sheet came in.")).to_be_visible()
    assert [one.club for one in bay.now.swings] == ["Own", "Own"]
    assert speeds(bay) == told(147.2, 148.1)
