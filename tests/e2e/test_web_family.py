"""The invented family in Chromium: to its picture in four taps, and no claim too many."""

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from playwright.sync_api import Page, expect

from browser import LYING, THEMES, UPRIGHT, Browse, axe_findings, small_targets, wider_than_window
from loftwright.services.demo_family import FAMILY, fill_family
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from serving import served
from studios import studio_in_memory

BLOCK = (
    "12 samples of 6 models; spread between samples: butt",
    "three points 300 mm apart",
    "bench for shafts",
    "Loftwright",
    "95 in 100",
)


@pytest.fixture(scope="module")
def studio() -> Studio:
    made = studio_in_memory()
    fill_family(made)
    return made


@pytest.fixture(scope="module")
def address(studio: Studio) -> Iterator[str]:
    with served(create_app(studio)) as found:
        yield found


class Taps:
    """Links of a page tapped by their words, and counted."""

    def __init__(self, page: Page) -> None:
        self.page, self.number = page, 0

    def tap(self, words: str) -> None:
        self.page.get_by_role("link", name=words).first.click()
        self.number += 1


def test_the_picture_is_exported_in_four_taps_with_how_it_came_about(
    browse: Browse, address: str, tmp_path: Path
) -> None:
    page = browse(size=UPRIGHT)
    page.goto(address)
    taps = Taps(page)
    taps.tap("Rack")
    taps.tap("Families")
    taps.tap(FAMILY)
    with page.expect_download() as download:
        taps.tap("Picture to publish, PNG")
    assert taps.number <= 4
    file = tmp_path / "family.png"
    download.value.save_as(file)
    assert file.read_bytes().startswith(b"\x89PNG\r\n")
    with page.expect_download() as download:
        page.get_by_role("link", name="SVG").click()
    drawn = tmp_path / "family.svg"
    download.value.save_as(drawn)
    text = " ".join(ET.parse(drawn).getroot().itertext())  # noqa: S314 - just written here
    missing = [words for words in BLOCK if words not in text]
    assert missing == []


def test_old_and_new_are_told_by_section_in_per_cent_with_the_noise(
    browse: Browse, address: str
) -> None:
    page = browse(size=LYING)
    page.goto(f"{address}/rack/families/{FAMILY}")
    lines = page.locator("#changes li").all_inner_texts()
    assert len(lines) == 4
    claim = re.compile(
        rf"{FAMILY} .* is \d+ % (?:softer|stiffer) .* than {FAMILY} .*; bench noise"
    )
    borne = [line for line in lines if claim.match(line)]
    assert len(borne) == 2
    assert page.inner_text("h1") in borne
    expect(page.locator("tbody tr")).to_have_count(6)


def test_a_claim_of_one_sample_within_the_spread_is_refused_with_its_reason(
    browse: Browse, address: str
) -> None:
    page = browse(size=LYING)
    page.goto(f"{address}/rack/families/{FAMILY}")
    refused = page.locator("#changes li", has_text="no change is claimed")
    expect(refused).to_have_count(2)
    expect(refused.last).to_contain_text("is within what 1 sample against 2 may differ by")


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
@pytest.mark.parametrize("theme", THEMES)
def test_the_page_is_sound(
    browse: Browse, address: str, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    page.goto(f"{address}/rack/families/{FAMILY}")
    assert (axe_findings(page), small_targets(page), wider_than_window(page)) == ([], [], 0)
