"""Bring a store to the newest schema, or refuse one that is newer than this program."""

from pathlib import Path
from typing import Final

from sqlalchemy import Column, Engine, MetaData, String, Table, insert, inspect

from loftwright.errors import SchemaError
from loftwright.store.naming import metadata
from loftwright.store.schema import HEAD

SCRIPTS: Final = Path(__file__).parent / "migrations"
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
    from alembic import command  # noqa: PLC0415 - only where the schema changes
    from alembic.config import Config  # noqa: PLC0415 - only where the schema changes

    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.execution_options(writes=True).begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


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
