"""A fairway wood in the fitting: what bay, evidence, choice, report and plan say, and do not."""

import re
from dataclasses import replace
from html import unescape

import pytest

from bays import Bay, a_bay
from fairway_woods import with_wood
from loftwright.constants import DEGREE, INCH
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.settings import change_settings, read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.pages import bay as bay_page
from loftwright.web.pages import choice, delivery, evidence, mends, plan, report
from loftwright.web.views.bay_fly import fly_view
from loftwright.web.views.screen import screen_parts
from studios import a_club, a_head, app_of, studio_in_memory
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


def a_rack_with_a_wood() -> tuple[Studio, str]:
    """Return a studio with two drivers and a fairway wood, and a golfer's fitting in it."""
    studio = studio_in_memory()
    a_club(studio, a_head(studio, "Rill 3", loft=15.0), "Rush", 70.0, 42.5)
    head = a_head(studio)
    for name, length in (("Reedmace", 45.25), ("Sedge", 45.5)):
        a_club(studio, head, name, 60.0, length)
    visitor = Visitor(
        golfer=Golfer(id="", head_speed=42.0),
        identity=Identity(name="Ottoline"),
        own=OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH),
    )
    return studio, open_for_new(studio, visitor, bay="Bay 1").id


def test_the_plan_offers_it_last_unticked_and_says_that_it_is_listed_as_read() -> None:
    studio, fitting = a_rack_with_a_wood()
    with asking(app_of(studio, plan.router)) as client:
        text = client.get(f"/fittings/{fitting}/plan").text
    rows = [row for row in re.findall(r"<tr.*?</tr>", text, re.DOTALL) if 'name="club"' in row]
    assert ["Rill 3" in plain(row) for row in rows] == [False, False, True]
    assert ["checked" in row for row in rows] == [True, True, False]
    assert "a fairway wood: its balls are listed as read" in plain(rows[-1])


def test_a_plan_with_one_driver_says_that_nothing_is_compared() -> None:
    studio, fitting = a_rack_with_a_wood()
    wood = next(
        one.id for one in studio.store.rack().assemblies.values() if one.length < 43.0 * INCH
    )
    plan_visit(studio, fitting, Wish(assemblies=(wood,), balls=24), by="")
    with asking(app_of(studio, plan.router)) as client:
        told = plain(client.get(f"/fittings/{fitting}/plan").text)
    assert "fewer than two are drivers, so nothing is compared." in told


def test_an_own_fairway_wood_is_not_shortlisted_for_and_the_plan_says_why() -> None:
    studio = studio_in_memory()
    visitor = Visitor(
        golfer=Golfer(id="", head_speed=42.0),
        identity=Identity(name="Ottoline"),
        own=OwnClub(loft=15.0 * DEGREE, length=42.5 * INCH),
    )
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    with asking(app_of(studio, plan.router)) as client:
        told = plain(client.get(f"/fittings/{fitting}/plan").text)
    assert "Nothing can be shortlisted yet: write a driver down as the own club" in told


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
