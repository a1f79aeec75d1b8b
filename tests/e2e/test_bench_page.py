"""The bench page in Chromium: 22 readings by keyboard alone, sound in every theme."""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from playwright.sync_api import Page, expect

from bench_sheets import LENGTH_MM, SLIPPED, deflections, slipped, station
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
from keystrokes import KEY, THINK
from loftwright.services.bench_keeping import open_sheet
from loftwright.services.studio import Studio
from serving import served
from studios import a_shaft, app_of, studio_in_memory

SIX_MINUTES = 360.0


@dataclass(slots=True)
class Keys:
    """A keyboard, and the time its strokes take by the keystroke-level model."""

    page: Page
    seconds: float = 0.0

    def write(self, text: str) -> None:
        """Think of a figure, type it, and press Enter."""
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")
        self.seconds += THINK + KEY * (len(text) + 1)

    def at(self) -> str:
        """Return the name of the field that has the focus."""
        name: str = self.page.evaluate("document.activeElement.name ?? ''")
        return name


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A served studio with a shaft on its bench."""

    studio: Studio
    shaft: str
    address: str


@pytest.fixture
def bench() -> Iterator[Bench]:
    studio = studio_in_memory()
    shaft = a_shaft(studio, "Reedmace")[0].id
    with served(app_of(studio)) as host:
        yield Bench(studio=studio, shaft=shaft, address=f"{host}/rack/items/{shaft}/bench")


def sound(page: Page) -> list[str]:
    """Return what is wrong with how a page stands."""
    wide = wider_than_window(page)
    return [
        *axe_findings(page),
        *small_targets(page),
        *([f"{wide} px wider than the window"] if wide else []),
    ]


def type_sheet(page: Page, digits: list[str]) -> Keys:
    """Type a whole sheet from its first field on, by keyboard alone."""
    keys = Keys(page)
    page.locator("#b-length").focus()
    for text in (f"{LENGTH_MM} mm", "Bench 1", f"{300 / 25.4:.3f}", "50"):
        keys.write(text)
    for row, text in enumerate(digits):
        if row < 2:
            assert keys.at() == f"s0r{row}-station"
            keys.write(f"{float(station(row)) / 25.4:.3f}")
        assert keys.at() == f"s0r{row}-deflection"
        keys.write(text)
    return keys


def test_22_readings_are_typed_by_keyboard_in_six_minutes_and_the_slip_is_named(
    browse: Browse, bench: Bench
) -> None:
    page = browse(size=LYING)
    page.goto(bench.address)
    keys = type_sheet(page, slipped())
    expect(page.locator("h1")).to_contain_text("row A9 looks wrong: two digits swapped?")
    expect(page.locator("#part-state")).to_contain_text("22 rows read, 1 doubt.")
    assert keys.seconds < SIX_MINUTES
    assert "not read" in page.locator("#part-ribbon").inner_text()
    rows = open_sheet(bench.studio, bench.shaft).sheet.series[0].rows
    assert [row.cell("deflection") for row in rows] == slipped()
    assert float(rows[-1].cell("station")) * 25.4 == pytest.approx(float(station(21)), abs=0.5)


def test_a_doubt_is_settled_by_one_tap_and_undone_by_another(browse: Browse, bench: Bench) -> None:
    page = browse(size=UPRIGHT)
    page.goto(bench.address)
    type_sheet(page, slipped())
    page.get_by_role("button", name="Two digits swapped").click()
    page.wait_for_url(f"**#row-s0r{SLIPPED}")
    expect(page.locator("h1")).not_to_contain_text("looks wrong")
    cell = page.locator(f"#b-s0r{SLIPPED}-deflection")
    assert cell.input_value() == deflections()[SLIPPED]
    assert sound(page) == []
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("h1")).to_contain_text("row A9 looks wrong")
    assert cell.input_value() == slipped()[SLIPPED]


def test_a_button_pressed_at_once_loses_no_reading(browse: Browse, bench: Bench) -> None:
    page = browse(size=LYING)
    page.goto(bench.address)
    type_sheet(page, deflections()[:5])
    page.locator("select[name=kind]").select_option("mass")
    page.get_by_role("button", name="Add it").click()
    page.wait_for_url("**#series-1")
    kept = open_sheet(bench.studio, bench.shaft).sheet
    assert [row.cell("deflection") for row in kept.series[0].rows] == deflections()[:5]
    assert [one.kind for one in kept.series] == ["three_point", "mass"]


def test_a_reload_and_a_second_tablet_find_every_reading(browse: Browse, bench: Bench) -> None:
    page = browse(size=UPRIGHT)
    page.goto(bench.address)
    type_sheet(page, deflections()[:6])
    expect(page.locator("#part-state")).to_contain_text("6 rows read.")
    page.reload()
    other = browse(size=LYING)
    other.goto(bench.address)
    for one in (page, other):
        shown = [one.locator(f"#b-s0r{row}-deflection").input_value() for row in range(6)]
        assert shown == deflections()[:6]


def test_the_band_narrows_while_one_types(browse: Browse, bench: Bench) -> None:
    page = browse(size=UPRIGHT)
    page.goto(bench.address)
    digits = deflections()
    keys = type_sheet(page, digits[:4])
    expect(page.locator("#part-state")).to_contain_text("4 rows read.")
    before = page.locator("h1").inner_text()
    for text in digits[4:12]:
        keys.write(text)
    expect(page.locator("#part-state")).to_contain_text("12 rows read.")
    assert page.locator("h1").inner_text() != before


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
def test_the_row_that_is_typed_stays_in_sight(
    browse: Browse, bench: Bench, size: tuple[int, int]
) -> None:
    page = browse(size=size)
    page.goto(bench.address)
    type_sheet(page, slipped()[:14])
    expect(page.locator("#part-state")).to_contain_text("14 rows read, 1 doubt.")
    page.wait_for_timeout(200)
    top, bottom = page.evaluate(
        "(() => { const box = document.activeElement.getBoundingClientRect();"
        " return [box.top, box.bottom]; })()"
    )
    bar = page.locator("#part-state").bounding_box()
    assert bar is not None
    assert top > 0.0
    assert bottom <= bar["y"] + 1.0


def test_an_empty_set_up_is_marked_where_it_is_missing(browse: Browse, bench: Bench) -> None:
    page = browse(size=LYING)
    page.goto(bench.address)
    page.locator("#b-length").fill("1143 mm")
    page.locator("#b-s0r0-deflection").fill("0.402")
    expect(page.locator("#verdict-s0r0")).to_contain_text("Span is empty.")
    assert page.locator("#b-s0r0-span").get_attribute("aria-invalid") == "true"
    assert sound(page) == []


@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW], ids=["lying", "upright", "narrow"])
@pytest.mark.parametrize("theme", THEMES)
def test_the_bench_page_is_sound_bare_and_typed(
    browse: Browse, bench: Bench, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    page.goto(bench.address)
    bare = sound(page)
    type_sheet(page, slipped())
    expect(page.locator("#part-state")).to_contain_text("22 rows read, 1 doubt.")
    page.locator("summary", has_text="Grip or sleeve").click()
    assert (bare, sound(page)) == ([], [])


def test_the_sheet_works_without_scripts(browse: Browse, bench: Bench) -> None:
    page = browse(size=UPRIGHT, java_script_enabled=False)
    page.goto(bench.address)
    page.locator("#b-length").fill("1143 mm")
    page.locator("#b-s0-span").fill("300 mm")
    page.locator("#b-s0-load").fill("50")
    page.locator("#b-s0r0-station").fill("150 mm")
    page.locator("#b-s0r0-deflection").fill("0.402")
    page.locator("#b-s0r0-deflection").press("Enter")
    page.wait_for_url("**/bench?kept=saved*")
    assert page.locator("#b-s0r0-span").input_value() == "300 mm"
    assert "1 row read." in page.inner_text("#part-state")
