"""A complaint in process: looked at in order, settled by a person, kept on record."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from loftwright.constants import DEGREE, YARD
from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    Found,
    Look,
    LookedAt,
    Where,
)
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Against, PickedUp, PickUpBegun
from loftwright.domain.home import Home, Turf
from loftwright.intake.build_text import read_measured_text
from loftwright.services.settings import change_settings, read_settings
from loftwright.web.pages import complaint, follow_up, job
from studios import app_of
from taken_clubs import FINAL_CHECK, Shop
from web_client import WebClient, asking

FOREIGN = re.compile(r"\b(yd|mph|ft|yards?|in)\b(?= ?[.,;:|<])|°F|(?<![\d.])\d+\.\d+(?![\d.])")
"""Trade units at the end of a phrase, and figures with a decimal point."""

READ_AGAIN = {
    "length": "45.01",
    "length_u95": "0.03",
    "swingweight": "D3.1",
    "swingweight_u95": "0.3",
    "mass": "325.2",
    "mass_u95": "0.3",
    "loft": "10.4",
    "loft_u95": "0.2",
}


@pytest.fixture
def shop() -> Shop:
    return Shop()


@pytest.fixture
def client(shop: Shop) -> Iterator[WebClient]:
    with asking(app_of(shop.studio, complaint.router, follow_up.router, job.router)) as made:
        yield made


@pytest.fixture
def fitting(shop: Shop) -> str:
    made = shop.fitting(home=Home(altitude=300.0))
    shop.taken(made)
    shop.later(46)
    return made


def heading(page: str) -> str:
    return unescape(page.partition("<h1>")[2].partition("</h1>")[0])


def begun(shop: Shop, fitting: str, short: float | None = 15.0 * YARD) -> None:
    said = Complained(day=shop.studio.today(), words="it was longer in your bay", short=short)
    shop.do(fitting, said)


def look(client: WebClient, fitting: str, which: Look, found: str, **more: str) -> int:
    form = {"look": which.value, "found": found, "words": "", **more}
    return client.post(f"/fittings/{fitting}/complaint/look", data=form).status_code


def newest(shop: Shop, fitting: str) -> object:
    return shop.studio.store.job_record(fitting)[-1].act


def page_of(client: WebClient, fitting: str, query: str = "") -> str:
    answer = client.get(f"/fittings/{fitting}/complaint{query}")
    assert answer.status_code == 200
    return unescape(answer.text)


def test_a_club_without_complaint_asks_for_its_words(client: WebClient, fitting: str) -> None:
    page = page_of(client, fitting)
    assert heading(page) == "Nobody complained of this club."
    assert "Write a complaint down" in page


def test_a_complaint_is_written_in_the_golfer_s_words(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    form = {"words": "It was longer in your bay.", "day": "2027-01-08", "short": "15"}
    assert client.post(f"/fittings/{fitting}/complaint", data=form).status_code == 303
    act = newest(shop, fitting)
    assert isinstance(act, Complained)
    assert act.short == pytest.approx(15.0 * YARD)
    page = page_of(client, fitting)
    assert heading(page) == "Nothing was looked at yet: measure the club next."
    assert "“It was longer in your bay.”" in page
    assert "Shorter by 15 yd." in page
    assert "Said when it was chosen: 240 yd with the run, at Standard hole." in page
    assert page.count("Not looked at yet") == 6


@pytest.mark.parametrize(
    ("form", "message"),
    [
        ({"words": ""}, "It is empty."),
        ({"day": "2027-01-11"}, "is still to come."),
        ({"day": "2026-11-24"}, "the golfer did not have the club."),
        ({"short": "-3"}, "cannot be."),
        ({"short": "200"}, "cannot be."),
        ({"short": "some"}, "some"),
    ],
)
def test_a_bad_complaint_is_refused_and_kept(
    client: WebClient, shop: Shop, fitting: str, form: dict[str, str], message: str
) -> None:
    before = shop.studio.store.job_record(fitting)
    full = {"words": "shorter", "day": "", "short": "12", **form}
    answer = client.post(f"/fittings/{fitting}/complaint", data=full)
    assert answer.status_code == 422
    assert message in unescape(answer.text)
    assert full["words"] in answer.text
    assert f'value="{full["short"]}"' in answer.text
    assert shop.studio.store.job_record(fitting) == before


def test_a_club_read_again_tells_its_own_finding(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    form = page_of(client, fitting)
    assert "was 10.5°" in form
    assert "was D3.0" in form
    assert look(client, fitting, Look.MEASURED, "as_found", **READ_AGAIN) == 303
    act = newest(shop, fitting)
    assert isinstance(act, LookedAt)
    assert act.found is Found.SAME
    reading = read_measured_text(act.measured).checked[Checked.LOFT]
    assert reading.value == pytest.approx(10.4 * DEGREE)
    page = page_of(client, fitting)
    assert "Measures as when it was handed over" in page
    assert page.count("<td>as it was</td>") == 4
    assert heading(page) == "Nothing is settled yet: compare the ball next."


def test_a_loft_that_was_bent_speaks_for_the_club(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    bent = {**READ_AGAIN, "loft": "9.4"}
    assert look(client, fitting, Look.MEASURED, "as_found", **bent) == 303
    page = page_of(client, fitting)
    assert heading(page) == "The club does not measure as it was handed over."
    assert "The findings speak for: the club changed." in page
    assert "<td>changed</td>" in page


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"loft": "steep"}, "steep"),
        ({"loft_u95": ""}, "A reading needs its doubt."),
        ({"swingweight": "X9"}, "X9"),
        ({"swingweight_u95": "little"}, "'little' is no figure."),
        ({"mass_u95": "0"}, "a reading without a doubt"),
        ({"found": ""}, "Nothing is chosen."),
        ({"found": "maybe"}, "'maybe' is unknown."),
    ],
)
def test_a_bad_reading_is_refused_and_kept(
    client: WebClient, shop: Shop, fitting: str, change: dict[str, str], message: str
) -> None:
    begun(shop, fitting)
    before = shop.studio.store.job_record(fitting)
    form = {"look": "measured", "found": "as_found", "words": "by two", **READ_AGAIN, **change}
    answer = client.post(f"/fittings/{fitting}/complaint/look", data=form)
    assert answer.status_code == 422
    page = unescape(answer.text)
    assert message.lower() in page.lower()
    assert "by two" in page
    assert 'value="325.2"' in page
    assert page.count('class="wrong"') == 1
    assert shop.studio.store.job_record(fitting) == before


def test_no_figure_gives_no_finding_of_its_own(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    for which in (Look.MEASURED, Look.PLACE):
        form = {"look": which.value, "found": "as_found"}
        answer = client.post(f"/fittings/{fitting}/complaint/look", data=form)
        assert answer.status_code == 422
        assert "There is no figure it could follow from." in answer.text


def test_a_place_says_what_it_explains(client: WebClient, shop: Shop, fitting: str) -> None:
    begun(shop, fitting)
    form = page_of(client, fitting, "?look=place")
    assert "At Standard hole: 75 °F, 984 ft, normal ground, calm." in form
    told = {"temperature": "57", "altitude": "0", "turf": "soft", "surface": "turf"}
    assert look(client, fitting, Look.PLACE, "as_found", **told) == 303
    act = newest(shop, fitting)
    assert isinstance(act, LookedAt)
    assert act.found is Found.DIFFERENT
    assert act.where is not None
    assert act.where.temperature == pytest.approx(287.039, abs=0.01)
    kept = replace(act.where, temperature=None)
    assert kept == Where(altitude=0.0, turf=Turf.SOFT, surface="turf")
    page = page_of(client, fitting)
    found = re.search(r"explain all of the 15 yd: they take about (\d+) yd\.", page)
    assert found is not None
    assert 12 <= int(found[1]) <= 20
    assert "Each by itself: the temperature −" in page
    assert "Hit from: turf." in page


@pytest.mark.parametrize(
    ("told", "message"),
    [
        ({"temperature": "300"}, "outside the flight model"),
        ({"altitude": "high"}, "high"),
        ({"wind_along": "8"}, "A wind comes from somewhere."),
        ({"wind_along": "60", "wind_from": "against"}, "outside the flight model"),
        ({"turf": "mud"}, "'mud' is unknown."),
    ],
)
def test_a_place_that_cannot_be_is_refused_and_kept(
    client: WebClient, shop: Shop, fitting: str, told: dict[str, str], message: str
) -> None:
    begun(shop, fitting)
    form = {"look": "place", "found": "as_found", "words": "a links in May", **told}
    answer = client.post(f"/fittings/{fitting}/complaint/look", data=form)
    assert answer.status_code == 422
    page = unescape(answer.text)
    assert message in page
    assert "a links in May" in page
    assert isinstance(newest(shop, fitting), Complained)


def test_a_course_that_was_changed_since_is_told(client: WebClient, shop: Shop) -> None:
    fitting = shop.fitting(home=Home(name="Gorse Hill", turf=Turf.FIRM))
    shop.taken(fitting)
    begun(shop, fitting)
    page = page_of(client, fitting, "?look=place")
    assert "It was said for Standard hole; the golfer’s course is now another." in page
    assert "At Gorse Hill: 75 °F, 0 ft, firm ground, calm." in page


def test_wind_against_is_felt(client: WebClient, shop: Shop, fitting: str) -> None:
    begun(shop, fitting, short=None)
    told = {"wind_along": "8", "wind_from": "against"}
    assert look(client, fitting, Look.PLACE, "as_found", **told) == 303
    assert "the same drive is about" in page_of(client, fitting)
    act = newest(shop, fitting)
    assert isinstance(act, LookedAt)
    assert act.where is not None
    assert act.where.wind_along is not None
    assert act.where.wind_along < 0.0


def test_where_nothing_was_said_a_place_is_judged_by_hand(client: WebClient, shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting, None)
    begun(shop, fitting)
    told = {"temperature": "50"}
    assert look(client, fitting, Look.PLACE, "as_found", **told) == 422
    assert look(client, fitting, Look.PLACE, "different", **told) == 303
    assert "Another place or weather" in page_of(client, fitting)


ALL_THE_SAME = dict.fromkeys(Look, Found.SAME)


@pytest.mark.parametrize(
    ("found", "suggested", "ending"),
    [
        (
            {**ALL_THE_SAME, Look.SETTINGS: Found.DIFFERENT, Look.HIT_AGAIN: Found.DIFFERENT},
            "The club is not set as it was handed over.",
            Ending.CLUB,
        ),
        (
            {**ALL_THE_SAME, Look.BALL: Found.DIFFERENT},
            "The club is what it was; it was hit with another ball.",
            Ending.CONDITIONS,
        ),
        (
            ALL_THE_SAME,
            "Club, ball and place are what they were: what is left is the swing.",
            Ending.SWING,
        ),
        (
            dict.fromkeys(Look, Found.NOT_KNOWN),
            "Everything was looked at, and nothing explains it.",
            Ending.CANNOT_TELL,
        ),
    ],
)
def test_a_complaint_goes_through_its_looks_to_every_ending(
    client: WebClient,
    shop: Shop,
    fitting: str,
    found: dict[Look, Found],
    suggested: str,
    ending: Ending,
) -> None:
    begun(shop, fitting)
    for which, one in found.items():
        assert look(client, fitting, which, one.value, words=f"seen: {which.value}") == 303
    page = page_of(client, fitting)
    assert heading(page) == suggested
    assert 'id="end-ending"' not in page
    assert page.count("seen: ") == 6
    at = f"/fittings/{fitting}/complaint"
    form = {"ending": ending.value, "words": "agreed by both"}
    assert client.post(f"{at}/end", data=form).status_code == 303
    assert newest(shop, fitting) == ComplaintEnded(ending=ending, words="agreed by both")
    after = page_of(client, fitting)
    assert heading(after).startswith("The last complaint ended:")
    assert "Earlier complaints" in after
    assert "agreed by both" in after
    sequence = str(shop.studio.store.job_record(fitting)[-1].sequence)
    client.post(f"/fittings/{fitting}/job/undo", data={"act": sequence, "back": at})
    assert heading(page_of(client, fitting)) == suggested


def test_an_ending_is_chosen_by_a_person(client: WebClient, shop: Shop, fitting: str) -> None:
    begun(shop, fitting)
    look(client, fitting, Look.SETTINGS, "different")
    assert " checked" not in page_of(client, fitting, "?look=ball")
    at = f"/fittings/{fitting}/complaint/end"
    refused = client.post(at, data={"ending": "", "words": "turned back together"})
    assert refused.status_code == 422
    assert "you decide" in refused.text
    assert "turned back together" in refused.text
    against = client.post(at, data={"ending": "swing", "words": "He says so himself."})
    assert against.status_code == 303


def test_looking_and_ending_need_an_open_complaint(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    before = shop.studio.store.job_record(fitting)
    assert look(client, fitting, Look.BALL, "same") == 422
    at = f"/fittings/{fitting}/complaint/end"
    answer = client.post(at, data={"ending": "swing"})
    assert answer.status_code == 422
    assert "No complaint is open." in answer.text
    assert shop.studio.store.job_record(fitting) == before


def test_a_form_that_is_sent_twice_is_written_once(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    at = f"/fittings/{fitting}/complaint"
    sent = (
        (at, {"words": "short", "key": "a"}),
        (f"{at}/look", {"look": "ball", "found": "same", "key": "b"}),
        (f"{at}/end", {"ending": "swing", "key": "c"}),
    )
    for address, form in sent:
        before = len(shop.studio.store.job_record(fitting))
        for _ in range(2):
            assert client.post(address, data=form).status_code == 303
        assert len(shop.studio.store.job_record(fitting)) == before + 1


def test_a_stale_look_is_refused_and_kept(client: WebClient, shop: Shop, fitting: str) -> None:
    begun(shop, fitting)
    seen = re.search(r'name="seen" value="(\d+)"', page_of(client, fitting))
    assert seen is not None
    look(client, fitting, Look.SETTINGS, "same")
    form = {"look": "ball", "found": "different", "words": "range balls", "seen": seen[1]}
    answer = client.post(f"/fittings/{fitting}/complaint/look", data=form)
    assert answer.status_code == 409
    assert "in the meantime" in answer.text
    assert "range balls" in answer.text


def test_hitting_again_leads_to_the_bay_until_there_is_a_page_for_it(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    page = page_of(client, fitting, "?look=hit_again")
    assert f'href="/fittings/{fitting}/bay">Go to the bay</a>' in page


def test_a_club_that_stays_in_the_shop_keeps_its_complaint_open(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    shop.do(fitting, PickUpBegun(built="Fir", tested="Ash", visit=1, complaint=True))
    shop.do(fitting, PickedUp(against=Against.NOT, taken=False))
    waits = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(waits) == "The golfer does not have the club yet."
    assert f'href="/fittings/{fitting}/complaint"' in waits
    page = page_of(client, fitting, "?look=hit_again")
    assert "it plays otherwise than the tested club." in page
    assert look(client, fitting, Look.HIT_AGAIN, "different") == 303
    at = f"/fittings/{fitting}/complaint"
    assert client.post(f"{at}/end", data={"ending": "club"}).status_code == 303
    ended = page_of(client, fitting)
    assert "Earlier complaints" in ended
    assert "Write a complaint down" not in ended


def test_an_open_complaint_stands_on_the_follow_up_and_its_list(
    client: WebClient, shop: Shop, fitting: str
) -> None:
    begun(shop, fitting)
    assert "A complaint is open" in client.get(f"/fittings/{fitting}/follow-up").text
    assert "a complaint is open" in client.get("/follow-ups").text


def test_the_page_speaks_in_the_shop_s_units(client: WebClient, shop: Shop, fitting: str) -> None:
    known = read_settings(shop.studio)
    settings = replace(known.settings, units="metric", decimal="comma")
    change_settings(shop.studio, settings, version=known.version)
    begun(shop, fitting)
    metric = {
        **READ_AGAIN,
        "length": "1143,2",
        "length_u95": "0,8",
        "swingweight": "D3,1",
        "swingweight_u95": "0,3",
        "mass": "325,2",
        "mass_u95": "0,3",
        "loft": "10,4",
        "loft_u95": "0,2",
    }
    assert look(client, fitting, Look.MEASURED, "as_found", **metric) == 303
    act = newest(shop, fitting)
    assert isinstance(act, LookedAt)
    assert act.found is Found.SAME
    told = {"temperature": "14", "altitude": "20", "wind_along": "3,5", "wind_from": "against"}
    assert look(client, fitting, Look.PLACE, "as_found", **told) == 303
    for which in Look:
        page = page_of(client, fitting, f"?look={which.value}").partition("<main")[2]
        held = " ".join(re.findall(r'<input[^>]* value="([^"]*)"', page))
        words = re.sub(r"<[^>]+>", "|", page)
        assert FOREIGN.findall(f"{words} {held}") == []
    assert "D3,1" in page
    assert read_measured_text(FINAL_CHECK).checked[Checked.LENGTH].value == pytest.approx(1.143)
