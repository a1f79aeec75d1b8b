"""One moment of a store as a file of its own, while others go on writing.

References
----------
SQLite documentation, "VACUUM", with an INTO clause: a transaction's view, without free pages.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final
from urllib.parse import unquote

from sqlalchemy import Engine
from sqlalchemy.exc import DatabaseError

from loftwright.errors import SchemaError, StoreError
from loftwright.store.migrate import SCRIPTS, revision_of
from loftwright.store.schema import HEAD

_MEND: Final = (
    "Look whether the disk is full and the folder may be written, and run it again; the store "
    "itself is as it was. If it stays so, run `loftwright doctor`."
)


def snapshot(engine: Engine, file: Path) -> str:
    """Write a store as it stands at one moment into a SQLite file, and return its revision.

    Parameters
    ----------
    engine : Engine
        On SQLite or PostgreSQL, at any revision that this program knows. Nothing in it changes.
    file : Path
        Must not be there yet.

    Raises
    ------
    SchemaError
        If a newer version wrote the store.
    StoreError
        If it cannot be read, or the file cannot be written whole.
    """
    place = _place_of(engine)
    with _told(place):
        stands = revision_of(engine)
        must_know(stands, place)
        if engine.dialect.name == "postgresql":
            from loftwright.store.portable import carry_over  # noqa: PLC0415 - only where it is one

            carry_over(engine, file, stands or HEAD)
        else:
            _vacuum_into(engine, file)
        _must_be_sound(file)
    return stands or HEAD


def _place_of(engine: Engine) -> str:
    if engine.dialect.name == "postgresql":
        return engine.url.render_as_string(hide_password=True)
    return unquote((engine.url.database or "").removeprefix("file:"))


def _vacuum_into(engine: Engine, file: Path) -> None:
    # Beneath the engine's own transactions, in which SQLite refuses it.
    held = engine.raw_connection()
    try:
        held.cursor().execute("VACUUM INTO ?", (str(file),))
    finally:
        held.close()


def must_know(stands: str | None, place: str) -> None:
    """Refuse a store that holds no tables, or those of a newer version."""
    if stands is None:
        raise StoreError(
            "there are no tables of a studio in it",
            place=place,
            mend="Name the data folder of a studio, or open one with `loftwright serve`.",
        )
    if not (SCRIPTS / "versions" / f"r{stands}.py").exists():
        raise SchemaError(
            f"it has schema {stands}, and this version knows schemas up to {HEAD}",
            place=place,
            mend="Install the newer version of Loftwright that wrote it; nothing was changed.",
        )


def _must_be_sound(file: Path) -> None:
    found = faults_in(file)
    if found:
        raise StoreError(
            f"the copy is not sound: {found[0]}",
            place=str(file),
            mend="Run `loftwright doctor`: the store itself may be damaged. Earlier backups stay.",
        )


def faults_in(file: Path) -> tuple[str, ...]:
    """Return what a database finds wrong with a store's file: pages, indexes, what names what.

    Parameters
    ----------
    file : Path
        One that no program has open.
    """
    door = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro&immutable=1", uri=True)
    try:
        return faults(door)
    finally:
        door.close()


def faults(door: sqlite3.Connection) -> tuple[str, ...]:
    """Return what a database finds wrong with a file that is open."""
    pages = [str(row[0]) for row in door.execute("PRAGMA integrity_check(20)")]
    found = [one for one in pages if one != "ok"]
    named = door.execute("PRAGMA foreign_key_check").fetchmany(20)
    found += [f"a row of {row[0]} names one of {row[2]} that is not there" for row in named]
    return tuple(found)


def counts_in(file: Path) -> dict[str, int]:
    """Return how many rows each table of a file has that no program has open."""
    door = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro&immutable=1", uri=True)
    try:
        names = door.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
            "ORDER BY name"
        )
        return {
            name: door.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]  # noqa: S608 - names of the file itself
            for (name,) in names.fetchall()
        }
    finally:
        door.close()


@contextmanager
def alone_on(file: Path) -> Iterator[bool]:
    """Hold a store's file against every other program; give whether nobody has it open.

    Parameters
    ----------
    file : Path
        Nobody can open it meanwhile. Where it is not there, nobody has it.
    """
    if not file.exists():
        yield True
        return
    door = sqlite3.connect(file, isolation_level=None, timeout=0.0)
    try:
        yield _taken(door)
    finally:
        door.close()


def _taken(door: sqlite3.Connection) -> bool:
    try:
        door.execute("PRAGMA locking_mode=EXCLUSIVE")
        door.execute("BEGIN EXCLUSIVE")
        door.execute("COMMIT")
    except sqlite3.OperationalError:
        return False
    except sqlite3.DatabaseError:
        # No store, or a damaged one: no program of ours can have it open.
        return True
    return True


@contextmanager
def _told(place: str) -> Iterator[None]:
    try:
        yield
    except (DatabaseError, sqlite3.Error) as error:
        said = error.orig if isinstance(error, DatabaseError) else error
        raise StoreError(f"the store cannot be copied: {said}", place=place, mend=_MEND) from error
