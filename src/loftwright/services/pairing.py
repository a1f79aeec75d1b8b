"""Let devices in: a code from the main screen becomes a key that can be withdrawn."""

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
from loftwright.store.interface import PairedDevice

ROLES: Final = ("fitter", "workshop", "screen", "feed")
CODE_LIFE: Final = timedelta(minutes=2)
TRIES: Final = 5
_FIGURES: Final = 6
_KEY_BYTES: Final = 32
_LONGEST_NAME: Final = 60


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
        return LetIn(device=device, key=key)

    def who(self, key: str) -> PairedDevice | None:
        """Return the device that bears a key, unless it is unknown or withdrawn."""
        with self._lock:
            if self._known is None:
                self._known = {
                    one.key_hash: one for one in self._devices.paired() if one.withdrawn_at is None
                }
            return self._known.get(digest(key))

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
        self._hub.end(device)

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
        raise InputError(
            f"{figures or 'nothing'} is not the code",
            place="code",
            mend=f"Look again: {left} tries are left."
            if left
            else "Ask for a new one on the main screen.",
        )

    def _standing(self) -> Code | None:
        if self._code is not None and self._clock() >= self._code.until:
            self._code = None
        return self._code

    def _forget(self) -> None:
        with self._lock:
            self._known = None


def digest(key: str) -> str:
    """Return how a key is kept; it is random, so a plain digest cannot be guessed back."""
    return sha256(key.encode()).hexdigest()
