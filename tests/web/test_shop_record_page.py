"""The shop record as a page: what taught the shop, what it knows, and learning anew."""

import re
from collections.abc import Callable, Iterator
from threading import Event

import pytest
from fastapi import FastAPI

from loftwright.domain.acts import Closed
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.errors import EvidenceError, StoreError
from loftwright.services import shop_learning, shop_work
from loftwright.services.acting import act
from loftwright.services.bay_check import name_club
from loftwright.services.evidence import Desk
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.settings import Settings, change_settings
from loftwright.services.shop_folder import code_of_golfer, note_trouble
from loftwright.services.shop_record import Kept
from loftwright.services.studio import Studio
from loftwright.shop.learned import Leverage, ShopLearned
from loftwright.web.pages import bays, settings, shop
from racks import a_measured_rack
from studios import app_of
from told_samples import a_bay_offset, a_learned
from web_client import WebClient, asking


@pytest.fixture
def app(studio: Studio) -> FastAPI:
    return app_of(studio, shop.router, settings.router)


@pytest.fixture
def client(app: FastAPI) -> Iterator[WebClient]:
    with asking(app) as made:
        yield made


@pytest.fixture
def learned(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> ShopLearned:
    a_measured_rack(studio)
    made = a_learned(
        offsets=(a_bay_offset("Bay 2", 0.9), a_bay_offset("Bay 1", -0.1)),
        leverage=(
            Leverage(
                kind="golfer",
                name="3f2a",
                level="model",
                member="heron-60-1",
                response="spin",
                share=1.62,
            ),
        ),
    )
    monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (3,))
    monkeypatch.setattr(shop_learning, "read_learned", lambda _studio, _version: made)
    return made


def test_a_shop_that_learned_nothing_says_that_physics_leads(client: WebClient) -> None:
    text = client.get("/shop").text
    assert "Nothing has been learned yet: the shop record is empty, so physics leads." in text
    assert "Only fittings of golfers who agreed to it teach the shop" in text
    assert "Learn from the record" in text
    assert "What models do" not in text


def test_what_was_left_out_is_counted_with_its_reason(client: WebClient, studio: Studio) -> None:
    for agreed in (False, True, True):
        golfer = Golfer(id="", consents=Consents(shop_record=agreed))
        open_for_new(studio, Visitor(golfer=golfer, identity=Identity(name="A")), bay="Bay 1")
    text = " ".join(client.get("/shop").text.split())
    assert '<th scope="row" class="n">1</th><td>left out: the golfer did not agree' in text
    assert '<th scope="row" class="n">2</th><td>not in it yet: not closed' in text
    assert "invented" not in text


def test_a_closed_fitting_that_is_not_there_waits_and_a_trouble_is_told(
    client: WebClient, studio: Studio
) -> None:
    golfer = Golfer(id="", consents=Consents(shop_record=True))
    opened = open_for_new(studio, Visitor(golfer=golfer, identity=Identity(name="A")), bay="Bay 1")
    act(studio, opened.id, [Closed()])
    note_trouble(studio, opened.id, "shop/part=00: no space left.")
    text = " ".join(client.get("/shop").text.split())
    assert '<th scope="row" class="n">1</th><td>not in it yet, or without balls' in text
    assert "Not written: shop/part=00: no space left. Bring the record up to date" in text


@pytest.mark.usefixtures("learned")
def test_the_page_says_what_taught_it_and_how_much_is_physics(client: WebClient) -> None:
    text = client.get("/shop").text
    assert "143 fittings of 96 golfers (5720 balls) have taught this shop; 12 % of what" in text
    assert "Version 3, learned on 20\N{NO-BREAK SPACE}November\N{NO-BREAK SPACE}2026." in text


@pytest.mark.usefixtures("learned")
def test_every_level_stands_below_the_wider_one_with_its_fittings(client: WebClient) -> None:
    text = client.get("/shop").text
    table = text.partition('id="shafts"')[2].partition("</table>")[0]
    places = [
        table.index(f'in-{depth}">{name}')
        for depth, name in (
            (0, "Heron<"),
            (1, "Heron generation 1<"),
            (2, "Heron 60 firm (generation 1)<"),
            (
                3,
                '<a href="/rack/items/heron-60-1-a"><span class="vh">Heron 60 firm '
                "(generation 1), </span>A<",
            ),
            (2, "Heron 70 firm (generation 1)<"),
            (1, "Heron generation 2<"),
        )
    ]
    assert places == sorted(places)
    # Family, generation and model add up: (0.1 - 0.2 - 0.8) times 200 rpm.
    assert "−180<span" in table
    assert '<td class="n">12</td>' in table


@pytest.mark.usefixtures("learned")
@pytest.mark.parametrize(
    ("of", "how", "heading"),
    [
        ("", "", "Launch, °, as golfers swing it"),
        ("spin", "same", "Spin, rpm, from the same swing"),
        ("head_speed", "", "Head speed, mph, as golfers swing it"),
        ("head_speed", "same", "Launch, °, from the same swing"),
        ("x", "y", "Launch, °, as golfers swing it"),
    ],
)
def test_the_picture_is_of_what_was_asked_and_told_in_words(
    client: WebClient, of: str, how: str, heading: str
) -> None:
    text = client.get("/shop", params={"of": of, "how": how}).text
    block = text.partition('id="models"')[2].partition("</section>")[0]
    assert heading in block
    assert block.count('aria-current="true"') == 2
    assert "Heron 60 firm (generation 1): " in block.partition("figcaption")[2]
    assert 'style="' not in block


@pytest.mark.usefixtures("learned")
def test_from_the_same_swing_there_is_no_head_speed(client: WebClient) -> None:
    assert "Head speed" in client.get("/shop").text
    assert "Head speed, mph" not in client.get("/shop", params={"how": "same"}).text


@pytest.mark.usefixtures("learned")
def test_a_bay_that_reads_otherwise_is_told_and_one_that_does_not_is_listed(
    client: WebClient,
) -> None:
    text = client.get("/shop").text
    assert "Bay 2 reads 180 rpm more spin than the others (130 to 230)" in text
    assert "Bay 1 reads" not in text
    assert '"in in-0">Bay 1<' in text


def test_without_a_shaft_of_the_shop_in_it_the_page_says_so(
    client: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (3,))
    monkeypatch.setattr(shop_learning, "read_learned", lambda *_: a_learned({}))
    text = client.get("/shop").text
    assert "No shaft of the rack was hit in what taught the shop." in text
    assert "What models do" not in text


def test_bays_that_wait_for_their_check_are_named(studio: Studio) -> None:
    with asking(app_of(studio, shop.router, bays.router)) as asked:
        assert (
            "No check club is named yet: bays are told apart by golfers" in asked.get("/shop").text
        )
        a_measured_rack(studio)
        change_settings(studio, Settings(bays=("Bay 1", "Bay 2")), version=0)
        name_club(studio, "club-1", version=0)
        text = asked.get("/shop").text
    assert "Check club: Bay 1, Bay 2: never checked." in text
    assert 'href="/bays"' in text


@pytest.mark.usefixtures("learned")
def test_what_rests_on_one_golfer_is_warned_of_without_a_name(client: WebClient) -> None:
    text = client.get("/shop").text
    assert "One golfer alone moves the spin of Heron 60 firm (generation 1) by 1.6" in text
    assert "3f2a" not in text


@pytest.mark.usefixtures("learned")
@pytest.mark.parametrize("how", ["swung", "same"])
def test_the_filled_page_speaks_in_the_shop_s_units(
    client: WebClient, studio: Studio, how: str
) -> None:
    change_settings(studio, Settings(units="metric", decimal="comma"), version=0)
    for of in ("launch", "spin", "ball_speed", "axis", "direction", "head_speed", "toe", "high"):
        text = client.get("/shop", params={"of": of, "how": how}).text
        assert not re.findall(r"\d\.\d|\bmph\b|\byd\b", re.sub(r"<[^>]*>", " ", text)), of


def test_the_balls_of_a_golfer_who_decides_can_be_looked_at(
    client: WebClient, studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    golfer = Golfer(id="", consents=Consents(shop_record=True))
    visitor = Visitor(golfer=golfer, identity=Identity(name="A"))
    opened = open_for_new(studio, visitor, bay="Bay 1")
    moved = Leverage(
        kind="golfer",
        name=code_of_golfer(opened.golfer),
        level="model",
        member="heron-60-1",
        response="spin",
        share=-1.3,
    )
    monkeypatch.setattr(shop_learning, "learned_versions", lambda _: (3,))
    monkeypatch.setattr(shop_learning, "read_learned", lambda *_: a_learned(leverage=(moved,)))
    text = client.get("/shop").text
    assert "by 1.3 standard errors" in text
    assert f'href="/fittings/{opened.id}/mends">The golfer’s newest balls' in text


def waited(app: FastAPI, client: WebClient) -> str:
    """Return the page once nothing is under way."""
    app.state.shop_work.wait(10.0)
    return client.get("/shop").text


def test_learning_runs_beside_the_pages_and_says_how_it_ended(
    app: FastAPI, client: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shop_work, "learn_apart", lambda _: 4)
    answer = client.post("/shop/work", data={"task": "learn"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/shop#work")
    assert "Learned at 12:00: version 4. Visits that open from now on" in waited(app, client)


def test_bringing_it_up_to_date_says_what_came_of_it(
    app: FastAPI, client: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = Kept(fittings=7, left_out=2)
    monkeypatch.setattr(shop_work, "record_shop", lambda _studio, _desk, _told: kept)
    client.post("/shop/work", data={"task": "record"})
    assert "Up to date at 12:00: 7 fittings in the record, 2 left out." in waited(app, client)


def test_bringing_it_up_to_date_counts_fittings_as_it_goes(
    app: FastAPI, client: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = []

    def slow(_studio: Studio, _desk: Desk, told: Callable[[int, int], None]) -> Kept:
        told(3, 7)
        seen.append(client.get("/shop").text)
        return Kept(fittings=7, left_out=0)

    monkeypatch.setattr(shop_work, "record_shop", slow)
    client.post("/shop/work", data={"task": "record"})
    assert "7 fittings in the record" in waited(app, client)
    assert "up to date since 12:00: 3 of 7 fittings. Bays go on as usual" in seen[0]


def test_while_one_thing_runs_no_other_begins(
    app: FastAPI, client: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = Event()

    def slow(_: Studio) -> int:
        assert go_on.wait(10.0)
        return 3

    monkeypatch.setattr(shop_work, "learn_apart", slow)
    try:
        client.post("/shop/work", data={"task": "learn"})
        text = client.get("/shop").text
        assert "Learning from the record since 12:00. Bays go on as usual" in text
        assert text.count(" disabled>") == 2
        for task in ("learn", "record"):
            refused = client.post("/shop/work", data={"task": task})
            assert refused.status_code == 409
            assert "Not begun: something is under way already." in refused.text
    finally:
        go_on.set()
    assert "Learned at 12:00: version 3." in waited(app, client)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (
            EvidenceError("3 fittings teach no slopes", mend="Fit some more."),
            "Learning from the record failed at 12:00: 3 fittings teach no slopes. Fit some more.",
        ),
        (StoreError("no space", mend="Free some."), "failed at 12:00: no space. Free some."),
        (ZeroDivisionError(), "something went wrong that nobody foresaw. Try again"),
    ],
)
def test_what_fails_says_why_and_can_be_begun_again(
    app: FastAPI,
    client: WebClient,
    monkeypatch: pytest.MonkeyPatch,
    error: Exception,
    words: str,
) -> None:
    def fails(_: Studio) -> int:
        raise error

    monkeypatch.setattr(shop_work, "learn_apart", fails)
    client.post("/shop/work", data={"task": "learn"})
    text = waited(app, client)
    assert words in " ".join(text.split())
    assert " disabled>" not in text
    assert client.post("/shop/work", data={"task": "learn"}).status_code == 303
    app.state.shop_work.wait(10.0)


def test_an_unknown_task_is_refused(client: WebClient) -> None:
    answer = client.post("/shop/work", data={"task": "forget"})
    assert answer.status_code == 422
    assert "Choose record, learn." in answer.text


def test_it_is_reached_from_the_bar_and_from_the_settings(client: WebClient) -> None:
    text = client.get("/settings").text
    assert text.count('href="/shop"') == 2
