"""Let devices in: a code from the main screen becomes a key that can be withdrawn."""

import logging
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from hmac import compare_digest
from threading import Lock
from typing import Final, Protocol
from uuid import uuid4

from loftwright.errors import InputError, NotFoundError
from loftwright.services.live import Hub
from loftwright.services.log_lines import told
from loftwright.store.door_interface import PairedDevice

ROLES: Final = ("fitter", "workshop", "screen", "feed")
CODE_LIFE: Final = timedelta(minutes=2)
TRIES: Final = 5
KEY_LIFE: Final = timedelta(days=365)
"""After which a tablet or a screen is let in anew; a program that posts balls is not."""
_FIGURES: Final = 6
_KEY_BYTES: Final = 32
_LONGEST_NAME: Final = 60

log: Final = logging.getLogger(__name__)


class PairedDevices(Protocol):
    """What pairing needs of a store."""

    def pair(self, device: PairedDevice) -> None:
        """Let a device in."""

    def paired(self) -> tuple[PairedDevice, ...]:
        """Return every device that was ever let in, the newest first."""

    def withdraw(self, device: str, *, at: datetime) -> None:
        """Let a device in no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """What the main screen shows while a device is being let in."""

    figures: str
    until: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class LetIn:
    """A device that was just let in, with its key, which is never shown again."""

    device: PairedDevice
    key: str


class Pairing:
    """Codes and keys of one studio.

    Parameters
    ----------
    devices : PairedDevices
        Where devices are kept; keys only as their digest.
    hub : Hub
        Ends what a withdrawn device still watches.
    clock : callable
        Returns the instant.
    """

    def __init__(self, devices: PairedDevices, hub: Hub, clock: Callable[[], datetime]) -> None:
        self._devices = devices
        self._hub = hub
        self._clock = clock
        self._lock = Lock()
        self._code: Code | None = None
        self._tries = 0
        self._known: dict[str, PairedDevice] | None = None

    def new_code(self) -> Code:
        """Return a fresh code for one device; an earlier one is void."""
        figures = f"{secrets.randbelow(10**_FIGURES):0{_FIGURES}d}"
        with self._lock:
            self._code = Code(figures=figures, until=self._clock() + CODE_LIFE)
            self._tries = 0
            return self._code

    def code(self) -> Code | None:
        """Return the code that stands, if one does."""
        with self._lock:
            return self._standing()

    def let_in(self, figures: str, *, name: str, role: str) -> LetIn:
        """Let a device in that shows the code, once.

        Parameters
        ----------
        figures : str
            As typed; spaces between them do not matter.
        name : str
            What the device is to be called.
        role : {"fitter", "workshop", "screen", "feed"}

        Raises
        ------
        InputError
            If the name is empty, the role unknown, or the code is not the one that stands.
        """
        called = " ".join(name.split())
        if not called or len(called) > _LONGEST_NAME:
            raise InputError(
                "a device needs a name of 1 to 60 letters", place="name", mend="Name it."
            )
        if role not in ROLES:
            raise InputError(
                f"no device is a {role!r}", place="role", mend=f"Choose {', '.join(ROLES)}."
            )
        self._use_code("".join(figures.split()))
        key = secrets.token_urlsafe(_KEY_BYTES)
        device = PairedDevice(
            id=str(uuid4()), name=called, role=role, key_hash=digest(key), paired_at=self._clock()
        )
        self._devices.pair(device)
        self._forget()
        log.info("a device was let in", extra=told(device=device.id, role=role))
        return LetIn(device=device, key=key)

    def who(self, key: str) -> PairedDevice | None:
        """Return the device that bears a key, unless it is unknown, withdrawn or too old."""
        device = self._let_in().get(digest(key))
        over = device is not None and device.role != "feed" and self.until(device) <= self._clock()
        return None if over else device

    def until(self, device: PairedDevice) -> datetime:
        """Return until when a device's key opens anything; a feed's does until it is withdrawn."""
        return device.paired_at + KEY_LIFE

    def known(self) -> tuple[PairedDevice, ...]:
        """Return the devices that are let in as they were when last looked at."""
        return tuple(self._let_in().values())

    def changed(self) -> None:
        """Take in that something about a device was changed in this process."""
        self._forget()

    def devices(self) -> tuple[PairedDevice, ...]:
        """Return the devices that are let in, the newest first."""
        return tuple(one for one in self._devices.paired() if one.withdrawn_at is None)

    def withdraw(self, device: str) -> None:
        """Let a device in no more, and end what it still watches.

        Raises
        ------
        NotFoundError
            If no device is let in under this id.
        """
        if all(one.id != device for one in self.devices()):
            raise NotFoundError(
                "no such device is let in", place="device", mend="Look at the list of devices."
            )
        self._devices.withdraw(device, at=self._clock())
        self._forget()
        log.info("a device was withdrawn", extra=told(device=device))
        self._hub.end(device)

    def _let_in(self) -> dict[str, PairedDevice]:
        with self._lock:
            if self._known is None:
                self._known = _by_key(self._devices.paired())
            return self._known

    def _use_code(self, figures: str) -> None:
        with self._lock:
            standing = self._standing()
            if standing is None:
                raise InputError(
                    "no code stands", place="code", mend="Ask for a new one on the main screen."
                )
            if compare_digest(standing.figures.encode(), figures.encode()):
                self._code = None
                return
            self._tries += 1
            left = TRIES - self._tries
            if left == 0:
                self._code = None
        log.warning("a wrong code was tried", extra=told(count=TRIES - left))
        raise InputError(
            f"{figures or 'nothing'} is not the code",
            place="code",
            mend=f"Look again: {left} tries are left."
            if left
            else "Ask for a new one on the main screen.",
        )

    def _standing(self) -> Code | None:
        if self._code is not None:
            left = self._code.until - self._clock()
            # More than its whole life is left where the clock was set back.
            if not timedelta(0) < left <= CODE_LIFE:
                self._code = None
        return self._code

    def _forget(self) -> None:
        with self._lock:
            self._known = None

    def look(self) -> None:
        """Take in what other processes did to devices, and end what withdrawn ones watch."""
        devices = self._devices.paired()
        with self._lock:
            self._known = _by_key(devices)
        for one in devices:
            if one.withdrawn_at is not None:
                self._hub.end(one.id)


def digest(key: str) -> str:
    """Return how a key is kept; it is random, so a plain digest cannot be guessed back."""
    return sha256(key.encode()).hexdigest()


def _by_key(devices: tuple[PairedDevice, ...]) -> dict[str, PairedDevice]:
    return {one.key_hash: one for one in devices if one.withdrawn_at is None}
