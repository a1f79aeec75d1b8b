"""The shop record in Chromium: sound in every state, and learned from without leaving the page."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import pytest
from playwright.sync_api import Page, expect

from browser import (
    LYING,
    NARROW,
    THEMES,
    UPRIGHT,
    Browse,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.services import shop_learning
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.learned import Leverage
from loftwright.shop.record import keep
from racks import a_measured_rack
from serving import served
from shop_samples import a_fitting, shaft_effects
from studios import app_of, studio_in_memory
from told_samples import HERON, Told, a_bay_offset, a_learned

PAGES = (
    "/shop",
    "/shop?of=spin&how=same",
    "/shop?of=toe&how=swung",
    "/rack/items/heron-60-1-a",
    "/rack/items/heron-60-2-b",
)
LONGEST_LEARNING = 240_000.0
FITTINGS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """A served studio."""

    studio: Studio
    address: str


@pytest.fixture
def empty() -> Iterator[Shop]:
    studio = studio_in_memory()
    a_measured_rack(studio)
    with served(app_of(studio)) as address:
        yield Shop(studio=studio, address=address)


@pytest.fixture
def filled(empty: Shop, monkeypatch: pytest.MonkeyPatch) -> Shop:
    """A shop that learned of a contradicted label, a bay apart and a golfer who decides."""
    rack = empty.studio.store.rack()
    old = rack.shafts["heron-60-1"]
    empty.studio.store.put(replace(old, paper_label="low launch"), version=1)
    told: Told = {
        **HERON,
        ("model", "heron-60-1"): ((0.0, 2.0, -0.8, 0.0, 0.0), 0.1, 12),
        ("model", "heron-60-2"): ((0.0, 0.4, -0.2, 0.0, 0.0), 0.3, 0),
        ("head", "harrow"): ((0.3, 0.2, 0.1, 0.0, 0.0), 0.2, 60),
    }
    moved = Leverage(
        kind="golfer",
        name="3f2a",
        level="model",
        member="heron-60-1",
        response="spin",
        share=1.6,
    )
    made = a_learned(told, faster=0.2, leverage=(moved,), offsets=(a_bay_offset("Bay 2", 0.9),))
    like = {("model", "heron-60-2"): ("heron-60-1", 0.8)}
    made = replace(made, effects=replace(made.effects, like=like))
    monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (made.version,))
    monkeypatch.setattr(shop_learning, "read_learned", lambda *_: made)
    return empty


def sound(page: Page) -> list[str]:
    """Return what is wrong with how a page stands."""
    wide = wider_than_window(page)
    return [
        *axe_findings(page),
        *small_targets(page),
        *([f"{wide} px wider than the window"] if wide else []),
    ]


@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW], ids=["lying", "upright", "narrow"])
@pytest.mark.parametrize("theme", THEMES)
def test_what_was_learned_is_sound_wherever_it_stands(
    browse: Browse, filled: Shop, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    found = {}
    for path in PAGES:
        page.goto(filled.address + path)
        found[path] = sound(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}


@pytest.mark.parametrize("theme", THEMES)
def test_a_shop_that_learned_nothing_is_sound(browse: Browse, empty: Shop, theme: str) -> None:
    page = browse(theme=theme, size=UPRIGHT)
    page.goto(f"{empty.address}/shop")
    expect(page.locator("h1")).to_contain_text("the shop record is empty, so physics leads")
    assert sound(page) == []


def test_learning_is_begun_by_keyboard_and_tells_its_end_by_itself(
    browse: Browse, empty: Shop
) -> None:
    effects = shaft_effects(1)
    for number in range(FITTINGS):
        keep(record_folder(empty.studio), a_fitting(number, effects))
    page = browse(size=LYING)
    page.goto(f"{empty.address}/shop")
    expect(page.locator("h1")).to_contain_text(f"{FITTINGS} of about 20 fittings are there")
    page.get_by_role("button", name="Learn from the record").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/shop#work")
    told = page.get_by_role("status").filter(has_text="Learned at")
    expect(told).to_contain_text("version 1", timeout=LONGEST_LEARNING)
    assert sound(page) == []
    told.get_by_role("link", name="Show it").press("Enter")
    expect(page.locator("h1")).to_contain_text(
        f"{FITTINGS} fittings of {FITTINGS} golfers (240 balls) have taught this shop"
    )
    expect(page.locator("#versions")).to_contain_text("new visits start from it")
    assert sound(page) == []
