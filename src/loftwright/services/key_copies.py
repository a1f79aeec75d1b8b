"""Copies of golfers' keys: apart from every backup, and gone when a golfer is erased.

A key that somebody destroyed is taken out of the copies at once. One that merely is not there any
more stays for a stated time, in which a slip can be mended, and is then destroyed too.
"""

import json
import shutil
import time
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.training_room import FOLDER as TRAINING
from loftwright.store.keys import DRAFT, overwrite, write_key
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.tombstones import copy_marks, settle, was_erased

KEPT: Final = timedelta(days=7)
"""After so long a key that is not there any more is gone from every copy."""
_ENDING: Final = ".key"
_GONE: Final = "gone.json"
"""Since when each key is not there any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyCopies:
    """What became of the copies.

    Attributes
    ----------
    kept : int
        Keys of which there is a copy now.
    destroyed : int
        Copies that went.
    waiting : int
        Copies of keys that are not there any more, which go when their time is over.
    """

    kept: int
    destroyed: int
    waiting: int


def copies_of(data: Path) -> Path:
    """Return the folder of a data folder in which copies of keys lie."""
    return data / BACKUPS / KEYS


def copy_keys(data: Path, to: Path, now: datetime) -> KeyCopies:
    """Bring copies of golfers' keys up to date.

    Parameters
    ----------
    data : Path
        The data folder.
    to : Path
        The folder of copies; made if it is not there.
    now : datetime

    Raises
    ------
    StoreError
        If they cannot be written or destroyed.
    """
    try:
        parts = [_copy(data, to, now), _copy(data / TRAINING, to / TRAINING, now)]
        copy_marks(data, to)
    except OSError as error:
        raise _unwritable(error, to) from error
    return KeyCopies(
        kept=sum(one.kept for one in parts),
        destroyed=sum(one.destroyed for one in parts),
        waiting=sum(one.waiting for one in parts),
    )


def bring_back(copies: Path, data: Path, golfers: Iterable[str], *, trial: bool = False) -> int:
    """Give golfers their keys again from copies, unless they were erased; return how many.

    Parameters
    ----------
    copies : Path
        A folder of copies.
    data : Path
        The data folder that is given what it lacks; what it has stays.
    golfers : iterable of str
    trial : bool
        Whether the folder goes again, so that nothing needs to wait for the disk.

    Raises
    ------
    StoreError
        If a key cannot be written.
    """
    came = 0
    keys = data / KEYS
    try:
        for golfer in golfers:
            copy, key = copies / f"{golfer}{_ENDING}", keys / f"{golfer}{_ENDING}"
            erased = was_erased(data, golfer) or was_erased(copies, golfer)
            if erased or key.exists() or not copy.exists():
                continue
            keys.mkdir(mode=0o700, parents=True, exist_ok=True)
            if trial:
                shutil.copyfile(copy, key)
            else:
                write_key(key, copy.read_bytes())
            came += 1
        if came:
            settle(keys)
    except OSError as error:
        raise _unwritable(error, keys) from error
    return came


def names_in(folder: Path) -> Iterator[str]:
    """Yield the golfers whose keys lie in a folder, in order."""
    for file in sorted(folder.glob(f"*{_ENDING}")):
        yield file.name.removesuffix(_ENDING)


def _copy(home: Path, to: Path, now: datetime) -> KeyCopies:
    _drop_drafts(to)
    _drop_drafts(home / KEYS)
    there, copied = set(names_in(home / KEYS)), set(names_in(to))
    if not there and not copied:
        return KeyCopies(kept=0, destroyed=0, waiting=0)
    to.mkdir(mode=0o700, parents=True, exist_ok=True)
    for name in sorted(there):
        _renew(home / KEYS / f"{name}{_ENDING}", to / f"{name}{_ENDING}")
    erased = {name for name in copied - there if was_erased(home, name)}
    since = _since(to, copied - there - erased, now)
    over = {name for name, at in since.items() if now - at >= KEPT}
    destroyed = sum(_destroy(to / f"{name}{_ENDING}") for name in sorted(erased | over))
    waiting = {name: at for name, at in since.items() if name not in over}
    _note(to, waiting)
    settle(to)
    return KeyCopies(kept=len(there), destroyed=destroyed, waiting=len(waiting))


def _drop_drafts(folder: Path) -> None:
    """Destroy keys that were being written when the power went: no erase finds them by name."""
    for draft in folder.glob(f"{DRAFT}*"):
        with suppress(FileNotFoundError):
            # Gone meanwhile, it has become a key.
            if time.time() - draft.stat().st_mtime >= KEPT.total_seconds():
                overwrite(draft)
                draft.unlink()


def _renew(key: Path, copy: Path) -> None:
    """Copy a key where there is no copy or another one; one that goes meanwhile is let go."""
    try:
        raw = key.read_bytes()
    except FileNotFoundError:
        return
    if not copy.exists() or copy.read_bytes() != raw:
        write_key(copy, raw)


def _since(to: Path, gone: Iterable[str], now: datetime) -> dict[str, datetime]:
    """Return since when each of these keys is not there, by what was noted of them before."""
    try:
        noted = json.loads((to / _GONE).read_bytes())
        known = {name: datetime.fromisoformat(noted[name]) for name in gone if name in noted}
    except (FileNotFoundError, ValueError, TypeError):
        known = {}
    # A clock that was set back must not make a copy stay longer.
    return {name: min(known.get(name, now), now) for name in gone}


def _note(to: Path, waiting: dict[str, datetime]) -> None:
    file = to / _GONE
    if not waiting:
        file.unlink(missing_ok=True)
        return
    draft = to / f".{_GONE}"
    told = {name: at.isoformat() for name, at in sorted(waiting.items())}
    draft.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
    draft.replace(file)


def _destroy(copy: Path) -> int:
    if not copy.exists():
        return 0
    overwrite(copy)
    copy.unlink()
    settle(copy.parent)
    return 1


def _unwritable(error: OSError, folder: Path) -> StoreError:
    return StoreError(
        f"copies of golfers' keys cannot be written or destroyed: {error.strerror or error}",
        place=str(error.filename or folder),
        mend="Make the folder writable, or free some space; then run `loftwright backup`.",
    )
