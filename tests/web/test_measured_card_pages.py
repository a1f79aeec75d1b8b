"""The measured card of a head, a shaft or a club on its page."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.services.measured_cards import measured_now
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from studios import a_club, a_head, app_of, studio_in_memory
from web_client import WebClient, asking

HEAD = {"mass": "200.1", "loft": "10.4", "lie": "58", "face": "-0.5", "by": "Ann"}
CLUB = {"mass": "315.6", "balance": "33.522"}


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def head(studio: Studio) -> str:
    return a_head(studio).id


@pytest.fixture
def club(studio: Studio, head: str) -> str:
    known = studio.store.rack().pieces[head]
    return a_club(studio, known, "Reedmace", 60.0, 45.5).id


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def at(item: str) -> str:
    return f"/rack/items/{item}/measured"


def words(client: WebClient, item: str) -> str:
    return read(client.get(at(item)).text)


def read(page: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", page)))


def test_the_item_s_page_leads_to_its_card(client: WebClient, head: str, club: str) -> None:
    for item in (head, club):
        assert f'href="{at(item)}"' in client.get(f"/rack/items/{item}").text


def test_what_was_never_measured_says_so(client: WebClient, head: str) -> None:
    assert "Harrow 460 was never measured: a new one has nothing to be held to." in words(
        client, head
    )


def test_a_card_is_kept_and_the_earlier_ones_listed(client: WebClient, head: str) -> None:
    assert client.post(at(head), data=HEAD).status_code == 303
    assert client.post(at(head), data=HEAD | {"mass": "200.4", "by": "Bo"}).status_code == 303
    page = client.get(at(head)).text
    text = read(page)
    assert "Harrow 460 is measured: a new one can be held to it." in text
    assert "200.4 g, loft 10.4°, lie 58.0°, face 0.5° closed Bo" in text
    assert text.index("200.4 g") < text.index("200.1 g")
    assert 'value="200.4"' in page


def test_a_card_in_part_says_what_is_missing(client: WebClient, head: str) -> None:
    client.post(at(head), data={"loft": "10.4"})
    assert "measured in part: weight, lie and face are missing." in words(client, head)


def test_a_swingweight_that_nobody_read_is_worked_out(client: WebClient, club: str) -> None:
    assert client.post(at(club), data=CLUB).status_code == 303
    text = words(client, club)
    assert "is measured, with a swingweight of D2.2." in text
    assert "The swingweight is worked out from weight and balance point." in text
    assert "from memory" in text


@pytest.mark.parametrize("typed", ["D2.1", "d2,1", "32.1"])
def test_a_swingweight_is_typed_as_letters_or_points(
    client: WebClient, studio: Studio, club: str, typed: str
) -> None:
    assert client.post(at(club), data=CLUB | {"swingweight": typed}).status_code == 303
    card = measured_now(studio, club).card
    assert card is not None
    assert card.figures.swingweight == pytest.approx(32.1)


def test_readings_that_contradict_each_other_are_named(client: WebClient, club: str) -> None:
    assert client.post(at(club), data=CLUB | {"swingweight": "D6"}).status_code == 303
    text = words(client, club)
    assert "contradict each other: measure them again." in text
    assert "The scale reads D6.0, weight and balance point give D2.2" in text


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("mass", "11 lb", "Give 230 to 450 g; look at the unit."),
        ("swingweight", "H9", "is no swingweight."),
        ("swingweight", "72", "Off scale cannot be. Give A0.0 to G10.0"),
        ("inertia", "heavy", "'heavy' is no number."),
        ("inertia", "285", "285 kg cm² cannot be."),
        ("balance", "335 m", "cannot be."),
        ("frequency", "254 g", "frequency"),
    ],
)
def test_a_figure_that_cannot_be_keeps_the_form(
    client: WebClient, studio: Studio, club: str, field: str, typed: str, said: str
) -> None:
    answer = client.post(at(club), data=CLUB | {field: typed})
    assert answer.status_code == 422
    assert said in read(answer.text)
    assert f'value="{typed}"' in answer.text
    assert measured_now(studio, club).cards == ()


def test_an_empty_form_keeps_nothing(client: WebClient, studio: Studio, head: str) -> None:
    answer = client.post(at(head), data={"by": "Ann"})
    assert answer.status_code == 422
    assert "Nothing was measured." in read(answer.text)
    assert measured_now(studio, head).cards == ()


def test_a_whole_card_of_a_club_comes_back_in_the_form(
    client: WebClient, studio: Studio, club: str
) -> None:
    data = CLUB | {
        "length": "45.5",
        "swingweight": "D2.3",
        "inertia": "2850",
        "frequency": "252",
        "clamp": "5",
        "tip_mass": "205",
    }
    assert client.post(at(club), data=data).status_code == 303
    card = measured_now(studio, club).card
    assert card is not None
    assert card.figures.inertia == pytest.approx(2850.0 * KILOGRAM_SQUARE_CENTIMETRE)
    assert card.figures.frequency == pytest.approx(252.0 * CYCLE_PER_MINUTE)
    assert card.figures.clamp == pytest.approx(5.0 * INCH)
    page = client.get(at(club)).text
    for value in data.values():
        assert f'value="{value}"' in page
    assert "252 cpm (5.00 in clamp, 205 g)" in read(page)
    assert client.post(at(club), data=data).status_code == 303


def test_metric_and_comma_are_typed_and_shown(
    client: WebClient, studio: Studio, club: str
) -> None:
    known = read_settings(studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(studio, metric, version=known.version)
    data = {"mass": "315,6", "balance": "851,5", "swingweight": "D2,3"}
    assert client.post(at(club), data=data).status_code == 303
    card = measured_now(studio, club).card
    assert card is not None
    assert card.figures.mass == pytest.approx(315.6 * GRAM)
    text = words(client, club)
    assert "swingweight of D2,3" in text
    assert "315,6 g, balance 852 mm, D2,3" in text


def test_nothing_but_pieces_and_clubs_has_a_card(client: WebClient) -> None:
    assert client.get(at("nothing")).status_code == 404
