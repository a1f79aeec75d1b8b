"""Every request has a number, and the log tells by it what was refused and what failed.

The number stands on the error's page, so that a fitter can tell it to whoever helps. What is
written of a request is its method, the shape of its address, the status and the kind of error.
"""

import logging
from collections.abc import Callable
from threading import Lock
from time import monotonic
from typing import Final

from fastapi.routing import APIRoute
from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.routing import Match
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from loftwright.errors import LoftwrightError
from loftwright.services.log_lines import place_of, told
from loftwright.web.numbers import new_number

HEADER: Final = "X-Request-Number"
NOTHING: Final = "none"
"""The shape of an address at which nothing is."""
MOST: Final = 120
_METHODS: Final = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
_FIRST_REFUSAL: Final = 400
_FIRST_FAULT: Final = 500
_WATCHED: Final = frozenset({401, 403, 413, 421, 429})
"""Statuses of what somebody may try who should not be in."""

log: Final = logging.getLogger(__name__)


class Journal:
    """Numbers requests and writes down those that were refused or failed.

    Parameters
    ----------
    app : ASGIApp
        The application behind it.
    most : int, optional
        Refusals of either sort that a minute may write: those that a stranger may try, and others.
    """

    def __init__(self, app: ASGIApp, *, most: int = MOST) -> None:
        self._app = app
        self._usual, self._watched = Refusals(most), Refusals(most)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on and look what became of it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request = Request(scope, receive)
        request.state.number = number = new_number()
        status, whole = 0, False

        async def seen(message: Message) -> None:
            nonlocal status, whole
            if message["type"] == "http.response.start":
                status = message["status"]
                if status >= _FIRST_REFUSAL:
                    MutableHeaders(scope=message)[HEADER] = number
            await send(message)
            whole = message["type"] == "http.response.body" and not message.get("more_body", False)

        try:
            await self._app(scope, receive, seen)
        except Exception:
            log.exception("a request failed", extra=told(request=number, **shape_of(scope)))
            if not whole:
                # The server has to break the connection off.
                raise
            return
        if status >= _FIRST_REFUSAL:
            self._tell(request, status)

    def _tell(self, request: Request, status: int) -> None:
        fields = {"request": request.state.number, **shape_of(request.scope), "status": status}
        error = getattr(request.state, "refused", None)
        if status >= _FIRST_FAULT:
            log.error("a request could not be done", exc_info=error, extra=told(**fields))
            return
        watched = status in _WATCHED
        refusals = self._watched if watched else self._usual
        if not refusals.may():
            return
        left_out = refusals.left_out()
        if left_out:
            log.warning("more refusals than are written", extra=told(count=left_out))
        if isinstance(error, LoftwrightError):
            fields |= {"kind": error.kind, "at": place_of(error)}
        log.log(
            logging.WARNING if watched else logging.INFO,
            "a request was refused",
            extra=told(**fields),
        )


class Refusals:
    """Lets refusals be written, but not so many that they push everything else out of the log.

    Parameters
    ----------
    most : int
        Lines in a stretch of time.
    seconds : float, optional
        Its length.
    clock : callable, optional
        Seconds that only ever grow.
    """

    def __init__(
        self, most: int, seconds: float = 60.0, clock: Callable[[], float] = monotonic
    ) -> None:
        self._most, self._seconds, self._clock = most, seconds, clock
        self._lock = Lock()
        self._began = clock()
        self._written = self._unwritten = 0

    def may(self) -> bool:
        """Return whether one more may be written, and count it."""
        with self._lock:
            if self._clock() - self._began >= self._seconds:
                self._began, self._written = self._clock(), 0
            if self._written >= self._most:
                self._unwritten += 1
                return False
            self._written += 1
            return True

    def left_out(self) -> int:
        """Return how many were not written since this was last asked."""
        with self._lock:
            left, self._unwritten = self._unwritten, 0
            return left


def shape_of(scope: Scope) -> dict[str, str]:
    """Return the method and the shape of the address of a request, without what it names."""
    method = scope["method"] if scope["method"] in _METHODS else "other"
    return {"method": method, "route": _route_of(scope)}


def _route_of(scope: Scope) -> str:
    taken = getattr(scope.get("route"), "path", None)
    if taken is not None:
        return str(taken)
    # It was refused before a page was looked for.
    known: tuple[APIRoute, ...] = scope["app"].state.asked
    asked = {**scope, "path_params": {}}
    found = (one.path for one in known if one.matches(asked)[0] is not Match.NONE)
    return next(found, NOTHING)
