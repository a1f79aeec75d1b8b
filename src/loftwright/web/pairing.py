"""The pages through which a device is let in, and let in no more."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from loftwright.errors import InputError, NotFoundError, UsageError
from loftwright.services.pairing import KEY_LIFE, Code, Pairing
from loftwright.services.pin_lock import PinLocks
from loftwright.services.pin_record import PinLock
from loftwright.services.tries import CODES, Tries
from loftwright.store.door_interface import PairedDevice
from loftwright.web.answers import Back, acted, inside
from loftwright.web.door import COOKIE, SECURE_COOKIE, address_of
from loftwright.web.errors import error_answer, wants_json
from loftwright.web.render import render
from loftwright.web.roles import FIRST_PAGES, ROLE_NAMES
from loftwright.web.security import Access

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceRow:
    """A device in the list of those let in."""

    id: str
    name: str
    role: str
    since: str
    until: str
    lock: str
    locked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PairingView:
    """What the main screen shows of paired devices.

    Attributes
    ----------
    asks : bool
        Whether devices need a key at all, which they do once the studio is reached from beyond
        this machine.
    main : bool
        Whether this is the studio's own screen, which alone lets devices in and unlocks them.
    """

    asks: bool
    main: bool
    code: Code | None
    devices: tuple[DeviceRow, ...]
    back: str


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
    locks: PinLocks = request.app.state.locks
    rows = []
    for one in pairing.devices():
        lock = locks.of(one)
        rows.append(
            DeviceRow(
                id=one.id,
                name=one.name,
                role=ROLE_NAMES.get(one.role, one.role),
                since=_day(one.paired_at),
                until="it is withdrawn" if one.role == "feed" else _day(pairing.until(one)),
                lock=lock_words(lock),
                locked=lock is not None and lock.since is not None,
            )
        )
    return PairingView(
        asks=access.paired,
        main=not _is_device(request),
        code=pairing.code(),
        devices=tuple(rows),
        back=back,
    )


def lock_words(lock: PinLock | None) -> str:
    """Return what a device's lock is, in words."""
    if lock is None:
        return "none"
    after = f"PIN, after {lock.idle} minutes" if lock.idle else "PIN"
    if lock.since is None:
        return after
    return f"locked since {lock.since.astimezone():%H:%M}"


def _day(at: datetime) -> str:
    return f"{at.astimezone():%-d %b %Y}"


@router.get("/devices")
def show_devices(request: Request) -> Response:
    """Show the devices that are let in, and how to let in another."""
    return render(request, "devices.html", pairing=pairing_view(request, "/devices"))


@router.post("/devices/code")
def make_code(request: Request, back: Back = "/devices") -> Response:
    """Show a new code on the main screen, which alone lets devices in."""
    if _is_device(request):
        return _on_the_main_screen(request)
    request.app.state.pairing.new_code()
    return acted(request, inside(back, "/devices"))


@router.post("/devices/{device}/withdraw")
def withdraw(request: Request, device: str, back: Back = "/devices") -> Response:
    """Let a device in no more."""
    request.app.state.pairing.withdraw(device)
    return acted(request, inside(back, "/devices"))


@router.post("/devices/{device}/unlock")
def unlock(request: Request, device: str, back: Back = "/devices") -> Response:
    """Unlock a device from the main screen."""
    if _is_device(request):
        return _on_the_main_screen(request)
    locks: PinLocks = request.app.state.locks
    locks.release(device)
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
    tries: Tries = request.app.state.tries
    tries.count(CODES, address_of(request))
    try:
        let_in = pairing.let_in(code, name=name, role=role)
    except InputError as error:
        if wants_json(request):
            raise
        typed = {"name": name, "role": role}
        return render(request, "pair.html", status=422, typed=typed, error=error, key="")
    _end_former(request, pairing, role)
    if wants_json(request):
        return JSONResponse({"key": let_in.key, "name": let_in.device.name, "role": role})
    if role == "feed":
        # The key goes into the program that posts, not into the browser that asked for it.
        shown = render(request, "pair.html", typed={}, error=None, key=let_in.key)
        shown.headers["Cache-Control"] = "no-store"
        return shown
    answer = RedirectResponse(FIRST_PAGES[role], status_code=303)
    secure = request.url.scheme == "https"
    answer.set_cookie(
        SECURE_COOKIE if secure else COOKIE,
        let_in.key,
        max_age=int(KEY_LIFE.total_seconds()),
        secure=secure,
        httponly=True,
        samesite="strict",
        path="/",
    )
    return answer


def _end_former(request: Request, pairing: Pairing, role: str) -> None:
    """Withdraw the key that the device bore until now.

    A tablet that is shown a feed's key keeps its own: the key goes into a program.
    """
    former: PairedDevice | None = request.state.device
    if former is not None and (role != "feed" or former.role == "feed"):
        # Somebody else may have withdrawn it just now.
        with suppress(NotFoundError):
            pairing.withdraw(former.id)


def _is_device(request: Request) -> bool:
    return request.state.device is not None


def _on_the_main_screen(request: Request) -> Response:
    error = UsageError(
        "only the studio’s own screen lets devices in and unlocks them",
        place=request.url.path,
        mend="Do it there: a device that was lost could else let others in.",
    )
    return error_answer(request, error, 403)
