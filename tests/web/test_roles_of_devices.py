"""Every route against every role: what a device may ask for, and nothing beside it."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.routing import APIRoute

from bays import Bay, a_bay
from loftwright.domain.acts import Closed
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.pairing import ROLES
from loftwright.services.watched_places import remember_place, watched_places
from loftwright.web import assets, pairing
from loftwright.web.app import create_app, page_routers
from loftwright.web.roles import ROLE_NAMES, may_see
from loftwright.web.security import Access
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

OPEN = {"/static", "/pair", "/theme", "/health"}
MAY = {"workshop": {"/rack", "/bench", "/build"}, "screen": {"/screen"}}
"""First parts of the paths that a role may see, by whatever method."""

FEED = {("GET", "/api/fittings"), ("POST", "/api/fittings/x/shots")}
JSON = {"Accept": "application/json"}


def routes() -> set[tuple[str, str]]:
    """Return method and address of every route, with `x` for each parameter."""
    found = {("POST", "/theme"), ("GET", "/api/openapi.json")}
    for router in (assets.router, pairing.router, *page_routers()):
        for one in router.routes:
            assert isinstance(one, APIRoute)
            path = re.sub(r"\{[^}]*\}", "x", one.path)
            found |= {(method, path) for method in one.methods or ()}
    return found


def expected(role: str, method: str, path: str) -> bool:
    first = "/" + path.split("/")[1]
    if role == "fitter" or first in OPEN:
        return True
    if role == "feed":
        return (method, path) in FEED
    return first in MAY[role]


@pytest.fixture(scope="module")
def bay() -> Bay:
    return a_bay()


@pytest.fixture(scope="module")
def app(bay: Bay) -> FastAPI:
    return create_app(bay.studio, access=Access(addresses=True, paired=True))


@pytest.fixture
def tablet(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=TABLET, host="192.0.2.7:8432") as made:
        yield made


def key_for(app: FastAPI, role: str) -> dict[str, str]:
    """Let a program in by a role and return the headers that it sends."""
    letting_in = app.state.pairing
    made = letting_in.let_in(letting_in.new_code().figures, name=f"A {role}", role=role)
    return {"Authorization": f"Bearer {made.key}", **JSON}


def test_there_are_routes_of_every_kind() -> None:
    known = routes()
    assert known >= FEED
    assert len(known) > 60
    assert set(ROLES) == set(ROLE_NAMES) == {"fitter", "feed", *MAY}


@pytest.mark.parametrize("role", ROLES)
def test_every_route_is_seen_by_its_roles_alone(role: str) -> None:
    table = {one: may_see(role, one[1], one[0]) for one in routes()}
    assert table == {one: expected(role, *one) for one in table}


@pytest.mark.parametrize("role", ["workshop", "screen", "feed"])
def test_the_door_refuses_every_other_route(app: FastAPI, tablet: WebClient, role: str) -> None:
    headers = key_for(app, role)
    refused = sorted(one for one in routes() if not expected(role, *one))
    assert len(refused) > 40
    answers = {one: tablet.request(*one, headers=headers).status_code for one in refused}
    assert answers == dict.fromkeys(refused, 403)


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/api/fittings/x/shots"),
        ("GET", "/api/fittings/x/decision"),
        ("POST", "/api/fittings"),
        ("POST", "/api/fittings/x/shots/y"),
        ("POST", "/api/fittings/x/shots/"),
        ("POST", "/api/fittings//shots"),
        ("DELETE", "/api/fittings/x/shots"),
        ("POST", "/fittings/x/shots"),
        ("POST", "/api/fittings/x/y/shots"),
        ("POST", "/api/fittings/x/shots\n"),
    ],
)
def test_a_feed_finds_no_way_round(method: str, path: str) -> None:
    assert not may_see("feed", path, method)


def test_a_feed_finds_its_fitting_posts_and_reads_its_own_answer(
    app: FastAPI, bay: Bay, tablet: WebClient
) -> None:
    headers = key_for(app, "feed")
    found = tablet.get("/api/fittings", headers=headers)
    assert found.json() == [{"fitting": bay.fitting, "bay": "Bay 1"}]
    ball = {"key": "bridge-1", "ball_speed_mph": 148.2, "launch_deg": 12.1, "spin_rpm": 2510}
    address = f"/api/fittings/{bay.fitting}/shots"
    first = tablet.post(address, json=ball, headers=headers)
    assert first.status_code == 200
    assert tablet.post(address, json=ball, headers=headers).json() == first.json()
    assert bay.studio.record(bay.fitting)[-1].by == "A feed"
    refused = tablet.get(address, headers=headers)
    assert refused.status_code == 403
    assert "shot feed" in refused.json()["error"]["message"]


def test_a_golfers_screen_reaches_a_fitting_only_while_it_is_in_progress() -> None:
    made = a_bay()
    app = create_app(made.studio, access=Access(addresses=True, paired=True))
    screen, fitter = key_for(app, "screen"), key_for(app, "fitter")
    page, events = f"/screen/{made.fitting}", f"/screen/{made.fitting}/events"
    with asking(app, client=TABLET, host="192.0.2.7:8432") as asker:
        assert asker.get("/screen", headers=screen).headers["location"] == page
        assert asker.get(page, headers=screen).status_code == 200
        act(made.studio, made.fitting, [Closed()])
        assert asker.get(page, headers=screen).headers["location"] == "/screen"
        assert asker.get("/screen/nobody", headers=screen).headers["location"] == "/screen"
        refused, unknown = (asker.get(one, headers=screen) for one in (events, "/screen/x/events"))
        assert (refused.status_code, refused.json()) == (404, unknown.json())
        assert asker.get(page, headers=fitter).status_code == 200
        waiting = asker.get("/screen", headers=screen)
    assert "Nobody is being fitted now." in waiting.text
    assert int(waiting.headers["refresh"]) > 0


def test_a_golfers_screen_asks_which_bay_it_is_in_and_names_no_golfer() -> None:
    first = a_bay()
    a_bay(studio=first.studio, name="Peregrine Thistlewood", place="Bay 2")
    with asking(create_app(first.studio)) as client:
        page = client.get("/screen").text
    assert re.findall(r'href="/screen/[^"]+">([^<]+)<', page) == ["Bay 1", "Bay 2"]
    assert "Ottoline" not in page
    assert "Peregrine" not in page


def test_a_feed_posts_to_no_fitting_that_is_not_in_progress() -> None:
    made = a_bay()
    waiting = open_fitting(made.studio, made.golfer.id, bay="Bay 1").id
    app = create_app(made.studio, access=Access(addresses=True, paired=True))
    headers = key_for(app, "feed")
    ball = {"key": "bridge-1", "ball_speed_mph": 148.2, "launch_deg": 12.1, "spin_rpm": 2510}
    with asking(app, client=TABLET, host="192.0.2.7:8432") as asker:
        answers = [
            asker.post(f"/api/fittings/{one}/shots", json=ball, headers=headers)
            for one in (waiting, "nobody")
        ]
        assert [answer.status_code for answer in answers] == [404, 404]
        assert answers[0].json() == answers[1].json()
        assert made.studio.record(waiting) == ()
        there = f"/api/fittings/{made.fitting}/shots"
        first = asker.post(there, json=ball, headers=headers)
        assert first.status_code == 200
        act(made.studio, made.fitting, [Closed()])
        late = ball | {"key": "bridge-2"}
        assert asker.post(there, json=late, headers=headers).status_code == 404
        # A sender whose answer was lost repeats its ball until it has one.
        assert asker.post(there, json=ball, headers=headers).json() == first.json()


def test_a_closed_fitting_is_in_progress_no_more() -> None:
    made = a_bay()
    with asking(create_app(made.studio)) as client:
        assert len(client.get("/api/fittings").json()) == 1
        act(made.studio, made.fitting, [Closed()])
        assert client.get("/api/fittings").json() == []


def test_a_feed_let_in_by_a_browser_shows_its_key_once_and_leaves_no_cookie(
    app: FastAPI, tablet: WebClient
) -> None:
    code = app.state.pairing.new_code().figures
    form = {"code": code, "name": "Bridge in bay 1", "role": "feed"}
    answer = tablet.post("/pair", data=form)
    assert (answer.status_code, answer.headers["cache-control"]) == (200, "no-store")
    found = re.search(r"<code>([^<]{43,})</code>", answer.text)
    assert found is not None
    assert not tablet.cookies
    headers = {"Authorization": f"Bearer {found.group(1)}"}
    assert tablet.get("/api/fittings", headers=headers).status_code == 200
    assert found.group(1) not in tablet.get("/pair").text


def test_a_feed_is_withdrawn_in_two_taps(app: FastAPI, tablet: WebClient) -> None:
    headers = key_for(app, "feed")
    with asking(app, client=MAIN_SCREEN) as screen:
        page = screen.get("/devices").text
        assert "<td>shot feed</td>" in page
        way = re.search(r'action="(/devices/[^"]+/withdraw)"', page)
        assert way is not None
        assert screen.post(way.group(1)).status_code == 303
    assert tablet.get("/api/fittings", headers=headers).status_code == 401


def test_a_tablet_watches_only_what_the_main_screen_named(
    app: FastAPI, bay: Bay, tablet: WebClient, tmp_path: Path
) -> None:
    key, there = key_for(app, "fitter"), f"/fittings/{bay.fitting}/ways-in/folder"
    named, other = str(tmp_path / "device"), str(tmp_path / "keys")
    refused = tablet.post(there, data={"path": named}, headers=key)
    assert refused.status_code == 422
    assert "from the studio’s own screen" in refused.text
    with asking(app) as main_screen:
        assert main_screen.post(there, data={"path": named}).status_code == 303
        assert main_screen.post(there, data={"stop": ""}).status_code == 303
    assert app.state.watches.path(bay.fitting) == ""
    assert named in tablet.get(f"/fittings/{bay.fitting}/ways-in", headers=key).text
    assert tablet.post(there, data={"path": named}, headers=key).status_code == 303
    assert tablet.post(there, data={"path": other}, headers=key).status_code == 422
    assert app.state.watches.path(bay.fitting) == named


def test_twelve_places_are_remembered_and_the_oldest_goes_first() -> None:
    studio = a_bay().studio
    for number in range(14):
        remember_place(studio, f"/device/{number}")
    remember_place(studio, "/device/5")
    assert watched_places(studio) == tuple(
        f"/device/{one}" for one in (5, 13, 12, 11, 10, 9, 8, 7, 6, 4, 3, 2)
    )
