"""A comparison to publish in Chromium: chosen, looked at, decided, handed out and withdrawn."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

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
from loftwright.web.app import create_app
from published_shops import PublishedShop, a_publishing_shop, say_no
from serving import served


@pytest.fixture
def shop() -> PublishedShop:
    return a_publishing_shop(6)


@pytest.fixture
def address(shop: PublishedShop) -> Iterator[str]:
    with served(create_app(shop.studio)) as found:
        yield found


@pytest.mark.parametrize(
    ("size", "theme"), [(LYING, "bright"), (UPRIGHT, "dark"), (NARROW, "bright")]
)
def test_from_the_choice_to_the_file_and_back(
    browse: Browse,
    faults: Faults,
    address: str,
    tmp_path: Path,
    shop: PublishedShop,
    size: tuple[int, int],
    theme: str,
) -> None:
    faults.allow("422")
    page = browse(size=size, theme=theme)
    page.goto(f"{address}/shop/comparisons")

    def sound() -> None:
        assert axe_findings(page) == []
        assert small_targets(page) == []
        assert wider_than_window(page) == 0

    sound()
    page.get_by_label("Show Bittern 60 g firm").check()
    page.get_by_label("Against").select_option(label="Curlew 60 g firm")
    page.get_by_label("One line under it").fill("the longest of them")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("#n-make-note")).to_contain_text("which model is ahead")
    expect(page.get_by_label("Show Bittern 60 g firm")).to_be_checked()
    sound()
    page.get_by_label("One line under it").fill("Hit from a mat")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("h1")).to_have_text(
        "Bittern 60 g firm can be told apart from Curlew 60 g firm."
    )
    sound()
    page.get_by_label("Who publishes it").fill("Umberto")
    page.get_by_role("button", name="Publish it").click()
    expect(page.locator("h1")).to_contain_text("Comparison 1 was published")
    sound()
    with page.expect_download() as download:
        page.get_by_role("link", name="Picture to publish, PNG").click()
    file = tmp_path / "comparison.png"
    download.value.save_as(file)
    assert file.read_bytes().startswith(b"\x89PNG")
    say_no(shop.studio, shop.golfers[0])
    page.get_by_role("link", name="All comparisons").click()
    expect(page.locator("#published")).to_contain_text("1 golfer no longer agrees")
    page.get_by_role("link", name="Open comparison 1").click()
    page.get_by_label("Who withdraws it").fill("Umberto")
    page.get_by_role("button", name="Withdraw it").click()
    expect(page.locator("h1")).to_contain_text("was withdrawn")
    expect(page.get_by_role("link", name="Picture to publish, PNG")).to_have_count(0)
    sound()


def test_what_is_missing_is_told_and_nothing_drawn(
    browse: Browse, address: str, shop: PublishedShop
) -> None:
    for golfer in shop.golfers[:3]:
        say_no(shop.studio, golfer)
    page = browse(size=UPRIGHT)
    page.goto(f"{address}/shop/comparisons/look?kind=shaft&model=s-bittern&reference=s-curlew")
    expect(page.locator("h1")).to_have_text("This comparison may not leave the shop yet.")
    expect(page.locator("#missing")).to_contain_text("3 of 5 golfers")
    assert page.locator("main svg").count() == 0
    assert axe_findings(page) == []
    page.get_by_role("link", name="Change it").click()
    expect(page.get_by_label("Show Bittern 60 g firm")).to_be_checked()
