"""Follow-up in process: who is asked, what is answered and played, what is refused and kept."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from html import unescape

import pytest

from loftwright.domain.after_acts import Complained, FollowedUp, Played, Round, StillPlayed
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.domain.order_acts import Withdrawn
from loftwright.services.golfers import add_golfer
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.training_plays import new_training_id
from loftwright.web.pages import complaint, follow_up, job, today
from loftwright.web.roles import may_see
from studios import app_of
from taken_clubs import Shop
from web_client import WebClient, asking

REACH = "ottoline at home"
FOREIGN = re.compile(r"\b(yd|mph|ft|yards?|in)\b(?= ?[.,;:|<])|°F|(?<![\d.])\d+\.\d+(?![\d.])")
"""Trade units at the end of a phrase, and figures with a decimal point."""

TABLE = "day,course,drives,fairways,total_yd,measured\n"


@pytest.fixture
def shop() -> Shop:
    return Shop()


@pytest.fixture
def client(shop: Shop) -> Iterator[WebClient]:
    pages = (follow_up.router, complaint.router, today.router, job.router)
    with asking(app_of(shop.studio, *pages)) as made:
        yield made


def due(shop: Shop, **told: object) -> str:
    fitting = shop.fitting(**told)  # type: ignore[arg-type]
    shop.taken(fitting)
    shop.later(46)
    return fitting


def heading(page: str) -> str:
    return unescape(page.partition("<h1>")[2].partition("</h1>")[0])


def seen_of(page: str) -> str:
    found = re.search(r'name="seen" value="(\d+)"', page)
    assert found is not None
    return found[1]


def played(shop: Shop, fitting: str, *fairways: int) -> None:
    """Write rounds of 13 drives down, one a day."""
    day = shop.studio.today() - timedelta(days=len(fairways))
    rounds = tuple(
        Round(
            day=day + timedelta(days=place),
            course="Mossy Bottom",
            drives=13,
            fairways=one,
            total=215.0 + place % 3,
            measured=6,
        )
        for place, one in enumerate(fairways)
    )
    shop.do(fitting, Played(rounds=rounds))


def test_the_list_says_how_many_are_due_and_how_to_reach_them(
    client: WebClient, shop: Shop
) -> None:
    fitting = due(shop)
    page = client.get("/follow-ups").text
    assert heading(page) == "1 golfer is due to be asked how the club does."
    assert REACH in page
    assert f'href="/fittings/{fitting}/follow-up"' in page
    assert '<td class="n">1 day</td>' in page


def test_an_empty_list_says_so(client: WebClient) -> None:
    page = client.get("/follow-ups").text
    assert heading(page) == "Nobody is due to be asked."
    assert "took a club home" in page
    assert "<table" not in page


def test_without_consent_nothing_to_reach_a_golfer_by_is_shown(
    client: WebClient, shop: Shop
) -> None:
    fitting = due(shop, contact=False)
    page = client.get("/follow-ups").text
    assert heading(page) == "Nobody is due to be asked."
    assert "1 golfer did not agree to it and is not contacted." in page
    assert "Not to be contacted" in page
    assert REACH not in page
    own = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(own) == "Ottoline has the club and is not contacted."
    assert "do not ask" in own
    assert REACH not in own


def test_of_a_minor_the_guardian_is_asked(client: WebClient, shop: Shop) -> None:
    fitting = due(shop, minor=True, guardian="Hedda Plover", reach="hedda at home")
    page = client.get("/follow-ups").text
    assert "Hedda Plover, Ottoline Brambleby’s guardian" in page
    assert "hedda at home" in page
    own = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(own).startswith("Ask Hedda Plover, Ottoline’s guardian, how the club")


def test_a_minor_s_guardian_without_a_name_is_still_who_is_asked(
    client: WebClient, shop: Shop
) -> None:
    due(shop, minor=True, reach="")
    page = client.get("/follow-ups").text
    assert "Ottoline Brambleby’s guardian" in page
    assert "not written down" in page


def test_today_leads_to_those_who_are_due(client: WebClient, shop: Shop) -> None:
    assert 'href="/follow-ups">Follow-ups</a>' in client.get("/").text
    due(shop)
    due(shop, name="Peregrine Hobb")
    page = client.get("/").text
    assert re.search(r'href="/follow-ups">2 golfers are due to be asked</a>', page)


def growing(shop: Shop, name: str, day: date, *, contact: bool = True) -> str:
    who = Identity(name=name, contact=REACH, guardian="Hedda Plover", growth_check=day)
    golfer = Golfer(id="", minor=True, consents=Consents(contact=contact))
    return add_golfer(shop.studio, golfer, who).id


def test_growth_checks_are_listed_with_whom_to_ask_and_today_leads_to_them(
    client: WebClient, shop: Shop
) -> None:
    today = shop.studio.today()
    assert "growth check" not in client.get("/").text
    growing(shop, "Ida Plover", today)
    growing(shop, "Otto Plover", today + timedelta(days=90), contact=False)
    assert 'href="/follow-ups#growth">1 growth check is due</a>' in client.get("/").text
    page = client.get("/follow-ups").text
    assert heading(page) == "1 growth check is due."
    assert "Hedda Plover, Ida Plover’s guardian" in page
    assert "<td>today</td>" in page
    assert page.count(REACH) == 1
    assert "not to be contacted: when they come" in page
    due(shop)
    assert "1 growth check is due." in client.get("/follow-ups").text


def test_a_growth_check_is_moved_or_ended_where_it_is_listed(
    client: WebClient, shop: Shop
) -> None:
    today = shop.studio.today()
    golfer = growing(shop, "Ida Plover", today)
    at, was = f"/golfers/{golfer}/growth-check", today.isoformat()
    refused = client.post(at, data={"was": was, "day": was})
    assert refused.status_code == 422
    assert "Give a day after today." in refused.text
    assert f'value="{was}" aria-invalid="true"' in refused.text
    assert client.post(at, data={"was": was, "day": ""}).status_code == 422
    moved = client.post(at, data={"was": was, "day": "2027-03-14"})
    assert (moved.status_code, moved.headers["location"]) == (303, "/follow-ups#growth")
    assert shop.studio.store.identity(golfer).growth_check == date(2027, 3, 14)
    stale = client.post(at, data={"was": was, "day": "2027-04-14"})
    assert stale.status_code == 409
    assert "somebody else moved this growth check meanwhile" in stale.text.casefold()
    assert client.post(at, data={"was": "2027-03-14", "do": "none"}).status_code == 303
    assert shop.studio.store.identity(golfer).growth_check is None
    assert client.post("/golfers/nobody/growth-check", data={"do": "none"}).status_code == 404


def test_the_workshop_sees_neither_list_nor_golfer() -> None:
    for path in ("/follow-ups", "/fittings/x/follow-up", "/fittings/x/complaint"):
        for role in ("workshop", "screen", "feed"):
            assert not may_see(role, path)
            assert not may_see(role, path, "POST")
        assert may_see("fitter", path)


def test_before_an_order_the_page_says_what_is_missing(client: WebClient, shop: Shop) -> None:
    fitting = shop.fitting()
    for page in ("follow-up", "complaint"):
        text = client.get(f"/fittings/{fitting}/{page}").text
        assert heading(text) == "Nothing was ordered, so there is no club to ask after."
        assert "<form" not in text.partition("<h1>")[2]


def test_before_the_pick_up_the_page_waits(client: WebClient, shop: Shop) -> None:
    fitting = shop.fitting()
    shop.ordered(fitting)
    text = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(text) == "The golfer does not have the club yet."
    assert "Undo order sent" in text


def test_an_order_that_is_off_is_not_asked_after(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    shop.do(fitting, Withdrawn(reason="moved away"))
    text = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(text) == "The order is off: there is no club to ask after."
    assert "moved away" in text


def test_no_club_is_made_in_a_training_case(client: WebClient) -> None:
    for page in ("follow-up", "complaint"):
        assert client.get(f"/fittings/{new_training_id()}/{page}").status_code == 404


def test_an_unknown_fitting_is_said(client: WebClient) -> None:
    assert client.get("/fittings/f9/follow-up").status_code == 404
    assert client.post("/fittings/f9/follow-up", data={"answer": "kept"}).status_code == 404


def test_an_answer_is_written_down_and_undone(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    at = f"/fittings/{fitting}/follow-up"
    seen = seen_of(client.get(at).text)
    form = {
        "answer": "kept",
        "day": "2027-01-10",
        "again": "",
        "words": "Straighter",
        "seen": seen,
    }
    answer = client.post(at, data=form)
    assert (answer.status_code, answer.headers["location"]) == (303, at)
    assert shop.studio.store.job_record(fitting)[-1].act == FollowedUp(
        day=shop.studio.today(), answer=StillPlayed.KEPT, words="Straighter"
    )
    page = client.get(at).text
    assert heading(page) == "Ottoline plays it."
    assert "Undo follow-up" in page
    undo = {"act": str(len(shop.studio.store.job_record(fitting))), "back": at}
    assert client.post(f"/fittings/{fitting}/job/undo", data=undo).status_code == 303
    assert heading(client.get(at).text) == "Ask Ottoline how the club does."


@pytest.mark.parametrize(
    ("form", "message"),
    [
        ({"answer": ""}, "Nothing is chosen."),
        ({"answer": "danced"}, "'danced' is unknown."),
        ({"answer": "kept", "day": "2027-01-11"}, "2027-01-11 is still to come."),
        ({"answer": "kept", "day": "2026-11-24"}, "the golfer did not have the club."),
        ({"answer": "kept", "day": "yesterday"}, "is no day."),
        ({"answer": "kept", "again": "2027-01-10"}, "is no later day."),
        ({"answer": "kept", "words": "x" * 401}, "letters are too many."),
    ],
)
def test_a_bad_answer_is_refused_and_kept(
    client: WebClient, shop: Shop, form: dict[str, str], message: str
) -> None:
    fitting = due(shop)
    before = shop.studio.store.job_record(fitting)
    full = {"words": "Higher than the own one", **form}
    answer = client.post(f"/fittings/{fitting}/follow-up", data=full)
    assert answer.status_code == 422
    assert message in unescape(answer.text)
    assert full["words"] in answer.text
    assert shop.studio.store.job_record(fitting) == before


def test_a_stale_answer_is_refused_and_kept(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    at = f"/fittings/{fitting}/follow-up"
    seen = seen_of(client.get(at).text)
    shop.do(fitting, Complained(day=shop.studio.today(), words="short"))
    form = {"answer": "kept", "words": "Straighter", "seen": seen}
    answer = client.post(at, data=form)
    assert answer.status_code == 409
    assert "in the meantime" in answer.text
    assert "Straighter" in answer.text
    assert isinstance(shop.studio.store.job_record(fitting)[-1].act, Complained)


def test_the_same_answer_sent_twice_is_written_once(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    for _ in range(2):
        client.post(f"/fittings/{fitting}/follow-up", data={"answer": "kept", "key": "one"})
    acts = [entry.act for entry in shop.studio.store.job_record(fitting)]
    assert sum(isinstance(one, FollowedUp) for one in acts) == 1


def test_a_round_is_added_in_the_shop_s_units(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    form = {
        "day": "2026-12-20",
        "course": "Mossy Bottom",
        "drives": "13",
        "fairways": "7",
        "total": "238",
        "measured": "6",
    }
    answer = client.post(f"/fittings/{fitting}/follow-up/round", data=form)
    assert answer.status_code == 303
    page = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(page) == "Too few rounds to tell whether the club does as was said."
    assert "7 of 13" in page
    assert "238 yd of 6 drives" in page
    assert "one round: no range" in page


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"fairways": "14"}, "14 fairways of 13 drives cannot be."),
        ({"drives": "0"}, "'0' cannot be."),
        ({"day": ""}, "It is empty."),
        ({"day": "2027-02-01"}, "is still to come."),
        ({"day": "2026-11-01"}, "did not have the club."),
        ({"measured": ""}, "0 measured of 13 drives"),
        ({"total": "238 mph"}, "238 mph"),
        ({"total": "2380"}, "Check the unit."),
    ],
)
def test_a_bad_round_is_refused_and_kept(
    client: WebClient, shop: Shop, change: dict[str, str], message: str
) -> None:
    fitting = due(shop)
    form = {
        "day": "2026-12-20",
        "course": "Mossy Bottom",
        "drives": "13",
        "fairways": "7",
        "total": "238",
        "measured": "6",
    }
    answer = client.post(f"/fittings/{fitting}/follow-up/round", data={**form, **change})
    assert answer.status_code == 422
    assert message in unescape(answer.text)
    assert 'value="Mossy Bottom"' in answer.text
    assert not any(isinstance(one.act, Played) for one in shop.studio.store.job_record(fitting))


def test_a_table_is_added_from_the_field_or_from_a_file(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    at = f"/fittings/{fitting}/follow-up/rounds"
    text = f"{TABLE}2026-12-20,Mossy Bottom,13,7,238,6\n"
    assert client.post(at, data={"table": text}).status_code == 303
    other = text.replace("12-20", "12-27").encode()
    assert client.post(at, files={"file": ("r.csv", other, "text/csv")}).status_code == 303
    page = client.get(f"/fittings/{fitting}/follow-up").text
    assert "20 December 2026" in page
    assert "27 December 2026" in page


def test_of_a_bad_table_every_line_is_named_and_nothing_is_kept(
    client: WebClient, shop: Shop
) -> None:
    fitting = due(shop)
    text = f"{TABLE}2026-12-20,Mossy,13,7,238,6\n2026-12-21,Mossy,13,15,,\nsoon,Mossy,13,7,,\n"
    answer = client.post(f"/fittings/{fitting}/follow-up/rounds", data={"table": text})
    assert answer.status_code == 422
    page = unescape(answer.text)
    assert "Nothing of it was taken." in page
    assert "15 fairways of 13 drives cannot be" in page
    assert "'soon' is no day" in page
    assert "2026-12-20,Mossy,13,7,238,6" in page
    assert not any(isinstance(one.act, Played) for one in shop.studio.store.job_record(fitting))


@pytest.mark.parametrize(
    ("content", "message"), [(b"\xff\xfe\x00", "no text in UTF-8"), (b"", "is empty")]
)
def test_a_file_that_cannot_be_is_refused(
    client: WebClient, shop: Shop, content: bytes, message: str
) -> None:
    fitting = due(shop)
    answer = client.post(
        f"/fittings/{fitting}/follow-up/rounds", files={"file": ("r.csv", content, "text/csv")}
    )
    assert answer.status_code == 422
    assert message in answer.text


def test_rounds_come_in_only_for_a_club_that_is_there(client: WebClient, shop: Shop) -> None:
    fitting = shop.fitting()
    shop.ordered(fitting)
    form = {"table": "day,drives,fairways\n2026-11-25,13,7\n"}
    answer = client.post(f"/fittings/{fitting}/follow-up/rounds", data=form)
    assert answer.status_code == 422
    assert heading(answer.text) == "The golfer does not have the club yet."


def test_many_rounds_are_held_against_what_was_said(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    played(shop, fitting, *(3, 4, 2, 3, 4) * 3)
    page = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(page) == "Fairways: less than said; length: as said."
    assert (
        "15 rounds: 3.4 fairways in 14 drives, said 8.0; 236 yd on average, said 240 yd." in page
    )
    assert page.count("<svg xmlns") == 2
    assert "without any fault of the club" in page
    assert "differ no more than chance" in page


def test_a_club_of_which_nothing_was_said_has_nothing_to_hold_rounds_against(
    client: WebClient, shop: Shop
) -> None:
    fitting = shop.fitting()
    shop.taken(fitting, None)
    shop.later(46)
    played(shop, fitting, 7, 8, 7)
    page = client.get(f"/fittings/{fitting}/follow-up").text
    assert heading(page) == "The rounds can be held against nothing that was said."
    assert "nothing was said" in page


def test_the_pages_speak_in_the_shop_s_units(client: WebClient, shop: Shop) -> None:
    fitting = due(shop)
    played(shop, fitting, 7, 8, 7, 6)
    known = read_settings(shop.studio)
    settings = replace(known.settings, units="metric", decimal="comma")
    change_settings(shop.studio, settings, version=known.version)
    at = f"/fittings/{fitting}/follow-up"
    form = {
        "day": "2026-12-20",
        "drives": "13",
        "fairways": "7",
        "total": "218,5",
        "measured": "6",
    }
    assert client.post(f"{at}/round", data=form).status_code == 303
    act = shop.studio.store.job_record(fitting)[-1].act
    assert isinstance(act, Played)
    assert act.rounds[0].total == pytest.approx(218.5)
    page = client.get(at).text
    assert "218 m of 6 drives" in page
    for text in (page, client.get("/follow-ups").text):
        bare = text.partition("<main")[2].replace("Harrow 460 10.5°", "")
        words = unescape(re.sub(r"<[^>]+>", "|", bare))
        assert FOREIGN.findall(words) == []
