"""The golfer: in with a name and a hand, changed later, the body's limits kept apart."""

import re
from collections.abc import Iterator
from datetime import date, timedelta

import pytest

from loftwright.constants import DEGREE, FOOT, INCH, YARD
from loftwright.domain.golfer import Hand, Wish
from loftwright.domain.home import Home, Trouble
from loftwright.physics.shaft_swing.players import Loading
from loftwright.services.golfers import forget_old_limits
from loftwright.services.growth_checks import proposed_check
from loftwright.services.studio import Studio
from loftwright.web.home_forms import HOME_FIELDS
from loftwright.web.pages import golfer
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking

SHORT = {"name": "Caspar Thistlewick", "hand": "left"}
HOME = """name = "Farrow Links"
altitude_ft = 3000
[[holes]]
length_yd = 410
fairway_yd = 28
trouble = "right"
trouble_from_yd = 30
"""


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, golfer.router)) as made:
        yield made


def opened(client: WebClient, **more: str) -> str:
    """Open a fitting and return its id."""
    answer = client.post("/golfers/new", data={**SHORT, **more})
    assert answer.status_code == 303, answer.text
    found = re.fullmatch(r"/fittings/([^/]+)/plan", answer.headers["location"])
    assert found is not None
    return found[1]


def test_wish_and_loading_are_kept_and_taken_back(client: WebClient, studio: Studio) -> None:
    told = {"wish": "higher", "change": "quick", "release": "late"}
    fitting = opened(client, **told)
    known = studio.store.fitting(fitting).value.golfer
    kept = studio.store.golfer(known).value
    assert kept.wish is Wish.HIGHER
    assert kept.loadings == (Loading.QUICK_LATE,)
    page = client.get(f"/fittings/{fitting}/golfer").text
    assert re.search(r'<option value="quick" selected>', page)
    version = re.search(r'name="version" value="(\d+)"', page)
    assert version is not None
    again = {**SHORT, "wish": "lower", "change": "", "release": "late", "version": version[1]}
    assert client.post(f"/fittings/{fitting}/golfer", data=again).status_code == 303
    changed = studio.store.golfer(known).value
    assert changed.wish is Wish.LOWER
    assert changed.loadings == tuple(Loading)


def test_name_and_hand_open_a_fitting(client: WebClient, studio: Studio) -> None:
    fitting = studio.store.fitting(opened(client)).value
    kept = studio.store.golfer(fitting.golfer).value
    assert kept.hand is Hand.LEFT
    assert kept.own is None
    assert studio.store.identity(fitting.golfer).name == "Caspar Thistlewick"


def test_an_open_hand_is_asked_for_and_the_name_kept(client: WebClient, studio: Studio) -> None:
    answer = client.post("/golfers/new", data={"name": "Caspar"})
    assert answer.status_code == 422
    assert "Choose the side that the golfer plays from." in answer.text
    assert 'value="Caspar"' in answer.text
    assert studio.store.golfers() == ()


def test_all_consents_are_off_at_first(client: WebClient, studio: Studio) -> None:
    text = client.get("/golfers/new").text
    boxes = re.findall(r'<input type="checkbox"[^>]*>', text)
    assert len(boxes) == 6
    assert not [box for box in boxes if "checked" in box]
    consents = studio.store.golfer(studio.store.fitting(opened(client)).value.golfer)
    assert not any(
        (
            consents.value.consents.keep,
            consents.value.consents.contact,
            consents.value.consents.publish,
            consents.value.consents.shop_record,
        )
    )


def test_a_consent_needs_its_day(client: WebClient) -> None:
    answer = client.post("/golfers/new", data={**SHORT, "keep": "yes", "given_on": ""})
    assert answer.status_code == 422
    assert "Give the day it was given." in answer.text


def test_a_minor_s_figures_are_not_published(client: WebClient) -> None:
    data = {**SHORT, "minor": "yes", "publish": "yes", "given_on": "2026-11-25"}
    answer = client.post("/golfers/new", data={**data, "guardian": "Ida", "fit": "yes"})
    assert answer.status_code == 422
    assert "Untick publishing." in answer.text


def test_a_minor_needs_a_guardian_who_agreed_on_a_day(client: WebClient) -> None:
    answer = client.post("/golfers/new", data={**SHORT, "minor": "yes"})
    assert answer.status_code == 422
    assert "Write who consents." in answer.text
    assert "Ask first, then tick it." in answer.text
    agreed = {**SHORT, "minor": "yes", "guardian": "Ida", "fit": "yes", "given_on": ""}
    answer = client.post("/golfers/new", data=agreed)
    assert answer.status_code == 422
    assert "Give the day it was given." in answer.text


YOUNG = {"minor": "yes", "guardian": "Ida", "fit": "yes", "given_on": "2026-11-25"}


def test_of_a_minor_consent_and_growth_check_are_kept_with_their_days(
    client: WebClient, studio: Studio
) -> None:
    fitting = opened(client, **YOUNG, growth_check="2027-05-26")
    who = studio.store.identity(studio.store.fitting(fitting).value.golfer)
    assert (who.agreed_to_fit, who.growth_check) == (date(2026, 11, 25), date(2027, 5, 26))
    page = client.get(f"/fittings/{fitting}/golfer").text
    assert 'name="growth_check" type="date" value="2027-05-26"' in page
    assert 'name="given_on" type="date" value="2026-11-25"' in page
    assert re.search(r'name="fit" value="yes" checked', page)
    kept = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value.consents
    assert not any((kept.keep, kept.contact, kept.publish, kept.shop_record))


def test_a_growth_check_is_proposed_moved_and_left_out(client: WebClient, studio: Studio) -> None:
    page = client.get("/golfers/new").text
    proposed = proposed_check(studio.today()).isoformat()
    assert f'name="growth_check" type="date" value="{proposed}"' in page
    assert "common practice, no source" in page
    fitting = opened(client, **YOUNG, growth_check=proposed)
    golfer = studio.store.fitting(fitting).value.golfer
    for version, (typed, kept) in enumerate((("2028-01-09", date(2028, 1, 9)), ("", None)), 1):
        again = {**SHORT, **YOUNG, "growth_check": typed, "version": str(version)}
        assert client.post(f"/fittings/{fitting}/golfer", data=again).status_code == 303
        assert studio.store.identity(golfer).growth_check == kept
    wrong = {**SHORT, **YOUNG, "growth_check": "soon", "version": "3"}
    answer = client.post(f"/fittings/{fitting}/golfer", data=wrong)
    assert answer.status_code == 422
    assert "Write it as 2026-11-25." in answer.text


def test_a_grown_golfer_has_no_growth_check(client: WebClient, studio: Studio) -> None:
    fitting = opened(client, growth_check="2027-05-26", given_on="2026-11-25")
    who = studio.store.identity(studio.store.fitting(fitting).value.golfer)
    assert (who.agreed_to_fit, who.growth_check) == (None, None)


def test_limits_are_kept_apart_and_gone_the_next_day(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    who = studio.store.fitting(opened(client, limits="half swings first")).value.golfer
    assert studio.store.limits(who, studio.today()) == "half swings first"
    assert "half swings" not in repr(studio.store.golfer(who))
    clock.at += timedelta(days=1)
    assert forget_old_limits(studio, studio.today()) == 1


def test_an_own_club_of_unknown_make_takes_loft_and_length(
    client: WebClient, studio: Studio
) -> None:
    fitting = opened(client, own_loft="11", own_length="45.5")
    kept = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    rack = studio.store.rack()
    club = rack.assemblies[kept.own or ""]
    assert club.owner == kept.id
    assert club.length == pytest.approx(45.5 * INCH)
    assert rack.head_of(club).loft == pytest.approx(11.0 * DEGREE)
    assert rack.head_of(club).hand is Hand.LEFT
    assert rack.head_of(club).name == "Unknown head"


def test_half_an_own_club_is_refused_and_nothing_is_kept(
    client: WebClient, studio: Studio
) -> None:
    answer = client.post("/golfers/new", data={**SHORT, "own_loft": "11"})
    assert answer.status_code == 422
    assert "Measure it; the plan starts from it." in answer.text
    answer = client.post("/golfers/new", data={**SHORT, "own_loft": "31", "own_length": "45"})
    assert "A driver of 31.0 deg cannot be used." in answer.text
    assert studio.store.golfers() == ()


def test_holes_are_added_and_taken_out_without_losing_what_was_typed(client: WebClient) -> None:
    one = client.post("/golfers/new", data={**SHORT, "holes": "0", "do": "add-hole"}).text
    assert 'name="hole_1_length"' in one
    assert 'value="Caspar Thistlewick"' in one
    rows = {
        "holes": "2",
        "hole_1_length": "400",
        "hole_1_fairway": "30",
        "hole_2_length": "355",
        "hole_2_fairway": "25",
    }
    left = client.post("/golfers/new", data={**SHORT, **rows, "do": "remove-1"}).text
    assert 'name="hole_2_length"' not in left
    assert 'value="355"' in left


def test_a_home_file_fills_the_form(client: WebClient, studio: Studio) -> None:
    answer = client.post(
        "/golfers/new",
        data={**SHORT, "do": "read-home"},
        files={"home_file": ("HOME.toml", HOME.encode(), "application/toml")},
    )
    assert 'value="Farrow Links"' in answer.text
    assert 'value="3000"' in answer.text
    assert 'name="hole_1_length" inputmode="decimal"' in answer.text
    fitting = opened(
        client,
        home_name="Farrow Links",
        altitude="3000",
        holes="1",
        hole_1_length="410",
        hole_1_fairway="28",
        hole_1_trouble="right",
        hole_1_from="30",
    )
    home = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value.home
    assert home.altitude == pytest.approx(3000.0 * FOOT)
    assert home.holes[0].trouble is Trouble.RIGHT
    assert home.holes[0].length == pytest.approx(410.0 * YARD)


def test_a_home_file_that_cannot_be_read_names_itself(client: WebClient) -> None:
    answer = client.post(
        "/golfers/new",
        data={**SHORT, "do": "read-home"},
        files={"home_file": ("HOME.toml", b"altitude = 3", "application/toml")},
    )
    assert "HOME.toml" in answer.text
    assert "The nearest known key is" in answer.text
    assert 'value="Caspar Thistlewick"' in answer.text


def test_trouble_inside_the_fairway_is_told_at_its_field(client: WebClient) -> None:
    rows = {
        "holes": "1",
        "hole_1_length": "400",
        "hole_1_fairway": "60",
        "hole_1_trouble": "left",
        "hole_1_from": "20",
    }
    answer = client.post("/golfers/new", data={**SHORT, **rows})
    assert answer.status_code == 422
    assert 'id="n-hole_1_from"' in answer.text


def test_what_was_written_down_is_changed(client: WebClient, studio: Studio) -> None:
    fitting = opened(client, own_loft="11", own_length="45.5")
    page = client.get(f"/fittings/{fitting}/golfer").text
    assert "Caspar Thistlewick plays left-handed" in page
    version = re.search(r'name="version" value="(\d+)"', page)
    assert version is not None
    data = {
        **SHORT,
        "goal": "lose it right less",
        "own_loft": "12",
        "own_length": "45.5",
        "version": version[1],
    }
    answer = client.post(f"/fittings/{fitting}/golfer", data=data)
    assert answer.status_code == 303
    kept = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    assert kept.goal == "lose it right less"
    rack = studio.store.rack()
    assert rack.head_of(rack.assemblies[kept.own or ""]).loft == pytest.approx(12.0 * DEGREE)
    stale = client.post(f"/fittings/{fitting}/golfer", data={**data, "goal": "higher"})
    assert stale.status_code == 409
    assert 'value="higher"' in stale.text
    assert "lose it right less" in stale.text


def test_a_second_golfer_takes_turns(client: WebClient, studio: Studio) -> None:
    first = opened(client)
    page = client.get(f"/golfers/new?partner={first}").text
    assert "Caspar Thistlewick and the next golfer take turns." in page
    second = opened(client, name="Ida", hand="right", partner=first)
    assert studio.store.fitting(first).value.partner == second
    assert studio.store.fitting(second).value.partner == first


def test_a_known_golfer_gets_another_fitting(client: WebClient, studio: Studio) -> None:
    first = opened(client, own_loft="11", own_length="45.5")
    who = studio.store.fitting(first).value.golfer
    assert "Open a fitting" in client.get("/golfers/new").text
    answer = client.post(f"/golfers/{who}/fittings")
    assert answer.status_code == 303
    assert len(studio.store.fittings()) == 2


def test_a_partner_that_does_not_exist_keeps_nothing(client: WebClient, studio: Studio) -> None:
    assert client.post("/golfers/new", data={**SHORT, "partner": "x"}).status_code == 404
    assert studio.store.golfers() == ()


def test_a_home_that_was_read_is_saved_without_losing_a_digit(
    client: WebClient, studio: Studio
) -> None:
    content = HOME + "\n"
    content = content.replace("altitude_ft = 3000", "altitude_ft = 3000\nhumidity_percent = 55.5")
    page = client.post(
        "/golfers/new",
        data={**SHORT, "do": "read-home", "temperature": "40"},
        files={"home_file": ("HOME.toml", content.encode(), "application/toml")},
    ).text
    shown = dict(re.findall(r'<input[^>]* name="(\w+)"[^>]*? value="([^"]*)"', page))
    assert shown["humidity"] == "55.5"
    assert shown["temperature"] == ""
    home_only = {name: shown[name] for name in HOME_FIELDS if name in shown}
    holes = {name: text for name, text in shown.items() if name.startswith("hole_")}
    fitting = opened(client, **home_only, **holes, hole_1_trouble="right")
    home = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value.home
    assert home.humidity == pytest.approx(0.555, abs=1e-12)
    assert home.temperature == Home().temperature
    assert home.altitude == pytest.approx(3000.0 * FOOT, abs=1e-9)
    assert home.holes[0].length == pytest.approx(410.0 * YARD, abs=1e-9)
