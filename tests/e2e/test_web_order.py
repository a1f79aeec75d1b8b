"""From the choice to the order in Chromium: counted and timed, in every state, size and theme."""

import re
from collections.abc import Iterator
from itertools import product

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
from keystrokes import Person
from loftwright.domain.order import PriceKind
from loftwright.domain.terms import ListedPrice, Terms
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from serving import served
from studios import app_of

SCENARIO_SECONDS = 180.0
"""Scenario of the day: from the choice to a quote and a signed club."""

QUOTE_ASH = re.compile(r"Quote this\s+for Ash$")
TERMS = Terms(
    prices=(
        ListedPrice(what="Build and grip", kind=PriceKind.LABOUR, price=6000, usual=True),
        ListedPrice(what="Spare sleeve", kind=PriceKind.PART, price=2450),
    ),
    tax=0.2,
    deposit=0.3,
    builder="The Old Forge",
    cannot=("tip trim", "tight swingweight"),
)


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    change_terms(studio, TERMS, version=read_terms(studio).version)
    with served(app_of(studio)) as found:
        yield found


def test_from_the_choice_to_a_signed_club_in_three_minutes_and_few_taps(
    browse: Browse, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.finished}/choice")
    person = Person(page)
    person.follows(QUOTE_ASH)
    person.presses("Quote it")
    expect(page.locator("h1")).to_contain_text("is quoted at 586.80 crowns")
    person.types("name", "Rosalind Quickly")
    person.presses("Agreed here")
    expect(page.locator("h1")).to_contain_text("is agreed at 586.80 crowns")
    assert (person.clicks, person.fields) == (3, 1)
    assert person.seconds < SCENARIO_SECONDS / 6.0


def test_an_order_is_changed_agreed_sent_called_off_and_taken_back(
    browse: Browse, demo: DemoStudio, address: str
) -> None:
    page = browse(size=UPRIGHT)
    page.goto(f"{address}/fittings/{demo.finished}/choice")
    page.get_by_role("link", name=QUOTE_ASH).click()
    page.get_by_role("button", name="Quote it", exact=True).click()
    page.get_by_role("link", name="Change the quote").click()
    page.get_by_label("Each crowns").first.fill("400")
    page.get_by_label("From the price list").select_option(label="Spare sleeve, 24.50 crowns")
    page.get_by_role("button", name="Add a line").click()
    expect(page.get_by_label("Each crowns").first).to_have_value("400")
    page.get_by_role("button", name="Remove line 2").click()
    page.get_by_role("button", name="Quote it", exact=True).click()
    expect(page.locator("h1")).to_contain_text("is quoted at 509.40 crowns")
    expect(page.locator("#quoted")).to_contain_text("Spare sleeve")
    expect(page.locator("#quoted")).not_to_contain_text("Build and grip")
    page.get_by_label("Name, as signed").fill("Rosalind Quickly")
    page.get_by_role("button", name="Agreed here").click()
    text = page.get_by_label("To copy")
    expect(text).to_have_value(_holding("For: R.Q."))
    expect(page.locator("#text")).to_contain_text("What The Old Forge cannot do")
    with page.expect_download() as told:
        page.get_by_role("link", name="Download the text").click()
    assert told.value.suggested_filename.endswith(".txt")
    page.get_by_role("button", name="The order is out").click()
    expect(page.locator("h1")).to_contain_text("is ordered and promised for")
    page.get_by_label("Why").fill("too dear")
    page.get_by_role("button", name="Call it off").click()
    expect(page.locator("h1")).to_contain_text("The order is off: too dear.")
    page.get_by_role("button", name="Undo order off").click()
    expect(page.locator("h1")).to_contain_text("is ordered and promised for")


def test_a_quote_is_written_with_the_keyboard_alone(
    browse: Browse, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.finished}/order?club=Ash")
    page.get_by_label("Each crowns").first.focus()
    page.keyboard.type("0")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("is quoted at")
    page.get_by_label("Name, as signed").focus()
    page.keyboard.type("Rosalind")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("is agreed at")


def test_nothing_is_wrong_in_any_state_size_or_theme(
    browse: Browse, demo: DemoStudio, address: str
) -> None:
    at = f"{address}/fittings/{demo.finished}/order"
    found: list[str] = []
    pages = [
        (f"{theme} {size[0]}", browse(theme=theme, size=size))
        for theme, size in product(THEMES, (LYING, UPRIGHT, NARROW))
    ]

    def look(where: str, query: str = "") -> Page:
        for name, page in pages:
            page.goto(at + query)
            expect(page.locator("h1")).to_be_visible()
            found.extend(f"{where} {name}: {one}" for one in axe_findings(page))
            found.extend(f"{where} {name}: small {one}" for one in small_targets(page))
            assert wider_than_window(page) == 0, f"{where} {name}"
        return pages[0][1]

    look("none")
    page = look("form", "?club=Ash, half an inch longer")
    page.get_by_role("button", name="Quote it", exact=True).click()
    look("waiting")
    page = look("another", "?club=Ash")
    page.get_by_role("button", name="Quote it", exact=True).click()
    page = look("quoted")
    page.get_by_label("Name, as signed").fill("Rosalind Quickly")
    page.get_by_role("button", name="Agreed here").click()
    page = look("agreed")
    page.get_by_role("button", name="The order is out").click()
    page = look("sent")
    page.get_by_label("Why").fill("too dear")
    page.get_by_role("button", name="Call it off").click()
    look("off")
    assert found == []


def _holding(words: str) -> re.Pattern[str]:
    return re.compile(re.escape(words))
