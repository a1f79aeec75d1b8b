"""Bring a store to the newest schema, or refuse one that is newer than this program.

References
----------
SQLite documentation, "Write-Ahead Logging": a file leaves this mode for one connection alone.
PostgreSQL 15 documentation, 28.2.3 (pg_stat_activity).
"""

import logging
import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

from sqlalchemy import Column, Connection, Engine, MetaData, String, Table, insert, inspect

from loftwright.errors import SchemaError
from loftwright.store.at_work import busy_in
from loftwright.store.naming import metadata
from loftwright.store.schema import HEAD

SCRIPTS: Final = Path(__file__).parent / "migrations"
QUIET: Final = timedelta(minutes=30)
"""Without an act or a ball for so long an open fitting is not under way (judgement)."""
log: Final = logging.getLogger(__name__)
_STANDS: Final = Table(
    "alembic_version",
    MetaData(naming_convention={"pk": "alembic_version_pkc"}),
    Column("version_num", String(32), primary_key=True),
)


def bring_up(engine: Engine, place: str, before: Callable[[Engine], None] | None = None) -> None:
    """Make or change the tables until they stand at the newest revision.

    Parameters
    ----------
    engine : Engine
    place : str
        What messages call the store.
    before : callable, optional
        Given the engine before tables that hold something are changed; what it raises keeps
        them as they are.

    Raises
    ------
    SchemaError
        If the store was written by a newer version.
    """
    stands = revision_of(engine)
    if stands == HEAD:
        return
    if stands is not None and not (SCRIPTS / "versions" / f"r{stands}.py").exists():
        raise SchemaError(
            f"the store has schema {stands}, and this version knows schemas up to {HEAD}",
            place=place,
            mend="Install the newer version of Loftwright that wrote it, or restore a backup.",
        )
    if stands is None and _made_new(engine):
        log.info("a store was made", extra={"told": {"schema": HEAD}})
        return
    if stands is not None:
        _refuse_while_at_work(engine, place)
        if before is not None:
            before(engine)
    make_at(engine, "head")
    log.info("the store was brought up", extra={"told": {"was": stands, "schema": HEAD}})


def make_at(engine: Engine, revision: str) -> None:
    """Make or change the tables until they stand at a revision, all or nothing."""
    from alembic import command  # noqa: PLC0415 - only where the schema changes
    from alembic.config import Config  # noqa: PLC0415 - only where the schema changes

    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.execution_options(writes=True).begin() as connection:
        config.attributes["connection"] = connection
        _drop_closed(connection)
        command.upgrade(config, revision)


def _drop_closed(connection: Connection) -> None:
    """Drop a column that the first stores had and that no row is given a value for any more.

    The record alone tells when a fitting is closed. The column went from the first revision
    without a revision of its own, so that a store made before took no new fitting.
    """
    there = inspect(connection)
    if not there.has_table("fittings"):
        return
    if any(one["name"] == "closed" for one in there.get_columns("fittings")):
        connection.exec_driver_sql("ALTER TABLE fittings DROP COLUMN closed")


def _refuse_while_at_work(engine: Engine, place: str) -> None:
    """Refuse to change tables under another process in whose bay somebody is being fitted."""
    with engine.begin() as connection:
        found = busy_in(connection, datetime.now(UTC) - QUIET)
    if not found or _alone(engine):
        return
    where = ", ".join(
        f"{one.bay} ({one.fitter or one.by})" if one.fitter or one.by else one.bay for one in found
    )
    engine.dispose()
    raise SchemaError(
        f"the store is older and would be brought up, while another program is on it and a "
        f"fitting runs in {where}",
        place=place,
        mend="Close that fitting, or the other programs on this store; then start again.",
    )


def _alone(engine: Engine) -> bool:
    """Return whether no other program is connected to a store."""
    if engine.dialect.name == "postgresql":
        with engine.begin() as connection:
            others = connection.exec_driver_sql(
                "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() "
                "AND backend_type = 'client backend' AND pid <> pg_backend_pid()"
            ).scalar()
        return not others
    engine.dispose()
    with engine.connect() as connection:
        door = connection.connection.cursor()
        try:
            door.execute("PRAGMA busy_timeout=0")
            mode = door.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
        except sqlite3.OperationalError:
            return False
        finally:
            door.close()
    # The next connection sets the usual mode again.
    engine.dispose()
    return bool(mode == "delete")


def _made_new(engine: Engine) -> bool:
    """Make the tables of the newest revision in a file that holds none yet, all or nothing.

    The same as every revision in turn, without loading what changes tables.
    """
    with engine.execution_options(writes=True).begin() as connection:
        if inspect(connection).get_table_names():
            return False
        metadata.create_all(connection)
        _STANDS.create(connection)
        connection.execute(insert(_STANDS).values(version_num=HEAD))
        return True


def revision_of(engine: Engine) -> str | None:
    """Return the revision at which a store stands; None for a new one."""
    with engine.begin() as connection:
        if not inspect(connection).has_table("alembic_version"):
            return None
        found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
        return None if found is None else str(found)


def must_stand_at_head(engine: Engine, stands: str | None, place: str) -> None:
    """Demand that a store that is only to be read has the tables of this version.

    Parameters
    ----------
    engine : Engine
        Let go of where the store is refused.
    stands : str, optional
        Revision at which it stands.
    place : str
        What messages call the store.

    Raises
    ------
    SchemaError
        If it has others, or none.
    """
    if stands == HEAD:
        return
    engine.dispose()
    has = "no tables of a studio" if stands is None else f"schema {stands}"
    raise SchemaError(
        f"the store has {has}, and this version reads schema {HEAD}",
        place=place,
        mend="Open it once with `loftwright serve` to bring it up, or install the version of "
        "Loftwright that wrote it.",
    )
