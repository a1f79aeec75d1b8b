"""The studio's door: who may see what, how often, and what a locked device still shows."""

from dataclasses import dataclass
from typing import Final

from fastapi import Request, Response
from fastapi.responses import RedirectResponse
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from loftwright.errors import TooManyError, UsageError
from loftwright.services.openings import Openings
from loftwright.services.pairing import Pairing
from loftwright.services.pin_lock import THIS_MACHINE, PinLocks
from loftwright.services.pin_record import PinLock
from loftwright.services.tries import KEYS, REQUESTS, Tries
from loftwright.store.door_interface import PairedDevice
from loftwright.web.errors import error_answer
from loftwright.web.roles import (
    FIRST_PAGES,
    LOCKABLE,
    ROLE_NAMES,
    is_open,
    may_see,
    stays_open,
)
from loftwright.web.security import SAFE_METHODS, Access, from_this_machine

COOKIE: Final = "loftwright_key"
SECURE_COOKIE: Final = f"__Host-{COOKIE}"
"""Over TLS: a browser takes it from this very host alone (RFC 6265bis, 4.1.3.2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """What the door asks."""

    access: Access
    pairing: Pairing
    locks: PinLocks
    tries: Tries
    openings: Openings


class Door:
    """Lets in what comes from this machine and what bears a key whose role may see the page.

    Parameters
    ----------
    app : ASGIApp
        The application behind it.
    doors : Doors
    """

    def __init__(self, app: ASGIApp, *, doors: Doors) -> None:
        self._app = app
        self._doors = doors

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or answer it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request = Request(scope, receive)
        try:
            answer = self._asked(request)
            if answer is None:
                answer = await self._locked(request)
        except TooManyError as error:
            answer = error_answer(request, error)
        if answer is not None:
            await answer(scope, receive, send)
            return

        async def noted(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] == 200:
                self._note(request)
            await send(message)

        await self._app(scope, receive, noted)

    def _asked(self, request: Request) -> Response | None:
        """Answer whoever may not see the page."""
        request.state.device = None
        if not self._doors.access.paired:
            return None
        near, path = from_this_machine(request.scope), path_of(request)
        if not near and not path.startswith("/static/"):
            self._doors.tries.count(REQUESTS, address_of(request))
        secure = request.url.scheme == "https"
        key = key_in(request.headers, cookies=not near, secure=secure)
        device = self._doors.pairing.who(key)
        if device is not None:
            request.state.device = device
            lock = device.role in LOCKABLE and _is_lock(path)
            seen = lock or may_see(device.role, path, request.method)
            return None if seen else _not_for(request, device)
        if near:
            return None
        request.state.stranger = True
        if is_open(path):
            return None
        if key:
            self._doors.tries.count(KEYS, address_of(request))
        return _ask(request)

    async def _locked(self, request: Request) -> Response | None:
        """Answer a locked device, and take in that another one is used."""
        device: PairedDevice | None = request.state.device
        path = path_of(request)
        if getattr(request.state, "stranger", False):
            return None
        if device is not None and device.role not in LOCKABLE:
            return None
        lock = self._doors.locks.of(device)
        request.state.lockable, request.state.lock = True, lock
        if lock is None:
            return None
        whose = THIS_MACHINE if device is None else device.id
        aside = device is None and stays_open(path, request.method)
        if aside:
            return None
        locked = lock.since is not None
        if not locked and self._doors.locks.left_alone(whose, lock, asks=True):
            await run_in_threadpool(self._doors.locks.lock, whose)
            request.state.lock = self._doors.locks.of(self._again(device))
            locked = True
        if locked:
            shown = _is_lock(path) or (is_open(path) and not path.startswith("/pair"))
            return None if shown else unlock_first(request)
        if _touched(request):
            self._doors.locks.seen(whose)
        return None

    def _again(self, device: PairedDevice | None) -> PairedDevice | None:
        if device is None:
            return None
        return next((one for one in self._doors.pairing.known() if one.id == device.id), device)

    def _note(self, request: Request) -> None:
        """Take in that a page of a golfer was shown to somebody who may see golfers."""
        device: PairedDevice | None = request.state.device
        if request.method != "GET" or (device is not None and device.role != "fitter"):
            return
        named = request.scope.get("path_params", {})
        golfer, fitting = named.get("golfer", ""), named.get("fitting", "")
        if not (golfer or fitting) or stays_open(path_of(request), "GET"):
            return
        self._doors.openings.note(path_of(request), golfer=golfer, fitting=fitting, device=device)


def address_of(request: Request) -> str:
    """Return the address that a request comes from."""
    return request.client.host if request.client is not None else ""


def path_of(request: Request) -> str:
    """Return the path by which a page is looked for, whatever the host's name makes of it."""
    return str(request.scope["path"])


def key_in(headers: Headers, *, cookies: bool = True, secure: bool = False) -> str:
    """Return the key that a request bears: a program's in its header, a browser's as a cookie.

    Parameters
    ----------
    headers : Headers
    cookies : bool
        Whether a cookie counts; on the main screen it does not, which is never shut out.
    secure : bool
        Whether the link is encrypted; then only the cookie counts that nobody else can set.
    """
    scheme, _, bearer = headers.get("authorization", "").partition(" ")
    if scheme.lower() == "bearer":
        return bearer.strip()
    if not cookies:
        return ""
    name = SECURE_COOKIE if secure else COOKIE
    return Request({"type": "http", "headers": headers.raw}).cookies.get(name, "")


def lock_of(request: Request) -> PinLock | None:
    """Return what locks the device that asks."""
    lock: PinLock | None = getattr(request.state, "lock", None)
    return lock


def _is_lock(path: str) -> bool:
    return path == "/lock" or path.startswith("/lock/")


def _touched(request: Request) -> bool:
    """Return whether a person did something, not a page that follows its fitting by itself."""
    if request.method not in SAFE_METHODS:
        return True
    return "text/html" in request.headers.get("accept", "")


def _wants_page(request: Request) -> bool:
    page = request.method == "GET" and "text/html" in request.headers.get("accept", "")
    return page and not path_of(request).startswith("/api/")


def _ask(request: Request) -> Response:
    if _wants_page(request):
        return RedirectResponse("/pair", status_code=303)
    error = UsageError(
        "this device is not let in",
        place="key",
        mend="Open /pair on it and enter the code that the main screen shows.",
    )
    return error_answer(request, error, 401, {"WWW-Authenticate": "Bearer"})


def unlock_first(request: Request) -> Response:
    """Answer a device that is locked."""
    if _wants_page(request):
        return RedirectResponse("/lock", status_code=303)
    error = UsageError(
        "this device is locked",
        place="lock",
        mend="Open /lock on it and enter its PIN; nothing was changed.",
    )
    return error_answer(request, error, 423)


def _not_for(request: Request, device: PairedDevice) -> Response:
    error = UsageError(
        f"{device.name} is let in as {ROLE_NAMES.get(device.role, device.role)} and may not see "
        "this",
        place=path_of(request),
        mend=f"Go to {FIRST_PAGES.get(device.role, '/')}, or pair it anew in another role.",
    )
    return error_answer(request, error, 403)
