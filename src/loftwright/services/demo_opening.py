"""Open the demo: it is filled aside and put in its place whole, or not at all."""

import errno
import os
import shutil
import time
from contextlib import suppress
from pathlib import Path
from tempfile import mkdtemp
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.studio import Studio, new_id
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store

DRAFT: Final = ".draft-"
UNFINISHED: Final = "unfinished"
_FITTINGS: Final = 2
_STILL: Final = 60.0
"""Seconds after which nobody fills a draft any more in which nothing changed [s]."""

_TAKEN: Final = frozenset({errno.EEXIST, errno.ENOTEMPTY})


def prepare_demo(folder: Path) -> None:
    """Have a whole demo in a folder.

    Parameters
    ----------
    folder : Path
        A whole demo in it stays as it is. One whose filling was cut short goes aside, under a
        name that says so, and a fresh one takes its place.

    Raises
    ------
    StoreError
        If the folder beside it cannot be written.
    """
    if _is_whole(folder):
        return
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        _sweep(folder)
        draft = Path(mkdtemp(prefix=f"{DRAFT}{folder.name}-", dir=folder.parent))
        try:
            _fill(draft)
            _put(draft, folder)
        finally:
            shutil.rmtree(draft, ignore_errors=True)
    except OSError as error:
        raise StoreError(
            f"the demo cannot be written: {error.strerror}",
            place=str(folder),
            mend="Make the folder writable, or name another in LOFTWRIGHT_DATA.",
        ) from error


def _is_whole(folder: Path) -> bool:
    """Return whether a folder holds every fitting of the demo; more may have come since."""
    if not (folder / FILE).exists():
        return False
    store = open_store(folder)
    try:
        return len(store.fittings()) >= _FITTINGS
    finally:
        store.close()


def _fill(draft: Path) -> None:
    from loftwright.services.demo_studio import fill_demo  # noqa: PLC0415 - only the first time

    studio = Studio(store=open_store(draft, draft=True), folder=draft)
    try:
        fill_demo(studio)
    finally:
        studio.store.close()
    for path in (*draft.iterdir(), draft):
        _settle(path)


def _put(draft: Path, folder: Path) -> None:
    """Put a filled draft in its place, unless another program was first."""
    if folder.exists() and any(folder.iterdir()) and not _is_whole(folder):
        folder.rename(folder.with_name(f"{folder.name}-{UNFINISHED}-{new_id()}"))
    try:
        draft.rename(folder)
    except OSError as error:
        if error.errno not in _TAKEN:
            raise
    _settle(folder.parent)


def _sweep(folder: Path) -> None:
    """Remove drafts that were cut short, but none that another program fills at this moment."""
    for draft in folder.parent.glob(f"{DRAFT}{folder.name}-*"):
        with suppress(FileNotFoundError):
            newest = max(path.stat().st_mtime for path in (draft, *draft.iterdir()))
            if time.time() - newest > _STILL:
                shutil.rmtree(draft, ignore_errors=True)


def _settle(path: Path) -> None:
    """Have a file or a folder's list on the disk, where the platform can."""
    with suppress(PermissionError):
        door = os.open(path, os.O_RDONLY)
        try:
            os.fsync(door)
        finally:
            os.close(door)
