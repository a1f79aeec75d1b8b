"""Put a studio back from a backup: checked, opened on trial, and only then in its place."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from tempfile import mkdtemp

from loftwright.domain.golfer import Consents
from loftwright.errors import IntakeError, LoftwrightError, StoreError
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.backup_files import TOPS, Manifest
from loftwright.services.backup_tar import read_backup, read_manifest
from loftwright.services.key_copies import bring_back, copies_of
from loftwright.services.restore_aside import aside_name
from loftwright.services.restore_refused import (
    is_open,
    refuse_over,
    refuse_while_used,
    refuse_without_keys,
)
from loftwright.services.restore_swap import (
    FRESH,
    LOGS,
    PLAN,
    Plan,
    finish_restore,
    put_in_place,
)
from loftwright.services.restore_trial import (
    Tried,
    consents_of,
    erase_again,
    must_be_known,
    must_be_sound,
    must_read,
    nameless,
    take_back,
)
from loftwright.services.studio import Studio
from loftwright.services.training_room import FOLDER as TRAINING
from loftwright.shop.turns import turn
from loftwright.store.copying import copy_store
from loftwright.store.engine import FILE as STORE
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.snapshot import alone_on
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from loftwright.store.tombstones import FOLDER as ERASED
from loftwright.store.tombstones import copy_marks


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """A studio that was put back.

    Attributes
    ----------
    into : str
        The data folder, or the address of the database without its password.
    former : Path, optional
        Where what stood before lies now; None where nothing stood.
    keys : int
        Golfers' keys that came back from copies.
    taken_back : int, optional
        Golfers who took a consent back since; it stays taken back. None where a store stood that
        cannot be read, so that nobody knows.
    """

    into: str
    manifest: Manifest
    tried: Tried
    former: Path | None
    keys: int
    taken_back: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What became of golfers since the backup.

    Attributes
    ----------
    marks : tuple of Path
        Folders in which it may be written down who was erased.
    keys : tuple of Path
        Folders with copies of keys.
    consents : dict of str to Consents
        What golfers agree to now.
    """

    marks: tuple[Path, ...]
    keys: tuple[Path, ...]
    consents: dict[str, Consents]


def restore(
    file: Path,
    data: Path,
    now: datetime,
    *,
    url: str = "",
    keys: Path | None = None,
    over: bool = False,
) -> Restored:
    """Put a studio back from a backup.

    Parameters
    ----------
    file : Path
        The backup.
    data : Path
        The data folder that is given the studio; made if it is not there.
    now : datetime
    url : str
        Of an empty PostgreSQL database that is given the store; it goes into the folder without.
    keys : Path, optional
        A folder with copies of golfers' keys, beside those in the data folder.
    over : bool
        Whether a studio that stands there is put aside.

    Raises
    ------
    IntakeError
        If the file is no whole backup.
    SchemaError
        If a newer version made it.
    NotFoundError
        If the folder of keys is not there.
    ConflictError
        If a studio stands there that is not to be put aside, or is open, or has a fitting that is
        under way.
    StoreError
        If the store in it is damaged, or the folder cannot be written.
    """
    try:
        manifest = read_manifest(file)
        must_be_known(manifest, str(file))
        refuse_without_keys(keys)
        finish_restore(data)
        refuse_over(data, over=over)
        with _fresh_in(data, manifest) as fresh:
            return _restored(file, data, now, fresh, url=url, keys=keys)
    except OSError as error:
        raise _unusable(error, file, data) from error


def _restored(
    file: Path, data: Path, now: datetime, fresh: Path, *, url: str, keys: Path | None
) -> Restored:
    manifest = read_backup(file, fresh)
    must_be_sound(fresh, manifest, str(file))
    refuse_while_used(data, now)
    stand = {} if url else consents_of(data)
    known = _Known(
        marks=(data, file.parent, *((keys.parent,) if keys else ())),
        keys=(copies_of(data), *((keys,) if keys else ()), file.parent / KEYS),
        consents=stand or {},
    )
    tried, back, taken = _made_ready(fresh, data, known)
    into = _into_database(fresh, data, url) if url else str(data)
    former = _swap(fresh, data, now, with_store=not url)
    return Restored(
        into=into,
        manifest=manifest,
        tried=tried,
        former=former,
        keys=back,
        taken_back=None if stand is None else taken,
    )


def _made_ready(fresh: Path, data: Path, known: _Known) -> tuple[Tried, int, int]:
    """Bring what was unpacked up to date, read all of it, and carry out again what was undone."""
    store = open_store(fresh)
    try:
        golfers = [one.value.id for one in store.golfers()]
        _lay_keys(fresh, data, known, golfers)
        read = must_read(store)
        erased = erase_again(Studio(store=store, folder=fresh))
        taken = take_back(store, known.consents)
        sealed = set(nameless(store)) - set(erased)
    finally:
        store.close()
    practice = fresh / TRAINING
    if (practice / STORE).exists():
        _must_read_practice(practice, data / TRAINING, known.keys)
    back = bring_back(fresh / KEYS, data, golfers)
    copy_marks(fresh, data)
    shutil.rmtree(fresh / KEYS, ignore_errors=True)
    shutil.rmtree(fresh / ERASED, ignore_errors=True)
    _on_the_disk(fresh)
    tried = Tried(
        golfers=len(golfers),
        fittings=read.fittings,
        balls=read.balls,
        sealed=len(sealed),
        erased=len(erased),
    )
    return tried, back, taken


def _lay_keys(fresh: Path, data: Path, known: _Known, golfers: list[str]) -> None:
    """Lay beside what was unpacked the keys that there are, so that all of it can be read."""
    for place in (*known.marks, *known.keys):
        copy_marks(place, fresh)
    for place in (data / KEYS, *known.keys):
        bring_back(place, fresh, golfers, trial=True)


def _must_read_practice(practice: Path, stands: Path, copies: tuple[Path, ...]) -> None:
    """Read every record of the training bay, and give its invented golfers their keys."""
    store = open_store(practice)
    try:
        golfers = [one.value.id for one in store.golfers()]
        for place in (stands / KEYS, *(one / TRAINING for one in copies)):
            bring_back(place, practice, golfers)
        must_read(store)
    finally:
        store.close()


def _swap(fresh: Path, data: Path, now: datetime, *, with_store: bool) -> Path | None:
    """Put what is ready in its place while nobody can open what stands; return where that is."""
    tops = TOPS if with_store else tuple(name for name in TOPS if name != STORE)
    come = tuple(name for name in tops if (fresh / name).exists())
    away = tuple(name for name in tops if name not in come)
    logs = LOGS if with_store else ()
    plan = Plan(fresh=fresh.name, former=aside_name(data, now), away=(*away, *logs), come=come)
    (data / BACKUPS).mkdir(mode=0o700, exist_ok=True)
    with turn(data / BACKUPS), alone_on(data / STORE) as alone:
        if not alone:
            raise is_open(data)
        put_in_place(data, plan)
    former = data / plan.former
    return former if former.exists() else None


def _into_database(fresh: Path, data: Path, url: str) -> str:
    """Copy a store that is ready into a database, and return its address without a password."""
    from loftwright.store.postgres import open_postgres, shown  # noqa: PLC0415 - only where named

    source: SqlStore = open_store(fresh)
    try:
        target = open_postgres(url, data)
        try:
            copy_store(source, target)
        finally:
            target.close()
    finally:
        source.close()
    return shown(url)


@contextmanager
def _fresh_in(data: Path, manifest: Manifest) -> Iterator[Path]:
    """Give a folder in the data folder to unpack into; what is left in it afterwards goes."""
    made = not data.exists()
    data.mkdir(parents=True, exist_ok=True)
    fresh = Path(mkdtemp(prefix=FRESH, dir=data))
    try:
        _must_have_room(data, manifest)
        yield fresh
    except BaseException:
        _forget(data, fresh, made=made)
        raise


def _forget(data: Path, fresh: Path, *, made: bool) -> None:
    if (data / PLAN).exists():
        # It is half in its place: whoever opens the studio next puts it there whole.
        return
    shutil.rmtree(fresh, ignore_errors=True)
    if made and not any(data.iterdir()):
        data.rmdir()


def _must_have_room(data: Path, manifest: Manifest) -> None:
    wanted, free = 2 * manifest.size, shutil.disk_usage(data).free
    if free < wanted:
        raise StoreError(
            f"unpacking needs about {wanted // 1_000_000 + 1} MB, and {free // 1_000_000} MB are "
            "free",
            place=str(data),
            mend="Free some space; nothing was changed.",
        )


def _on_the_disk(folder: Path) -> None:
    for path in folder.rglob("*"):
        door = os.open(path, os.O_RDONLY)
        try:
            os.fsync(door)
        finally:
            os.close(door)


def _unusable(error: OSError, file: Path, data: Path) -> LoftwrightError:
    said = error.strerror or str(error)
    if str(error.filename) == str(file):
        return IntakeError(
            f"the backup cannot be read: {said}",
            place=str(file),
            mend="Name a file that `loftwright backup` made.",
        )
    return StoreError(
        f"the studio cannot be put back: {said}",
        place=str(error.filename or data),
        mend="Make the data folder writable and free some space; what stands is as it was.",
    )
