"""A golfer is erased: every record's key destroyed, and out of what the shop learns from."""

from loftwright.errors import ConflictError
from loftwright.services.one_golfer import records_of
from loftwright.services.quiet import running
from loftwright.services.shop_leaving import leave_golfer
from loftwright.services.studio import Studio


def erase_golfer(studio: Studio, golfer: str) -> tuple[str, ...]:
    """Destroy the keys of all records of a golfer, and return their ids.

    Name, contact, guardian, limits, bag, job and free words cannot be read any more, nor in
    a copy of the store made without its keys. Numbers of balls stay, of nobody; the shop learns
    from them no more.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    ConflictError
        If one of the records has a fitting under way.
    StoreError
        If a key cannot be removed; erase again then.
    """
    with studio.lock:
        records = records_of(studio, golfer)
        for one in running(studio):
            if studio.store.fitting(one.fitting).value.golfer in records:
                raise ConflictError(
                    f"a fitting of this golfer runs in {one.bay}",
                    place="golfer",
                    mend="Close it first, or wait half an hour after its last ball.",
                )
        for one_record in records:
            studio.store.forget_golfer(one_record)
        leave_golfer(studio, golfer)
    return records
