"""What every request passes before a page sees it, and the headers that every answer bears."""

import asyncio
import re
from collections.abc import MutableMapping
from dataclasses import dataclass
from ipaddress import ip_address
from typing import Any, Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect, Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from loftwright.errors import UsageError
from loftwright.web.errors import defect_answer, error_answer
from loftwright.web.relays import as_sent, is_relayed

LOOPBACK: Final = frozenset({"localhost", "127.0.0.1", "::1"})
SAFE_METHODS: Final = frozenset({"GET", "HEAD", "OPTIONS"})
UPLOAD_BYTES: Final = 5 * 1024 * 1024
FORM_BYTES: Final = 64 * 1024
POLICY: Final = (
    "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'; "
    "object-src 'none'"
)
HEADERS: Final = (
    ("Content-Security-Policy", POLICY),
    ("X-Content-Type-Options", "nosniff"),
    # Not `no-referrer`: with it browsers send forms with the origin "null", which looks foreign.
    ("Referrer-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
)
OWN_WINDOW: Final = ("Cross-Origin-Opener-Policy", "same-origin")
"""Over TLS or on this machine alone: a browser that trusts the link less complains of it."""
ALWAYS_TLS: Final = ("Strict-Transport-Security", "max-age=31536000")
"""Over TLS alone (RFC 6797, 7.2), and never for the names of loopback, which others share."""
_NO_NAME: Final = re.compile(r"[/?#@\\\s]")
_WHOLE: Final = -1.0
BODY_SECONDS: Final = 60.0
"""In which the whole of a body has come (judgement): 5 MB at a slow 700 kbit/s."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """Under which names the studio is reached, and whether devices must be paired.

    Attributes
    ----------
    names : frozenset of str
        Host names beside those of loopback.
    addresses : bool
        Whether any numeric address is a name of this machine; such a one cannot be rebound.
    paired : bool
        Whether what does not come from this machine needs a device key.
    proxies : frozenset of str
        Addresses of reverse proxies whose word about a sender counts.
    """

    names: frozenset[str] = frozenset()
    addresses: bool = False
    paired: bool = False
    proxies: frozenset[str] = frozenset()

    def knows(self, host: str) -> bool:
        """Return whether a name in a Host header is one of this studio's."""
        return host in LOOPBACK or host in self.names or (self.addresses and _is_address(host))


class Guard:
    """Refuses foreign hosts, foreign origins and what is too large, and sets the headers.

    Parameters
    ----------
    app : ASGIApp
        The application behind it.
    access : Access
    """

    def __init__(self, app: ASGIApp, *, access: Access) -> None:
        self._app = app
        self._access = access

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or answer it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        scope = as_sent(scope, self._access.proxies)
        started = False

        async def with_headers(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS:
                    headers[name] = value
                if scope["scheme"] == "https" or _is_near(scope):
                    headers[OWN_WINDOW[0]] = OWN_WINDOW[1]
                if scope["scheme"] == "https" and not _is_near(scope):
                    headers[ALWAYS_TLS[0]] = ALWAYS_TLS[1]
            await send(message)

        request = Request(scope, receive)
        refused = self._refusal(request)
        if refused is None:
            receive, refused = await _limited(request, _in_time(receive))
        if refused is not None:
            error, status = refused
            await error_answer(request, error, status)(scope, receive, with_headers)
            return
        try:
            await self._app(scope, receive, with_headers)
        except ClientDisconnect:
            if not started:
                await error_answer(request, _too_slow(), 408)(scope, receive, with_headers)
        except Exception:
            if not started:
                await defect_answer(request)(scope, receive, with_headers)
            raise

    def _refusal(self, request: Request) -> "Refusal | None":
        host = host_name(request.headers.get("host", ""))
        if not self._access.knows(host):
            return (
                UsageError(
                    f"this studio is not called {host!r}",
                    place="Host",
                    mend="Use the address that the program wrote when it was started, or start "
                    "it with --name and this name.",
                ),
                421,
            )
        if not self._access.paired and is_relayed(request.scope):
            return (
                UsageError(
                    "this came through a relay, and the studio was started for this machine alone",
                    place="X-Forwarded-For",
                    mend="Start it with --proxy and the relay's address: devices are let in by a "
                    "code then.",
                ),
                403,
            )
        if request.method not in SAFE_METHODS and not same_origin(request.headers):
            return (
                UsageError(
                    "this was sent from a page of another origin",
                    place="Origin",
                    mend="Open the studio's own page and do it there.",
                ),
                403,
            )
        return None


Refusal = tuple[UsageError, int]


def same_origin(headers: Headers) -> bool:
    """Return whether a request that changes something comes from our own page or from no page.

    Browsers name the origin of everything they post; programs such as a device's feed name none.
    """
    origin = headers.get("origin")
    if origin is not None:
        return urlsplit(origin).netloc.lower() == headers.get("host", "").lower()
    return headers.get("sec-fetch-site", "none") in {"same-origin", "none"}


def host_name(host: str) -> str:
    """Return the name in a Host header without its port, in small letters; empty if it is none.

    What holds more than a name and a port is none: it would be read as part of the address.
    """
    if _NO_NAME.search(host):
        return ""
    try:
        return (urlsplit(f"//{host}").hostname or "").lower()
    except ValueError:
        return ""


def from_this_machine(scope: Scope) -> bool:
    """Return whether a request comes from a browser on this machine, not through a relay."""
    headers = Headers(scope=scope)
    client = scope.get("client")
    near = client is not None and _is_loopback(client[0])
    return near and not is_relayed(scope) and host_name(headers.get("host", "")) in LOOPBACK


def _is_near(scope: Scope) -> bool:
    return host_name(Headers(scope=scope).get("host", "")) in LOOPBACK


def _in_time(receive: Receive) -> Receive:
    """Return a body's source that gives up on one that comes too slowly."""
    until: float | None = None

    async def timed() -> MutableMapping[str, Any]:
        nonlocal until
        loop = asyncio.get_running_loop()
        if until is None:
            until = loop.time() + BODY_SECONDS
        elif until == _WHOLE:
            return await receive()
        try:
            async with asyncio.timeout_at(until):
                message = await receive()
        except TimeoutError:
            return {"type": "http.disconnect"}
        if not message.get("more_body", False):
            until = _WHOLE
        return message

    return timed


async def _limited(request: Request, receive: Receive) -> tuple[Receive, Refusal | None]:
    """Return the body's source, read ahead where no length was stated, or why it is refused."""
    kind = request.headers.get("content-type", "")
    upload = kind.startswith(("multipart/form-data", "text/csv"))
    most = UPLOAD_BYTES if upload else FORM_BYTES
    stated = request.headers.get("content-length")
    if stated is not None and (not stated.isdecimal() or int(stated) > most):
        return receive, _too_large(most)
    # Beside a transfer coding a length says nothing (RFC 9112, 6.3): the body goes by the coding.
    if "transfer-encoding" not in request.headers:
        return receive, None
    body = bytearray()
    more = True
    while more:
        message = await receive()
        if message["type"] == "http.disconnect":
            # Half a body is none: what reads it is told, and takes nothing in.
            return _gone, None
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > most:
            return receive, _too_large(most)
    return _replayed(bytes(body), receive), None


async def _gone() -> MutableMapping[str, Any]:
    return {"type": "http.disconnect"}


def _replayed(body: bytes, receive: Receive) -> Receive:
    told = False

    async def again() -> MutableMapping[str, Any]:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


def _too_slow() -> UsageError:
    return UsageError(
        f"what was sent did not come within {BODY_SECONDS:.0f} s, or the link broke",
        place="body",
        mend="Send it again; nothing of it was taken in.",
    )


def _too_large(most: int) -> Refusal:
    size = f"{most // (1024 * 1024)} MB" if most >= 1024 * 1024 else f"{most // 1024} kB"
    return (
        UsageError(
            f"what was sent is larger than {size}",
            place="body",
            mend="Send a file in parts, or one ball at a time.",
        ),
        413,
    )


def _is_address(host: str) -> bool:
    try:
        ip_address(host)
    except ValueError:
        return False
    return True


def _is_loopback(host: str) -> bool:
    return _is_address(host) and ip_address(host).is_loopback
