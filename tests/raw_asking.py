"""Requests straight to an application, a thousand a second: no client, no cookies, no server.

An event stream never ends by itself; it is let go once its first words have come.
"""

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import unquote

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message

from web_client import MAIN_SCREEN

HOST = "127.0.0.1:8432"
FAR = [
    f"{net}.{number}" for net in ("192.0.2", "198.51.100", "203.0.113") for number in range(1, 255)
]
"""Addresses of RFC 5737, as devices beyond this machine have them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One request: its headers come beside the host's."""

    method: str
    path: str
    headers: tuple[tuple[str, str], ...] = ()
    client: tuple[str, int] = MAIN_SCREEN
    host: str = HOST
    body: bytes = b""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What came back, of a stream its first words."""

    status: int
    headers: Headers
    body: bytes

    @property
    def text(self) -> str:
        """The body as text."""
        return self.body.decode("utf-8", errors="replace")

    @property
    def kind(self) -> str:
        """The content type without its parameters."""
        return self.headers.get("content-type", "").partition(";")[0]


@dataclass(slots=True)
class _Coming:
    started: Message | None = None
    body: bytearray = field(default_factory=bytearray)
    enough: asyncio.Event = field(default_factory=asyncio.Event)


def far(place: int) -> tuple[str, int]:
    """Return one of many devices, so that none asks so often that it is told to wait."""
    return FAR[place % len(FAR)], 51234


def ask_all(app: ASGIApp, asked: Iterable[Asked]) -> list[Answer]:
    """Send requests one after the other and return their answers."""

    async def inside() -> list[Answer]:
        return [await _ask(app, one) for one in asked]

    return asyncio.run(inside())


def ask(app: ASGIApp, method: str, path: str, **more: Any) -> Answer:  # noqa: ANN401
    """Send one request."""
    return ask_all(app, [Asked(method=method, path=path, **more)])[0]


async def _ask(app: ASGIApp, asked: Asked) -> Answer:
    coming = _Coming()
    sent = False

    async def receive() -> Message:
        nonlocal sent
        if not sent:
            sent = True
            return {"type": "http.request", "body": asked.body, "more_body": False}
        await coming.enough.wait()
        return {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        if message["type"] == "http.response.start":
            coming.started = message
            return
        coming.body += message.get("body", b"")
        streams = Headers(raw=_started(coming)["headers"]).get("content-type", "")
        if not message.get("more_body") or streams.startswith("text/event-stream"):
            coming.enough.set()

    try:
        await asyncio.wait_for(app(_scope(asked), receive, send), timeout=60.0)
    except Exception:
        # The server's own log tells of it; what the asker gets is an answer of 500.
        if coming.started is None:
            raise
    start = _started(coming)
    return Answer(
        status=start["status"], headers=Headers(raw=start["headers"]), body=bytes(coming.body)
    )


def _started(coming: _Coming) -> Message:
    if coming.started is None:
        raise AssertionError("a body came before its status")
    return coming.started


def _scope(asked: Asked) -> dict[str, Any]:
    path, _, query = asked.path.partition("?")
    told = [("host", asked.host), *asked.headers]
    if asked.body or asked.method != "GET":
        told.append(("content-length", str(len(asked.body))))
    return {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "scheme": "http",
        "method": asked.method,
        "path": unquote(path),
        "raw_path": path.encode(),
        "query_string": query.encode(),
        "root_path": "",
        "headers": [(name.lower().encode(), value.encode()) for name, value in told],
        "client": asked.client,
        "server": ("127.0.0.1", 8432),
        "state": {},
    }
