"""A new store is made at once, and stands as if every revision had been gone through."""

from pathlib import Path

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import Engine

from loftwright.store.engine import sqlite_engine
from loftwright.store.migrate import SCRIPTS, bring_up, revision_of
from loftwright.store.schema import HEAD, metadata


def migrated(engine: Engine, revision: str) -> None:
    """Go through the revisions up to one."""
    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.execution_options(writes=True).begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, revision)


def tables(engine: Engine) -> dict[str, list[str]]:
    """Return what the database says of each table, its constraints in any order."""
    with engine.begin() as connection:
        rows = connection.exec_driver_sql(
            "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL"
        ).all()
    return {
        name: sorted(" ".join(line.strip(" ,\t)").split()) for line in sql.splitlines())
        for name, sql in rows
    }


def test_a_new_store_has_the_tables_that_the_revisions_make(tmp_path: Path) -> None:
    new, old = sqlite_engine(tmp_path / "new"), sqlite_engine(tmp_path / "old")
    bring_up(new, "new")
    migrated(old, "head")
    assert tables(new) == tables(old)
    assert revision_of(new) == revision_of(old) == HEAD
    new.dispose()
    old.dispose()


def test_the_revisions_make_just_the_tables_of_the_schema(tmp_path: Path) -> None:
    engine = sqlite_engine(tmp_path)
    migrated(engine, "head")
    with engine.begin() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
        assert context.get_current_revision() == HEAD
    engine.dispose()


def test_a_store_of_the_first_revision_is_brought_up(tmp_path: Path) -> None:
    engine = sqlite_engine(tmp_path)
    migrated(engine, "0001")
    bring_up(engine, "store")
    assert revision_of(engine) == HEAD
    engine.dispose()
