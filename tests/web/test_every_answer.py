"""What every answer of the studio bears, whatever is asked and whatever things are called."""

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Final
from urllib.parse import quote

import pytest
from fastapi import FastAPI

from all_routes import CHANGING, all_routes, filled
from bays import Bay, a_bay
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.services.rack import add_item
from loftwright.web.app import create_app
from loftwright.web.security import HEADERS
from racks import FAMILY, a_measured_rack
from raw_asking import Answer, Asked, ask_all
from studios import a_head, a_shaft, a_sleeve

HOSTILE: Final = "</title><script>alert(1)</script>\"'><img src=x onerror=alert(2)>{{ 7*7 }}"
BARE: Final = ("<script>alert", "<img src=x", "\"'><img", "onerror=alert(2)>")
"""What of it must never stand in a page as it was typed."""

DRAWN: Final = frozenset({"text/html", "text/event-stream"})
PAGE: Final = (("accept", "text/html"),)
EMPTY_FORM: Final = (("content-type", "application/x-www-form-urlencoded"),)


class Markup(HTMLParser):
    """Collects what the policy of every page forbids."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self._script = tag == "script"
        if tag == "style":
            self.found.append("a style element")
        for name, value in told.items():
            text = (value or "").strip().lower()
            if name.startswith("on") or name in {"style", "srcdoc"}:
                self.found.append(f"{tag} {name}={value}")
            if name in {"href", "src", "action", "formaction", "xlink:href", "data", "poster"}:
                outside = re.match(r"(?:[a-z][a-z0-9+.-]*:|//)", text)
                if outside and not (tag == "img" and text.startswith("data:image/")):
                    self.found.append(f"{tag} {name}={value}")

    def handle_data(self, data: str) -> None:
        if self._script and data.strip():
            self.found.append(f"a script of {len(data)} letters")

    def handle_endtag(self, tag: str) -> None:
        if tag == "script":
            self._script = False


def forbidden_in(text: str) -> list[str]:
    """Return what a page holds that its policy forbids."""
    read = Markup()
    read.feed(text)
    read.close()
    return read.found


def markup_of(answer: Answer) -> str:
    """Return what an answer draws: a page, or the parts of one that a stream bears."""
    if answer.kind != "text/event-stream":
        return answer.text
    lines = [line for line in answer.text.splitlines() if line.startswith("data: ")]
    told = [json.loads(line.removeprefix("data: ")) for line in lines]
    return "".join(part for one in told for part in one["parts"].values())


def hostile_bay() -> Bay:
    """Return a fitting and a rack in which whatever can be named has a hostile name."""
    made = a_bay(name=HOSTILE)
    a_measured_rack(made.studio)
    head = a_head(made.studio, HOSTILE, place=HOSTILE[:60])
    sleeve = a_sleeve(made.studio, HOSTILE[:40])
    a_shaft(made.studio, HOSTILE, head=head, sleeve=sleeve, setting="middle", label=HOSTILE[:20])
    family = ShaftModel(id="", maker="", name="Bulrush", family=HOSTILE, generation=HOSTILE[:40])
    add_item(made.studio, family)
    add_item(made.studio, Piece(id="", model="heron-60-2", label=HOSTILE[:20], place=HOSTILE))
    made.balls(2)
    return made


@pytest.fixture(scope="module")
def bay() -> Bay:
    return hostile_bay()


@pytest.fixture(scope="module")
def app(bay: Bay) -> Iterator[FastAPI]:
    made = create_app(bay.studio)
    yield made
    made.state.training.close()


def addresses(bay: Bay) -> dict[str, str]:
    """Return values for the parameters of addresses that stand for something."""
    return {
        "fitting": bay.fitting,
        "golfer": bay.golfer.id,
        "item": "heron-60-1-a",
        "name": FAMILY,
        "kind": "svg",
    }


@pytest.fixture(scope="module")
def answers(app: FastAPI, bay: Bay) -> dict[tuple[str, str], Answer]:
    """Every address asked for as a page, then every form sent empty."""
    names = addresses(bay)
    hostile = f"/rack/families/{quote(HOSTILE, safe='')}"
    asked = {("GET", hostile): Asked(method="GET", path=hostile, headers=PAGE)}
    for method, path in sorted(all_routes(), key=lambda one: (one[0] in CHANGING, one)):
        for told in ({}, names) if "{" in path else (names,):
            headers = (*PAGE, *(EMPTY_FORM if method in CHANGING else ()))
            place = filled(path, **told)
            asked[method, place] = Asked(method=method, path=place, headers=headers)
    return dict(zip(asked, ask_all(app, asked.values()), strict=True))


def test_nothing_that_is_asked_is_a_defect(answers: dict[tuple[str, str], Answer]) -> None:
    broken = {one: answer.status for one, answer in answers.items() if answer.status >= 500}
    assert broken == {}
    assert sum(answer.status == 200 for answer in answers.values()) > 60


def test_every_answer_bears_the_headers(answers: dict[tuple[str, str], Answer]) -> None:
    lacking = {
        (one, name)
        for one, answer in answers.items()
        for name, value in HEADERS
        if answer.headers.get(name) != value
    }
    assert lacking == set()


def test_every_answer_says_what_it_is(answers: dict[tuple[str, str], Answer]) -> None:
    """Text and XML bear their encoding; JSON, TOML and PDF are of one by their standards."""
    silent = {
        one: answer.headers.get("content-type")
        for one, answer in answers.items()
        if answer.body and not says_what_it_is(answer)
    }
    assert silent == {}


def says_what_it_is(answer: Answer) -> bool:
    if answer.kind.startswith("text/") or answer.kind.endswith("xml"):
        return "charset=utf-8" in answer.headers["content-type"].lower()
    return bool(answer.kind)


def test_no_other_origin_is_told_that_it_may_read(
    answers: dict[tuple[str, str], Answer],
) -> None:
    told = {name for answer in answers.values() for name in answer.headers}
    assert {name for name in told if name.startswith("access-control-")} == set()
    assert "server" not in told


def test_what_is_no_page_is_a_file_to_keep(answers: dict[tuple[str, str], Answer]) -> None:
    """A table, a build file or an order's text is never drawn as if it were a page."""
    shown = {"text/html", "application/json", "text/event-stream"}
    kept = {
        one: answer.headers.get("content-disposition", "")
        for one, answer in answers.items()
        if answer.status == 200 and answer.kind not in shown and "/static/" not in one[1]
    }
    assert len(kept) > 5
    lying_open = {one for one, how in kept.items() if not how.startswith("attachment;")}
    assert {one for one in lying_open if answers[one].kind != "application/pdf"} == set()


def test_no_page_holds_a_script_a_style_or_an_address_elsewhere(
    answers: dict[tuple[str, str], Answer],
) -> None:
    found = {
        one: forbidden_in(markup_of(answer))
        for one, answer in answers.items()
        if answer.kind in DRAWN
    }
    assert {one: what for one, what in found.items() if what} == {}
    assert len(found) > 100


def test_no_picture_to_take_away_holds_a_script(
    answers: dict[tuple[str, str], Answer],
) -> None:
    """It is a file to keep and not a page, so it may bear styles of its own."""
    kept = (answer for (_, path), answer in answers.items() if not path.startswith("/static/"))
    pictures = [one for one in kept if one.kind == "image/svg+xml"]
    assert pictures
    for picture in pictures:
        assert picture.headers["content-disposition"].startswith("attachment;")
        found = [one for one in forbidden_in(picture.text) if "style" not in one]
        assert found == []


@pytest.mark.parametrize(
    "bad",
    [
        "<p onclick='x()'>",
        "<style>p{}</style>",
        "<p style='color:red'>",
        "<script>x()</script>",
        "<a href='javascript:x()'>",
        "<img src='//evil.example/x.png'>",
        "<a href='http://evil.example'>",
        "<iframe srcdoc='x'>",
    ],
)
def test_the_search_for_what_is_forbidden_finds_it(bad: str) -> None:
    assert forbidden_in(f"<!doctype html><title>x</title>{bad}") != []


def test_whatever_things_are_called_they_are_shown_as_words(
    answers: dict[tuple[str, str], Answer],
) -> None:
    shown = [answer for answer in answers.values() if answer.kind == "text/html"]
    broken = {
        one: mark
        for one, answer in answers.items()
        if answer.kind in {*DRAWN, "image/svg+xml"}
        for mark in BARE
        if mark in markup_of(answer)
    }
    assert broken == {}
    assert sum("&lt;script&gt;alert(1)" in answer.text for answer in shown) > 10
    assert not any("alert(2)&gt;49" in answer.text for answer in shown)


def test_every_cookie_is_kept_from_scripts_and_from_other_sites(
    answers: dict[tuple[str, str], Answer],
) -> None:
    cookies = [
        cookie.lower()
        for answer in answers.values()
        for cookie in answer.headers.getlist("set-cookie")
    ]
    assert all("httponly" in one and "samesite=strict" in one for one in cookies)


def test_looking_changes_nothing() -> None:
    looked_at = hostile_bay()
    made = create_app(looked_at.studio)
    before = kept_in(looked_at)
    names = addresses(looked_at)
    asked = [
        Asked(method=method, path=filled(path, **names), headers=PAGE)
        for method, path in sorted(all_routes())
        if method not in CHANGING
    ]
    assert len(ask_all(made, asked)) > 80
    made.state.training.close()
    assert kept_in(looked_at) == before


def kept_in(bay: Bay) -> str:
    """Return everything that a fitter would miss, as one text."""
    store = bay.studio.store
    return repr(
        (
            store.record(bay.fitting),
            store.fittings(),
            store.golfers(),
            store.identity(bay.golfer.id),
            store.rack(),
            store.inspections(),
            store.profiles(),
            store.settings(),
            store.paired(),
        )
    )
