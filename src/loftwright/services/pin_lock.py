"""A device that is left alone: locked by its fitter's PIN, on the device or after a while.

References
----------
RFC 9106, section 4, the second recommended option: Argon2id with 3 passes over 64 MiB in 4
lanes, a salt of 16 bytes and a tag of 32.
"""

import os
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from threading import Lock as Mutex
from typing import Final, Protocol

from loftwright.errors import ConflictError, InputError, NotFoundError, TooManyError
from loftwright.services.pin_record import PinLock, lock_text, read_lock
from loftwright.store.door_interface import PairedDevice
from loftwright.store.interface import Versioned

IDLE: Final = (0, 5, 15, 60)
"""Minutes without a touch after which a device locks itself; 0 for never."""
TRIES: Final = 5
FIRST_WAIT: Final = timedelta(seconds=30)
LONGEST_WAIT: Final = timedelta(hours=1)
THIS_MACHINE: Final = ""
"""Stands for the machine that the studio runs on, beside the ids of devices."""
SETTING: Final = "lock of this machine"

_PASSES: Final = 3
_LANES: Final = 4
_MEMORY: Final = 64 * 1024
_SALT: Final = 16
_TAG: Final = 32
_AGAIN: Final = 3


class Locked(Protocol):
    """What locks need of a store."""

    def paired(self) -> tuple[PairedDevice, ...]:
        """Return every device that was ever let in."""

    def change_pin(self, device: str, pin: str | None, *, was: str | None) -> None:
        """Replace what locks a device."""

    def setting(self, name: str) -> Versioned[str]:
        """Return a setting's text."""

    def set_setting(self, name: str, text: str, *, version: int) -> int:
        """Replace a setting."""


class PinLocks:
    """The locks of a studio's devices and of its own machine; the store keeps them.

    Machines that share a store share the PIN of their own screens and what was tried; each locks
    for itself, and begins locked.

    Parameters
    ----------
    store : Locked
    clock : callable
        Returns the instant.
    changed : callable
        Told after a lock was changed.
    """

    def __init__(
        self,
        store: Locked,
        clock: Callable[[], datetime],
        changed: Callable[[], None] = lambda: None,
    ) -> None:
        self._store, self._clock, self._changed = store, clock, changed
        self._mutex = Mutex()
        self._hashing = Mutex()
        self._began = clock()
        self._seen: dict[str, datetime] = {}
        self._mine: PinLock | None = None
        self._mine_read = False
        self._mine_since: datetime | None = None

    def of(self, device: PairedDevice | None) -> PinLock | None:
        """Return the lock of a device, or of this machine without one; None if it has none."""
        if device is not None:
            return read_lock(device.pin)
        if not self._mine_read:
            self.look()
        mine = self._mine
        return None if mine is None else replace(mine, since=self._mine_since)

    def look(self) -> None:
        """Read the lock of this machine anew."""
        self._mine = read_lock(self._store.setting(SETTING).value or None)
        if not self._mine_read and self._mine is not None:
            self._mine_since = self._clock()
        self._mine_read = True

    def set(self, device: str, pin: str, *, idle: int, now: str = "", sure: bool = False) -> None:
        """Give a device a PIN, new or in the place of the one it has.

        Parameters
        ----------
        device : str
            Its id, or `THIS_MACHINE`.
        pin : str
            4 to 12 figures.
        idle : {0, 5, 15, 60}
        now : str
            The PIN that it has; it must be right.
        sure : bool
            Whether the one it has is not asked for: on the studio's own screen.

        Raises
        ------
        InputError
            If the PIN is no PIN, the minutes are none of these, or the one it has is wrong.
        """
        _check(pin, idle)
        if self._text(device) is not None and not sure:
            self.unlock(device, now, place="now")
        made = PinLock(pin=self._hashed(pin), idle=idle, opened=self._clock())
        self._change(device, lambda _: made)
        self._open(device)

    def drop(self, device: str, now: str = "", *, sure: bool = False) -> None:
        """Take a device's lock away; as `set`."""
        if not sure:
            self.unlock(device, now, place="now")
        self._change(device, lambda _: None)
        self._open(device)

    def lock(self, device: str) -> None:
        """Lock a device now.

        Raises
        ------
        InputError
            If it has no PIN.
        """

        def locked(lock: PinLock | None) -> PinLock:
            if lock is None:
                raise InputError("this device has no PIN", place="pin", mend="Give it one first.")
            if device == THIS_MACHINE:
                self._mine_since = self._mine_since or self._clock()
                return lock
            return replace(lock, since=lock.since or self._clock())

        self._change(device, locked)

    def unlock(self, device: str, pin: str, *, place: str = "pin") -> None:
        """Unlock a device by its PIN.

        Raises
        ------
        InputError
            If it is not the PIN.
        TooManyError
            If so many wrong ones were tried that one must wait.
        """
        with self._hashing:
            # Counted before it is looked at, so that tries at once gain nothing.
            lock = self._change(device, self._counted)
            if lock is None or self._verified(lock.pin, pin):
                self._change(device, self._freed)
                self._open(device)
                return
        left = TRIES - lock.wrong
        raise InputError(
            "that is not the PIN",
            place=place,
            mend=f"Look again: {left} tries are left before one must wait."
            if left > 0
            else "Wait, or have it unlocked on the studio’s own screen.",
        )

    def release(self, device: str) -> None:
        """Unlock a device from the studio's own screen."""
        self._change(device, self._freed)
        self._open(device)

    def seen(self, device: str) -> None:
        """Take in that somebody used a device just now."""
        self._seen[device] = self._clock()

    def left_alone(self, device: str, lock: PinLock, *, asks: bool) -> bool:
        """Return whether a device is to lock itself, because nobody touched it for so long.

        Parameters
        ----------
        device : str
        lock : PinLock
        asks : bool
            Whether it asks for something now. One that never did here may be in use at another
            server of the studio; once it asks, nobody touched it here since this one began.
        """
        if lock.since is not None or not lock.idle or not (asks or device in self._seen):
            return False
        seen = self._seen.setdefault(device, self._began)
        last = seen if lock.opened is None else max(seen, lock.opened)
        return self._clock() - last >= timedelta(minutes=lock.idle)

    def _open(self, device: str) -> None:
        if device == THIS_MACHINE:
            self._mine_since = None
        self.seen(device)

    def _freed(self, lock: PinLock | None) -> PinLock | None:
        if lock is None:
            return None
        return replace(lock, since=None, wrong=0, until=None, opened=self._clock())

    def _counted(self, lock: PinLock | None) -> PinLock | None:
        if lock is None:
            return None
        now = self._clock()
        if lock.until is not None and now < lock.until:
            seconds = int((lock.until - now).total_seconds()) + 1
            raise TooManyError(
                f"{lock.wrong} wrong PINs were tried",
                place="pin",
                mend=f"Wait {seconds} s, or have it unlocked on the studio’s own screen.",
                seconds=seconds,
            )
        wrong = lock.wrong + 1
        return replace(
            lock, wrong=wrong, until=now + wait_after(wrong) if wrong >= TRIES else None
        )

    def _change(
        self, device: str, changed: Callable[[PinLock | None], PinLock | None]
    ) -> PinLock | None:
        """Put a lock in the place of another, again where somebody else was first."""
        with self._mutex:
            for left in range(_AGAIN - 1, -1, -1):
                was = self._text(device)
                lock = changed(read_lock(was))
                try:
                    self._write(device, lock, was)
                except ConflictError:
                    if not left:
                        raise
                else:
                    self._changed()
                    return lock
        raise AssertionError(device)

    def _text(self, device: str) -> str | None:
        if device == THIS_MACHINE:
            return self._store.setting(SETTING).value or None
        for one in self._store.paired():
            if one.id == device:
                return one.pin
        raise NotFoundError("no such device is let in", place="device", mend="Look at the list.")

    def _write(self, device: str, lock: PinLock | None, was: str | None) -> None:
        text = None if lock is None else lock_text(lock)
        if text == was:
            return
        if device != THIS_MACHINE:
            self._store.change_pin(device, text, was=was)
            return
        stands = self._store.setting(SETTING)
        if (stands.value or None) != was:
            raise ConflictError("the lock was changed meanwhile", place="pin")
        self._store.set_setting(SETTING, text or "", version=stands.version)
        self._mine, self._mine_read = lock, True

    def _hashed(self, pin: str) -> str:
        from cryptography.hazmat.primitives.kdf.argon2 import Argon2id  # noqa: PLC0415 - rarely

        with self._hashing:
            return Argon2id(
                salt=os.urandom(_SALT),
                length=_TAG,
                iterations=_PASSES,
                lanes=_LANES,
                memory_cost=_MEMORY,
            ).derive_phc_encoded(pin.encode())

    def _verified(self, kept: str, pin: str) -> bool:
        from cryptography.exceptions import InvalidKey  # noqa: PLC0415 - rarely
        from cryptography.hazmat.primitives.kdf.argon2 import Argon2id  # noqa: PLC0415 - rarely

        try:
            Argon2id.verify_phc_encoded(pin.encode(), kept)
        except InvalidKey:
            return False
        return True


def wait_after(wrong: int) -> timedelta:
    """Return how long one must wait after so many wrong PINs: twice as long each time."""
    return min(FIRST_WAIT * 2 ** min(wrong - TRIES, 20), LONGEST_WAIT)


def _check(pin: str, idle: int) -> None:
    if not (pin.isascii() and pin.isdecimal() and 4 <= len(pin) <= 12):
        raise InputError("a PIN has 4 to 12 figures", place="pin", mend="Give such a one.")
    if idle not in IDLE:
        raise InputError(
            f"a device does not lock itself after {idle} minutes",
            place="idle",
            mend="Choose 5, 15 or 60, or 0 for never.",
        )
