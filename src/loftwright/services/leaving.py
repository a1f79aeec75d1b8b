"""A fitter leaves: keys withdrawn, offered in no list; what was written stays with its name."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from loftwright.errors import InputError, NotFoundError
from loftwright.services.day import fittings_in_progress
from loftwright.services.pairing import Pairing
from loftwright.services.quiet import Running, running
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.store.door_interface import PairedDevice

NAME: Final = "people who left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """A fitter who left.

    Attributes
    ----------
    devices : tuple of str
        Names of the devices whose keys were withdrawn.
    """

    name: str
    at: datetime
    devices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What became of a leaving.

    Attributes
    ----------
    running : tuple of str
        Bays in which a fitting in their hand is under way, for somebody else to go on with.
    """

    gone: Gone
    running: tuple[str, ...]


def fitters(studio: Studio) -> tuple[str, ...]:
    """Return the fitters whom lists offer: all who fitted or read marks, without who left."""
    names = [one.fitter.strip() for one in studio.store.outlines()]
    names += list(read_settings(studio).settings.mark_errors)
    away = {_same(one.name) for one in gone(studio)}
    # The newest spelling stands.
    known = {_same(name): " ".join(name.split()) for name in reversed(names) if name}
    left = [name for same, name in known.items() if same not in away]
    return tuple(sorted(left, key=str.casefold))


def gone(studio: Studio) -> tuple[Gone, ...]:
    """Return the fitters who left, the last one first."""
    text = studio.store.setting(NAME).value
    found = [
        Gone(
            name=one["name"],
            at=datetime.fromisoformat(one["at"]),
            devices=tuple(one["devices"]),
        )
        for one in (json.loads(text) if text else ())
    ]
    return tuple(sorted(found, key=lambda one: one.at, reverse=True))


def refuse_gone(studio: Studio, name: str) -> None:
    """Refuse a fitter who left as the one who fits now.

    Raises
    ------
    InputError
        If the fitter left.
    """
    if any(_same(one.name) == _same(name) for one in gone(studio)):
        raise InputError(
            f"{name} left",
            place="fitter",
            mend="Choose who fits now; the owner can let them back on the page Bays.",
        )


def devices_of(pairing: Pairing, name: str) -> tuple[PairedDevice, ...]:
    """Return the devices that are called by a person's name."""
    return tuple(one for one in pairing.devices() if bears_name(one.name, name))


def bears_name(device: str, name: str) -> bool:
    """Return whether what a device is called holds a person's name."""
    words = {_same(word) for word in name.split() if len(word) > 1}
    called = {_same(word.strip("'’s.,")) for word in device.split()}
    return bool(words & called) or _same(name) in _same(device)


def leave(studio: Studio, pairing: Pairing, name: str, devices: Sequence[str]) -> Left:
    """End a person's access in one act; every record stays, with the name that it bears.

    Parameters
    ----------
    studio : Studio
    pairing : Pairing
    name : str
    devices : sequence of str
        Ids of the devices in the person's hands; their keys open nothing more, at once.

    Raises
    ------
    InputError
        If nobody of that name fitted here, or who it is left already.
    NotFoundError
        If a device is not let in; nobody's access is ended then.
    """
    known = {_same(one): one for one in fitters(studio)}
    if _same(name) not in known:
        raise InputError(
            f"no fitter here is called {name!r}", place="name", mend="Choose one of the list."
        )
    let_in = {one.id: one for one in pairing.devices()}
    if any(one not in let_in for one in devices):
        raise NotFoundError(
            "one of these devices is let in no more",
            place="device",
            mend="Look at the list again; nothing was changed.",
        )
    with studio.lock:
        person = Gone(
            name=known[_same(name)],
            at=studio.now(),
            devices=tuple(let_in[one].name for one in devices),
        )
        hands = in_hands_of(studio, person.name)
        _keep(studio, (*gone(studio), person))
    for one in devices:
        pairing.withdraw(one)
    return Left(gone=person, running=tuple(dict.fromkeys(one.bay for one in hands)))


def come_back(studio: Studio, name: str) -> None:
    """Offer a person in lists again; devices are let in anew, each by a code.

    Raises
    ------
    NotFoundError
        If nobody of that name left.
    """
    with studio.lock:
        left = gone(studio)
        stay = tuple(one for one in left if _same(one.name) != _same(name))
        if len(stay) == len(left):
            raise NotFoundError(
                f"nobody called {name!r} left", place="name", mend="Look at the list again."
            )
        _keep(studio, stay)


def in_hands_of(studio: Studio, name: str) -> tuple[Running, ...]:
    """Return the fittings in progress that are in a person's hands."""
    theirs = [one for one in fittings_in_progress(studio) if _same(one.fitter) == _same(name)]
    last = {one.fitting: one for one in running(studio)} if theirs else {}
    return tuple(
        last.get(one.id, Running(fitting=one.id, bay=one.bay, by=one.fitter, at=studio.now()))
        for one in theirs
    )


def _keep(studio: Studio, people: Sequence[Gone]) -> None:
    told = [
        {"name": one.name, "at": one.at.isoformat(), "devices": list(one.devices)}
        for one in people
    ]
    text = json.dumps(told, ensure_ascii=False)
    studio.store.set_setting(NAME, text, version=studio.store.setting(NAME).version)


def _same(name: str) -> str:
    return " ".join(name.split()).casefold()
