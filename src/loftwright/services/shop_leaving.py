"""What leaves the shop record at once: golfers who say no, and balls of recalled pieces."""

import logging
from collections.abc import Callable, Collection, Iterable
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.shop_folder import (
    code_of_golfer,
    may_stand,
    note_trouble,
    record_folder,
)
from loftwright.services.studio import Studio
from loftwright.shop.record import drop_all, erase, standing
from loftwright.store.topics import RECORD

log: Final = logging.getLogger(__name__)


def leave_golfer(studio: Studio, golfer: str) -> bool:
    """Take everything of a golfer out of the shop record, and return whether that was done.

    Where the record cannot be written a note is kept, and the next learning tries again first.
    """
    if not record_folder(studio).exists():
        return True
    return _tried(studio, golfer, lambda: erase(record_folder(studio), code_of_golfer(golfer)))


def drop_fitting(studio: Studio, fitting: str) -> bool:
    """Take a fitting out of the shop record, and return whether that was done."""
    if not record_folder(studio).exists():
        return True
    code = code_of_golfer(studio.store.fitting(fitting).value.golfer)
    return _tried(studio, fitting, lambda: drop_all(record_folder(studio), {(fitting, code)}))


def leave_pieces(studio: Studio, pieces: Collection[str]) -> bool:
    """Take fittings in which pieces were hit out of the record, until they are kept again.

    Every other ball of theirs comes back when the fitting is kept without those of the pieces.
    """
    if not record_folder(studio).exists():
        return True
    touched = fittings_of_pieces(studio, pieces)
    there = {
        (fitting, code_of_golfer(studio.store.fitting(fitting).value.golfer))
        for fitting in touched
    }
    done = _tried(studio, "a recall", lambda: drop_all(record_folder(studio), there))
    keep_again(studio, touched)
    return done


def fittings_of_pieces(studio: Studio, pieces: Collection[str]) -> tuple[str, ...]:
    """Return the fittings in which any of these pieces was in a club."""
    return tuple(sorted(studio.store.fittings_with(set(pieces)))) if pieces else ()


def keep_again(studio: Studio, fittings: Iterable[str]) -> None:
    """Have fittings looked at again by whoever keeps the record behind the pages."""
    for fitting in fittings:
        studio.hub.publish(f"{RECORD}{fitting}", 0)


def take_out_stale(studio: Studio) -> int:
    """Take out what may not stand in the record any more, and return how many fittings went.

    Raises
    ------
    StoreError
        If the record cannot be read or written.
    """
    folder = record_folder(studio)
    if not folder.exists():
        return 0
    allowed = {
        (one.value.id, code_of_golfer(one.value.golfer))
        for one in studio.store.fittings()
        if may_stand(studio, one.value)
    }
    stale = {one for one in standing(folder) if one not in allowed}
    drop_all(folder, stale)
    return len(stale)


def _tried(studio: Studio, of: str, write: Callable[[], object]) -> bool:
    """Do something to the record; keep a note where that fails, so that nothing else does."""
    try:
        write()
    except StoreError as error:
        log.warning("the shop record could not be written: %s", error)
        note_trouble(studio, of, str(error))
        return False
    note_trouble(studio, of, "")
    return True
