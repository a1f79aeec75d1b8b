"""Who was erased, so that an erase that was cut off, or undone by a backup, is carried out again.

The marks name nobody: a golfer is known by the digest of a random id, which cannot be turned
back. They lie beside the store and never in a backup's place.
"""

import json
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from loftwright.errors import StoreError
from loftwright.store.tombstones import FOLDER, digest_of, marks_in, write_mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """A record of a golfer that was erased, or is to be.

    Attributes
    ----------
    who : str
        Digest of its id.
    day : str
        When it was asked for; empty where only its key was destroyed, or a backup told of it.
    done : bool
    """

    who: str
    day: str = ""
    done: bool = False


def read_erased(folder: Path) -> tuple[Erased, ...]:
    """Return who was erased in a data folder.

    Raises
    ------
    StoreError
        If it cannot be read.
    """
    try:
        return tuple(_erased(who, told) for who, told in marks_in(folder).items())
    except (OSError, ValueError, LookupError, TypeError) as error:
        raise StoreError(
            f"who was erased cannot be read: {error}",
            place=str(folder / FOLDER),
            mend="Bring the folder back from a copy of the data folder; nobody is erased or "
            "brought back meanwhile.",
        ) from error


def begin(folder: Path, golfers: Collection[str], day: date) -> None:
    """Have it on the disk that these records are to be erased, before anything is."""
    read_erased(folder)
    for golfer in golfers:
        _write(folder, Erased(who=digest_of(golfer), day=day.isoformat()))


def end(folder: Path) -> None:
    """Have it on the disk that everybody who was to be erased is."""
    for one in read_erased(folder):
        if not one.done:
            _write(folder, Erased(who=one.who, day=one.day, done=True))


def _erased(who: str, told: str) -> Erased:
    if not told:
        return Erased(who=who)
    read = json.loads(told)
    return Erased(who=who, day=str(read["day"]), done=bool(read["done"]))


def _write(folder: Path, erased: Erased) -> None:
    try:
        write_mark(folder, erased.who, json.dumps({"day": erased.day, "done": erased.done}))
    except OSError as error:
        raise StoreError(
            f"who is erased cannot be written: {error.strerror}",
            place=str(folder / FOLDER),
            mend="Make the folder writable and free some space; then erase again.",
        ) from error
