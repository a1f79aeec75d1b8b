"""Copy, erase and what is kept in Chromium: nothing amiss, and an erase by keyboard."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from bays import Bay, a_bay
from browser import LYING, UPRIGHT, Browse, axe_findings, small_targets, wider_than_window
from loftwright.domain.acts import Closed
from serving import served


@pytest.fixture(scope="module")
def bay() -> Bay:
    made = a_bay()
    made.ball()
    made.do(Closed())
    made.clock.forward(60.0)
    return made


@pytest.fixture(scope="module")
def address(bay: Bay) -> Iterator[str]:
    with served(bay.app()) as found:
        yield found


@pytest.mark.parametrize(
    ("theme", "size"), [("bright", LYING), ("dark", UPRIGHT)], ids=["bright", "dark"]
)
def test_the_pages_are_whole_for_everybody(
    browse: Browse, address: str, bay: Bay, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme, size)
    for path in (
        f"/golfers/{bay.golfer.id}/erase",
        "/what-is-kept",
        "/people",
        f"/fittings/{bay.fitting}/golfer",
    ):
        page.goto(address + path)
        assert axe_findings(page) == [], path
        assert small_targets(page) == [], path
        assert wider_than_window(page) == 0, path
        scrolls = "all => all.filter(one => one.scrollWidth > one.clientWidth).length"
        assert page.locator(".scroll").evaluate_all(scrolls) == 0, path


def test_a_golfer_is_handed_a_copy_and_erased_by_keyboard(
    browse: Browse, address: str, bay: Bay
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{bay.fitting}/golfer")
    with page.expect_download() as copy:
        page.get_by_role("link", name="Copy for the golfer").press("Enter")
    assert copy.value.suggested_filename == "copy-for-the-golfer.zip"
    page.get_by_role("link", name="Erase this golfer").press("Enter")
    expect(page.locator("h1")).to_contain_text("1 fitting with 1 ball")
    page.get_by_label("Type O.B. to erase").fill("O.B.")
    page.get_by_role("button", name="Erase O.B.").press("Enter")
    expect(page.get_by_text("The golfer is erased.")).to_be_visible()
    assert axe_findings(page) == []
    assert bay.golfer.id not in bay.studio.store.golfer_ids()
