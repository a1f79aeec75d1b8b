"""The lock of the device that asks: its PIN, after how long it locks itself, and unlocking it."""

from typing import Annotated, Final

from fastapi import APIRouter, Form, Request, Response

from loftwright.errors import InputError, TooManyError, UsageError
from loftwright.services.live import MAIN_SCREEN
from loftwright.services.pin_lock import IDLE, THIS_MACHINE, PinLocks
from loftwright.services.tries import PINS, Tries
from loftwright.web.answers import acted
from loftwright.web.door import address_of, lock_of, unlock_first
from loftwright.web.errors import retry_after, status_of, wants_json
from loftwright.web.render import render
from loftwright.web.roles import FIRST_PAGES

router = APIRouter(prefix="/lock", include_in_schema=False)

Pin = Annotated[str, Form(max_length=40)]

_IDLE_WORDS: Final = {0: "Only by the button", 5: "5 minutes", 15: "15 minutes", 60: "1 hour"}


@router.get("")
def show_lock(request: Request) -> Response:
    """Show what unlocks this device, or what locks it."""
    return _page(request)


@router.post("/now")
def lock_now(request: Request) -> Response:
    """Lock this device."""
    _locks(request).lock(_device(request))
    _end_watching(request)
    return acted(request, "/lock")


@router.post("/awake")
def awake(request: Request) -> Response:
    """Take in that somebody touches this device."""
    _device(request)
    lock = lock_of(request)
    if lock is not None and lock.since is not None:
        return unlock_first(request)
    return acted(request, "/lock")


@router.post("/open")
def unlock(request: Request, pin: Pin = "") -> Response:
    """Unlock this device by its PIN."""
    device = _device(request)
    try:
        _count(request)
        _locks(request).unlock(device, pin)
    except (InputError, TooManyError) as error:
        return _refused(request, error)
    return acted(request, _first_page(request))


@router.post("")
def set_lock(
    request: Request,
    pin: Pin = "",
    again: Pin = "",
    idle: Annotated[int, Form()] = 0,
    now: Pin = "",
) -> Response:
    """Give this device a PIN, new or in the place of the one it has."""
    device = _device(request)
    try:
        _still_open(request)
        _alike(pin, again)
        _count(request)
        _locks(request).set(device, pin, idle=idle, now=now)
    except (InputError, TooManyError) as error:
        return _refused(request, error, idle=idle)
    return acted(request, "/lock?kept=set")


@router.post("/drop")
def drop_lock(request: Request, now: Pin = "") -> Response:
    """Take this device's lock away."""
    device = _device(request)
    try:
        _still_open(request)
        _count(request)
        _locks(request).drop(device, now)
    except (InputError, TooManyError) as error:
        return _refused(request, error)
    return acted(request, "/lock?kept=dropped")


_KEPT: Final = {"set": "This device has its PIN.", "dropped": "This device has no lock any more."}


def _page(
    request: Request,
    *,
    error: InputError | TooManyError | None = None,
    idle: int | None = None,
    headers: dict[str, str] | None = None,
) -> Response:
    lock = lock_of(request)
    return render(
        request,
        "lock.html",
        status=200 if error is None else status_of(error),
        headers=headers,
        error=error,
        kept=_KEPT.get(request.query_params.get("kept", ""), ""),
        idle=str(idle if idle is not None else lock.idle if lock is not None else 15),
        idles=[(str(minutes), _IDLE_WORDS[minutes]) for minutes in IDLE],
        here_name=_called(request),
    )


def _refused(
    request: Request, error: InputError | TooManyError, *, idle: int | None = None
) -> Response:
    if wants_json(request):
        raise error
    headers = retry_after(error.seconds) if isinstance(error, TooManyError) else None
    return _page(request, error=error, idle=idle, headers=headers)


def _locks(request: Request) -> PinLocks:
    locks: PinLocks = request.app.state.locks
    return locks


def _count(request: Request) -> None:
    tries: Tries = request.app.state.tries
    tries.count(PINS, address_of(request))


def _device(request: Request) -> str:
    """Return the id of the device that asks; a feed and a golfer's screen have no lock."""
    if not getattr(request.state, "lockable", False):
        raise UsageError(
            "this device has no lock", place="device", mend="Lock a fitter’s or the workshop’s."
        )
    device = request.state.device
    return THIS_MACHINE if device is None else str(device.id)


def _still_open(request: Request) -> None:
    lock = lock_of(request)
    if lock is not None and lock.since is not None:
        raise InputError("this device is locked", place="pin", mend="Unlock it first.")


def _alike(pin: str, again: str) -> None:
    if pin != again:
        raise InputError("the two PINs differ", place="again", mend="Type it twice alike.")


def _end_watching(request: Request) -> None:
    device = request.state.device
    request.app.state.studio.hub.end(MAIN_SCREEN if device is None else device.id)


def _first_page(request: Request) -> str:
    device = request.state.device
    return "/" if device is None else FIRST_PAGES[device.role]


def _called(request: Request) -> str:
    device = request.state.device
    return "this machine" if device is None else str(device.name)
