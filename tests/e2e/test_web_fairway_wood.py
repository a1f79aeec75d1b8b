"""A fairway wood among drivers in Chromium: what every page of the fitting says, and soundly."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from bays import Bay
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
from fairway_woods import with_wood
from loftwright.web.app import create_app
from serving import served

SIZES = {"lying": LYING, "upright": UPRIGHT, "narrow": NARROW}


@pytest.fixture(scope="module")
def mixed() -> Bay:
    return with_wood("Own", "Ash", "Cedar")


@pytest.fixture(scope="module")
def address(mixed: Bay) -> Iterator[str]:
    with served(create_app(mixed.studio)) as found:
        yield found


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("theme", THEMES)
def test_every_page_with_it_is_sound(
    browse: Browse, mixed: Bay, address: str, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    for name in ("plan", "bay", "delivery", "evidence", "choice"):
        page.goto(f"{address}/fittings/{mixed.fitting}/{name}")
        assert axe_findings(page) == [], name
        assert small_targets(page) == [], name
        assert wider_than_window(page) <= 0, name


def test_from_its_ball_to_the_choice_nothing_is_told_at_home(
    browse: Browse, mixed: Bay, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{mixed.fitting}/bay")
    fly = page.locator("#part-fly")
    expect(fly).to_contain_text("Ball 12 with Cedar")
    expect(fly).to_contain_text("No flight is drawn. Not for a fairway wood.")
    expect(page.locator("#part-fly > svg")).to_have_count(0)

    page.goto(f"{address}/fittings/{mixed.fitting}/evidence")
    row = page.locator("#outside tbody tr")
    expect(row).to_have_count(1)
    expect(row).to_contain_text("a fairway wood")

    page.goto(f"{address}/fittings/{mixed.fitting}/choice")
    group = page.locator("tbody.group", has_text="Not drivers: never ranked")
    expect(group.locator("tr")).to_have_count(2)
    expect(group).to_contain_text("Strokes are counted from where a drive ends.")


def test_a_driver_in_hand_again_flies_again(browse: Browse) -> None:
    bay = with_wood("Cedar", "Own")
    page = browse()
    with served(create_app(bay.studio)) as here:
        page.goto(f"{here}/fittings/{bay.fitting}/bay")
        expect(page.locator("#part-fly > svg")).to_have_count(1)
