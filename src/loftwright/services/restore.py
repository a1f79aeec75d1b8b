"""Put a studio back from a backup: checked, opened on trial, and only then in its place."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from tempfile import mkdtemp
from typing import Final

from loftwright.domain.golfer import Consents
from loftwright.errors import ConflictError, IntakeError, LoftwrightError, StoreError
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.backup_files import TOPS, Manifest
from loftwright.services.backup_tar import read_backup, read_manifest
from loftwright.services.key_copies import bring_back, copies_of
from loftwright.services.quiet import running_in, running_words
from loftwright.services.restore_swap import (
    FORMER,
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
from loftwright.store.sqlite import open_store, open_store_to_read
from loftwright.store.tombstones import FOLDER as ERASED
from loftwright.store.tombstones import copy_marks

OVER: Final = "--even-over"
"""The option that puts a studio aside that stands where one is restored."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """A studio that was put back.

    Attributes
    ----------
    into : str
        The data folder, or the address of the database.
    former : Path, optional
        Where what stood before lies now; None where nothing stood.
    keys : int
        Golfers' keys that came back from copies.
    taken_back : int
        Golfers who took a consent back since; it stays taken back.
    """

    into: str
    manifest: Manifest
    tried: Tried
    former: Path | None
    keys: int
    taken_back: int


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
    ConflictError
        If a studio stands there that is not to be put aside, or is open, or has a fitting that is
        under way.
    StoreError
        If the store in it is damaged, or the folder cannot be written.
    """
    try:
        manifest = read_manifest(file)
        must_be_known(manifest, str(file))
        finish_restore(data)
        _refuse_over(data, over=over)
        with _fresh_in(data, manifest) as fresh:
            return _restored(file, data, now, fresh, url=url, keys=keys)
    except OSError as error:
        raise _unusable(error, file, data) from error


def _restored(
    file: Path, data: Path, now: datetime, fresh: Path, *, url: str, keys: Path | None
) -> Restored:
    manifest = read_backup(file, fresh)
    must_be_sound(fresh, manifest, str(file))
    if not url:
        _refuse_while_used(data, now)
    stand = {} if url else consents_of(data)
    tried, back, taken = _made_ready(fresh, data, (copies_of(data), *_given(keys, file)), stand)
    if url:
        _into_database(fresh, data, url)
    former = _swap(fresh, data, now, with_store=not url)
    return Restored(
        into=url or str(data),
        manifest=manifest,
        tried=tried,
        former=former,
        keys=back,
        taken_back=taken,
    )


def _made_ready(
    fresh: Path, data: Path, copies: tuple[Path, ...], stand: dict[str, Consents]
) -> tuple[Tried, int, int]:
    """Bring what was unpacked up to date, read all of it, and carry out again what was undone."""
    store = open_store(fresh)
    try:
        golfers = [one.value.id for one in store.golfers()]
        _lay_keys(fresh, data, copies, golfers)
        read = must_read(store)
        erased = erase_again(Studio(store=store, folder=fresh), data)
        taken = take_back(store, stand)
        sealed = set(nameless(store)) - set(erased)
    finally:
        store.close()
    practice = fresh / TRAINING
    if (practice / STORE).exists():
        _must_read_practice(practice, data / TRAINING, copies)
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


def _lay_keys(fresh: Path, data: Path, copies: tuple[Path, ...], golfers: list[str]) -> None:
    """Lay beside what was unpacked the keys that there are, so that all of it can be read."""
    for place in (data, *copies):
        copy_marks(place, fresh)
    for place in (data / KEYS, *copies):
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


def _refuse_over(data: Path, *, over: bool) -> None:
    there = [name for name in TOPS if (data / name).exists()]
    if there and not over:
        raise ConflictError(
            f"a studio stands there: {', '.join(there)}",
            place=str(data),
            mend=f"{OVER} puts it aside in the same folder; or name an empty one with --into.",
        )


def _refuse_while_used(data: Path, now: datetime) -> None:
    with alone_on(data / STORE) as alone:
        if not alone:
            raise _open(data)
    if not (data / STORE).exists():
        return
    try:
        store = open_store_to_read(data)
    except LoftwrightError:
        # Nothing that can be read is under way in it, and it may be why one restores.
        return
    try:
        found = running_in(store, now)
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


def _open(data: Path) -> ConflictError:
    return ConflictError(
        "a program has this studio open",
        place=str(data / STORE),
        mend="Stop `loftwright serve` first, with Ctrl-C; nothing was changed.",
    )


def _swap(fresh: Path, data: Path, now: datetime, *, with_store: bool) -> Path | None:
    """Put what is ready in its place while nobody can open what stands; return where that is."""
    tops = TOPS if with_store else tuple(name for name in TOPS if name != STORE)
    come = tuple(name for name in tops if (fresh / name).exists())
    away = tuple(name for name in tops if name not in come)
    former = _free(data, f"{FORMER}{now:%Y%m%d-%H%M%S}")
    logs = LOGS if with_store else ()
    plan = Plan(fresh=fresh.name, former=former, away=(*away, *logs), come=come)
    (data / BACKUPS).mkdir(mode=0o700, exist_ok=True)
    with turn(data / BACKUPS), alone_on(data / STORE) as alone:
        if with_store and not alone:
            raise _open(data)
        replaced = any((data / name).exists() for name in tops)
        put_in_place(data, plan)
    if not replaced:
        (data / former).rmdir()
    return data / former if replaced else None


def _free(data: Path, name: str) -> str:
    count, free = 1, name
    while (data / free).exists():
        count += 1
        free = f"{name}-{count}"
    return free


def _into_database(fresh: Path, data: Path, url: str) -> None:
    from loftwright.store.postgres import open_postgres  # noqa: PLC0415 - only where it is named

    source: SqlStore = open_store(fresh)
    try:
        target = open_postgres(url, data)
        try:
            copy_store(source, target)
        finally:
            target.close()
    finally:
        source.close()


@contextmanager
def _fresh_in(data: Path, manifest: Manifest) -> Iterator[Path]:
    """Give a folder in the data folder to unpack into; what is left in it afterwards goes."""
    made = not data.exists()
    data.mkdir(parents=True, exist_ok=True)
    wanted, free = 2 * manifest.size, shutil.disk_usage(data).free
    if free < wanted:
        raise StoreError(
            f"unpacking needs about {wanted // 1_000_000 + 1} MB, and {free // 1_000_000} MB are "
            "free",
            place=str(data),
            mend="Free some space; nothing was changed.",
        )
    fresh = Path(mkdtemp(prefix=FRESH, dir=data))
    try:
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


def _given(keys: Path | None, file: Path) -> tuple[Path, ...]:
    beside = file.parent / KEYS
    return (*((keys,) if keys is not None else ()), *((beside,) if beside.is_dir() else ()))


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
