"""Labels scanned in Chromium: a scanner's keystrokes hand a club over and press no letter."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from bays import Bay, a_bay
from browser import LYING, UPRIGHT, Browse, Faults, axe_findings, small_targets
from loftwright.domain.acts import ClubJoined
from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import State
from loftwright.services.rack import card_of
from loftwright.services.rack_changing import set_state
from racks import a_measured_rack
from serving import served


@pytest.fixture
def bay() -> Bay:
    made = a_bay()
    a_measured_rack(made.studio)
    rack = made.studio.store.rack()
    made.do(ClubJoined(club="Elm", card=card_of(rack, rack.assemblies["club-1"])))
    return made


@pytest.fixture
def page(browse: Browse, bay: Bay) -> Iterator[Page]:
    with served(bay.app()) as address:
        opened = browse(size=UPRIGHT)
        opened.goto(address + bay.path)
        expect(opened.locator("body[data-painted-revision]")).to_be_attached()
        yield opened


def scan(page: Page, code: str) -> None:
    """Type as a scanner does: capitals with Shift, one key right after the other, then Enter."""
    page.evaluate(
        """code => {
          const press = (key, shiftKey = false) => {
            const told = { key, shiftKey, bubbles: true, cancelable: true };
            const at = document.activeElement ?? document.body;
            at.dispatchEvent(new KeyboardEvent("keydown", told));
          };
          for (const sign of code) {
            if (/[A-Z]/.test(sign)) press("Shift", true);
            press(sign, /[A-Z]/.test(sign));
          }
          press("Enter");
        }""",
        code,
    )


def shaft_of(bay: Bay, club: str) -> str:
    found = bay.now.club(club)
    assert found is not None
    return found.card.shaft_piece


def test_a_scan_anywhere_hands_over_and_is_undone_by_its_letter(bay: Bay, page: Page) -> None:
    before = bay.now.upto
    scan(page, code_of(shaft_of(bay, "Elm")))
    hand = page.locator("#part-hand .far-club").first
    expect(hand).to_contain_text("Elm")
    assert bay.now.upto == before + 1
    note = page.get_by_role("status").filter(has_text="so Elm is in hand. Planned was")
    expect(note).to_be_visible()
    assert axe_findings(page) == []
    assert small_targets(page) == []
    page.keyboard.press("u")
    expect(hand).to_contain_text("Own")
    expect(note).to_have_count(0)


def test_a_label_is_typed_into_the_panel_of_clubs_by_keyboard(bay: Bay, page: Page) -> None:
    page.keyboard.press("o")
    page.get_by_label("Scan or type a label").focus()
    page.keyboard.type(code_of(shaft_of(bay, "Elm")).lower())
    assert axe_findings(page) == []
    page.keyboard.press("Enter")
    expect(page.locator("#part-hand .far-club").first).to_contain_text("Elm")
    expect(page.locator("#other-club")).to_be_hidden()


def test_a_locked_part_and_a_stranger_are_refused_in_sight(
    bay: Bay, page: Page, faults: Faults
) -> None:
    faults.allow("status of 4(09|22)")
    piece = shaft_of(bay, "Elm")
    set_state(bay.studio, piece, State.LOCKED, reason="creaks")
    scan(page, code_of(piece))
    refusal = page.get_by_role("alert")
    expect(refusal).to_contain_text("is locked: creaks")
    expect(refusal).to_be_visible()
    scan(page, code_of("elsewhere"))
    expect(refusal).to_contain_text("no part here bears the label")
    expect(refusal).to_have_count(1)
    assert bay.now.in_hand == "Own"


def test_a_letter_with_shift_alone_does_nothing_and_letters_go_on_acting(
    bay: Bay, page: Page
) -> None:
    before = bay.now.upto
    page.keyboard.press("Shift+P")
    page.wait_for_timeout(150)
    page.keyboard.press("p")
    expect(page.locator("#part-say")).to_contain_text("Stop")
    assert bay.now.upto == before + 1


def test_a_scan_on_the_rack_opens_the_part(browse: Browse, bay: Bay) -> None:
    page = browse(size=LYING)
    with served(bay.app()) as address:
        page.goto(f"{address}/rack")
        scan(page, code_of("heron-60-1-a"))
        page.wait_for_url("**/rack/items/heron-60-1-a")
