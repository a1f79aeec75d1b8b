"""A part moved from the list: typed beside it, shown where it was, undone with one tap."""

from collections.abc import Iterator

import pytest

from loftwright.domain.rack import Piece
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_place
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_place.router)) as made:
        yield made


def place_of(studio: Studio, piece: str) -> str:
    found = studio.store.item(piece).value
    assert isinstance(found, Piece)
    return found.place


def test_a_part_is_moved_from_the_list_and_back(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio, place="Rack <2>")
    form = {"place": "Bay 1", "was": "Rack <2>", "asked": "words=reed&sort=length&kept=head"}
    answer = client.post(f"/rack/items/{piece.id}/place", data=form)
    there = answer.headers["location"]
    asked = f"words=reed&sort=length&moved={piece.id}&from=Rack+%3C2%3E"
    assert there == f"/rack?{asked}#at-{piece.id}"
    assert place_of(studio, piece.id) == "Bay 1"
    page = client.get(there).text
    assert "Moved from Rack &lt;2&gt;." in page
    assert "Undo move" in page
    back = {"place": "Rack <2>", "was": "Bay 1"}
    assert client.post(f"/rack/items/{piece.id}/place", data=back).status_code == 303
    assert place_of(studio, piece.id) == "Rack <2>"


def test_a_head_without_a_place_gets_one(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    answer = client.post(f"/rack/items/{head.id}/place", data={"place": "Ann", "was": ""})
    assert "Moved from no place." in client.get(answer.headers["location"]).text
    assert place_of(studio, head.id) == "Ann"


def test_what_somebody_else_moved_is_said_and_stays(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio, place="Bay 2")
    answer = client.post(f"/rack/items/{piece.id}/place", data={"place": "Bay 1", "was": "Rack"})
    assert answer.status_code == 409
    assert "is at Bay 2 by now: somebody moved it" in answer.text
    assert place_of(studio, piece.id) == "Bay 2"


def test_a_place_too_long_and_a_part_that_is_not_there_are_refused(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    answer = client.post(f"/rack/items/{piece.id}/place", data={"place": "x" * 81, "was": ""})
    assert (answer.status_code, "Not moved: 81 letters" in answer.text) == (422, True)
    assert client.post("/rack/items/nowhere/place", data={"place": "x"}).status_code == 404


def test_a_made_up_address_moves_nothing_and_shows_nothing(
    client: WebClient, studio: Studio
) -> None:
    a_shaft(studio)
    assert "Undo move" not in client.get("/rack?moved=nowhere&from=Bay+1").text
