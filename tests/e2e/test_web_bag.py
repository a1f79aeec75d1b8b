"""A bag in Chromium: filled by keyboard, put back by a tap, and the shop's terms beside it."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from bags import a_bag
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
from loftwright.domain.bag import Bag
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.bags import keep_bag, read_bag, with_clubs
from loftwright.services.golfers import add_golfer
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from serving import served
from studios import studio_in_memory


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    with served(create_app(studio)) as found:
        yield found


def a_golfer(studio: Studio, *, filled: bool) -> str:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline (invented)")).id
    if filled:
        keep_bag(studio, golfer, with_clubs(Bag(), a_bag().clubs, "typing"), version=0)
    return golfer


def looked_at(page: Page) -> None:
    assert axe_findings(page) == []
    assert small_targets(page) == []
    assert wider_than_window(page) == 0


def test_a_club_is_written_down_by_keyboard_alone(
    browse: Browse, address: str, studio: Studio, faults: Faults
) -> None:
    faults.allow("422")
    golfer = a_golfer(studio, filled=False)
    page = browse(size=UPRIGHT)
    page.goto(f"{address}/golfers/{golfer}/bag")
    page.get_by_label("Name").focus()
    page.keyboard.type("7 iron")
    for text in ("", "33.5", "37 1"):
        page.keyboard.press("Tab")
        page.keyboard.type(text)
    page.keyboard.press("Enter")
    expect(page.locator("#n-f-length")).to_be_visible()
    length = page.locator("#f-length")
    expect(length).to_have_value("37 1")
    length.fill("37")
    page.keyboard.press("Enter")
    expect(page.locator(".kept")).to_have_text("The club is written down.")
    (club,) = read_bag(studio, golfer).bag.clubs
    assert club.name == "7 iron"


def test_a_club_is_taken_out_and_put_back_in_two_taps(
    browse: Browse, address: str, studio: Studio
) -> None:
    golfer = a_golfer(studio, filled=True)
    page = browse(size=UPRIGHT)
    page.goto(f"{address}/golfers/{golfer}/bag")
    expect(page.get_by_role("heading", level=1)).to_contain_text("7 iron is 3.0 points heavier")
    page.get_by_role("button", name="Take out 7 iron", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Nothing stands out")
    page.get_by_role("button", name="Put back: taking 7 iron out").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("7 iron is 3.0 points heavier")


@pytest.mark.parametrize(
    ("theme", "size"), [("bright", LYING), ("dark", UPRIGHT), ("bright", NARROW)]
)
def test_bag_and_terms_are_sound_on_every_screen(
    browse: Browse, address: str, studio: Studio, theme: str, size: tuple[int, int]
) -> None:
    empty, filled = a_golfer(studio, filled=False), a_golfer(studio, filled=True)
    page = browse(size=size, theme=theme)
    for path in (
        f"/golfers/{empty}/bag",
        f"/golfers/{filled}/bag",
        f"/golfers/{filled}/bag?club=Driver",
        "/settings/terms",
    ):
        page.goto(f"{address}{path}")
        looked_at(page)


def test_a_wrong_price_stays_beside_its_fault(
    browse: Browse, address: str, faults: Faults
) -> None:
    faults.allow("422")
    page = browse(size=LYING)
    page.goto(f"{address}/settings/terms")
    page.get_by_label("What, line 1").fill("Grip")
    page.get_by_label("Price, line 1").fill("dear")
    page.get_by_role("button", name="Save").first.click()
    price = page.get_by_label("Price, line 1")
    expect(price).to_have_attribute("aria-invalid", "true")
    looked_at(page)
    price.fill("14.50")
    page.get_by_label("Usual, line 1").check()
    page.get_by_role("button", name="Save").first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("begins at 14.50")
