"""The store in PostgreSQL, for a studio with several bays.

References
----------
PostgreSQL 15 documentation, 13.3.5 (advisory locks), 13.2.2 (repeatable read), NOTIFY.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Final
from uuid import uuid4

from sqlalchemy import Connection, Engine, create_engine, event, func, select
from sqlalchemy.engine import make_url
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.exc import ArgumentError, DatabaseError

from loftwright.errors import SchemaError, StoreError
from loftwright.store.hearing import CHANNEL, Hearing, told_as
from loftwright.store.keys import KeyRing
from loftwright.store.migrate import bring_up, must_stand_at_head, revision_of
from loftwright.store.sql import SqlStore

DIALECT: Final = "postgresql+psycopg"
WRITES: Final = 4_117_202
"""Of the advisory lock that writers take in turn, as SQLite makes them."""


class PostgresStore(SqlStore):
    """The studio's memory in PostgreSQL."""

    mend = (
        "Look whether the database runs, the address in LOFTWRIGHT_STORE is right and its disk "
        "has room; nothing of this act was written."
    )

    def __init__(self, engine: Engine, keys: KeyRing, place: str) -> None:
        super().__init__(engine, keys, place)
        self._origin = str(uuid4())
        self._hearings: list[Hearing] = []

    def tell(self, connection: Connection, topic: str, revision: int) -> None:
        """Tell other processes what this transaction wrote, once it is committed."""
        said = told_as(self._origin, topic, revision)
        connection.execute(select(func.pg_notify(CHANNEL, said)))

    def hear(self, told: Callable[[str, int], None]) -> None:
        """Have something told what other processes wrote, until the store is closed."""
        hearing = Hearing(self._engine.url, self._origin, told)
        self._hearings.append(hearing)
        hearing.start()

    def close(self) -> None:
        """Let go of connections."""
        for one in self._hearings:
            one.close()
        super().close()


def open_postgres(
    url: str, folder: Path, before: Callable[[Engine], None] | None = None
) -> PostgresStore:
    """Open the store of an address, made or brought up to date where that is needed.

    Parameters
    ----------
    url : str
        Such as ``postgresql+psycopg://loftwright@db.studio/loftwright``.
    folder : Path
        The data folder; golfers' keys lie in it, the same for every bay.
    before : callable, optional
        Given the engine before tables that hold something are changed, as by `bring_up`.

    Raises
    ------
    SchemaError
        If a newer version wrote it.
    StoreError
        If the address cannot be read or the database cannot be reached.
    """
    engine = postgres_engine(url)
    place = engine.url.render_as_string(hide_password=True)
    try:
        bring_up(engine, place, before)
    except DatabaseError as error:
        engine.dispose()
        raise StoreError(
            f"the store cannot be opened: {error.orig}",
            place=place,
            mend=PostgresStore.mend,
        ) from error
    except SchemaError:
        engine.dispose()
        raise
    return PostgresStore(engine, KeyRing(folder), place)


def open_postgres_to_read(url: str, folder: Path) -> PostgresStore:
    """Open the store of an address to read it; no table is made or changed.

    Parameters
    ----------
    url : str
    folder : Path
        The data folder.

    Raises
    ------
    SchemaError
        If another version wrote it, or nobody did.
    StoreError
        If the address cannot be read or the database cannot be reached.
    """
    engine = postgres_engine(url)
    place = engine.url.render_as_string(hide_password=True)
    try:
        stands = revision_of(engine)
    except DatabaseError as error:
        engine.dispose()
        raise StoreError(
            f"the store cannot be read: {error.orig}", place=place, mend=PostgresStore.mend
        ) from error
    must_stand_at_head(engine, stands, place)
    return PostgresStore(engine, KeyRing(folder), place)


def postgres_engine(url: str) -> Engine:
    """Return an engine on a PostgreSQL database.

    Raises
    ------
    StoreError
        If the address cannot be read, or is another database's.
    """
    try:
        address = make_url(url)
    except ArgumentError as error:
        raise StoreError(
            "the address of the store cannot be read",
            place="LOFTWRIGHT_STORE",
            mend=f"Write it as {DIALECT}://user@machine/database.",
        ) from error
    if address.drivername not in {DIALECT, "postgresql"}:
        raise StoreError(
            f"the store cannot be a {address.drivername}",
            place="LOFTWRIGHT_STORE",
            mend=f"Write it as {DIALECT}://user@machine/database, or leave it out for a file.",
        )
    engine = create_engine(address.set(drivername=DIALECT), pool_pre_ping=True)
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def shown(url: str) -> str:
    """Return an address without its password.

    Raises
    ------
    StoreError
        If it cannot be read.
    """
    return postgres_engine(url).url.render_as_string(hide_password=True)


def _on_connect(connection: DBAPIConnection, _: object) -> None:
    cursor = connection.cursor()
    # What was told to be kept is on the disk, whatever the cluster's own setting.
    cursor.execute("SET synchronous_commit = on")
    cursor.close()
    connection.commit()


def _on_begin(connection: Connection) -> None:
    if connection.get_execution_options().get("writes", False):
        # Before anything is read, so that each writer reads what the one before it wrote.
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({WRITES})")
    else:
        connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
