"""A new store is made at once, and stands as if every revision had been gone through."""

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import Engine

from loftwright.domain.acts import HandedOver
from loftwright.domain.golfer import Golfer, Wish
from loftwright.domain.home import Home
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.errors import SchemaError
from loftwright.physics.shaft_swing.players import Loading
from loftwright.store.codec import home_text
from loftwright.store.engine import sqlite_engine
from loftwright.store.migrate import SCRIPTS, bring_up, revision_of
from loftwright.store.naming import metadata
from loftwright.store.schema import HEAD
from loftwright.store.sqlite import open_store
from store_samples import with_fitting


def migrated(engine: Engine, revision: str) -> None:
    """Go through the revisions up to one."""
    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.execution_options(writes=True).begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, revision)


def tables(engine: Engine) -> dict[str, list[str]]:
    """Return what the database says of each table, its columns and constraints in any order.

    A column that a revision adds stands behind the constraints, on the last one's line.
    """
    with engine.begin() as connection:
        rows = connection.exec_driver_sql(
            "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL"
        ).all()
    return {
        name: sorted(
            " ".join(words)
            for part in re.split(r"[\n,]", sql)
            if (words := part.strip(" \t)").split())
        )
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


def test_a_rack_of_the_second_revision_is_read_with_nothing_said_of_stock(
    tmp_path: Path,
) -> None:
    engine = sqlite_engine(tmp_path)
    migrated(engine, "0002")
    with engine.execution_options(writes=True).begin() as connection:
        for line in (
            "INSERT INTO items (id, kind, version) VALUES ('s1', 'shaft', 3), ('p1', 'piece', 1)",
            "INSERT INTO shaft_models (id, maker, name, paper_label, generation) "
            "VALUES ('s1', '', 'Reed', '', '')",
            "INSERT INTO pieces (id, model, label, place, state, reason) "
            "VALUES ('p1', 's1', 'R-1', 'Bay 1', 'ready', '')",
        ):
            connection.exec_driver_sql(line)
    engine.dispose()
    store = open_store(tmp_path)
    rack = store.rack()
    assert rack.shafts == {"s1": ShaftModel(id="s1", maker="", name="Reed")}
    assert rack.pieces == {"p1": Piece(id="p1", model="s1", label="R-1", place="Bay 1")}
    assert store.item("s1").version == 3
    store.close()


def test_a_golfer_of_the_third_revision_wishes_for_distance_and_leaves_the_loading_open(
    tmp_path: Path,
) -> None:
    engine = sqlite_engine(tmp_path)
    migrated(engine, "0003")
    with engine.execution_options(writes=True).begin() as connection:
        connection.exec_driver_sql(
            "INSERT INTO golfers (id, hand, goal, looks, minor, home, keep, contact, publish, "
            "shop_record, version) VALUES ('g1', 'right', '', '', 0, ?, 0, 0, 0, 0, 1)",
            (home_text(Home()),),
        )
    engine.dispose()
    store = open_store(tmp_path)
    golfer = store.golfer("g1").value
    assert golfer == Golfer(id="g1")
    assert golfer.wish is Wish.DISTANCE
    assert golfer.loadings == tuple(Loading)
    store.close()


def test_a_file_is_not_brought_up_under_a_golfer_while_another_program_holds_it(
    tmp_path: Path,
) -> None:
    store = open_store(tmp_path)
    fitting = with_fitting(store)
    store.append(fitting, [HandedOver(club="Own")], at=datetime.now(UTC), by="Ann")
    _set_back(tmp_path)
    with pytest.raises(SchemaError, match=r"a fitting runs in Bay 1 \(Ann\)"):
        open_store(tmp_path)
    assert store.record(fitting)
    store.close()
    again = open_store(tmp_path)
    assert again.places() == {}
    assert len(again.record(fitting)) == 1
    again.close()


def test_a_quiet_file_is_brought_up_whoever_holds_it(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    fitting = with_fitting(store)
    store.append(
        fitting, [HandedOver(club="Own")], at=datetime.now(UTC) - timedelta(hours=1), by=""
    )
    _set_back(tmp_path)
    again = open_store(tmp_path)
    assert again.places() == {}
    again.close()
    store.close()


def _set_back(folder: Path) -> None:
    """Make a store older, as a program before this one left it."""
    engine = sqlite_engine(folder)
    with engine.execution_options(writes=True).begin() as connection:
        for line in (
            "DROP TABLE openings",
            "ALTER TABLE paired_devices DROP COLUMN pin",
            "DROP TABLE place_moves",
            "ALTER TABLE fittings DROP COLUMN bay_check",
            "ALTER TABLE golfers DROP COLUMN merged_into",
            "UPDATE alembic_version SET version_num = '0006'",
        ):
            connection.exec_driver_sql(line)
    engine.dispose()
