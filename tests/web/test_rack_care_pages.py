"""Looks at pieces, recalls, and models with their line and stock, on their pages."""

from collections.abc import Iterator

import pytest

from loftwright.domain.rack import State
from loftwright.services.rack_changing import known_item
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_item, recall
from loftwright.web.roles import may_see
from studios import a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_item.router, recall.router)) as made:
        yield made


def form_of(studio: Studio, piece: str, **fields: str) -> dict[str, str]:
    """Return what a shaft's form posts: its versions, its name, and these fields."""
    known = known_item(studio, piece)
    model = studio.store.rack().pieces[piece].model
    versions = {
        "version": str(known.version),
        "model_version": str(known_item(studio, model).version),
    }
    return {"name": "Reedmace"} | versions | fields


def test_a_piece_that_nobody_looked_at_says_so(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    text = client.get(f"/rack/items/{piece.id}").text
    assert (
        "0 balls hit, and nobody has looked at it yet. The next look is due in 500 balls" in text
    )


def test_a_look_is_written_down_and_shown(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    data = {"finding": "worn", "words": "paint at the hosel", "by": "Ann"}
    answer = client.post(f"/rack/items/{piece.id}/looks", data=data)
    assert answer.status_code == 303
    text = client.get(answer.headers["location"]).text
    assert "The look is written down." in text
    assert "0 balls hit, 0 since it was found worn on 25 November 2026." in text
    assert "paint at the hosel" in text
    assert studio.store.rack().pieces[piece.id].state is State.READY


def test_a_crack_locks_the_part_and_its_putting_back_is_refused_in_words(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    data = {"finding": "cracked", "words": "hairline at the tip"}
    answer = client.post(f"/rack/items/{piece.id}/looks", data=data)
    assert "and the part is locked" in client.get(answer.headers["location"]).text
    refused = client.post(f"/rack/items/{piece.id}/state", data={"state": "ready"})
    assert refused.status_code == 409
    assert "Not changed: the newest look at Reedmace found it cracked: hairline" in refused.text


def test_a_crack_without_a_word_is_asked_for_at_its_field(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    answer = client.post(f"/rack/items/{piece.id}/looks", data={"finding": "cracked"})
    assert answer.status_code == 422
    assert "It is empty. Write where: hairline at the hosel, paint worn." in answer.text
    assert 'value="cracked" checked' in answer.text
    assert studio.store.rack().pieces[piece.id].state is State.READY


def test_a_model_takes_family_line_stock_and_price(client: WebClient, studio: Studio) -> None:
    old, _ = a_shaft(studio, "Reed")
    piece, _ = a_shaft(studio)
    before = studio.store.rack().pieces[old.id].model
    fields = form_of(
        studio,
        piece.id,
        family="Reed",
        replaces=before,
        stock="4",
        new_price="189.50",
        check_after="200",
    )
    assert client.post(f"/rack/items/{piece.id}", data=fields).status_code == 303
    held = studio.store.rack()
    model = held.shafts[held.pieces[piece.id].model]
    assert (model.family, model.replaces, model.stock, model.price) == ("Reed", before, 4, 18950)
    assert held.pieces[piece.id].check_after == 200
    text = client.get(f"/rack/items/{piece.id}").text
    assert f'<option value="{before}" selected>' in text
    assert "Replaces Reed firm." in text
    assert "Replaced by Reedmace." in client.get(f"/rack/items/{old.id}").text


def test_a_form_without_the_fields_of_a_model_keeps_them(
    client: WebClient, studio: Studio
) -> None:
    piece, _ = a_shaft(studio)
    client.post(
        f"/rack/items/{piece.id}", data=form_of(studio, piece.id, family="Reed", stock="4")
    )
    client.post(f"/rack/items/{piece.id}", data=form_of(studio, piece.id, name="Rush"))
    held = studio.store.rack()
    model = held.shafts[held.pieces[piece.id].model]
    assert (model.name, model.family, model.stock) == ("Rush", "Reed", 4)


def test_a_line_in_a_circle_is_refused_at_its_field(client: WebClient, studio: Studio) -> None:
    first, _ = a_shaft(studio, "Reedmace")
    second, _ = a_shaft(studio, "Reedmace")
    models = {one: studio.store.rack().pieces[one].model for one in (first.id, second.id)}
    data = form_of(studio, second.id, replaces=models[first.id])
    assert client.post(f"/rack/items/{second.id}", data=data).status_code == 303
    data = form_of(studio, first.id, replaces=models[second.id])
    answer = client.post(f"/rack/items/{first.id}", data=data)
    assert answer.status_code == 422
    assert "would replace itself by way of Reedmace" in answer.text
    assert 'aria-describedby="n-f-replaces"' in answer.text


@pytest.mark.parametrize("stock", ["-1", "four", "1.5"])
def test_a_stock_is_a_whole_number(client: WebClient, studio: Studio, stock: str) -> None:
    piece, _ = a_shaft(studio)
    answer = client.post(f"/rack/items/{piece.id}", data=form_of(studio, piece.id, stock=stock))
    assert answer.status_code == 422
    assert "Give a whole number from 0 to 99999" in answer.text


def test_a_recall_of_what_was_never_hit_says_so(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    text = client.get(f"/recall/{piece.id}").text
    assert "Reedmace firm, went to nobody yet." in text
    assert "It was in no fitting." in text


def test_a_recall_locks_every_sample_and_takes_it_back(client: WebClient, studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    model = studio.store.rack().pieces[piece.id].model
    assert client.post(f"/recall/{model}/lock", data={}).status_code == 422
    answer = client.post(f"/recall/{model}/lock", data={"reason": "wrong label"})
    text = client.get(answer.headers["location"]).text
    assert "1 part locked." in text
    assert "Undo the locking" in text
    assert studio.store.rack().pieces[piece.id].reason == "wrong label"
    answer = client.post(
        f"/recall/{model}/undo", data={"pieces": piece.id, "reason": "wrong label"}
    )
    assert "1 part put back." in client.get(answer.headers["location"]).text
    assert studio.store.rack().pieces[piece.id].state is State.READY


def test_a_recall_of_nothing_is_an_error_with_a_way_on(client: WebClient) -> None:
    answer = client.get("/recall/nothing")
    assert answer.status_code == 404
    assert "Open it from the rack." in answer.text


def test_the_workshop_sees_the_rack_and_no_golfer() -> None:
    assert may_see("workshop", "/rack/items/1")
    assert not may_see("workshop", "/recall/1")
