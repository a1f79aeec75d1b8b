"""How the club came in, and spin settings, in Chromium: one tap from the bay, by key, sound."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from playwright.sync_api import expect

from bays import Bay, a_bay
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
from loftwright.domain.acts import Marked
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Consents
from loftwright.web.pages import acts, delivery, mends, settings, spin
from loftwright.web.pages import bay as bay_page
from serving import served
from struck import struck, swings
from studios import app_of

PAGES = (
    *(acts.router, bay_page.router, delivery.router),
    *(mends.router, settings.router, spin.router),
)


@pytest.fixture(scope="module")
def bay() -> Bay:
    """Nine marked balls, and a tenth without a mark."""
    made = a_bay()
    kept = made.studio.store.golfer(made.golfer.id)
    agreed = replace(kept.value, consents=Consents(shop_record=True))
    made.studio.store.change_golfer(agreed, version=kept.version)
    for swing in swings(9):
        made.ball(struck(swing, without=("path", "face")))
        made.do(Marked(mark=Mark(toe=float(swing[5]), high=float(swing[6]))))
    made.ball(struck(swings(1)[0], without=("attack", "path", "face")))
    return made


@pytest.fixture(scope="module")
def address(bay: Bay) -> Iterator[str]:
    with served(app_of(bay.studio, *PAGES)) as found:
        yield found


@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW], ids=["lying", "upright", "narrow"])
@pytest.mark.parametrize("theme", THEMES)
def test_every_page_of_it_is_sound(
    browse: Browse, bay: Bay, address: str, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    marked = bay.now.balls[3].sequence
    for path in (
        f"/fittings/{bay.fitting}/delivery",
        f"/fittings/{bay.fitting}/delivery?ball={marked}",
        f"/fittings/{bay.fitting}/mends",
        "/spin",
    ):
        page.goto(f"{address}{path}")
        assert axe_findings(page) == []
        assert small_targets(page) == []
        assert wider_than_window(page) == 0


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
@pytest.mark.parametrize("theme", THEMES)
def test_one_tap_opens_it_over_the_bay(
    browse: Browse, bay: Bay, address: str, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    page.goto(f"{address}{bay.path}")
    page.wait_for_selector("body[data-painted-revision]")
    assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    page.get_by_role("link", name="How the club came in").click()
    panel = page.get_by_role("dialog", name="How the club came in")
    expect(panel).to_contain_text("Where ball 10 met the face cannot be told.")
    expect(panel.get_by_role("table")).to_be_visible()
    assert axe_findings(page) == []
    assert small_targets(page) == []
    page.keyboard.press("Escape")
    expect(panel).to_be_hidden()


def test_a_key_opens_it_too_and_the_bay_goes_on_behind(
    browse: Browse, bay: Bay, address: str
) -> None:
    page = browse()
    page.goto(f"{address}{bay.path}")
    page.wait_for_selector("body[data-painted-revision]")
    page.keyboard.press("a")
    panel = page.get_by_role("dialog", name="How the club came in")
    expect(panel).to_contain_text("Where ball 10 met the face cannot be told.")
    assert page.url.endswith("/bay")


def test_the_shop_learns_on_request(browse: Browse, address: str) -> None:
    page = browse()
    page.goto(f"{address}/settings")
    page.get_by_role("link", name="What the marked shots tell of it").click()
    expect(page.locator("h1")).to_contain_text("No spin setting was learned yet")
    page.get_by_role("button", name="Learn from the marked shots").click()
    expect(page.locator("h1")).to_contain_text("Premium, new, face spray has a spin setting of")
    assert axe_findings(page) == []
