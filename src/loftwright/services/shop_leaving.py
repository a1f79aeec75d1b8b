"""What leaves the shop record at once: golfers who say no, and balls of recalled pieces."""

import logging
from collections.abc import Callable, Collection, Iterable
from functools import partial
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.doubted_pieces import doubted
from loftwright.services.one_golfer import records_of
from loftwright.services.shop_folder import (
    code_of_golfer,
    note_trouble,
    place_of,
    places_allowed,
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
    return _leave(studio, records_of(studio, golfer))


def golfer_again(studio: Studio, golfers: Collection[str]) -> None:
    """Take out everything of records that were merged or taken apart, and have it kept again."""
    _leave(studio, golfers)
    keep_again(studio, fittings_of_golfers(studio, golfers))


def fittings_of_golfers(studio: Studio, golfers: Collection[str]) -> tuple[str, ...]:
    """Return the fittings of these records of golfers."""
    return tuple(one.fitting for one in studio.store.outlines() if one.golfer in golfers)


def leave_pieces(studio: Studio, pieces: Collection[str]) -> bool:
    """Take fittings in which pieces were hit out of the record, until they are kept again.

    Every other ball of theirs comes back when the fitting is kept without those of the pieces.
    """
    folder = record_folder(studio)
    if not folder.exists():
        return True
    touched = fittings_of_pieces(studio, pieces)
    there = {place_of(studio, studio.store.fitting(one).value) for one in touched}
    done = _tried(studio, "a recall", lambda: drop_all(folder, there))
    keep_again(studio, touched)
    return done


def pieces_changed(studio: Studio, pieces: Collection[str]) -> None:
    """Follow pieces that were changed or looked at: out with those in doubt, the others again."""
    in_doubt = doubted(studio)
    leave_pieces(studio, [one for one in pieces if one in in_doubt])
    keep_again(studio, fittings_of_pieces(studio, [one for one in pieces if one not in in_doubt]))


def fittings_of_pieces(studio: Studio, pieces: Collection[str]) -> tuple[str, ...]:
    """Return the fittings in which any of these pieces was in a club."""
    return tuple(sorted(studio.store.fittings_with(set(pieces)))) if pieces else ()


def keep_again(studio: Studio, fittings: Iterable[str]) -> None:
    """Have fittings looked at again by whoever keeps the record behind the pages."""
    for fitting in fittings:
        studio.hub.publish(f"{RECORD}{fitting}", 0)


def take_out_stale(studio: Studio) -> int:
    """Take out what may not stand in the record any more, and return how many fittings went.

    What the store does not know stays: nobody can say here whose it is.

    Raises
    ------
    StoreError
        If the record cannot be read or written.
    """
    folder = record_folder(studio)
    there = standing(folder)
    outlines = studio.store.outlines() if there else ()
    allowed, known = places_allowed(studio, outlines), {one.fitting for one in outlines}
    stale = {place for place in there if place[0] in known and allowed.get(place[0]) != place}
    drop_all(folder, stale)
    return len(stale)


def _leave(studio: Studio, golfers: Collection[str]) -> bool:
    folder = record_folder(studio)
    if not folder.exists():
        return True
    tried = [
        _tried(studio, golfer, partial(erase, folder, code_of_golfer(golfer)))
        for golfer in sorted(golfers)
    ]
    return all(tried)


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
