"""SQLite opened as the store needs it: every write whole, on the disk, and one at a time."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import RLock
from typing import Final
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DatabaseError, OperationalError

from loftwright.errors import InputError, StoreError

FILE: Final = "loftwright.sqlite"
PRAGMAS: Final = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA foreign_keys=ON",
    "PRAGMA busy_timeout=5000",
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


def sqlite_reader(file: Path) -> Engine:
    """Return an engine that can only read a store's file, which is not made.

    Parameters
    ----------
    file : Path
    """
    engine = create_engine(f"sqlite:///file:{quote(str(file.absolute()))}?mode=ro&uri=true")
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


class Base:
    """What every part of the store stands on: reading and writing whole transactions.

    Parameters
    ----------
    engine : Engine
    place : str
        What messages call the store.
    """

    def __init__(self, engine: Engine, place: str) -> None:
        self._engine = engine
        self._writing = engine.execution_options(writes=True)
        self._place = place
        self._lock = RLock()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read within one transaction."""
        with self._told(), self._engine.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write within one transaction, which is on the disk when this ends."""
        with self._lock, self._told(), self._writing.begin() as connection:
            yield connection

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Tell what the database refuses in the words of the store."""
        try:
            yield
        except (UnicodeEncodeError, OverflowError) as error:
            raise InputError(
                f"this cannot be kept: {error}",
                place=self._place,
                mend="Send text as UTF-8, and whole numbers of at most 18 digits.",
            ) from error
        except OperationalError as error:
            raise StoreError(
                f"the store cannot be used: {error.orig}",
                place=self._place,
                mend="Look whether the disk is full, the folder is writable and no other "
                "program holds the file; nothing of this act was written.",
            ) from error
        except DatabaseError as error:
            raise StoreError(
                f"the store refuses: {error.orig}",
                place=self._place,
                mend="Nothing of this act was written; run it again, or restore a backup.",
            ) from error

    def close(self) -> None:
        """Let go of files and connections."""
        self._engine.dispose()
