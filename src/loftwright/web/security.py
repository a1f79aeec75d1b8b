"""What every request passes before a page sees it, and the headers that every answer bears."""

from collections.abc import MutableMapping
from dataclasses import dataclass
from ipaddress import ip_address
from typing import Any, Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from loftwright.errors import UsageError
from loftwright.web.errors import defect_answer, error_answer

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
    """

    names: frozenset[str] = frozenset()
    addresses: bool = False
    paired: bool = False

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

        started = False

        async def with_headers(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS:
                    headers[name] = value
            await send(message)

        request = Request(scope, receive)
        refused = self._refusal(request)
        if refused is None:
            receive, refused = await _limited(request, receive)
        if refused is not None:
            error, status = refused
            await error_answer(request, error, status)(scope, receive, with_headers)
            return
        try:
            await self._app(scope, receive, with_headers)
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
    """Return the name in a Host header without its port, in small letters; empty if it is none."""
    try:
        return (urlsplit(f"//{host}").hostname or "").lower()
    except ValueError:
        return ""


def from_this_machine(scope: Scope) -> bool:
    """Return whether a request comes from a browser on this machine, not through a relay."""
    headers = Headers(scope=scope)
    client = scope.get("client")
    relayed = any(name in headers for name in ("forwarded", "x-forwarded-for", "via"))
    near = client is not None and _is_loopback(client[0])
    return near and not relayed and host_name(headers.get("host", "")) in LOOPBACK


async def _limited(request: Request, receive: Receive) -> tuple[Receive, Refusal | None]:
    """Return the body's source, read ahead where no length was stated, or why it is refused."""
    kind = request.headers.get("content-type", "")
    upload = kind.startswith(("multipart/form-data", "text/csv"))
    most = UPLOAD_BYTES if upload else FORM_BYTES
    stated = request.headers.get("content-length")
    if stated is not None:
        long = not stated.isdecimal() or int(stated) > most
        return receive, _too_large(most) if long else None
    if "transfer-encoding" not in request.headers:
        return receive, None
    body = bytearray()
    more = True
    while more:
        message = await receive()
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > most:
            return receive, _too_large(most)
    return _replayed(bytes(body), receive), None


def _replayed(body: bytes, receive: Receive) -> Receive:
    told = False

    async def again() -> MutableMapping[str, Any]:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


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
