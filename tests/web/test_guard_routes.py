"""Every route of the studio: foreign pages, paths that climb, names that are HTML."""

import gzip
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.routing import APIRoute

from bays import Bay, a_bay
from loftwright import web
from loftwright.domain.golfer import Identity
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.store.door_interface import PairedDevice
from loftwright.web import assets, lock, pairing
from loftwright.web.app import create_app, page_routers
from loftwright.web.security import HEADERS, Access
from studios import NOON, a_head
from web_client import MAIN_SCREEN, WebClient, asking

CHANGING = frozenset({"POST", "PUT", "PATCH", "DELETE"})
EVIL = '<script>alert("x")</script>\'"><img src=x onerror=alert(1)> #panic("run") $x$ *b*'
PACKERS = re.compile(r"^\s*(?:import|from) (?:zipfile|tarfile|gzip|zlib|lzma|bz2)\b", re.MULTILINE)
SOURCE = Path(web.__file__).parent.parent
FOREIGN = (
    {"Origin": "http://evil.example"},
    {"Origin": "null"},
    {"Origin": "http://127.0.0.1:1"},
    {"Sec-Fetch-Site": "cross-site"},
    {"Sec-Fetch-Site": "same-site"},
)
CLIMBING = (
    "..%2f..%2f..%2fetc%2fpasswd",
    "%2e%2e%2f%2e%2e%2fetc%2fpasswd",
    "..%5c..%5cwindows%5cwin.ini",
    "%2fetc%2fpasswd",
    "....//....//etc/passwd",
    "loftwright.sqlite",
    "%00",
    "a%00.css",
)
"""OWASP, "Path Traversal": ways of writing a path that climbs (from memory)."""


def routes() -> list[APIRoute]:
    """Return every route, those of the chassis too."""
    routers = (assets.router, pairing.router, lock.router, *page_routers())
    return [one for router in routers for one in router.routes if isinstance(one, APIRoute)]


@pytest.fixture(scope="module")
def bay() -> Bay:
    return a_bay()


@pytest.fixture(scope="module")
def app(bay: Bay) -> FastAPI:
    return create_app(bay.studio, access=Access(addresses=True, paired=True))


@pytest.fixture(scope="module")
def main(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=MAIN_SCREEN) as made:
        yield made


def test_no_changing_route_is_reached_from_a_foreign_page(main: WebClient, bay: Bay) -> None:
    before = bay.studio.record(bay.fitting)
    tried = 0
    for route in routes():
        path = re.sub(r"\{[^}]*\}", bay.fitting, route.path)
        for method in sorted((route.methods or set()) & CHANGING):
            for number, headers in enumerate(FOREIGN):
                answer = main.request(method, path, headers=headers)
                assert answer.status_code == 403, (method, path, number)
                tried += 1
    assert tried > 5 * 100
    assert bay.studio.record(bay.fitting) == before


def test_no_route_that_only_shows_changes_anything() -> None:
    """A GET is never asked for its origin, so none may be among what changes.

    A page that asks before something is done has the address to which the answer is posted.
    """
    named = {route.path for route in routes() if "GET" in (route.methods or ())}
    posted = {route.path for route in routes() if "POST" in (route.methods or ())}
    words = ("withdraw", "erase", "remove", "undo", "unlock", "drop", "/now")
    found = {path for path in named if any(word in path for word in words)}
    assert found - posted == set()
    assert found == {"/golfers/{golfer}/erase"}


def test_the_page_that_asks_before_an_erase_erases_nobody(main: WebClient, bay: Bay) -> None:
    before = bay.studio.store.identity(bay.golfer.id)
    assert main.get(f"/golfers/{bay.golfer.id}/erase").status_code == 200
    assert before.name
    assert bay.studio.store.identity(bay.golfer.id) == before


@pytest.mark.parametrize("climbing", CLIMBING)
def test_no_parameter_of_a_path_climbs_out_of_its_folder(main: WebClient, climbing: str) -> None:
    wrong = []
    for route in routes():
        if "{" not in route.path or "GET" not in (route.methods or ()):
            continue
        if "events" in route.path:
            continue
        path = re.sub(r"\{[^}]*\}", climbing, route.path)
        answer = main.get(path)
        leaks = b"root:" in answer.content or b"SQLite format" in answer.content
        if answer.status_code not in (303, 400, 404, 405, 409, 422) or leaks:
            wrong.append((route.path, answer.status_code))
    assert wrong == []


def test_every_answer_forbids_inline_script_and_bears_no_server(main: WebClient, bay: Bay) -> None:
    for path in ("/", bay.path, "/lock", "/devices", "/nowhere", "/api/fittings", "/static/x"):
        answer = main.get(path)
        for name, value in HEADERS:
            assert answer.headers[name] == value
        assert "unsafe" not in answer.headers["Content-Security-Policy"]


def test_names_that_are_html_are_shown_as_text_on_every_page() -> None:
    bay = a_bay(name=EVIL)
    store = bay.studio.store
    kept = store.fitting(bay.fitting)
    store.change_fitting(replace(kept.value, fitter=EVIL[:60]), version=kept.version)
    store.change_identity(bay.golfer.id, Identity(name=EVIL, contact=EVIL, guardian=EVIL))
    golfer = store.golfer(bay.golfer.id)
    store.change_golfer(
        replace(golfer.value, goal=EVIL, looks=EVIL, home=replace(golfer.value.home, name=EVIL)),
        version=golfer.version,
    )
    a_head(bay.studio, EVIL)
    store.pair(PairedDevice(id="d1", name=EVIL, role="fitter", key_hash="aa", paired_at=NOON))
    bay.balls(4)
    named = {"fitting": bay.fitting, "golfer": bay.golfer.id, "device": "d1"}
    shown, papers = [], 0
    with asking(create_app(bay.studio)) as near:
        for route in routes():
            if "GET" not in (route.methods or ()) or "events" in route.path:
                continue
            if not set(re.findall(r"\{([^}:]*)", route.path)) <= set(named):
                continue
            answer = near.get(route.path.format_map(named))
            # Paper too: markup of the typesetter that was run would fail here.
            assert answer.status_code < 500, route.path
            papers += answer.headers.get("content-type", "") == "application/pdf"
            if "html" not in answer.headers.get("content-type", ""):
                continue
            text = answer.text
            assert "<script>alert" not in text, route.path
            assert "<img src=x" not in text, route.path
            if "&lt;script&gt;" in text:
                shown.append(route.path)
    assert papers
    # The name is there, as text, where a golfer, a device and a head are named.
    assert {"/", "/devices", "/rack", "/fittings/{fitting}/golfer"} <= set(shown)


def test_nothing_that_is_sent_is_unpacked(main: WebClient, bay: Bay) -> None:
    """So that no small body becomes a large one; what the program packs itself is its own."""
    packed = gzip.compress(json.dumps(dict(EXAMPLE)).encode())
    headers = {"Content-Type": "application/json", "Content-Encoding": "gzip"}
    before = len(bay.studio.record(bay.fitting))
    answer = main.post(f"/api/fittings/{bay.fitting}/shots", content=packed, headers=headers)
    assert 400 <= answer.status_code < 500
    assert len(bay.studio.record(bay.fitting)) == before
    files = [*(SOURCE / "web").rglob("*.py"), *(SOURCE / "intake").rglob("*.py")]
    assert len(files) > 50
    assert [one.name for one in files if PACKERS.search(one.read_text())] == []


def test_no_paper_runs_a_text_as_markup() -> None:
    templates = list((SOURCE / "report" / "templates").glob("*.typ"))
    assert templates
    assert [one.name for one in templates if re.search(r"\beval\b", one.read_text())] == []
