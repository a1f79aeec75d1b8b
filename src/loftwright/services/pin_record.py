"""What locks a device, as the store keeps it."""

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Final

_INSTANTS: Final = ("since", "until", "opened")


@dataclass(frozen=True, slots=True, kw_only=True)
class PinLock:
    """What locks a device.

    Attributes
    ----------
    pin : str
        The PIN's Argon2id hash, in the PHC form.
    idle : int
        Minutes after which the device locks itself; 0 for never.
    since : datetime, optional
        Since when it is locked.
    wrong : int
        Wrong tries since the last right one.
    until : datetime, optional
        Until when no PIN is looked at.
    opened : datetime, optional
        When it was last unlocked, at whatever server.
    """

    pin: str
    idle: int = 0
    since: datetime | None = None
    wrong: int = 0
    until: datetime | None = None
    opened: datetime | None = None


def read_lock(text: str | None) -> PinLock | None:
    """Return a lock as the store keeps it."""
    if not text:
        return None
    told = json.loads(text)
    instants = {
        name: datetime.fromisoformat(told[name]) if told.get(name) else None for name in _INSTANTS
    }
    return PinLock(**{**told, **instants})


def lock_text(lock: PinLock) -> str:
    """Return a lock as the store keeps it."""
    told = asdict(lock)
    for name in _INSTANTS:
        told[name] = told[name].isoformat() if told[name] else None
    return json.dumps(told, sort_keys=True)
