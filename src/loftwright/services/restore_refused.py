"""When nothing is restored: over a studio that stands, is open, or is just being used."""

from datetime import datetime
from pathlib import Path
from typing import Final

from loftwright.errors import ConflictError, LoftwrightError, NotFoundError
from loftwright.services.backup_files import TOPS
from loftwright.services.quiet import lately, running_in, running_words
from loftwright.store.engine import FILE as STORE
from loftwright.store.snapshot import alone_on
from loftwright.store.sqlite import open_store_to_read

OVER: Final = "--even-over"
"""The option that puts a studio aside that stands where one is restored."""


def refuse_over(data: Path, *, over: bool) -> None:
    """Refuse to put aside a studio of which nobody said that it may be.

    Raises
    ------
    ConflictError
        It names what stands there.
    """
    there = [name for name in TOPS if (data / name).exists()]
    if there and not over:
        raise ConflictError(
            f"a studio stands there: {', '.join(there)}",
            place=str(data),
            mend=f"{OVER} puts it aside in the same folder; or name an empty one with --into.",
        )


def refuse_while_used(data: Path, now: datetime) -> None:
    """Refuse while a program has the studio open, or somebody is being fitted in it.

    An act from the future says that of nobody, and must not hold a restore up until then.

    Raises
    ------
    ConflictError
        It says who is fitted where.
    """
    with alone_on(data / STORE) as alone:
        if not alone:
            raise is_open(data)
    if not (data / STORE).exists():
        return
    try:
        store = open_store_to_read(data)
    except LoftwrightError:
        # Nothing that can be read is under way in it, and it may be why one restores.
        return
    try:
        found = lately(running_in(store, now), now)
    except LoftwrightError:
        return
    finally:
        store.close()
    if found:
        raise ConflictError(
            f"nothing is restored while {running_words(found, now)}",
            place="studio",
            mend="Close the fitting, or wait half an hour after its last ball.",
        )


def refuse_without_keys(keys: Path | None) -> None:
    """Refuse a folder of keys that is not there: every golfer would come back without a name.

    Raises
    ------
    NotFoundError
        If it is so.
    """
    if keys is not None and not keys.is_dir():
        raise NotFoundError(
            "this folder is not there",
            place=str(keys),
            mend="Plug in the drive it lies on; or leave --keys out, and golfers whose keys are "
            "nowhere else come back without a name. Nothing was changed.",
        )


def is_open(data: Path) -> ConflictError:
    """Return the error for a studio that a program has open."""
    return ConflictError(
        "a program has this studio open",
        place=str(data / STORE),
        mend="Stop `loftwright serve` first, with Ctrl-C; nothing was changed.",
    )
