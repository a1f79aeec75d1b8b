"""Foreign names, foreign pages and too much of anything stay outside."""

import asyncio
from collections.abc import AsyncIterator, Iterator

import pytest
from starlette.datastructures import Headers

from loftwright.web import security
from loftwright.web.security import (
    FORM_BYTES,
    HEADERS,
    UPLOAD_BYTES,
    Access,
    from_this_machine,
    host_name,
    same_origin,
)
from tally_pages import tally_app
from web_client import WebClient, asking

ADD = "/fittings/7/acts/add"
ECHO = "/fittings/7/echo"


@pytest.fixture
def client() -> Iterator[WebClient]:
    with asking(tally_app()) as made:
        yield made


@pytest.mark.parametrize(
    "host", ["127.0.0.1:8432", "localhost", "LOCALHOST:1", "[::1]:8432", "127.0.0.1"]
)
def test_loopback_is_known_by_its_names(host: str) -> None:
    with asking(tally_app(), host="127.0.0.1") as client:
        assert client.get("/pair", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        *("evil.example", "127.0.0.1.evil.example", "192.0.2.7:8432", "", "[", "studio"),
        *("127.0.0.1/static?", "127.0.0.1#", "127.0.0.1?x", "studio@127.0.0.1", "127.0.0.1 x"),
    ],
)
def test_a_foreign_name_is_refused(client: WebClient, host: str) -> None:
    answer = client.get("/pair", headers={"Host": host})
    assert answer.status_code == 421
    assert "--name" in answer.text


def test_a_name_that_was_given_is_known() -> None:
    access = Access(names=frozenset({"studio"}))
    with asking(tally_app(access=access), host="studio:8432") as client:
        assert client.get("/pair").status_code == 200
        assert client.get("/pair", headers={"Host": "other"}).status_code == 421


def test_numeric_addresses_are_known_where_the_studio_listens_beyond() -> None:
    access = Access(addresses=True)
    assert access.knows("192.0.2.7")
    assert access.knows("2001:db8::7")
    assert not access.knows("evil.example")


@pytest.mark.parametrize(
    ("headers", "may"),
    [
        ({}, True),
        ({"origin": "http://127.0.0.1:8432"}, True),
        ({"origin": "http://127.0.0.1:9999"}, False),
        ({"origin": "http://evil.example"}, False),
        ({"origin": "null"}, False),
        ({"sec-fetch-site": "same-origin"}, True),
        ({"sec-fetch-site": "none"}, True),
        ({"sec-fetch-site": "same-site"}, False),
        ({"sec-fetch-site": "cross-site"}, False),
    ],
)
def test_only_our_own_pages_and_programs_may_change_something(
    headers: dict[str, str], may: bool
) -> None:
    assert same_origin(Headers({"host": "127.0.0.1:8432", **headers})) is may


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
def test_every_unsafe_method_is_asked_for_its_origin(client: WebClient, method: str) -> None:
    answer = client.request(method, ADD, headers={"Origin": "http://evil.example"})
    assert answer.status_code == 403
    assert client.get("/pair", headers={"Origin": "http://evil.example"}).status_code == 200


def test_a_foreign_post_changes_nothing() -> None:
    app = tally_app()
    with asking(app) as client:
        client.post(ADD, data={"key": "a"}, headers={"Origin": "http://evil.example"})
        assert app.state.tally.keys == []
        client.post(ADD, data={"key": "a"}, headers={"Origin": "http://127.0.0.1:8432"})
        assert app.state.tally.keys == ["a"]


@pytest.mark.parametrize("path", ["/pair", "/nowhere", "/static/page.css", "/api/broken"])
def test_every_answer_bears_the_headers(client: WebClient, path: str) -> None:
    answer = client.get(path)
    for name, value in HEADERS:
        assert answer.headers[name] == value
    assert "server" not in answer.headers


def test_the_policy_allows_no_inline_script_and_no_frame() -> None:
    policy = dict(HEADERS)["Content-Security-Policy"]
    assert "unsafe" not in policy
    for rule in ("script-src 'self'", "style-src 'self'", "frame-ancestors 'none'"):
        assert rule in policy


@pytest.mark.parametrize(
    ("kind", "most"),
    [("application/x-www-form-urlencoded", FORM_BYTES), ("text/csv", UPLOAD_BYTES)],
)
def test_a_body_up_to_the_limit_is_taken(client: WebClient, kind: str, most: int) -> None:
    header = {"Content-Type": kind}
    assert client.post(ECHO, content=b"x" * most, headers=header).text == str(most)
    refused = client.post(ECHO, content=b"x" * (most + 1), headers=header)
    assert refused.status_code == 413
    assert "larger than" in refused.text


def test_a_body_of_unstated_length_is_counted_as_it_comes(client: WebClient) -> None:
    async def stream(pieces: int) -> "object":
        for _ in range(pieces):
            yield b"x" * 1024

    assert client.post(ECHO, content=stream(64)).text == str(FORM_BYTES)
    assert client.post(ECHO, content=stream(65)).status_code == 413


def test_a_length_beside_a_transfer_coding_does_not_hide_how_long_a_body_is(
    client: WebClient,
) -> None:
    async def stream() -> "object":
        for _ in range(65):
            yield b"x" * 1024

    both = {"Content-Length": "10", "Transfer-Encoding": "chunked"}
    assert client.post(ECHO, content=stream(), headers=both).status_code == 413


@pytest.mark.parametrize("stated", [{}, {"Content-Length": "2000"}])
def test_a_body_that_does_not_come_in_time_is_let_go_and_nothing_of_it_taken(
    client: WebClient, monkeypatch: pytest.MonkeyPatch, stated: dict[str, str]
) -> None:
    monkeypatch.setattr(security, "BODY_SECONDS", 0.2)

    async def slow() -> AsyncIterator[bytes]:
        yield b"x" * 1000
        await asyncio.sleep(5.0)
        yield b"x" * 1000

    refused = client.post(ECHO, content=slow(), headers=stated)
    assert refused.status_code == 408
    assert "nothing of it was taken in" in refused.text


def test_a_length_that_is_no_number_is_refused(client: WebClient) -> None:
    answer = client.post(ECHO, content=b"x", headers={"Content-Length": "-5"})
    assert answer.status_code == 413


def test_no_documentation_comes_from_elsewhere(client: WebClient) -> None:
    assert client.get("/docs").status_code == 404
    assert client.get("/redoc").status_code == 404
    schema = client.get("/api/openapi.json").json()
    assert schema["info"]["title"] == "Loftwright"


@pytest.mark.parametrize(
    ("client", "headers", "near"),
    [
        (("127.0.0.1", 1), {"host": "127.0.0.1:8432"}, True),
        (("::1", 1), {"host": "localhost"}, True),
        (("192.0.2.20", 1), {"host": "127.0.0.1:8432"}, False),
        (("127.0.0.1", 1), {"host": "192.0.2.7:8432"}, False),
        (("127.0.0.1", 1), {"host": "localhost", "x-forwarded-for": "192.0.2.20"}, False),
        (("127.0.0.1", 1), {"host": "localhost", "forwarded": "for=192.0.2.20"}, False),
        (("127.0.0.1", 1), {"host": "localhost", "x-real-ip": "192.0.2.20"}, False),
        (("127.0.0.1", 1), {"host": "localhost", "x-forwarded-host": "studio.example"}, False),
        (None, {"host": "localhost"}, False),
        (("testing", 1), {"host": "localhost"}, False),
    ],
)
def test_what_is_relayed_does_not_come_from_this_machine(
    client: tuple[str, int] | None, headers: dict[str, str], near: bool
) -> None:
    scope = {"type": "http", "client": client, "headers": Headers(headers).raw}
    assert from_this_machine(scope) is near


@pytest.mark.parametrize(
    ("host", "name"),
    [("A.b:1", "a.b"), ("[::1]:8", "::1"), ("[", ""), ("", ""), ("x@y:1", ""), ("h:port", "h")],
)
def test_the_name_of_a_host_is_read_without_its_port(host: str, name: str) -> None:
    assert host_name(host) == name
