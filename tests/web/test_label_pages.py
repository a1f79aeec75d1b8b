"""Labels chosen and printed, and a part found by the code on its label or by words."""

from collections.abc import Iterator

import pypdfium2
import pytest

from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import State
from loftwright.services.golfers import add_golfer
from loftwright.services.rack_adding import OwnClub, add_own_club
from loftwright.services.rack_changing import set_state
from loftwright.services.studio import Studio
from loftwright.web.pages import labels, rack, rack_item
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, labels.router, rack.router, rack_item.router)) as made:
        yield made


def words(data: bytes) -> str:
    return " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data))


def test_nothing_to_label_says_what_to_do(client: WebClient) -> None:
    text = client.get("/rack/labels").text
    assert "There is nothing to label: the rack is empty." in text
    assert client.get("/rack/labels.pdf").status_code == 422


def test_parts_that_may_be_hit_are_ticked(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    piece, _ = a_shaft(studio, head=head)
    locked, _ = a_shaft(studio, "Sedge")
    set_state(studio, locked.id, State.LOCKED, reason="cracked")
    text = client.get("/rack/labels").text
    assert "2 labels fit on 1 sheet of A4." in text
    assert f'value="{piece.id}" checked' in text
    assert f'value="{locked.id}">' in text
    printed = words(client.get("/rack/labels.pdf").content)
    assert code_of(piece.id) in printed
    assert code_of(head.id) in printed
    assert code_of(locked.id) not in printed


def test_only_the_chosen_parts_are_printed(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    other, _ = a_shaft(studio, "Sedge")
    answer = client.get(f"/rack/labels.pdf?piece={other.id}")
    assert answer.headers["content-type"] == "application/pdf"
    assert code_of(other.id) in words(answer.content)
    assert code_of(piece.id) not in words(answer.content)
    assert client.get("/rack/labels.pdf?piece=gone").status_code == 422


def test_a_scanned_label_opens_its_part(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    answer = client.get(f"/rack/find?code={code_of(piece.id).lower()}")
    assert answer.status_code == 303
    text = client.get(answer.headers["location"]).text
    assert code_of(piece.id) in text


@pytest.mark.parametrize(
    ("code", "told"),
    [
        ("", "Scan a label, or type its nine signs."),
        ("TAC-27X-4Y6", "A sign of &#39;TAC-27X-4Y6&#39; was misread"),
        ("TAC-27X-4Y5", "No part here bears the label TAC-27X-4Y5"),
    ],
)
def test_a_label_that_opens_nothing_says_why(
    client: WebClient, studio: Studio, code: str, told: str
) -> None:
    a_shaft(studio)
    answer = client.get(f"/rack/find?code={code}")
    assert answer.status_code == 422
    assert told in answer.text


def test_a_golfer_s_own_club_has_no_label_here(client: WebClient, studio: Studio) -> None:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    add_own_club(studio, golfer, OwnClub(loft=0.18, length=1.15))
    a_shaft(studio)
    (own, *_) = studio.store.rack().pieces
    assert own not in client.get("/rack/labels").text
    assert client.get(f"/rack/labels.pdf?piece={own}").status_code == 422
    assert client.get(f"/rack/find?code={code_of(own)}").status_code == 422


def test_words_are_sought_in_heads_too_and_a_code_among_them_opens_its_part(
    client: WebClient, studio: Studio
) -> None:
    head = a_head(studio)
    piece, _ = a_shaft(studio, label="stout")
    text = client.get("/rack?words=stout").text
    assert "1 row left out by what you look for" in text
    assert "No head is as you look for." in text
    assert f"/rack/items/{piece.id}" in text
    assert f"/rack/items/{head.id}" not in text
    answer = client.get(f"/rack?words={code_of(head.id).lower()}&sort=weight")
    assert (answer.status_code, answer.headers["location"]) == (303, f"/rack/items/{head.id}")
    assert client.get(f"/rack?words={code_of('elsewhere')}").status_code == 200
