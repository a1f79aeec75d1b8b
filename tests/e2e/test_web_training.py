"""Training cases in Chromium from the list of cases to what was true, by tap and by key."""

import re
from collections.abc import Callable, Iterator
from functools import partial
from itertools import product

import pytest
from fastapi import FastAPI
from playwright.sync_api import Page, expect

from browser import (
    LOW,
    LYING,
    NARROW,
    THEMES,
    UPRIGHT,
    Browse,
    axe_findings,
    cut_or_covered,
    small_targets,
    wider_than_window,
)
from loftwright.bay.now import FittingNow
from loftwright.services.studio import Studio
from loftwright.training.case import Case
from loftwright.training.case_files import known_cases
from serving import served
from studios import app_of, studio_in_memory

TRIES = 200
LOOKS = tuple(product(THEMES, (LYING, UPRIGHT, NARROW)))


@pytest.fixture
def app() -> FastAPI:
    return app_of(studio_in_memory())


@pytest.fixture
def address(app: FastAPI) -> Iterator[str]:
    with served(app) as found:
        yield found


class Bay:
    """A case in its bay, opened from the list of cases.

    Parameters
    ----------
    page : Page
    app : FastAPI
        Whose training room the page shows.
    address : str
    golfer : str
        Whose case is opened.
    """

    def __init__(self, page: Page, app: FastAPI, address: str, golfer: str) -> None:
        self.page = page
        page.goto(f"{address}/training")
        page.get_by_role("button", name=f"Open {golfer}").click()
        expect(page).to_have_url(re.compile(r"/fittings/training-[0-9a-f-]+/bay"))
        self.fitting = page.url.split("/")[-2]
        self._room: Studio = app.state.training.studio()
        self._loaded()

    def hands_over(self, club: str) -> None:
        """Hand a club over by whatever button of the page does."""
        if self._now.in_hand == club:
            return
        # Found and pressed in one step: the page may draw its parts anew between two.
        selector = f'form[data-act]:has(input[name="club"][value="{club}"]) button'
        self.page.evaluate("selector => document.querySelector(selector).click()", selector)
        self._until(lambda: self._now.in_hand == club)

    def hits(self, balls: int, *, by_key: bool) -> None:
        """Let the golfer hit, by the button or by its key."""
        for _ in range(balls):
            before = len(self._now.balls)
            # A form that is still on its way does not go a second time.
            expect(self.page.locator("form[data-sending]")).to_have_count(0)
            if by_key:
                self.page.keyboard.press("h")
            else:
                self.page.get_by_role("button", name="Virtual golfer hits").click()
            self._until(partial(self._has, before + 1))
            expect(self.page.locator("#part-fly")).to_contain_text(f"Ball {before + 1} with")

    def _has(self, balls: int) -> bool:
        return len(self._now.balls) == balls

    @property
    def _now(self) -> FittingNow:
        return self._room.standing(self.fitting)

    def _loaded(self) -> None:
        """Wait for the scripts: the last one says whether keys are on."""
        expect(self.page.locator("#keys-on")).to_have_text(re.compile("Keys are on"))

    def _until(self, done: Callable[[], bool]) -> None:
        for _ in range(TRIES):
            if done():
                return
            self.page.wait_for_timeout(50)
        pytest.fail("nothing was written")


@pytest.mark.parametrize(
    ("golfer", "call", "sentence", "by_key"),
    [
        ("Fergus Teasel", "Too close to call", "costs 5.7 yd", False),
        ("Lucius Mallow", "Ash", "Ash was best, and you called it.", True),
    ],
)
def test_a_case_is_played_from_the_list_to_what_was_true(
    browse: Browse, app: FastAPI, address: str, golfer: str, call: str, sentence: str, by_key: bool
) -> None:
    page = browse()
    bay = Bay(page, app, address, golfer)
    for club in ("Own", "Ash"):
        bay.hands_over(club)
        bay.hits(3, by_key=by_key)
    page.get_by_role("link", name="The call").click()
    expect(page.locator("h1")).to_contain_text("Which club is it, after 6 balls")
    assert axe_findings(page) == []
    page.get_by_role("radio", name=re.compile(f"^{call}")).check()
    page.get_by_role("button", name="Call it").click()
    expect(page.locator("h1")).to_contain_text(sentence)
    expect(page.locator("#truth svg[role=img]")).to_be_visible()
    expect(page.get_by_role("heading", name="What a good fitter learns")).to_be_visible()
    assert axe_findings(page) == []


@pytest.mark.parametrize("case", known_cases(), ids=lambda case: case.name)
def test_every_case_plays_through_to_its_lesson(
    browse: Browse, app: FastAPI, address: str, case: Case
) -> None:
    page = browse()
    bay = Bay(page, app, address, case.golfer)
    for club in ("Own", "Ash"):
        bay.hands_over(club)
        bay.hits(2, by_key=False)
    page.get_by_role("link", name="The call").click()
    page.get_by_role("radio", name=re.compile("^Too close to call")).check()
    page.get_by_role("button", name="Call it").click()
    expect(page.locator("#truth svg[role=img]")).to_be_visible()
    expect(page.locator("main")).to_contain_text(" ".join(case.lesson.split())[:60])


def test_nothing_is_wrong_in_any_state_size_or_theme(
    browse: Browse, app: FastAPI, address: str
) -> None:
    page = browse()
    bay = Bay(page, app, address, "Obadiah Sorrel")
    fitting = bay.fitting
    states = {"cases": "/training", "before a ball": f"/training/{fitting}"}
    found = _faults(browse, address, states)
    for club in ("Own", "Ash"):
        bay.hands_over(club)
        bay.hits(2, by_key=True)
    for width, height in LOW:
        page.set_viewport_size({"width": width, "height": height})
        found += cut_or_covered(page, ".bay-page", apart=".bar")
    found += _faults(browse, address, {"call": f"/training/{fitting}"})
    page.goto(f"{address}/training/{fitting}")
    page.get_by_role("radio", name=re.compile("^Too close")).check()
    page.get_by_role("button", name="Call it").click()
    expect(page.locator("h1")).to_contain_text("nothing to find")
    states = {"debrief": f"/training/{fitting}", "cases, one called": "/training"}
    found += _faults(browse, address, states)
    assert found == []


def _faults(browse: Browse, address: str, states: dict[str, str]) -> list[str]:
    """Return what is wrong with pages in every size and theme."""
    found = []
    for theme, size in LOOKS:
        page = browse(theme=theme, size=size)
        for name, path in states.items():
            page.goto(f"{address}{path}")
            expect(page.locator("h1")).to_be_visible()
            where = f"{name} {theme} {size[0]}"
            found += [f"{where}: {one}" for one in axe_findings(page)]
            found += [f"{where}: small {one}" for one in small_targets(page)]
            if wider_than_window(page):
                found.append(f"{where}: wider than the window")
        page.context.close()
    return found
