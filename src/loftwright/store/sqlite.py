"""The store in one SQLite file, which is all a studio needs."""

from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Engine
from sqlalchemy.exc import DatabaseError

from loftwright.errors import NotFoundError, SchemaError, StoreError
from loftwright.store.engine import FILE, sqlite_engine, sqlite_reader
from loftwright.store.keys import KeyRing
from loftwright.store.migrate import bring_up, must_stand_at_head, revision_of
from loftwright.store.sql import SqlStore


def open_store(
    folder: Path, *, draft: bool = False, before: Callable[[Engine], None] | None = None
) -> SqlStore:
    """Open the store of a data folder, made or brought up to date where that is needed.

    Parameters
    ----------
    folder : Path
        The data folder; made if it is not there.
    draft : bool
        Writes do not wait for the disk: for what nobody is told is kept before it is whole.
    before : callable, optional
        Given the engine before tables that hold something are changed, as by `bring_up`.

    Returns
    -------
    SqlStore

    Raises
    ------
    SchemaError
        If a newer version wrote it.
    StoreError
        If the folder or its file cannot be used.
    """
    engine = sqlite_engine(folder, draft=draft)
    place = str(folder / FILE)
    try:
        bring_up(engine, place, before)
    except DatabaseError as error:
        engine.dispose()
        raise StoreError(
            f"the store cannot be opened: {error.orig}",
            place=place,
            mend="Make the folder writable, or name another in LOFTWRIGHT_DATA; a file that is "
            "no store is left as it is.",
        ) from error
    except SchemaError:
        engine.dispose()
        raise
    return SqlStore(engine, KeyRing(folder), place)


def open_store_to_read(folder: Path, *, still: bool = False) -> SqlStore:
    """Open the store of a data folder to read it; nothing it holds is made or changed.

    Parameters
    ----------
    folder : Path
        The data folder.
    still : bool
        Whether nobody writes to it meanwhile, so that not even its log is laid beside it.

    Returns
    -------
    SqlStore
        Refuses every write.

    Raises
    ------
    NotFoundError
        If there is no store in the folder.
    SchemaError
        If another version wrote it.
    StoreError
        If its file cannot be read.
    """
    file = folder / FILE
    if not file.exists():
        raise NotFoundError(
            "there is no studio in this folder",
            place=str(folder),
            mend="Name the data folder of one in LOFTWRIGHT_DATA, open one with `loftwright "
            "serve`, or give a rack file with --rack.",
        )
    engine = sqlite_reader(file, still=still)
    try:
        stands = revision_of(engine)
    except DatabaseError as error:
        engine.dispose()
        raise StoreError(
            f"the store cannot be read: {error.orig}",
            place=str(file),
            mend="Look whether it is a store and may be read; it is left as it is.",
        ) from error
    must_stand_at_head(engine, stands, str(file))
    return SqlStore(engine, KeyRing(folder), str(file))
