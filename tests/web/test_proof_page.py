"""The shop's proof as a page."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from bays import Bay, a_bay
from loftwright.services.evidence import Desk
from loftwright.services.predicting import predict_next
from loftwright.web.pages import proof, today
from studios import app_of, studio_in_memory
from web_client import WebClient, asking


def played(balls: int) -> Bay:
    bay, desk = a_bay(), Desk()
    for _ in range(balls):
        if bay.now.in_hand is None or len(bay.now.balls) % 10 == 0:
            bay.hand(("Own", "Ash", "Birch")[len(bay.now.balls) // 10 % 3])
        predict_next(bay.studio, desk, bay.fitting)
        bay.ball()
    return bay


@pytest.fixture(scope="module")
def bay() -> Bay:
    return played(54)


@pytest.fixture(scope="module")
def client(bay: Bay) -> Iterator[WebClient]:
    with asking(app_of(bay.studio, proof.router, today.router)) as made:
        yield made


def test_it_is_reached_from_today(client: WebClient) -> None:
    assert 'href="/proof"' in client.get("/").text


def test_it_opens_with_the_share_then_the_picture_then_the_tables(client: WebClient) -> None:
    answer = client.get("/proof")
    assert answer.status_code == 200
    text = answer.text
    sentence, picture, table = (text.index(one) for one in ("Of 53 balls", "<svg", "<table"))
    assert sentence < picture < table
    assert "range of total" in text
    assert "1 ball came without a prediction" in text
    for words in (
        "Bay 1",
        "meter",
        "Harrow 460, Reedmace Ash, middle",
        "balls with the same club",
    ):
        assert words in text
    assert "too few to say" in text
    assert "Total by what it was predicted from" in text


def test_a_shop_without_balls_says_what_will_stand_there() -> None:
    with asking(app_of(studio_in_memory(), proof.router)) as client:
        text = client.get("/proof").text
    assert "No ball was predicted yet." in text
    assert "<svg" not in text.partition("<main")[2].partition("</main")[0]


def test_an_invented_shop_shows_its_proof_as_invented() -> None:
    bay = played(4)
    kept = bay.studio.store.fitting(bay.fitting)
    bay.studio.store.change_fitting(replace(kept.value, invented=True), version=kept.version)
    with asking(app_of(bay.studio, proof.router)) as client:
        text = client.get("/proof").text
    assert "Too few to say: 3 balls of invented golfers predicted" in text
