"""The studio's door: who may see what, and the pages through which a device is let in."""

from dataclasses import dataclass
from typing import Annotated, Final

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse
from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from loftwright.errors import InputError, UsageError
from loftwright.services.pairing import Code, Pairing
from loftwright.store.interface import PairedDevice
from loftwright.web.answers import acted, inside
from loftwright.web.errors import error_answer, wants_json
from loftwright.web.render import render
from loftwright.web.roles import FIRST_PAGES, ROLE_NAMES, is_open, may_see
from loftwright.web.security import Access, from_this_machine

COOKIE: Final = "loftwright_key"
_YEAR: Final = 365 * 24 * 3600

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceRow:
    """A device in the list of those let in."""

    id: str
    name: str
    role: str
    since: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PairingView:
    """What the main screen shows of paired devices.

    Attributes
    ----------
    asks : bool
        Whether devices need a key at all, which they do once the studio is reached from beyond
        this machine.
    """

    asks: bool
    code: Code | None
    devices: tuple[DeviceRow, ...]
    back: str


class Door:
    """Lets in what comes from this machine and what bears a key whose role may see the page.

    Parameters
    ----------
    app : ASGIApp
        The application behind it.
    access : Access
    pairing : Pairing
    """

    def __init__(self, app: ASGIApp, *, access: Access, pairing: Pairing) -> None:
        self._app = app
        self._access = access
        self._pairing = pairing

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or answer it."""
        if scope["type"] != "http" or not self._access.paired:
            await self._app(scope, receive, send)
            return
        request = Request(scope, receive)
        answer = None
        near = from_this_machine(scope)
        device = self._pairing.who(key_in(request.headers, cookies=not near))
        if device is not None:
            request.state.device = device
            seen = may_see(device.role, request.url.path, request.method)
            answer = None if seen else _not_for(request, device)
        elif not near:
            request.state.stranger = True
            answer = None if is_open(request.url.path) else _ask(request)
        await (answer or self._app)(scope, receive, send)


def key_in(headers: Headers, *, cookies: bool = True) -> str:
    """Return the key that a request bears: a program's in its header, a browser's as a cookie.

    Parameters
    ----------
    headers : Headers
    cookies : bool
        Whether a cookie counts; on the main screen it does not, which is never shut out.
    """
    scheme, _, bearer = headers.get("authorization", "").partition(" ")
    if scheme.lower() == "bearer":
        return bearer.strip()
    if not cookies:
        return ""
    return Request({"type": "http", "headers": headers.raw}).cookies.get(COOKIE, "")


def pairing_view(request: Request, back: str) -> PairingView:
    """Return what the main screen shows of paired devices.

    Parameters
    ----------
    request : Request
    back : str
        Address of the page that shows it.
    """
    pairing: Pairing = request.app.state.pairing
    access: Access = request.app.state.access
    return PairingView(
        asks=access.paired,
        code=pairing.code(),
        devices=tuple(
            DeviceRow(
                id=one.id,
                name=one.name,
                role=ROLE_NAMES.get(one.role, one.role),
                since=f"{one.paired_at.astimezone():%-d %B %Y}",
            )
            for one in pairing.devices()
        ),
        back=back,
    )


@router.get("/devices")
def show_devices(request: Request) -> Response:
    """Show the devices that are let in, and how to let in another."""
    return render(request, "devices.html", pairing=pairing_view(request, "/devices"))


@router.post("/devices/code")
def make_code(request: Request, back: Annotated[str, Form()] = "/devices") -> Response:
    """Show a new code on the main screen."""
    request.app.state.pairing.new_code()
    return acted(request, inside(back, "/devices"))


@router.post("/devices/{device}/withdraw")
def withdraw(request: Request, device: str, back: Annotated[str, Form()] = "/devices") -> Response:
    """Let a device in no more."""
    request.app.state.pairing.withdraw(device)
    return acted(request, inside(back, "/devices"))


@router.get("/pair")
def ask_for_code(request: Request) -> Response:
    """Show the form that a new device fills in."""
    return render(request, "pair.html", typed={}, error=None, key="")


@router.post("/pair")
def pair(
    request: Request,
    code: Annotated[str, Form(max_length=20)] = "",
    name: Annotated[str, Form(max_length=200)] = "",
    role: Annotated[str, Form(max_length=20)] = "",
) -> Response:
    """Let a device in and give it its key."""
    pairing: Pairing = request.app.state.pairing
    try:
        let_in = pairing.let_in(code, name=name, role=role)
    except InputError as error:
        if wants_json(request):
            raise
        typed = {"name": name, "role": role}
        return render(request, "pair.html", status=422, typed=typed, error=error, key="")
    if wants_json(request):
        return JSONResponse({"key": let_in.key, "name": let_in.device.name, "role": role})
    if role == "feed":
        # The key goes into the program that posts, not into the browser that asked for it.
        shown = render(request, "pair.html", typed={}, error=None, key=let_in.key)
        shown.headers["Cache-Control"] = "no-store"
        return shown
    answer = RedirectResponse(FIRST_PAGES[role], status_code=303)
    answer.set_cookie(
        COOKIE, let_in.key, max_age=_YEAR, httponly=True, samesite="strict", path="/"
    )
    return answer


def _ask(request: Request) -> Response:
    page = request.method == "GET" and "text/html" in request.headers.get("accept", "")
    if page and not request.url.path.startswith("/api/"):
        return RedirectResponse("/pair", status_code=303)
    error = UsageError(
        "this device is not let in",
        place="key",
        mend="Open /pair on it and enter the code that the main screen shows.",
    )
    return error_answer(request, error, 401, {"WWW-Authenticate": "Bearer"})


def _not_for(request: Request, device: PairedDevice) -> Response:
    error = UsageError(
        f"{device.name} is let in as {ROLE_NAMES.get(device.role, device.role)} and may not see "
        "this",
        place=request.url.path,
        mend=f"Go to {FIRST_PAGES.get(device.role, '/')}, or pair it anew in another role.",
    )
    return error_answer(request, error, 403)
