"""What goes into a backup: one moment of the store, and the files that lean on it."""

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Final

from sqlalchemy import Engine
from sqlalchemy.exc import DatabaseError

from loftwright import __version__
from loftwright.errors import IntakeError, NotFoundError, StoreError
from loftwright.services.backup_files import MOST_MEMBER, Manifest, Member, check_name
from loftwright.services.data_folder import MAPPINGS
from loftwright.services.restore_swap import finish_restore
from loftwright.services.shop_folder import FOLDER as SHOP
from loftwright.services.studio import Studio
from loftwright.services.training_plays import FOLDER as PLAYS
from loftwright.services.training_room import FOLDER as TRAINING
from loftwright.store.engine import FILE as STORE
from loftwright.store.engine import sqlite_reader
from loftwright.store.migrate import revision_of
from loftwright.store.snapshot import counts_in, snapshot
from loftwright.store.sql import SqlStore

_AT_ONCE: Final = 1 << 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """What is backed up.

    Attributes
    ----------
    folder : Path
        The data folder.
    snapshot : callable
        Writes the store as it stands at one moment into a SQLite file; returns its revision.
    """

    folder: Path
    snapshot: Callable[[Path], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What was laid ready, and the files of the shop record that belong into no backup."""

    manifest: Manifest
    left_out: tuple[str, ...]


def source_of(studio: Studio) -> Source:
    """Return what is backed up of a studio that is open.

    Raises
    ------
    NotFoundError
        If its store is no database.
    """
    if not isinstance(studio.store, SqlStore):
        raise NotFoundError(
            "this store is no database, so nothing outlives it",
            place=str(studio.folder),
            mend="Open a studio with `loftwright serve`.",
        )
    return Source(folder=studio.folder, snapshot=studio.store.snapshot)


def source_in(folder: Path, url: str = "") -> Source:
    """Return what is backed up of a data folder, whether or not a studio is open on it.

    A restore that was broken off is finished first: half of two studios is no backup.

    Parameters
    ----------
    folder : Path
    url : str
        Of its PostgreSQL database; a file in the folder without it.

    Raises
    ------
    NotFoundError
        If there is no studio in the folder.
    StoreError
        If a restore of it was broken off and cannot be finished.
    """
    finish_restore(folder)
    if url:
        return Source(folder=folder, snapshot=lambda file: _snapshot_at(url, file))
    if not (folder / STORE).exists():
        raise NotFoundError(
            "there is no studio in this folder",
            place=str(folder),
            mend="Name the data folder of one in LOFTWRIGHT_DATA, or open one with `loftwright "
            "serve`.",
        )
    return Source(
        folder=folder, snapshot=lambda file: _snapshot(sqlite_reader(folder / STORE), file)
    )


def gather(source: Source, scratch: Path, at: datetime) -> Gathered:
    """Lay ready in a scratch folder everything of a backup, and return its manifest.

    The store comes first: a fitting names what the shop had learned, never the other way round.
    """
    schema = source.snapshot(scratch / STORE)
    members = [_summed(scratch, STORE)]
    practice = source.folder / TRAINING / STORE
    if practice.exists() and _stands(practice):
        (scratch / TRAINING).mkdir()
        _snapshot(sqlite_reader(practice), scratch / TRAINING / STORE)
        members.append(_summed(scratch, f"{TRAINING}/{STORE}"))
    left_out = []
    for name in _files_of(source.folder):
        if not _belongs(name):
            left_out.append(name)
        elif _copied(source.folder / name, scratch / name):
            members.append(_summed(scratch, name))
    manifest = Manifest(
        program=__version__,
        schema=schema,
        made_at=at.astimezone(UTC).isoformat(),
        counts=counts_in(scratch / STORE),
        members=tuple(members),
    )
    return Gathered(manifest=manifest, left_out=tuple(left_out))


def size_of(folder: Path) -> int:
    """Return about how many bytes of a data folder go into a backup."""
    stores = (folder / STORE, folder / TRAINING / STORE)
    files = (folder / name for name in _files_of(folder))
    return sum(one.stat().st_size for one in (*stores, *files) if one.exists())


def _files_of(folder: Path) -> Iterator[str]:
    """Yield the names of files that are copied as they are; never those that are being written."""
    if (folder / MAPPINGS).is_file():
        yield MAPPINGS
    for top in (folder / SHOP, folder / TRAINING / PLAYS):
        for path in sorted(top.rglob("*")):
            parts = path.relative_to(folder).parts
            hidden = any(part.startswith(".") for part in parts)
            if path.is_file() and not path.is_symlink() and not hidden:
                yield "/".join(parts)


def _belongs(name: str) -> bool:
    try:
        check_name(name, "")
    except IntakeError:
        return False
    return len(name.encode()) <= 100


def _copied(path: Path, to: Path) -> bool:
    """Copy a file that may be replaced or removed meanwhile; whole, as the old or the new one."""
    to.parent.mkdir(parents=True, exist_ok=True)
    try:
        shutil.copyfile(path, to)
    except FileNotFoundError:
        return False
    return True


def _summed(scratch: Path, name: str) -> Member:
    path = scratch / name
    size = path.stat().st_size
    if size > MOST_MEMBER:
        raise IntakeError(
            f"it has {size} bytes, and a backup takes {MOST_MEMBER} of one file at most",
            place=name,
            mend="Copy it with `loftwright store copy` instead.",
        )
    summed = sha256()
    with path.open("rb") as held:
        while some := held.read(_AT_ONCE):
            summed.update(some)
    return Member(name=name, size=size, sha256=summed.hexdigest())


def _stands(store: Path) -> bool:
    engine = sqlite_reader(store)
    try:
        return revision_of(engine) is not None
    except DatabaseError as error:
        raise StoreError(
            f"the training bay's store cannot be read: {error.orig}",
            place=str(store),
            mend=f"It holds practice alone: move the folder `{TRAINING}` out of the data folder, "
            "and run it again. Earlier backups stay.",
        ) from error
    finally:
        engine.dispose()


def _snapshot_at(url: str, file: Path) -> str:
    from loftwright.store.postgres import postgres_engine  # noqa: PLC0415 - only where it is named

    return _snapshot(postgres_engine(url), file)


def _snapshot(engine: Engine, file: Path) -> str:
    try:
        return snapshot(engine, file)
    finally:
        engine.dispose()
