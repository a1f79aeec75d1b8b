"""Evidence, choice, report and the virtual golfer in Chromium: every state, size and theme."""

from collections.abc import Iterator
from itertools import product

import pytest
from playwright.sync_api import expect

from browser import (
    LYING,
    NARROW,
    THEMES,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.bay.replay import replay
from loftwright.domain.acts import Vetoed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from loftwright.web.pages import acts, bay, choice, evidence, report, virtual
from serving import served
from studios import app_of

ROUTERS = (
    acts.router,
    bay.router,
    choice.router,
    evidence.router,
    report.router,
    virtual.router,
)
STEPS = ("evidence", "choice", "report")
LOOKS = tuple(product(THEMES, (LYING, UPRIGHT)))


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    with served(app_of(studio, *ROUTERS)) as found:
        yield found


@pytest.mark.parametrize("step", STEPS)
def test_nothing_is_wrong_in_any_state_size_or_theme(
    browse: Browse, studio: Studio, demo: DemoStudio, address: str, step: str
) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"))
    fresh = open_for_new(studio, visitor, bay="Bay 2").id
    act(studio, demo.in_progress, [Vetoed(club="Cedar")])
    found = []
    for theme, size in LOOKS:
        page = browse(theme=theme, size=size)
        for state in (demo.finished, demo.in_progress, fresh):
            page.goto(f"{address}/fittings/{state}/{step}")
            expect(page.locator("h1")).to_be_visible()
            where = f"{step} {theme} {size[0]}"
            found += [f"{where}: {one}" for one in axe_findings(page)]
            found += [f"{where}: small {one}" for one in small_targets(page)]
            assert wider_than_window(page) == 0, where
        page.context.close()
    assert found == []


@pytest.mark.parametrize("step", STEPS)
def test_no_page_scrolls_sideways_on_a_narrow_tablet(
    browse: Browse, demo: DemoStudio, address: str, step: str
) -> None:
    page = browse(size=NARROW)
    page.goto(f"{address}/fittings/{demo.finished}/{step}")
    assert wider_than_window(page) == 0


@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW])
def test_the_price_stands_in_sight(
    browse: Browse, demo: DemoStudio, address: str, size: tuple[int, int]
) -> None:
    page = browse(size=size)
    page.goto(f"{address}/fittings/{demo.finished}/choice")
    prices = page.locator("table.choice tbody td:last-child")
    assert prices.count() >= 5
    ends = prices.evaluate_all("cells => cells.map(one => one.getBoundingClientRect().right)")
    assert max(ends) <= size[0]


def test_the_evidence_follows_a_ball_and_keeps_the_two_clubs(
    browse: Browse, studio: Studio, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.in_progress}/evidence")
    with page.expect_navigation():
        page.get_by_role("link", name="Ash and Own").or_(
            page.get_by_role("link", name="Own and Ash")
        ).click()
    chosen = page.locator('nav a[aria-current="true"]')
    kept = chosen.inner_text()
    expect(page.locator("body")).to_have_attribute("data-revision", _upto(studio, demo))
    virtual_ball(studio, demo.in_progress)
    expect(page.locator("body")).to_have_attribute("data-painted-revision", _upto(studio, demo))
    assert set(chosen.inner_text().split(" and ")) == set(kept.split(" and "))


def test_the_reveal_is_one_tap_and_shows_that_it_was_done(
    browse: Browse, studio: Studio, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.finished}/choice")
    page.get_by_role("button", name="Reveal on the golfer’s screen").click()
    expect(page.get_by_text("The golfer’s screen shows the names.")).to_be_visible()
    assert replay(studio.record(demo.finished)).revealed
    page.get_by_role("button", name="Hide them again").click()
    expect(page.get_by_role("button", name="Reveal on the golfer’s screen")).to_be_visible()


def test_the_virtual_golfer_keeps_hitting_until_it_is_told_to_stop(
    browse: Browse, studio: Studio, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.in_progress}/bay")
    page.get_by_role("button", name="More", exact=True).click()
    button = page.get_by_role("button", name="Let it keep hitting")
    button.click()
    expect(button).to_have_attribute("aria-pressed", "true")
    page.wait_for_timeout(3600)
    button.click()
    expect(button).to_have_attribute("aria-pressed", "false")
    page.wait_for_timeout(1500)
    balls = replay(studio.record(demo.in_progress)).balls
    assert len(balls) == 25
    page.wait_for_timeout(3200)
    assert len(replay(studio.record(demo.in_progress)).balls) == 25


def test_a_closed_fitting_stops_the_virtual_golfer_and_says_why(
    browse: Browse, faults: Faults, studio: Studio, demo: DemoStudio, address: str
) -> None:
    faults.allow("409")
    page = browse()
    page.goto(f"{address}/fittings/{demo.finished}/bay")
    before = len(studio.record(demo.finished))
    page.get_by_role("button", name="More", exact=True).click()
    button = page.get_by_role("button", name="Let it keep hitting")
    button.click()
    expect(page.locator("#virtual-said")).to_contain_text("closed")
    expect(button).to_have_attribute("aria-pressed", "false")
    assert len(studio.record(demo.finished)) == before


def test_the_paper_is_downloaded_under_a_plain_name(
    browse: Browse, demo: DemoStudio, address: str
) -> None:
    page = browse()
    page.goto(f"{address}/fittings/{demo.finished}/report")
    with page.expect_download() as told:
        page.get_by_role("link", name="Print: the PDF").click()
    assert told.value.suggested_filename == ("fitting-2026-11-19-rosalind-quickly-invented.pdf")


def _upto(studio: Studio, demo: DemoStudio) -> str:
    return str(studio.record(demo.in_progress)[-1].sequence)
