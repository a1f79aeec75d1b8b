"""The bays in Chromium: a scan moves a part, the other bay's page hears it, nothing is amiss."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Locator, Page, expect

from browser import LYING, UPRIGHT, Browse, Faults, axe_findings, small_targets, wider_than_window
from checked_bays import CheckedHouse, a_checked_house
from loftwright.domain.piece_code import code_of
from serving import served
from studios import app_of


@pytest.fixture(scope="module")
def house() -> CheckedHouse:
    return a_checked_house()


@pytest.fixture(scope="module")
def address(house: CheckedHouse) -> Iterator[str]:
    with served(app_of(house.studio)) as found:
        yield found


@pytest.mark.parametrize("theme", ["bright", "dark"])
@pytest.mark.parametrize("size", [LYING, UPRIGHT])
@pytest.mark.parametrize("path", ["/bays", "/people", "/people#leave"])
def test_a_page_is_whole_for_everybody(
    browse: Browse, address: str, path: str, size: tuple[int, int], theme: str
) -> None:
    page = browse(theme, size)
    page.goto(address + path)
    if path.endswith("#leave"):
        page.get_by_role("button", name="Leaves Bo Marsh").click()
        expect(page.get_by_role("heading", name="Bo Marsh leaves")).to_be_visible()
    assert axe_findings(page) == []
    assert small_targets(page) == []
    assert wider_than_window(page) == 0


def test_the_sentence_says_which_bay_reads_otherwise(browse: Browse, address: str) -> None:
    page = browse()
    page.goto(f"{address}/bays")
    expect(page.locator("h1")).to_contain_text("Bay 2 reads 3")
    expect(page.locator("h1")).to_contain_text("compare clubs within a bay.")
    expect(page.locator("figure svg")).to_be_visible()


def test_a_part_is_taken_over_by_keyboard_and_the_other_page_hears_it(
    browse: Browse, faults: Faults, address: str, house: CheckedHouse
) -> None:
    faults.allow("status of 409")
    here, there = browse(), browse()
    for page in (here, there):
        page.goto(f"{address}/bays")
    expect(row(there)).to_contain_text("Bay 2")
    here.get_by_label("Label", exact=True).fill(code_of(house.shaft.id))
    here.get_by_label("Is now at").select_option("Bay 1")
    here.get_by_label("Who says so").fill("Ann Reed")
    here.get_by_label("Who says so").press("Enter")
    expect(here.get_by_role("alert")).to_contain_text("Reedmace is with Bay 2 since 12:00")
    assert axe_findings(here) == []
    assert small_targets(here) == []
    expect(row(there)).to_contain_text("Bay 2")
    here.get_by_role("button", name="It is here: take it from Bay 2").press("Enter")
    expect(here.get_by_role("status").filter(has_text="Reedmace: Bay 1")).to_be_visible()
    expect(row(there)).to_contain_text("Bay 1")
    expect(row(there)).to_contain_text("Ann Reed")


def row(page: Page) -> Locator:
    """Return the line of the shaft that moves."""
    return page.locator("#part-places tr").filter(has_text="Reedmace")
