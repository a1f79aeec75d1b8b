"""Bring a store to the newest schema, or refuse one that is newer than this program.

References
----------
SQLite documentation, "Write-Ahead Logging": a file leaves this mode for one connection alone.
PostgreSQL 15 documentation, 28.2.3 (pg_stat_activity).
"""

import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

from sqlalchemy import Column, Engine, MetaData, String, Table, insert, inspect

from loftwright.errors import SchemaError
from loftwright.store.at_work import busy_in
from loftwright.store.naming import metadata
from loftwright.store.schema import HEAD

SCRIPTS: Final = Path(__file__).parent / "migrations"
QUIET: Final = timedelta(minutes=30)
"""Without an act or a ball for so long an open fitting is not under way (judgement)."""
_STANDS: Final = Table(
    "alembic_version",
    MetaData(naming_convention={"pk": "alembic_version_pkc"}),
    Column("version_num", String(32), primary_key=True),
)


def bring_up(engine: Engine, place: str) -> None:
    """Make or change the tables until they stand at the newest revision.

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
        return
    if stands is not None:
        _refuse_while_at_work(engine, place)
    from alembic import command  # noqa: PLC0415 - only where the schema changes
    from alembic.config import Config  # noqa: PLC0415 - only where the schema changes

    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.execution_options(writes=True).begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


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
