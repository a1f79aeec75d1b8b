"""Open a restored store on trial, before it takes the place of the one that stands."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from loftwright.domain.golfer import Consents
from loftwright.errors import LoftwrightError, SchemaError, StoreError
from loftwright.services.backup_files import Manifest
from loftwright.services.one_golfer import records_of
from loftwright.services.records_read import ReadThrough, read_everything
from loftwright.services.shop_leaving import leave_golfer
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Store
from loftwright.store.migrate import SCRIPTS
from loftwright.store.schema import HEAD
from loftwright.store.snapshot import counts_in, faults_in
from loftwright.store.sqlite import open_store_to_read
from loftwright.store.tombstones import was_erased


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What a restored store holds.

    Attributes
    ----------
    sealed : int
        Golfers whose key is not there and who were not erased: they stay, without a name.
    erased : int
        Golfers who were erased since, and are again.
    """

    golfers: int
    fittings: int
    balls: int
    sealed: int
    erased: int


def must_be_known(manifest: Manifest, place: str) -> None:
    """Refuse a backup whose tables are those of a newer version.

    Raises
    ------
    SchemaError
        It names both schemas.
    """
    if not (SCRIPTS / "versions" / f"r{manifest.schema}.py").exists():
        raise SchemaError(
            f"it has schema {manifest.schema}, and this version knows schemas up to {HEAD}",
            place=place,
            mend="Install the newer version of Loftwright that made it; nothing was changed.",
        )


def must_be_sound(folder: Path, manifest: Manifest, place: str) -> None:
    """Refuse a store that its database finds faulty, or that holds other rows than it says.

    Raises
    ------
    StoreError
        If it is so.
    """
    try:
        found = faults_in(folder / FILE)
        counts = counts_in(folder / FILE)
    except sqlite3.DatabaseError as error:
        found, counts = (str(error),), {}
    if not found and counts != dict(manifest.counts):
        found = ("its tables hold other rows than it says",)
    if found:
        raise StoreError(
            f"the store in the backup is not sound: {found[0]}",
            place=place,
            mend="Take another backup; nothing was changed.",
        )


def must_read(store: Store) -> ReadThrough:
    """Read every record of a restored store.

    Raises
    ------
    StoreError
        If one cannot be read.
    """
    read = read_everything(store)
    if read.faults:
        first = read.faults[0]
        raise StoreError(
            f"{len(read.faults)} records in the backup cannot be read; the first: {first.why}",
            place=first.place,
            mend="Take another backup; nothing was changed.",
        )
    return read


def erase_again(studio: Studio) -> tuple[str, ...]:
    """Erase in a restored studio whoever was erased since, and return their ids.

    Parameters
    ----------
    studio : Studio
        The restored one, not in its place yet; beside it is written down who was erased. Rows go
        when the studio is opened, as those of an erase that was cut off.
    """
    marked = studio.folder
    gone = [one.value.id for one in studio.store.golfers() if was_erased(marked, one.value.id)]
    for golfer in gone:
        # A fitting that was under way when the backup was made must not keep a golfer in it.
        for record in records_of(studio, golfer):
            studio.store.forget_golfer(record)
        leave_golfer(studio, golfer)
    return tuple(gone)


def nameless(store: Store) -> tuple[str, ...]:
    """Return the golfers whose key is not there."""
    ids = (one.value.id for one in store.golfers())
    return tuple(one for one in ids if store.identity(one) == ERASED)


def consents_of(data: Path) -> dict[str, Consents] | None:
    """Return what golfers agree to in the store that stands; None where it cannot be read."""
    if not (data / FILE).exists():
        return {}
    try:
        store = open_store_to_read(data)
    except LoftwrightError:
        return None
    try:
        return {one.value.id: one.value.consents for one in store.golfers()}
    except LoftwrightError:
        return None
    finally:
        store.close()


def take_back(store: Store, stand: dict[str, Consents]) -> int:
    """Take back in a restored store what golfers took back since; return how many did."""
    count = 0
    for kept in store.golfers():
        golfer = kept.value
        now = stand.get(golfer.id)
        narrowed = golfer.consents if now is None else _narrowed(golfer.consents, now)
        if narrowed != golfer.consents:
            store.change_golfer(replace(golfer, consents=narrowed), version=kept.version)
            count += 1
    return count


def _narrowed(then: Consents, now: Consents) -> Consents:
    names: Iterable[str] = ("keep", "contact", "publish", "shop_record")
    both = {name: getattr(then, name) and getattr(now, name) for name in names}
    return replace(then, **both)
