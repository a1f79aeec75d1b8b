"""Who was erased, so that an erase that was cut off, or undone by a backup, is carried out again.

The list names nobody: a golfer stands in it as the digest of a random id, which cannot be turned
back. It lies beside the store and never in a backup's place.
"""

import json
import os
import tempfile
from collections.abc import Collection
from dataclasses import asdict, dataclass, replace
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError

FILE: Final = "erased.json"
FORM: Final = "loftwright erased 1"
KEY_COPIES_DAYS: Final = 7
"""Days within which every copy of the golfers' keys is written anew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """A record of a golfer that was erased, or is to be.

    Attributes
    ----------
    who : str
        Digest of its id.
    day : str
        When it was asked for.
    done : bool
    """

    who: str
    day: str
    done: bool = False


def digest_of(golfer: str) -> str:
    """Return the digest under which a record of a golfer stands in the list."""
    return sha256(f"erased golfer {golfer}".encode()).hexdigest()


def read_erased(folder: Path) -> tuple[Erased, ...]:
    """Return who was erased in a data folder, in the order in which it was asked for.

    Raises
    ------
    StoreError
        If the list cannot be read.
    """
    place = folder / FILE
    try:
        told = json.loads(place.read_text(encoding="utf-8"))
        if told["form"] != FORM:
            raise ValueError(told["form"])  # noqa: TRY301 - told with the others below
        return tuple(Erased(**one) for one in told["erased"])
    except FileNotFoundError:
        return ()
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise StoreError(
            f"the list of who was erased cannot be read: {error}",
            place=str(place),
            mend="Bring the file back from a copy of the data folder; nobody is erased or "
            "brought back meanwhile.",
        ) from error


def begin(folder: Path, golfers: Collection[str], day: date) -> None:
    """Have it on the disk that these records are to be erased, before anything is."""
    known = {one.who: one for one in read_erased(folder)}
    for golfer in golfers:
        who = digest_of(golfer)
        known[who] = Erased(who=who, day=day.isoformat())
    _write(folder, tuple(known.values()))


def end(folder: Path) -> None:
    """Have it on the disk that everybody in the list is erased."""
    _write(folder, tuple(replace(one, done=True) for one in read_erased(folder)))


def carry_over(source: Path, target: Path) -> None:
    """Add who was erased in one data folder to the list of another, to be carried out there."""
    known = {one.who: one for one in read_erased(target)}
    for one in read_erased(source):
        known.setdefault(one.who, replace(one, done=False))
    if known:
        _write(target, tuple(known.values()))


def _write(folder: Path, erased: tuple[Erased, ...]) -> None:
    text = json.dumps({"form": FORM, "erased": [asdict(one) for one in erased]}, indent=1)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        door, draft = tempfile.mkstemp(prefix=".new-", dir=folder)
        try:
            with os.fdopen(door, "w", encoding="utf-8") as held:
                held.write(f"{text}\n")
                held.flush()
                os.fsync(held.fileno())
            Path(draft).replace(folder / FILE)
        except BaseException:
            Path(draft).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise StoreError(
            f"the list of who was erased cannot be written: {error.strerror}",
            place=str(folder / FILE),
            mend="Make the folder writable and free some space; then erase again.",
        ) from error
