"""The page of the bays: parts checked out by label, checks begun and ended, told in words."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from httpx import Response

from bays import a_bay
from checked_bays import METER
from checked_bays import a_checked_house as a_house_of_checks
from loftwright.domain.acts import VisitOpened
from loftwright.domain.fitting import DeviceCard, Strip
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.piece_code import code_of
from loftwright.domain.place import AWAY
from loftwright.domain.rack import Assembly, Piece
from loftwright.services.bay_check import add_person, checked_bays, name_club, read_house
from loftwright.services.golfers import add_golfer
from loftwright.services.places import check_out
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


def sent(client: WebClient, path: str, data: dict[str, str] | None = None) -> Response:
    """Send a form and return the page that follows."""
    return client.post(path, data=data, follow_redirects=True)


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    kept = read_settings(made)
    three = replace(
        kept.settings, bays=("Bay 1", "Bay 2"), devices=(DeviceCard(name="meter"),), zone="UTC"
    )
    change_settings(made, three, version=kept.version)
    return made


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


@pytest.fixture
def shaft(studio: Studio) -> Piece:
    return a_shaft(studio)[0]


def a_checked_house(studio: Studio) -> tuple[Assembly, Golfer]:
    """Name a check club and who hits it."""
    _, club = a_shaft(studio, "Osier", head=a_head(studio))
    assert club is not None
    name_club(studio, club.id, version=0)
    return club, add_person(studio, "Ann Reed", Hand.RIGHT, version=1)


def test_an_empty_house_says_what_to_do_first(client: WebClient) -> None:
    page = client.get("/bays").text
    assert "Nobody knows yet whether the bays read alike." in page
    assert "No part is in a bay yet." in page
    assert "The rack has no club yet." in page
    assert "No check club is named" in page


def test_a_label_checks_a_part_out_and_the_device_remembers_its_bay(
    client: WebClient, studio: Studio, shaft: Piece
) -> None:
    told = {"code": code_of(shaft.id), "place": "Bay 2", "by": "Ann Reed"}
    page = sent(client, "/bays/check-out", data=told).text
    assert "Reedmace: Bay 2." in page
    assert "12:00, Ann Reed" in page
    assert '<option value="Bay 2" selected>' in page
    assert studio.store.rack().pieces[shaft.id].place == "Bay 2"


def test_what_another_bay_has_is_told_and_taken_by_naming_it(
    client: WebClient, studio: Studio, shaft: Piece
) -> None:
    check_out(studio, code_of(shaft.id), "Bay 2", by="Ann Reed")
    told = {"code": code_of(shaft.id), "place": "Bay 1", "by": "Bo Marsh"}
    answer = sent(client, "/bays/check-out", data=told)
    assert answer.status_code == 409
    assert "Reedmace is with Bay 2 since 12:00, Ann Reed." in answer.text
    assert 'name="had" value="Bay 2"' in answer.text
    assert f'value="{code_of(shaft.id)}"' in answer.text
    assert studio.store.rack().pieces[shaft.id].place == "Bay 2"
    page = sent(client, "/bays/check-out", data=told | {"had": "Bay 2"})
    assert "Reedmace: Bay 1; before: Bay 2." in page.text


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"code": "", "place": "Bay 1"}, "Scan the label"),
        ({"code": "7KQ-4MX-9TR", "place": "Bay 1"}, "misread"),
        ({"code": "nonsense", "place": "Bay 1"}, "is no label’s code"),
        ({"code": "CODE", "place": ""}, "Choose where it is."),
        ({"code": "CODE", "place": "the moon"}, "is no place of the shop"),
        ({"code": "CODE", "place": AWAY}, "nobody is named who has it away"),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_moves_nothing(
    client: WebClient, studio: Studio, shaft: Piece, told: dict[str, str], words: str
) -> None:
    told = {name: text.replace("CODE", code_of(shaft.id)) for name, text in told.items()}
    answer = sent(client, "/bays/check-out", data=told)
    assert answer.status_code == 422
    assert words.casefold() in answer.text.casefold()
    assert studio.store.places() == {}


def test_a_golfer_takes_a_club_away_by_name(
    client: WebClient, studio: Studio, shaft: Piece
) -> None:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    told = {"code": code_of(shaft.id), "place": AWAY, "golfer": golfer.id}
    page = sent(client, "/bays/check-out", data=told).text
    assert "Away with Ottoline Brambleby" in page


def test_the_house_names_its_club_and_who_hits_it(client: WebClient, studio: Studio) -> None:
    _, club = a_shaft(studio, "Osier", head=a_head(studio))
    assert club is not None
    page = sent(client, "/bays/club", data={"club": club.id, "version": "0"})
    assert page.status_code == 200
    assert "The check club is named." in page.text
    stale = sent(client, "/bays/club", data={"club": club.id, "version": "0"})
    assert stale.status_code == 409
    none = sent(client, "/bays/people", data={"name": "", "hand": "left", "version": "1"})
    assert none.status_code == 422
    page = sent(client, "/bays/people", data={"name": "Ann Reed", "hand": "left", "version": "1"})
    assert "<b>Who hits it:</b> Ann Reed" in page.text
    ann = read_house(studio).house.people[0]
    assert studio.store.golfer(ann).value.hand is Hand.LEFT


def test_a_check_begins_in_its_bay_and_ends_on_the_page(client: WebClient, studio: Studio) -> None:
    _, ann = a_checked_house(studio)
    told = {"bay": "Bay 2", "person": ann.id, "device": "meter"}
    answer = client.post("/bays/checks", data=told, follow_redirects=False)
    assert answer.status_code == 303
    fitting = answer.headers["location"].split("/")[2]
    bay = client.get(answer.headers["location"])
    assert bay.status_code == 200
    ball = sent(client, f"/fittings/{fitting}/acts/ball", data={"line": "speed 148 spin 2500"})
    assert ball.status_code == 200
    page = client.get("/bays").text
    assert "1 of 10 balls hit" in page
    again = sent(client, "/bays/checks", data=told)
    assert again.status_code == 409
    assert "under way" in again.text
    page = sent(client, f"/bays/checks/{fitting}/end").text
    assert "The check is closed and counts." in page
    assert "today, meter" in page
    assert checked_bays(studio)[1].last == studio.today()
    assert "Ann Reed" not in client.get("/").text
    assert "Ann Reed" not in client.get("/golfers/new").text


def test_a_golfers_fitting_is_no_check_to_be_ended(client: WebClient, studio: Studio) -> None:
    bay = a_bay(studio=studio)
    assert sent(client, f"/bays/checks/{bay.fitting}/end").status_code == 422
    assert not bay.now.closed


def test_without_a_club_or_a_person_no_check_begins(client: WebClient, studio: Studio) -> None:
    answer = sent(client, "/bays/checks", data={"bay": "Bay 1", "person": "x"})
    assert answer.status_code == 422
    assert not [one for one in studio.store.fittings() if one.value.bay_check]


def test_the_bay_says_quietly_that_its_device_was_off_and_blocks_nothing() -> None:
    house = a_house_of_checks()
    bay = a_bay(studio=house.studio, clock=house.clock)
    kept = house.studio.store.fitting(bay.fitting)
    assert not kept.value.bay_check
    bay.do(VisitOpened(day=house.studio.today(), bay="Bay 2", device=METER, strip=Strip()))
    with asking(app_of(house.studio)) as client:
        page = client.get(bay.path).text
        assert "more spin than the others" in page
        assert "compare only clubs that were hit in this bay." in page
        bay.hand("Ash")
        assert bay.ball().club == "Ash"
        bay.do(VisitOpened(day=house.studio.today(), bay="Bay 1", device=METER, strip=Strip()))
        assert "compare only clubs" not in client.get(bay.path).text
