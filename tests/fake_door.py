"""Devices, their locks and openings of records in dictionaries: a part of the reference."""

from dataclasses import replace
from datetime import datetime, timedelta

from loftwright.domain.golfer import Golfer
from loftwright.domain.opening import Opening
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.door_interface import PairedDevice
from loftwright.store.interface import Versioned


class MemoryDoor:
    """Keeps devices and openings in the order in which they came."""

    _golfers: dict[str, Versioned[Golfer]]

    def __init__(self) -> None:
        self._paired: dict[str, PairedDevice] = {}
        self._openings: list[Opening] = []

    def knows_golfer(self, golfer: str) -> bool:
        raise NotImplementedError

    def knows_fitting(self, fitting: str) -> bool:
        raise NotImplementedError

    def pair(self, device: PairedDevice) -> None:
        keys = {known.key_hash for known in self._paired.values()}
        if device.id in self._paired or device.key_hash in keys:
            raise ConflictError(
                f"a device {device.id}, or one with its key, was let in already", place="device"
            )
        self._paired[device.id] = device

    def paired(self) -> tuple[PairedDevice, ...]:
        return tuple(reversed(self._paired.values()))

    def withdraw(self, device: str, *, at: datetime) -> None:
        known = self._device(device)
        if known.withdrawn_at is None:
            self._paired[device] = replace(known, withdrawn_at=at)

    def change_pin(self, device: str, pin: str | None, *, was: str | None) -> None:
        known = self._device(device)
        if known.pin != was:
            raise ConflictError("the lock was changed meanwhile", place="pin")
        self._paired[device] = replace(known, pin=pin)

    def keep_opening(self, opening: Opening, *, within: timedelta) -> bool:
        if opening.at.tzinfo is None:
            raise InputError("a time has no zone", place="at")
        if not self.knows_golfer(opening.golfer):
            raise NotFoundError("there is no such golfer", place="golfer")
        if opening.fitting is not None and not self.knows_fitting(opening.fitting):
            raise NotFoundError("there is no such fitting", place="fitting")
        if any(
            (one.golfer, one.device) == (opening.golfer, opening.device)
            and abs(one.at - opening.at) < within
            for one in self._openings
        ):
            return False
        self._openings.append(opening)
        return True

    def openings(self, golfer: str, *, most: int) -> tuple[Opening, ...]:
        if not self.knows_golfer(golfer):
            raise NotFoundError("there is no such golfer", place="golfer")
        theirs = {
            kept.value.id
            for kept in self._golfers.values()
            if golfer in {kept.value.id, kept.value.merged_into}
        }
        mine = [one for one in reversed(self._openings) if one.golfer in theirs]
        return tuple(sorted(mine, key=lambda one: one.at, reverse=True)[:most])

    def forget_openings(self, before: datetime) -> int:
        kept = [one for one in self._openings if one.at >= before]
        went = len(self._openings) - len(kept)
        self._openings = kept
        return went

    def forget_openings_of(self, golfer: str) -> None:
        self._openings = [one for one in self._openings if one.golfer != golfer]

    def _device(self, device: str) -> PairedDevice:
        if device not in self._paired:
            raise NotFoundError(f"there is no device {device!r}", place="device")
        return self._paired[device]
