"""Pick-up balls in Chromium: from the checked club over the bay to the hand-over, live."""

import re
from collections.abc import Iterator

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
from loftwright.constants import DEGREE
from loftwright.domain.acts import WarmUpDone
from loftwright.services.acting import act
from loftwright.services.demo_studio import FINISHED_BALLS, DemoStudio, fill_demo
from loftwright.services.pick_up_bars import picked_now
from loftwright.services.studio import Studio
from loftwright.services.warm_up import warm_up
from pick_ups import TESTED, Built, ready
from serving import served
from studios import Clock, app_of, studio_in_memory

LINES = 4


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    made = fill_demo(studio)
    assert made is not None
    return made


@pytest.fixture
def built(studio: Studio, clock: Clock, demo: DemoStudio) -> Built:
    return ready(studio, clock, demo)


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    warm_up()
    with served(app_of(studio)) as found:
        yield found


def at(built: Built) -> str:
    return f"/fittings/{built.fitting}/final-check/pick-up"


def next_in_hand(page: Page, club: str) -> None:
    """Take the club that the bay proposes next, and see that it is this one."""
    page.get_by_role("button", name=re.compile(f"^{club} in hand")).first.click()
    expect(page.locator("#part-hand .far span").first).to_have_text(club)


def test_a_built_club_is_hit_in_turn_compared_live_and_taken(
    browse: Browse, built: Built, address: str
) -> None:
    page = browse(size=LYING)
    page.goto(f"{address}{at(built)}")
    expect(page.locator("h1")).to_contain_text("The built club can be hit against")
    page.get_by_label("No", exact=True).check()
    page.get_by_role("button", name="Start the warm-up").click()
    expect(page).to_have_url(re.compile(r"/bay(#begin)?$"))
    act(built.studio, built.fitting, [WarmUpDone(unseen=8)])
    verdict = browse(size=UPRIGHT)
    verdict.goto(f"{address}{at(built)}")
    expect(verdict.locator("h1")).to_have_text(
        "No ball yet with the built club or the tested one."
    )
    for club, balls in ((TESTED, 3), ("Fir", 4), (TESTED, 3), ("Fir", 4)):
        next_in_hand(page, club)
        built.hit(club, balls, as_club=TESTED)
        if built.now.balls[-1].number < FINISHED_BALLS + 5:
            expect(verdict.locator("h1")).to_have_text(
                "Too few balls yet: 3 of 7.", timeout=20_000
            )
    expect(verdict.locator("h1")).to_have_text(
        re.compile("^(Plays as the tested one did|Cannot tell)"), timeout=20_000
    )
    expect(verdict.locator("#numbers tbody tr")).to_have_count(6)
    expect(verdict.locator("#apart svg")).to_be_visible()
    verdict.reload()
    for place in range(LINES):
        verdict.locator(f'input[name="told_{place}"]').check()
    verdict.get_by_role("button", name="The golfer has the club").click()
    expect(verdict.locator("h1")).to_contain_text("The golfer has the club")
    picked = picked_now(built.studio.store.job_record(built.fitting))
    assert picked is not None
    assert picked.taken
    assert len(picked.told) == LINES
    expect(verdict.locator("nav.job li.here")).to_have_text(re.compile("Final check"))
    verdict.get_by_role("button", name="Undo pick-up").click()
    expect(verdict.locator("h1")).to_have_text(
        re.compile("^(Plays as the tested one did|Cannot tell)")
    )


def test_the_hand_over_goes_by_keyboard_alone(browse: Browse, built: Built, address: str) -> None:
    page = browse(size=LYING)
    page.goto(f"{address}{at(built)}")
    for place in range(LINES):
        page.locator(f'input[name="told_{place}"]').focus()
        page.keyboard.press("Space")
    page.get_by_role("button", name="The golfer has the club").focus()
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("The golfer has the club; no balls were compared.")


def test_nothing_is_wrong_in_any_state_size_or_theme(
    browse: Browse, built: Built, address: str
) -> None:
    found = look(browse, f"{address}{at(built)}", "ready")
    name = built.begin()
    built.hit(TESTED, 2)
    found += look(browse, f"{address}{at(built)}", "few")
    built.rotate(name, stronger=6.0 * DEGREE)
    found += look(browse, f"{address}{at(built)}", "differs")
    assert found == []


def look(browse: Browse, address: str, state: str) -> list[str]:
    """Return what is wrong with a page in both themes and every size."""
    found = []
    for theme in THEMES:
        for size in (LYING, UPRIGHT, NARROW):
            page = browse(theme=theme, size=size)
            page.goto(address)
            expect(page.locator("h1")).to_be_visible()
            where = f"{state} {theme} {size[0]}"
            if size != NARROW:
                found += [f"{where}: {one}" for one in axe_findings(page)]
                found += [f"{where}: small {one}" for one in small_targets(page)]
            if wider_than_window(page):
                found.append(f"{where}: wider than the window")
            page.context.close()
    return found
