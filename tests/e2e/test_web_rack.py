"""The rack's pages in Chromium: sound in every theme, worked by keyboard, files in and out."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from bays import Bay, a_bay
from browser import (
    LYING,
    THEMES,
    UPRIGHT,
    Browse,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.domain.acts import ClubJoined
from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import Piece, State
from loftwright.services.rack import card_of
from loftwright.services.rack_changing import set_state
from loftwright.services.studio import Studio
from racks import a_measured_rack
from serving import served
from studios import studio_in_memory

SHAFT = "heron-60-1-a"
PAGES = (
    "/rack",
    "/rack?words=generation+2",
    "/rack/items/heron-60-1-a",
    "/rack/items/heron-60-2-b",
    "/rack/items/harrow-1",
    "/rack/items/heron-60-1-a/shape",
    "/rack/items/heron-60-1-a/trim",
    "/rack/items/heron-60-1-a/trim?tip=0.5&wraps=2&tape=0.13",
    "/rack/items/heron-70-2-a/trim",
    "/rack/items/heron-60-1-a/shape?section=tip&most=-90",
    "/rack/families",
    "/rack/families/Heron",
    "/rack/labels",
    "/rack/files",
    "/recall/heron-60-1-a",
    "/recall/heron-60-1",
)
EMPTY = ("/rack", "/rack/families", "/rack/labels", "/rack/files")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """A served studio whose rack is measured, with a fitting under way."""

    bay: Bay
    studio: Studio
    address: str


@pytest.fixture
def shop() -> Iterator[Shop]:
    bay = a_bay()
    a_measured_rack(bay.studio)
    bay.studio.store.put(Piece(id="heron-70-2-a", model="heron-70-2", label="A"), version=None)
    rack = bay.studio.store.rack()
    bay.do(ClubJoined(club="Elm", card=card_of(rack, rack.assemblies["club-1"])))
    bay.hand("Elm")
    bay.balls(3)
    with served(bay.app()) as address:
        yield Shop(bay=bay, studio=bay.studio, address=address)


def sound(page: Page) -> list[str]:
    """Return what is wrong with how a page stands."""
    wide = wider_than_window(page)
    return [
        *axe_findings(page),
        *small_targets(page),
        *([f"{wide} px wider than the window"] if wide else []),
    ]


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
@pytest.mark.parametrize("theme", THEMES)
def test_every_page_of_the_rack_is_sound(
    browse: Browse, shop: Shop, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    found = {}
    for path in PAGES:
        page.goto(shop.address + path)
        found[path] = sound(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}


@pytest.mark.parametrize("theme", THEMES)
def test_every_page_of_an_empty_rack_is_sound(browse: Browse, theme: str) -> None:
    page = browse(theme=theme, size=UPRIGHT)
    found = {}
    with served(a_bay(studio=studio_in_memory()).app()) as address:
        for path in EMPTY:
            page.goto(address + path)
            found[path] = sound(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}


def test_a_label_opens_its_part_by_keyboard_alone(browse: Browse, shop: Shop) -> None:
    page = browse(size=LYING)
    page.goto(f"{shop.address}/rack")
    page.keyboard.press("l")
    page.keyboard.type(code_of(SHAFT).lower())
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/rack/items/{SHAFT}")
    assert "3 balls hit" in page.inner_text("#looks")


def test_a_part_is_moved_by_a_tap_and_typing_and_back_by_another(
    browse: Browse, shop: Shop
) -> None:
    page = browse(size=UPRIGHT)
    page.goto(f"{shop.address}/rack?sort=words")
    place = page.get_by_label("Where Heron").first
    part = place.evaluate("one => one.form.id")
    place.click()
    place.fill("Drawer 9")
    place.press("Enter")
    row = page.locator(f"td:has(#{part})")
    expect(row.get_by_role("status")).to_have_text("Moved from Bay 1.")
    assert sound(page) == []
    row.get_by_role("button", name="Undo move").click()
    expect(row.get_by_role("status")).to_have_text("Moved from Drawer 9.")
    assert {one.place for one in shop.studio.store.rack().pieces.values()} >= {"Bay 1"}
    assert "Drawer 9" not in {one.place for one in shop.studio.store.rack().pieces.values()}


def test_a_trim_is_looked_at_by_keyboard_alone(browse: Browse, shop: Shop) -> None:
    page = browse(size=UPRIGHT)
    page.goto(f"{shop.address}/rack/items/{SHAFT}/shape")
    page.get_by_role("link", name="Before it is cut").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/trim")
    page.get_by_label("Off the tip").focus()
    page.keyboard.type("0,5")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("0.50 in off the tip: +")
    assert page.get_by_label("Off the tip").input_value() == "0,5"


def test_a_file_goes_out_and_comes_in_elsewhere(
    browse: Browse, shop: Shop, tmp_path: Path
) -> None:
    page = browse(size=UPRIGHT)
    page.goto(f"{shop.address}/rack/files")
    with page.expect_download() as download:
        page.get_by_role("link", name="As JSON").click()
    file = tmp_path / "rack.json"
    download.value.save_as(file)
    other = studio_in_memory()
    with served(a_bay(studio=other).app()) as address:
        page.goto(f"{address}/rack/files")
        page.set_input_files("#rack-file", file)
        page.get_by_role("button", name="Look at it").click()
        expect(page.get_by_role("button", name="Bring in")).to_be_visible()
        assert sound(page) == []
        page.get_by_role("button", name="Bring in").click()
        page.wait_for_url("**/rack/files?came=*")
        assert other.store.rack() == shop.studio.store.rack()
        assert len(other.store.profiles()) == 7
        assert sound(page) == []
        page.get_by_role("button", name="back").click()
        page.wait_for_url("**/rack/files?back=*")
    assert (other.store.profiles(), other.store.rack().pieces) == ({}, {})


def test_a_bad_file_says_which_row_to_mend(browse: Browse, shop: Shop, tmp_path: Path) -> None:
    file = tmp_path / "rack.csv"
    file.write_text("kind,id,name,loft_deg\nhead,h9,Wren,forty\n", encoding="utf-8")
    page = browse(size=UPRIGHT)
    page.goto(f"{shop.address}/rack/files")
    page.set_input_files("#rack-file", file)
    page.get_by_role("button", name="Look at it").click()
    assert "Give a number with a point as decimal mark" in page.inner_text("#refused")
    assert sound(page) == []


def test_a_club_that_was_found_cracked_is_not_handed_over_and_says_why(
    browse: Browse, shop: Shop
) -> None:
    set_state(shop.studio, SHAFT, State.LOCKED, reason="cracked: hairline at the tip")
    page = browse(size=UPRIGHT)
    page.goto(shop.address + shop.bay.path)
    care = page.inner_text("#part-care")
    assert "Do not hit Elm: A is locked: cracked: hairline at the tip. Take another club." in care
    assert sound(page) == []


def test_a_recall_is_locked_and_undone_by_taps(browse: Browse, shop: Shop) -> None:
    page = browse(size=UPRIGHT)
    page.goto(f"{shop.address}/recall/heron-60-1")
    assert "Ottoline Brambleby" in page.inner_text("#fittings")
    page.get_by_label("Why").fill("wrong label")
    page.get_by_role("button", name="Lock 3").click()
    page.get_by_text("3 parts locked.").wait_for()
    assert sound(page) == []
    page.get_by_role("button", name="Undo the locking").click()
    page.get_by_text("3 parts put back.").wait_for()
    assert shop.studio.store.rack().pieces[SHAFT].state is State.READY
