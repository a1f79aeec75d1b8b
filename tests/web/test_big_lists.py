"""Lists of a studio with many golfers and fittings: some at a time, the others found by name."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from shutil import copytree
from threading import current_thread

import pytest
from sqlalchemy import event

from big_stores import PAGES, Size, closed_with_job, make_big_store, name_of
from loftwright.services import follow_up, workshop_list
from loftwright.services.day import fittings_done
from loftwright.services.golfers import golfers_called
from loftwright.services.piece_balls import balls_in
from loftwright.services.proof import proof_of, tally
from loftwright.services.scoring import Scored, score_fitting
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_by_piece
from loftwright.store.sqlite import open_store
from loftwright.web.pages import today
from studios import app_of
from web_client import WebClient, asking

SMALL = Size(fittings=24, golfers=110, played=1, balls=16)
LARGE = replace(SMALL, fittings=72)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a big store of a small size."""
    made = tmp_path_factory.mktemp("big")
    make_big_store(made, SMALL)
    return made


@pytest.fixture
def studio(folder: Path) -> Iterator[Studio]:
    made = Studio(store=open_store(folder), folder=folder)
    yield made
    made.store.close()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def names_on(page: str) -> list[str]:
    """Return the golfers that a page lists as done before."""
    table = page.split('id="done"')[1]
    return re.findall(r'<th scope="row">([^<]+)</th>', table)


def test_every_closed_fitting_is_reached_some_at_a_time(client: WebClient, studio: Studio) -> None:
    path, found = "/", []
    while path:
        page = client.get(path).text
        found.append(names_on(page))
        older = re.search(r'href="([^"]+)">Older ones<', page)
        path = older.group(1).replace("&amp;", "&") if older else ""
    closed = fittings_done(studio, 1000).fittings
    assert [name for some in found for name in some] == [one.name for one in closed]
    assert {len(some) for some in found[:-1]} == {12}
    assert len(closed) == SMALL.fittings + 2
    assert "The newest" in page


def test_a_fitting_of_long_ago_is_found_by_a_part_of_its_golfers_name(client: WebClient) -> None:
    page = looked_for(client, "/", name_of(0)[:12].upper())
    assert names_on(page) == [name_of(0)]
    nobody = looked_for(client, "/", "nobody at all")
    assert "No fitting done before is of a golfer with this name." in nobody
    assert 'value="nobody at all"' in nobody


def test_older_fittings_of_golfers_by_a_name_are_reached_and_the_name_stands_in_no_address(
    client: WebClient, studio: Studio
) -> None:
    word = name_of(0).split()[-1]
    path, found = client.post("/", data={"find": word}).headers["location"], []
    while path:
        page = client.get(path).text
        found.append(names_on(page))
        for address in (path, *re.findall(r'(?:href|action)="([^"]*)"', page)):
            assert word not in address
        older = re.search(r'href="([^"]+)">Older ones<', page)
        path = older.group(1).replace("&amp;", "&") if older else ""
    theirs = frozenset(golfers_called(studio, word))
    closed = fittings_done(studio, 1000, golfers=theirs).fittings
    assert [name for some in found for name in some] == [one.name for one in closed]
    assert all(word in name for some in found for name in some)


@pytest.mark.parametrize("path", ["/", "/people", "/golfers/new"])
def test_a_name_in_an_address_finds_nobody(client: WebClient, path: str) -> None:
    plain = client.get(path).text
    asked = client.get(path, params={"find": "nobody at all", "name": "Ann Reed"}).text
    assert "nobody at all" not in asked
    assert "the access of" not in asked
    assert names_in_rows(asked) == names_in_rows(plain)


def looked_for(client: WebClient, path: str, text: str) -> str:
    """Return the page to which a search leads, which going back finds again."""
    answer = client.post(path, data={"find": text})
    assert answer.status_code == 303
    return str(client.get(answer.headers["location"]).text)


def names_in_rows(page: str) -> list[str]:
    """Return what stands at the head of every row."""
    return re.findall(r'<th scope="row">([^<]+)', page)


def test_people_offers_the_newest_golfers_and_finds_the_others(
    client: WebClient, studio: Studio
) -> None:
    page = client.get("/people").text
    offered = page.split('id="one-first"')[1].split("</select>")[0]
    assert offered.count("<option") == 101
    assert "The newest 100 of " in page
    assert name_of(0) not in offered
    sought = looked_for(client, "/people/find", name_of(0))
    assert name_of(0) in sought.split('id="one-first"')[1].split("</select>")[0]
    called = golfers_called(studio, name_of(0))
    assert set(called.values()) == {name_of(0), name_of(70)}
    assert "2 golfers found by" in sought


def test_a_golfer_who_was_here_long_ago_is_found_for_another_fitting(client: WebClient) -> None:
    assert name_of(0) not in client.get("/golfers/new").text
    page = looked_for(client, "/golfers/find", name_of(0))
    assert f"for {name_of(0)}</span>" in page


def test_a_search_finds_every_word_in_any_case(studio: Studio) -> None:
    told = golfers_called(studio, "BEXCOMBE ada")
    assert told
    assert all("Bexcombe" in name and "Ada" in name for name in told.values())
    assert len(golfers_called(studio, "")) == len(studio.store.roll())


def test_counts_of_all_fittings_are_those_of_every_record(studio: Studio) -> None:
    balls: dict[str, int] = {}
    scored: list[Scored] = []
    for kept in studio.store.fittings():
        if kept.value.invented:
            continue
        scored += score_fitting(studio, kept.value)
        for piece, many in balls_in(studio.standing(kept.value.id)).items():
            balls[piece] = balls.get(piece, 0) + many
    assert balls_by_piece(studio) == balls
    proof = proof_of(studio)
    assert proof == tally(scored)
    assert proof.balls > 200
    assert proof_of(Studio(store=studio.store, folder=studio.folder)) == proof


def test_pages_ask_no_more_of_the_store_when_there_are_more_fittings(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module, most in (
        (follow_up, "MOST_SHOWN"),
        (workshop_list, "MOST_CHECKED"),
        (workshop_list, "MOST_OPEN"),
        (today, "MOST_DONE"),
    ):
        monkeypatch.setattr(module, most, 2)
    grown = tmp_path / "grown"
    copytree(folder, grown)
    few = asked_for(grown)
    (grown / "MADE.json").unlink()
    make_big_store(grown, LARGE)
    many = asked_for(grown)
    assert few.keys() == PAGES.keys()
    more = {name: (few[name], many[name]) for name in PAGES if many[name] > few[name] + 2}
    assert more == {}


def asked_for(folder: Path) -> dict[str, int]:
    """Return how often each page asks the store when it is opened for the second time."""
    store, asked = open_store(folder), list[str]()
    app = app_of(Studio(store=store, folder=folder))

    def note(*told: object) -> None:
        if current_thread().name not in behind:
            asked.append(str(told[2]))

    found = {}
    with asking(app) as client:
        behind = {one.state.name for one in app.state.pulse.workers} | {"asking"}
        with store.reading() as connection:
            event.listen(connection.engine, "before_cursor_execute", note)
        for name, path in PAGES.items():
            at = path.format(closed=closed_with_job(SMALL))
            assert client.get(at).status_code == 200, name
            asked.clear()
            assert client.get(at).status_code == 200
            found[name] = len(asked)
    return found
