"""Today, Rack, Golfer, Plan and Settings in Chromium: sound to axe in every state and theme."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser import (
    LYING,
    THEMES,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.constants import DEGREE, INCH
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.rack import State
from loftwright.services.demo_rack import SHOP
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.rack_changing import set_state
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.training import DealOptions, deal_fitting
from loftwright.web.pages import golfer, plan, rack, rack_item, settings, today
from serving import served
from studios import a_club, a_head, a_shaft, a_sleeve, app_of, studio_in_memory

ROUTERS = (
    *(today.router, rack.router, rack_item.router),
    *(golfer.router, plan.router, settings.router),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """A served studio."""

    studio: Studio
    address: str
    planned: str = ""
    left: str = ""
    locked: str = ""


@pytest.fixture(scope="module")
def empty() -> Iterator[Shop]:
    studio = studio_in_memory()
    with served(app_of(studio, *ROUTERS)) as address:
        yield Shop(studio=studio, address=address)


@pytest.fixture(scope="module")
def filled() -> Iterator[Shop]:
    studio = studio_in_memory()
    change_settings(studio, SHOP, version=0)
    sleeve = a_sleeve(studio)
    head = a_head(studio, system="Quarter")
    a_shaft(studio, "Reedmace", 60.0, head=head, sleeve=sleeve, price=45000)
    locked, _ = a_shaft(studio, "Sedge", 50.0, head=head, sleeve=sleeve, length=45.5)
    set_state(studio, locked.id, State.LOCKED, reason="cracked at the tip")
    club = a_club(studio, a_head(studio, "Lapwing", 9.0), "Teasel", 65.0, 45.0)
    mine = a_club(studio, a_head(studio, "Wren", hand=Hand.LEFT), "Rush", 55.0, 45.0)
    planned, left = (_opened(studio, hand) for hand in (Hand.RIGHT, Hand.LEFT))
    plan_visit(studio, planned, Wish(assemblies=(club.id,), balls=20), seed=1)
    plan_visit(studio, left, Wish(assemblies=(mine.id,), balls=20), seed=1)
    with served(app_of(studio, *ROUTERS)) as address:
        yield Shop(studio=studio, address=address, planned=planned, left=left, locked=locked.id)


def _opened(studio: Studio, hand: Hand) -> str:
    visitor = Visitor(
        golfer=Golfer(id="", hand=hand),
        identity=Identity(name="Ottoline Brambleby"),
        limits="half swings first",
        own=OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH),
    )
    return open_for_new(studio, visitor, bay="Bay 1").id


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
def test_every_page_of_an_empty_shop_is_sound(
    browse: Browse, empty: Shop, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    found = {}
    for path in ("/", "/read", "/rack", "/golfers/new", "/settings", "/settings/marking"):
        page.goto(empty.address + path)
        found[path] = sound(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
@pytest.mark.parametrize("theme", THEMES)
def test_every_page_of_a_filled_shop_is_sound(
    browse: Browse, filled: Shop, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    found = {}
    for path in (
        "/",
        "/rack?add=shaft",
        f"/rack/items/{filled.locked}",
        f"/fittings/{filled.planned}/golfer",
        f"/fittings/{filled.left}/plan",
        "/settings?device=Bay+meter+%28invented%29",
    ):
        page.goto(filled.address + path)
        found[path] = sound(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}


def refused_head(page: Page, shop: Shop) -> None:
    page.goto(f"{shop.address}/rack?add=head")
    page.fill("#head-name", "Harrow")
    page.fill("#head-loft", "forty")
    page.click("text=Add the head")


def refused_golfer(page: Page, shop: Shop) -> None:
    page.goto(f"{shop.address}/golfers/new")
    page.fill("#f-name", "Ida")
    page.fill("#f-own_loft", "12")
    page.get_by_role("button", name="Open the fitting").first.click()


def refused_start(page: Page, shop: Shop) -> None:
    page.goto(f"{shop.address}/fittings/{shop.left}/plan")
    page.click("text=Start the warm-up")


def said_pain(page: Page, shop: Shop) -> None:
    page.goto(f"{shop.address}/fittings/{shop.planned}/plan")
    page.check('input[name="pain"][value="yes"]')
    page.click("text=Start the warm-up")


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("state", [refused_head, refused_golfer, refused_start, said_pain])
def test_a_refusal_is_sound(
    browse: Browse,
    faults: Faults,
    filled: Shop,
    theme: str,
    state: Callable[[Page, Shop], None],
) -> None:
    faults.allow("422")
    page = browse(theme=theme, size=UPRIGHT)
    state(page, filled)
    expect(page.locator(".wrong, h1:has-text('pain')").first).to_be_visible()
    assert sound(page) == []


@pytest.mark.parametrize("theme", THEMES)
def test_an_old_file_read_again_is_sound(
    browse: Browse, empty: Shop, theme: str, tmp_path: Path
) -> None:
    shots = tmp_path / "shots.csv"
    deal_fitting(DealOptions(seed=7, clubs=3, balls=24), shots)
    page = browse(theme=theme, size=UPRIGHT)
    page.goto(f"{empty.address}/read")
    page.set_input_files("#read-file", shots)
    page.click("text=Read it")
    assert "24 rows read" in page.inner_text("main")
    assert sound(page) == []


def test_the_rack_is_filled_by_keyboard_alone(page: Page) -> None:
    studio = studio_in_memory()
    with served(app_of(studio, rack.router)) as address:
        page.goto(f"{address}/rack")
        page.locator("#head-name").focus()
        page.keyboard.type("Harrow 460")
        page.keyboard.press("Tab")
        page.keyboard.type("10.5")
        page.keyboard.press("Enter")
        page.wait_for_url("**kept=head**")
    (model,) = studio.store.rack().heads.values()
    assert model.name == "Harrow 460"


def test_enter_in_the_golfer_s_name_opens_the_fitting(page: Page) -> None:
    """The first button in the form must not be one that adds or removes a hole."""
    studio = studio_in_memory()
    with served(app_of(studio, golfer.router, plan.router)) as address:
        page.goto(f"{address}/golfers/new")
        page.check('input[name="hand"][value="left"]')
        page.fill("#f-name", "Caspar")
        page.keyboard.press("Enter")
        page.wait_for_url("**/plan")
    assert len(studio.store.fittings()) == 1


def test_a_hole_is_added_and_what_was_typed_stays(page: Page, empty: Shop) -> None:
    page.goto(f"{empty.address}/golfers/new")
    page.fill("#f-name", "Caspar")
    page.click("text=Add a hole")
    assert page.input_value("#f-name") == "Caspar"
    assert page.input_value('[name="hole_1_length"]') == "430"
    assert page.evaluate("location.hash") == "#home"
    page.get_by_role("button", name="Take out hole 1").click()
    assert page.locator('[name="hole_1_length"]').count() == 0


def test_without_script_the_plan_is_made_all_the_same(browse: Browse, filled: Shop) -> None:
    page = browse(java_script_enabled=False)
    page.goto(f"{filled.address}/fittings/{filled.planned}/plan")
    page.get_by_role("button", name="Make another plan").click()
    assert "20 balls" in page.inner_text("h1")


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
def test_a_tap_on_the_face_is_written_in_millimetres(
    browse: Browse, empty: Shop, size: tuple[int, int]
) -> None:
    page = browse(size=size)
    page.goto(f"{empty.address}/settings/marking")
    box = page.locator("#pad svg").bounding_box()
    assert box is not None
    scale = box["width"] / 392.0
    # 25 units to the left of the middle and 12.5 above it, at 0.32 mm a unit.
    page.mouse.click(box["x"] + (196.0 - 25.0) * scale, box["y"] + (99.0 - 12.5) * scale)
    toe, high = (float(part) for part in page.input_value("#m-first").split(","))
    assert toe == pytest.approx(8.0, abs=0.4)
    assert high == pytest.approx(4.0, abs=0.4)


def test_a_double_reading_by_keyboard_is_kept(page: Page) -> None:
    studio = studio_in_memory()
    with served(app_of(studio, settings.router)) as address:
        page.goto(f"{address}/settings/marking")
        page.fill("#m-fitter", "Barnaby")
        for reading, step in (("#m-first", "ArrowLeft"), ("#m-again", "ArrowRight")):
            page.focus("#pad")
            for _ in range(5):
                page.keyboard.press(step)
                page.keyboard.press("Enter")
            assert len(page.input_value(reading).splitlines()) == 5
            page.locator("button.go").click()
        assert "marks are off by" in page.inner_text("h1")
    assert "Barnaby" in read_settings(studio).settings.mark_errors
