"""SQLite opened as the store needs it: every write whole, on the disk, and one at a time."""

import sqlite3
from pathlib import Path
from typing import Final
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event

from loftwright.errors import StoreError

FILE: Final = "loftwright.sqlite"
PRAGMAS: Final = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA foreign_keys=ON",
    "PRAGMA busy_timeout=5000",
    "PRAGMA secure_delete=ON",
)


def sqlite_engine(folder: Path, *, draft: bool = False) -> Engine:
    """Return an engine on the store's file; the folder is made if it is not there.

    Parameters
    ----------
    folder : Path
    draft : bool
        Whether writes need not wait for the disk, because nobody is told that they are kept.

    Raises
    ------
    StoreError
        If the folder cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"the data folder cannot be made: {error.strerror}",
            place=str(folder),
            mend="Make its parent writable, or name another folder in LOFTWRIGHT_DATA.",
        ) from error
    engine = create_engine(f"sqlite:///{folder / FILE}")
    event.listen(engine, "connect", _on_connect)
    if draft:
        event.listen(engine, "connect", _on_draft)
    event.listen(engine, "begin", _on_begin)
    return engine


def sqlite_engine_on(file: Path, *, journal: str) -> Engine:
    """Return an engine on a file that only this program has, and that is synced when it is whole.

    Parameters
    ----------
    file : Path
    journal : {"DELETE", "WAL"}
        How it undoes what was not finished; DELETE leaves no file beside it.
    """
    engine = create_engine(f"sqlite:///{file}")

    def on_connect(connection: sqlite3.Connection, _: object) -> None:
        connection.isolation_level = None
        for pragma in (f"journal_mode={journal}", "synchronous=OFF", "foreign_keys=OFF"):
            connection.execute(f"PRAGMA {pragma}").close()

    event.listen(engine, "connect", on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def sqlite_reader(file: Path, *, still: bool = False) -> Engine:
    """Return an engine that can only read a store's file, which is not made.

    Parameters
    ----------
    file : Path
    still : bool
        Whether nobody writes to it meanwhile, so that not even its log is laid beside it.
    """
    more = "&immutable=1" if still else ""
    engine = create_engine(f"sqlite:///file:{quote(str(file.absolute()))}?mode=ro{more}&uri=true")
    event.listen(engine, "connect", _on_connect_to_read)
    event.listen(engine, "begin", _on_begin)
    return engine


def _on_connect_to_read(connection: sqlite3.Connection, _: object) -> None:
    connection.isolation_level = None
    connection.execute("PRAGMA busy_timeout=5000").close()


def _on_connect(connection: sqlite3.Connection, _: object) -> None:
    # The driver's own transactions would begin too late to keep a second writer out.
    connection.isolation_level = None
    cursor = connection.cursor()
    for pragma in PRAGMAS:
        cursor.execute(pragma)
    cursor.close()


def _on_draft(connection: sqlite3.Connection, _: object) -> None:
    connection.execute("PRAGMA synchronous=OFF").close()


def _on_begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
