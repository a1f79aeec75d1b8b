"""A fairway wood in the fitting: what bay, evidence, choice, report and plan say, and do not."""

import re
from dataclasses import replace
from html import unescape

import pytest

from bays import Bay, a_bay
from fairway_woods import with_wood
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.settings import change_settings, read_settings, show_of
from loftwright.web.pages import bay as bay_page
from loftwright.web.pages import choice, delivery, evidence, mends, plan, report
from loftwright.web.views.bay_fly import fly_view
from loftwright.web.views.screen import screen_parts
from studios import app_of
from web_client import asking

PAGES = (
    bay_page.router,
    choice.router,
    delivery.router,
    evidence.router,
    mends.router,
    plan.router,
    report.router,
)


def stands(bay: Bay) -> BayNow:
    return bay_now(bay.studio, Desk(), bay.fitting)


def page(bay: Bay, name: str) -> str:
    with asking(app_of(bay.studio, *PAGES)) as client:
        answer = client.get(f"/fittings/{bay.fitting}/{name}")
        assert answer.status_code == 200
        return str(answer.text)


def plain(text: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())


@pytest.fixture(scope="module")
def mixed() -> Bay:
    return with_wood("Own", "Ash", "Cedar")


@pytest.fixture(scope="module")
def woods() -> Bay:
    return with_wood("Own", "Cedar", every=True)


def test_the_last_ball_of_a_wood_is_listed_and_not_flown(mixed: Bay) -> None:
    found = stands(mixed)
    view = fly_view(found, show_of(found.settings))
    assert view.head == "Ball 12 with Cedar"
    assert view.svg == ""
    assert view.words.startswith("No flight is drawn. Not for a fairway wood. Flight and run")
    assert re.search(r"ball speed .* · launch .* · spin ", view.figures)
    assert "carry" not in view.figures


def test_a_drivers_ball_after_it_flies_again() -> None:
    bay = with_wood("Cedar", "Own")
    found = stands(bay)
    view = fly_view(found, show_of(found.settings))
    assert view.svg
    assert "carry" in view.figures


def test_the_golfers_screen_draws_no_flight_of_it_and_gives_no_name_away(mixed: Bay) -> None:
    told = plain(screen_parts(stands(mixed))["flight"])
    assert "Not for a fairway wood." in told
    assert "Cedar" not in told


def test_the_evidence_lists_it_apart_and_does_not_refuse_its_balls_one_by_one(mixed: Bay) -> None:
    text = page(mixed, "evidence")
    told = plain(text)
    block = plain(text[text.index('id="outside"') :])
    assert "Not drivers: as the device showed them" in told
    assert re.search(r"Cedar a fairway wood 4 [\d.]+ mph [\d.]+° [\d,]+ rpm –", block)
    assert "Not for a fairway wood. Strokes are counted from where a drive ends." in block
    assert "is not compared with drivers" not in told


def test_one_that_was_not_hit_yet_is_listed_without_a_figure() -> None:
    told = plain(page(with_wood("Own", "Ash"), "evidence"))
    assert "Cedar a fairway wood 0 – – – –" in told


def test_drivers_alone_have_no_such_block() -> None:
    bay = a_bay()
    bay.hand("Own")
    bay.balls(2)
    assert 'id="outside"' not in page(bay, "evidence")


def test_the_choice_has_it_in_a_group_of_its_own_without_a_figure(mixed: Bay) -> None:
    text = page(mixed, "choice")
    told = plain(text)
    group = told[told.index("Not drivers: never ranked") :]
    assert group.startswith("Not drivers: never ranked Cedar")
    assert "Not for a fairway wood. Strokes are counted from where a drive ends." in group
    assert "Cedar's shaft in the own head" not in told


@pytest.mark.parametrize("name", ["evidence", "choice"])
def test_without_a_driver_the_page_says_that_nothing_is_compared(woods: Bay, name: str) -> None:
    told = plain(page(woods, name))
    assert "Nothing is compared: no ball was hit with a driver" in told
    assert "What the device showed of them is listed as read." in told


def test_without_a_driver_the_report_says_so_too(woods: Bay) -> None:
    assert "Nothing is compared: no ball was hit with a driver" in plain(page(woods, "report"))


def test_the_delivery_of_its_ball_is_not_solved(mixed: Bay) -> None:
    told = plain(page(mixed, "delivery"))
    assert "Ball 12 was not hit with a driver: nothing is said of the swing." in told


def test_the_plan_says_that_two_drivers_are_needed(woods: Bay) -> None:
    told = plain(page(woods, "plan"))
    assert "what the device shows of every club" in told
    assert "no driver is in the plan" in told


def test_metric_figures_with_a_comma_stand_in_its_row() -> None:
    bay = with_wood("Own", "Ash", "Cedar")
    known = read_settings(bay.studio)
    change_settings(
        bay.studio,
        replace(known.settings, units="metric", decimal="comma"),
        version=known.version,
    )
    block = plain(page(bay, "evidence").split('id="outside"')[1])
    assert re.search(r"Cedar a fairway wood 4 [\d,]+ (m/s|km/h) [\d,]+° [\d.\s]+ rpm –", block)


@pytest.mark.parametrize("name", ["bay", "mends", "plan"])
def test_every_page_of_a_fitting_without_a_driver_opens(woods: Bay, name: str) -> None:
    assert page(woods, name)
