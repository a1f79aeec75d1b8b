"""Parts and measured cards in Chromium: a head that differs is mended by hand and by keyboard."""

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
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.services.measured_cards import keep_measured
from loftwright.services.parts import check_in, parts_standing, settle
from loftwright.services.studio import Studio
from loftwright.workshop.parts import State
from ordered import Ordered, a_head_came, an_order
from serving import served
from studios import app_of

LOOKS = tuple(product(THEMES, (LYING, UPRIGHT)))


@pytest.fixture
def ordered(studio: Studio) -> Ordered:
    return an_order(studio)


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    with served(app_of(studio)) as found:
        yield found


def check_head_in(page: Page) -> None:
    head = page.locator("#head")
    head.get_by_label("It is what was ordered").check()
    head.get_by_label("Right").check()
    for name, figure in (("Weight", "197"), ("Loft", "9.5"), ("Lie", "58"), ("Face", "0")):
        head.get_by_label(name, exact=False).first.fill(figure)
    head.get_by_role("button", name="Check it in").click()


def test_a_light_strong_head_is_mended_and_taken_back(
    browse: Browse, studio: Studio, ordered: Ordered, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{ordered.fitting}/build/parts")
    expect(page.locator("h1")).to_contain_text("Nothing has come yet")
    check_head_in(page)
    expect(page.locator("h1")).to_have_text(
        "The head is 3.0 g light and 1.0° strong: settle it before anything is glued."
    )
    head = page.locator("#head")
    head.get_by_label("Add 3.0 g to the head").check()
    head.get_by_label("Turn the sleeve to one up").check()
    head.get_by_role("button", name="Settle it").click()
    expect(page.locator("h1")).to_contain_text("What came is settled")
    expect(page.get_by_text("every setting has to keep to the Rules")).to_be_visible()
    settled = parts_standing(studio, ordered.fitting).parts[Part.HEAD]
    assert settled.state is State.SETTLED
    assert settled.settled[Matter.ANGLES].setting == "one up"
    page.get_by_role("button", name="Undo part settled").click()
    expect(page.locator("h1")).to_contain_text("1.0° strong")


def test_a_head_is_settled_by_keyboard_alone(
    browse: Browse, studio: Studio, ordered: Ordered, address: str
) -> None:
    check_in(studio, ordered.fitting, a_head_came(mass=197.0 * GRAM))
    page = browse()
    page.goto(f"{address}/fittings/{ordered.fitting}/build/parts")
    first = page.locator("#head input[type=radio]").first
    first.focus()
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.type("2.8")
    page.keyboard.press("Tab")
    page.keyboard.type("by hand")
    page.keyboard.press("Enter")
    expect(page.locator("#head")).to_contain_text("2.8 g go into the head: by hand")


def test_nothing_is_wrong_in_any_state_size_or_theme(
    browse: Browse, studio: Studio, ordered: Ordered, address: str
) -> None:
    empty, mended = an_order(studio, agreed=False), an_order(studio, card=None)
    check_in(studio, ordered.fitting, a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE))
    grip = PartCame(part=Part.GRIP, figures=PartFigures(mass=50.2 * GRAM))
    check_in(studio, ordered.fitting, grip)
    check_in(studio, mended.fitting, a_head_came(loft=9.5 * DEGREE))
    turn = PartSettled(
        part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting="one up", matter=Matter.ANGLES
    )
    settle(studio, mended.fitting, [turn])
    keep_measured(
        studio,
        ordered.club.id,
        PartFigures(mass=315.0 * GRAM, balance=33.5 * INCH, swingweight=35.0),
    )
    pages = [f"/fittings/{one.fitting}/build/parts" for one in (empty, ordered, mended)]
    pages += [f"/rack/items/{one}/measured" for one in (ordered.club.id, ordered.spec.head_piece)]
    found = []
    for theme, size in (*LOOKS, ("bright", NARROW)):
        page = browse(theme=theme, size=size)
        for path in pages:
            page.goto(f"{address}{path}")
            expect(page.locator("h1")).to_be_visible()
            where = f"{path} {theme} {size[0]}"
            found += [f"{where}: {one}" for one in axe_findings(page)]
            found += [f"{where}: small {one}" for one in small_targets(page)]
            assert wider_than_window(page) == 0, where
        page.context.close()
    assert found == []
