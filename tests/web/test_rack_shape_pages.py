"""A shaft's shape: typed in, compared by section, sought by shape, set aside and let stand."""

from collections.abc import Iterator

import numpy as np
import pytest

from loftwright.domain.rack import State
from loftwright.services.measuring import alike, keep_profile
from loftwright.services.rack_changing import set_state
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_item, rack_shape
from shafts import a_profile, times
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking

TYPED = {
    "bench": "Bench 1",
    "conditions": "300 mm span, grip off",
    "stations": "0 82 0.8\n400 64.8 0.6\n700 44 0.4\n950 27,5 0.5\n1168 20.2 3",
}


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_item.router, rack_shape.router)) as made:
        yield made


def shaft(studio: Studio, name: str) -> str:
    piece, _ = a_shaft(studio, name)
    return piece.id


def three(studio: Studio) -> tuple[str, str, str]:
    """Return a reference, one 9 per cent softer at the tip and one 20 per cent stiffer."""
    reed, rush, sedge = (shaft(studio, name) for name in ("Reedmace", "Rush", "Sedge"))
    keep_profile(studio, a_profile(piece=reed))
    soft = a_profile(lambda place: np.where(place > 0.85, 0.91, 1.0), piece=rush, grams=61.0)
    keep_profile(studio, soft)
    keep_profile(studio, a_profile(times(1.2), piece=sedge, grams=60.1))
    return reed, rush, sedge


def test_a_shaft_that_is_not_measured_says_so(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio, "Reedmace")
    text = client.get(f"/rack/items/{piece}/shape").text
    assert "Reedmace firm is not measured: nothing is said of what it plays like." in text
    assert "A shaft that creaks or cracks is locked." in text
    assert "not measured" in client.get("/rack").text


def test_a_profile_is_typed_one_line_a_station(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio, "Reedmace")
    answer = client.post(f"/rack/items/{piece}/shape", data=TYPED)
    assert answer.status_code == 303
    ((kept,),) = studio.store.profiles().values()
    assert kept.length == 1.168
    assert kept.bending[3] == 27.5
    assert kept.twisting is None
    text = client.get(answer.headers["location"]).text
    assert "The profile is kept." in text
    assert "no other shaft is: there is nothing to compare" in text
    a_shaft(studio, "Rush", head=a_head(studio))
    assert "1 of the shafts measured" in client.get("/rack").text
    assert "measured on Bench 1, 25 November 2026" in client.get("/rack").text


def test_twist_and_weight_stand_beside_on_every_line(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio, "Reedmace")
    lines = "0 82 0.8 39 0.5 65 1\n600 52 0.5 22 0.3 47 1\n1168 20 0.2 10 0.1 63 1"
    client.post(f"/rack/items/{piece}/shape", data=TYPED | {"stations": lines})
    ((kept,),) = studio.store.profiles().values()
    assert kept.twisting is not None
    assert kept.density is not None
    assert kept.twisting[1] == 22.0
    assert kept.density[1] == pytest.approx(0.047)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"stations": "0 82\n1168 20"}, "Line 1, &#39;0 82&#39;, is no station"),
        ({"stations": "0 82 1\n1168 20 1 9 1"}, "Line 2, &#39;1168 20 1 9 1&#39;, is no station"),
        ({"stations": "0 82 1\ntip 20 1"}, "Line 2"),
        ({"stations": "0 82 1\n46 20 1"}, "is the unit right?"),
        ({"stations": "0 8200 1\n1168 20 1"}, "8200 N m2 at 0 mm cannot be"),
        ({"stations": "0 82 0\n1168 20 1"}, "A measurement without an error cannot be"),
        ({"stations": ""}, "Give one line a station."),
        ({"bench": ""}, "Name the bench."),
        ({"conditions": ""}, "Say how: spans, clamps, grip on or off."),
        ({"weighed": "61,4"}, "Mass and its error go together"),
        ({"weighed": "heavy"}, "&#39;heavy&#39; is no number"),
        ({"scale": "30"}, "A scale error of 0.3 cannot be"),
    ],
)
def test_a_profile_that_cannot_be_keeps_what_was_typed(
    client: WebClient, studio: Studio, changed: dict[str, str], told: str
) -> None:
    piece = shaft(studio, "Reedmace")
    answer = client.post(f"/rack/items/{piece}/shape", data=TYPED | changed)
    assert answer.status_code == 422
    assert told in answer.text
    assert studio.store.profiles() == {}


def test_the_likest_shaft_is_named_with_its_section_and_noise(
    client: WebClient, studio: Studio
) -> None:
    reed, rush, sedge = three(studio)
    text = client.get(f"/rack/items/{reed}/shape").text
    assert (
        "Against Reedmace firm, Rush firm differs most at the tip: 9 % softer; bench noise 1.4 %."
        in text
    )
    assert text.index(f"against={rush}") < text.index(f"against={sedge}")
    assert "Both on Bench 1: 300 mm span, grip off." in text


def test_another_shaft_is_compared_by_a_tap(client: WebClient, studio: Studio) -> None:
    reed, _, sedge = three(studio)
    text = client.get(f"/rack/items/{reed}/shape?against={sedge}").text
    assert "Sedge firm differs most" in text
    assert "20 % stiffer" in text


def test_likeness_by_weight_orders_otherwise(studio: Studio) -> None:
    reed, rush, sedge = three(studio)
    assert [one.piece.id for one in alike(studio, reed)] == [rush, sedge]
    assert [one.piece.id for one in alike(studio, reed, by="weight")] == [sedge, rush]


def test_a_shape_is_sought_by_section(client: WebClient, studio: Studio) -> None:
    reed, rush, sedge = three(studio)
    asked = f"/rack/items/{reed}/shape?section=tip&least=-15&most=-5"
    text = client.get(asked).text
    assert f"against={rush}" in text
    assert f"against={sedge}" not in text
    assert "1 shaft not of that shape" in text
    nothing = client.get(f"/rack/items/{reed}/shape?section=butt&most=-50").text
    assert "No measured shaft is of that shape." in nothing
    wrong = client.get(f"/rack/items/{reed}/shape?least=soft").text
    assert "&#39;soft&#39; is no number" in wrong


def test_a_locked_shaft_is_listed_with_why(client: WebClient, studio: Studio) -> None:
    reed, rush, _ = three(studio)
    set_state(studio, rush, State.LOCKED, reason="cracked at the tip")
    assert "Rush is locked: cracked at the tip" in client.get(f"/rack/items/{reed}/shape").text


def test_a_profile_is_set_aside_with_a_reason_and_stands_again(
    client: WebClient, studio: Studio
) -> None:
    reed, rush, _ = three(studio)
    (profile,) = studio.store.profiles()[rush]
    path = f"/rack/items/{rush}/shape/{profile.id}"
    assert client.post(f"{path}/aside", data={}).status_code == 422
    answer = client.post(f"{path}/aside", data={"reason": "clamp slipped"})
    text = client.get(answer.headers["location"]).text
    assert "set aside: clamp slipped" in text
    assert "is not measured" in text
    assert f"against={rush}" not in client.get(f"/rack/items/{reed}/shape").text
    client.post(f"{path}/stands")
    assert f"against={rush}" in client.get(f"/rack/items/{reed}/shape").text


def test_only_a_shaft_of_the_shop_has_a_shape(client: WebClient, studio: Studio) -> None:
    head = a_head(studio)
    assert client.get(f"/rack/items/{head.id}/shape").status_code == 404
    assert client.get("/rack/items/gone/shape").status_code == 404
    assert client.post(f"/rack/items/{head.id}/shape", data=TYPED).status_code == 422
