"""Every route of the studio: who may ask for it, and what every answer bears.

The tables here are written out by hand, so that a route that a role reaches by accident fails.
A route that stands in none of them is the fitter's alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Final

import pytest
from fastapi import FastAPI
from starlette.responses import PlainTextResponse

from all_routes import CHANGING, Route, all_routes, filled
from loftwright.services.pairing import Pairing
from loftwright.web.app import create_app
from loftwright.web.door import COOKIE
from loftwright.web.security import Access
from raw_asking import Answer, Asked, ask, ask_all, far
from studios import studio_in_memory
from web_client import TABLET

PAIRED: Final = Access(addresses=True, paired=True)
BEYOND: Final = "192.0.2.7:8432"


def routes_in(text: str) -> frozenset[Route]:
    """Return the routes of a list of addresses, one a line after its methods."""
    lines = [line.split() for line in text.strip().splitlines()]
    return frozenset((method, path) for *methods, path in lines for method in methods)


OPEN: Final = routes_in("""
    GET /static/{name:path}
    GET POST /pair
    POST /theme
    GET HEAD /health
""")
"""What a device sees that is not let in."""

FEED: Final = routes_in("""
    GET /api/fittings
    POST /api/fittings/{fitting}/shots
""")

SCREEN: Final = routes_in("""
    GET /screen
    GET /screen/{fitting}
    GET /screen/{fitting}/events
""")

WORKSHOP: Final = routes_in("""
    GET /bench
    POST /bench/days
    POST /bench/masters
    GET /build
    GET /build/{fitting}
    GET /build/{fitting}/BUILD.toml
    POST /build/{fitting}/bond
    POST /build/{fitting}/departure
    GET POST /build/{fitting}/final-check
    GET /build/{fitting}/final-check/build.toml
    GET /build/{fitting}/final-check/measured.toml
    GET /build/{fitting}/final-check/receipt.pdf
    POST /build/{fitting}/final-check/undo
    GET POST /build/{fitting}/form
    POST /build/{fitting}/mend
    GET /build/{fitting}/parts
    POST /build/{fitting}/parts/{part}
    POST /build/{fitting}/parts/{part}/settle
    GET /build/{fitting}/sheet.pdf
    GET /build/{fitting}/sheet/{revision}
    POST /build/{fitting}/step
    GET /build/{fitting}/tag.pdf
    POST /build/{fitting}/undo
    GET POST /lock
    POST /lock/awake
    POST /lock/drop
    POST /lock/now
    POST /lock/open
    GET /rack
    POST /rack/clubs
    GET /rack/export.csv
    GET /rack/export.json
    GET /rack/families
    GET /rack/families/{name}
    GET /rack/families/{name}/picture.{kind}
    GET /rack/files
    POST /rack/files/back
    POST /rack/files/bring
    POST /rack/files/look
    GET /rack/find
    POST /rack/heads
    GET POST /rack/items/{item}
    GET POST /rack/items/{item}/bench
    POST /rack/items/{item}/bench/anew
    POST /rack/items/{item}/bench/keep
    POST /rack/items/{item}/bench/lock
    POST /rack/items/{item}/bench/table
    GET POST /rack/items/{item}/check
    POST /rack/items/{item}/looks
    GET POST /rack/items/{item}/measured
    POST /rack/items/{item}/place
    GET POST /rack/items/{item}/shape
    POST /rack/items/{item}/shape/{profile}/aside
    POST /rack/items/{item}/shape/{profile}/stands
    POST /rack/items/{item}/state
    GET /rack/items/{item}/trim
    GET /rack/labels
    GET /rack/labels.pdf
    POST /rack/shafts
    POST /rack/sleeves
""")

OWNER: Final = routes_in("""
    POST /devices/code
    POST /devices/{device}/unlock
    POST /people/back
    POST /people/erase
    POST /people/leave
    GET POST /golfers/{golfer}/erase
    POST /people/years
""")
"""What only the main screen may do, whoever is let in beside it."""

BY_ROLE: Final = {"workshop": WORKSHOP, "screen": SCREEN, "feed": FEED}
ROLES: Final = ("fitter", *BY_ROLE)


def may(role: str, route: Route) -> bool:
    return role == "fitter" or route in OPEN | BY_ROLE[role]


def doorway() -> FastAPI:
    """Return the application with all that stands before its pages, and a stub for these."""
    made = create_app(studio_in_memory(), access=PAIRED)
    made.state.training.close()
    made.router = PlainTextResponse("let through")  # type: ignore[assignment]
    return made


def key_for(pairing: Pairing, role: str) -> tuple[tuple[str, str], ...]:
    made = pairing.let_in(pairing.new_code().figures, name=f"A {role}", role=role)
    return (("authorization", f"Bearer {made.key}"), ("accept", "application/json"))


@pytest.fixture(scope="module")
def app() -> Iterator[FastAPI]:
    made = create_app(studio_in_memory(), access=PAIRED)
    yield made
    made.state.training.close()


def beyond(routes: Iterable[Route], *headers: tuple[str, str], query: str = "") -> list[Asked]:
    """Return requests for routes from devices on the shop's network, each from another."""
    return [
        Asked(
            method=method,
            path=filled(path) + query,
            headers=headers,
            client=far(place),
            host=BEYOND,
        )
        for place, (method, path) in enumerate(routes)
    ]


def refused(answer: Answer) -> bool:
    """Return whether the door sent somebody away."""
    led = answer.status == 303 and answer.headers.get("location") == "/pair"
    return led or answer.status in {401, 403}


def test_the_tables_name_only_routes_that_are_there() -> None:
    named = OPEN | FEED | SCREEN | WORKSHOP | OWNER
    assert named - all_routes() == frozenset()
    assert len(all_routes()) > 150
    assert sum(method in CHANGING for method, _ in all_routes()) > 80


def test_the_application_stands_behind_the_guard_and_the_door(app: FastAPI) -> None:
    names = [getattr(one.cls, "__name__", "") for one in app.user_middleware]
    assert set(names[: names.index("Guard")]) <= {"Journal"}
    assert names.index("Guard") < names.index("Door")


@pytest.mark.parametrize("role", ROLES)
def test_a_role_is_let_through_to_its_own_routes_and_no_other(role: str) -> None:
    app = doorway()
    routes = sorted(all_routes())
    answers = ask_all(app, beyond(routes, *key_for(app.state.pairing, role)))
    told = {route: answer.status for route, answer in zip(routes, answers, strict=True)}
    assert told == {route: 200 if may(role, route) else 403 for route in routes}


def test_a_stranger_is_let_through_to_the_open_routes_alone(app: FastAPI) -> None:
    routes = sorted(all_routes())
    for accept in ("text/html", "application/json"):
        answers = ask_all(app, beyond(routes, ("accept", accept)))
        let_in = {one for one, answer in zip(routes, answers, strict=True) if not refused(answer)}
        assert let_in == OPEN


def test_a_withdrawn_devices_key_opens_nothing(app: FastAPI) -> None:
    pairing: Pairing = app.state.pairing
    headers = key_for(pairing, "fitter")
    assert ask(app, "GET", "/", headers=headers, client=TABLET, host=BEYOND).status == 200
    pairing.withdraw(pairing.devices()[0].id)
    closed = sorted(all_routes() - OPEN)
    answers = ask_all(app, beyond(closed, *headers))
    assert Counter(answer.status for answer in answers) == {401: len(closed)}


def test_a_key_in_the_address_lets_nobody_in(app: FastAPI) -> None:
    bearer = dict(key_for(app.state.pairing, "fitter"))["authorization"]
    closed = sorted(all_routes() - OPEN)
    for name in (COOKIE, "key"):
        asked = beyond(closed, query=f"?{name}={bearer.removeprefix('Bearer ')}")
        assert all(refused(answer) for answer in ask_all(app, asked))


def test_what_is_the_owners_is_done_on_the_main_screen_alone(app: FastAPI) -> None:
    headers = key_for(app.state.pairing, "fitter")
    for method, path in OWNER:
        assert ask(app, method, path, headers=headers, client=TABLET, host=BEYOND).status == 403
        assert ask(app, method, path).status not in {401, 403}


@pytest.mark.parametrize(
    "foreign",
    [
        ("origin", "http://evil.example"),
        ("origin", "null"),
        ("origin", "http://127.0.0.1:9999"),
        ("sec-fetch-site", "cross-site"),
        ("sec-fetch-site", "same-site"),
    ],
    ids=lambda one: f"{one[0]} {one[1]}",
)
def test_no_changing_route_obeys_a_page_of_another_origin(
    app: FastAPI, foreign: tuple[str, str]
) -> None:
    changing = sorted(one for one in all_routes() if one[0] in CHANGING)
    asked = [Asked(method=m, path=filled(path), headers=(foreign,)) for m, path in changing]
    assert Counter(answer.status for answer in ask_all(app, asked)) == {403: len(changing)}


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example:8432", ""])
def test_no_route_answers_under_a_name_that_is_not_the_studios(app: FastAPI, host: str) -> None:
    asked = [
        Asked(method=method, path=filled(path), host=host) for method, path in sorted(all_routes())
    ]
    assert Counter(answer.status for answer in ask_all(app, asked)) == {421: len(asked)}


def test_no_route_answers_to_a_method_that_it_does_not_have(app: FastAPI) -> None:
    """A trace above all, which would repeat the headers, and with them a key."""
    has: dict[str, set[str]] = {}
    for method, path in all_routes():
        has.setdefault(filled(path), set()).add(method)
    asked = [
        Asked(method=method, path=path, headers=(("accept", "application/json"),))
        for path, methods in sorted(has.items())
        for method in sorted({"TRACE", "PUT", "DELETE", "PATCH", "POST"} - methods)
    ]
    told = {(one.method, one.path): answer.status for one, answer in paired(app, asked)}
    # An address such as /golfers/new is one with a name in it by another method.
    assert {one: status for one, status in told.items() if status not in {404, 405}} == {}


def paired(app: FastAPI, asked: list[Asked]) -> Iterator[tuple[Asked, Answer]]:
    return zip(asked, ask_all(app, asked), strict=True)
