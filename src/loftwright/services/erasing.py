"""A golfer is erased from everything that a studio keeps, and stays erased.

It is written down first that it shall be done. What was cut off is finished when the studio is
opened next, and what a backup brings back is erased again.
"""

import logging
from collections.abc import Collection
from dataclasses import dataclass
from typing import Final

from loftwright.errors import ConflictError, StoreError
from loftwright.services.erasing_files import (
    alone_in,
    clean_logs,
    forget_keys,
    leave_records,
    remove_exports,
)
from loftwright.services.erasing_learned import learn_without, taught
from loftwright.services.erasing_list import begin, end, read_erased
from loftwright.services.erasing_published import leave_publications
from loftwright.services.erasing_sums import kept_instead
from loftwright.services.one_golfer import records_of
from loftwright.services.quiet import running
from loftwright.services.shop_folder import code_of_golfer
from loftwright.services.studio import Studio
from loftwright.services.summaries import forget_summaries
from loftwright.store.tombstones import digest_of
from loftwright.store.topics import ERASED

log: Final = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class ErasedGolfer:
    """What went with a golfer.

    Attributes
    ----------
    records : int
        Of the golfer.
    fittings : int
    items : int
        Clubs, parts and models of the golfer's own in the rack.
    record_balls : int
        That left the shop record; copies of it in the data folder are left too.
    relearned, unlearned : tuple of int
        Versions of what the shop learned: learned again without the golfer, and gone because
        nobody else had taught them.
    withdrawn : tuple of int
        Comparisons behind which too few golfers are left.
    exports : int
        Folders in the data folder that held the golfer.
    """

    records: int
    fittings: int
    items: int
    record_balls: int
    relearned: tuple[int, ...]
    unlearned: tuple[int, ...]
    withdrawn: tuple[int, ...]
    exports: int


def erase_everywhere(studio: Studio, golfer: str) -> ErasedGolfer:
    """Erase a golfer: every record, every fitting and everything that followed from them.

    Parameters
    ----------
    studio : Studio
    golfer : str
        Any record of the golfer.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    ConflictError
        If one of the records has a fitting under way; nothing is erased then.
    StoreError
        If something cannot be removed; it goes on when the studio is opened again.
    """
    with studio.lock, alone_in(studio.folder):
        records = records_of(studio, golfer)
        refuse_under_way(studio, records)
        begin(studio.folder, records, studio.today())
        return _carry_out(studio, records)


def refuse_under_way(studio: Studio, records: Collection[str]) -> None:
    """Refuse while a golfer is being fitted.

    Raises
    ------
    ConflictError
        If a fitting of one of these records is under way; it says where.
    """
    for one in running(studio):
        if studio.store.fitting(one.fitting).value.golfer in records:
            raise ConflictError(
                f"a fitting of this golfer runs in {one.bay}",
                place="golfer",
                mend="Close it first, or wait half an hour after its last ball.",
            )


def finish_erasures(studio: Studio) -> int:
    """Carry out what was cut off and what a backup brought back, and return how many records.

    Raises
    ------
    StoreError
        If something cannot be removed.
    """
    if not read_erased(studio.folder):
        return 0
    with studio.lock, alone_in(studio.folder):
        listed = read_erased(studio.folder)
        wanted = frozenset(one.who for one in listed)
        back = tuple(one for one in studio.store.golfer_ids() if digest_of(one) in wanted)
        forget_keys(studio.folder, wanted)
        if back:
            _carry_out(studio, back)
        elif any(not one.done for one in listed):
            _settle(studio)
    return len(back)


def finish_if_possible(studio: Studio) -> None:
    """Finish what was cut off; where that fails the log says so, and the studio opens.

    The page of people says that an erase is not finished.
    """
    try:
        finished = finish_erasures(studio)
    except StoreError as error:
        log.warning("an erase could not be finished: %s %s", error.message, error.mend)
        return
    if finished:
        log.info("an erase was finished, or carried out again after a restore")


def unfinished(studio: Studio) -> bool:
    """Return whether an erase was begun and is not finished."""
    return any(not one.done for one in read_erased(studio.folder))


def _carry_out(studio: Studio, records: Collection[str]) -> ErasedGolfer:
    """Erase records that are on the list; what was done before is done again without harm.

    The rows go last: until then they tell what else is to be removed.
    """
    folder, store = studio.folder, studio.store
    fittings = [kept.value for kept in store.fittings() if kept.value.golfer in records]
    versions = taught(studio, records)
    instead = kept_instead(studio, fittings)
    for one in records:
        store.forget_golfer(one)
    forget_keys(folder, {digest_of(one) for one in records})
    codes = {code_of_golfer(one) for one in records}
    record_balls = leave_records(folder, codes)
    unlearned = learn_without(studio, versions, records)
    withdrawn = leave_publications(studio, records)
    exports = remove_exports(folder, records)
    clean_logs(folder, [*records, *(one.id for one in fittings)])
    forget_summaries(studio, [one.id for one in fittings])
    rows = store.erase_golfers(records, keeping=instead)
    _settle(studio)
    return ErasedGolfer(
        records=rows.golfers,
        fittings=rows.fittings,
        items=rows.items,
        record_balls=record_balls,
        relearned=tuple(one for one in versions if one not in unlearned),
        unlearned=unlearned,
        withdrawn=withdrawn,
        exports=exports,
    )


def _settle(studio: Studio) -> None:
    """Leave nothing in files or minds of what has left the tables, and say that it is done."""
    studio.hub.publish(ERASED, 0)
    studio.store.scrub()
    end(studio.folder)
