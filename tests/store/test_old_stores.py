"""What a program of any time kept is there when this one opens it, in either database."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import func, inspect, select

from databases import Cluster
from loftwright.domain.acts import Entry, HandedOver, ShotArrived
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.names import OWN
from loftwright.domain.numbers import ShotNumbers
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio
from loftwright.store.copying import copy_store
from loftwright.store.engine import FILE, sqlite_engine
from loftwright.store.interface import Store
from loftwright.store.migrate import SCRIPTS, revision_of
from loftwright.store.naming import metadata
from loftwright.store.postgres import open_postgres
from loftwright.store.schema import HEAD
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from old_studios import LIMITS, NOON, OldStudio, old_studios

OLD = old_studios()
IN_POSTGRESQL = [one for one in OLD if one.in_postgresql]
each = pytest.mark.parametrize("old", OLD, ids=lambda one: one.name)


def test_every_revision_but_the_newest_has_a_store_that_its_program_made() -> None:
    revisions = {path.stem[1:] for path in (SCRIPTS / "versions").glob("r*.py")}
    assert revisions - {one.revision for one in OLD} <= {HEAD}
    assert {one.revision for one in OLD} <= revisions


def test_a_store_of_a_revision_from_before_its_tables_changed_is_among_them() -> None:
    assert [one.name for one in OLD if one.revision == "0001"] == ["0001-closed", "0001"]
    (first, second) = [one for one in OLD if one.revision == "0001"]
    assert "closed BOOLEAN NOT NULL" in first.sql
    assert "closed BOOLEAN NOT NULL" not in second.sql


@pytest.fixture
def brought_up(old: OldStudio, tmp_path: Path) -> Iterator[SqlStore]:
    """Unpack an old studio and open it by this program."""
    old.unpack(tmp_path)
    store = open_store(tmp_path)
    yield store
    store.close()


def rows(store: SqlStore) -> dict[str, int]:
    """Return how many rows each table has."""
    with store.reading() as connection:
        return {
            table.name: connection.scalar(select(func.count()).select_from(table)) or 0
            for table in metadata.sorted_tables
        }


def nothing_lost(old: OldStudio, store: SqlStore) -> None:
    """Check that a store holds all that an old studio did."""
    found = rows(store)
    assert {name: found[name] for name in old.rows if name != "alembic_version"} == {
        name: count for name, count in old.rows.items() if name != "alembic_version"
    }
    records = [store.record(fitting.value.id) for fitting in store.fittings()]
    assert sum(map(len, records)) == old.rows["acts"] + old.rows["shots"]
    for record in records:
        assert [one.sequence for one in record] == list(range(1, len(record) + 1))
        assert all(one.numbers.ball_speed for one in balls(record))
    for fitting, name in old.golfers.items():
        golfer = store.fitting(fitting).value.golfer
        assert store.identity(golfer).name == name
    golfer = store.fitting(old.in_progress).value.golfer
    assert store.limits(golfer, NOON.date()) == LIMITS
    assert [one.name for one in store.paired()] == ["Tablet 1"]
    assert store.hitting("Bay 1").value == old.in_progress


def balls(record: tuple[Entry, ...]) -> list[ShotArrived]:
    return [one.act for one in record if isinstance(one.act, ShotArrived)]


@each
def test_all_that_an_old_store_held_is_there_after_it_is_brought_up(
    old: OldStudio, brought_up: SqlStore, tmp_path: Path
) -> None:
    nothing_lost(old, brought_up)
    engine = sqlite_engine(tmp_path)
    assert revision_of(engine) == HEAD
    engine.dispose()
    door = sqlite3.connect(tmp_path / FILE)
    assert door.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert door.execute("PRAGMA foreign_key_check").fetchall() == []
    door.close()


@each
def test_an_old_store_has_just_the_columns_of_a_new_one(
    old: OldStudio, brought_up: SqlStore
) -> None:
    assert old.rows.keys() - {table.name for table in metadata.sorted_tables} == {
        "alembic_version"
    }
    with brought_up.reading() as connection:
        seen = inspect(connection)
        found = {
            table.name: {one["name"] for one in seen.get_columns(table.name)}
            for table in metadata.sorted_tables
        }
    assert found == {
        table.name: {one.name for one in table.columns} for table in metadata.sorted_tables
    }


@each
def test_without_keys_an_old_store_names_nobody(old: OldStudio, tmp_path: Path) -> None:
    old.unpack(tmp_path, keys=False)
    store = open_store(tmp_path)
    golfers = [store.fitting(fitting).value.golfer for fitting in old.golfers]
    assert {store.identity(golfer).name for golfer in golfers} == {"(erased)"}
    store.close()


@each
def test_an_old_store_takes_golfers_fittings_acts_and_balls(
    old: OldStudio, brought_up: SqlStore, tmp_path: Path
) -> None:
    work(brought_up, tmp_path, old)


def work(store: Store, folder: Path, old: OldStudio) -> None:
    """Do in a studio what a day does: a golfer, a fitting, a club in hand, a ball."""
    studio = Studio(store=store, folder=folder, clock=lambda: NOON)
    golfer = Golfer(id="new")
    store.add_golfer(golfer, Identity(name="Nobody New"))
    fitting = open_fitting(studio, golfer.id, bay="Bay 2", fitter="")
    store.append(fitting.id, [HandedOver(club=OWN)], at=NOON, by="")
    before = len(store.record(old.in_progress))
    ball = Incoming(numbers=ShotNumbers(ball_speed=60.0), key="new-1", device="meter")
    take(studio, old.in_progress, ball, source="feed")
    assert len(store.record(old.in_progress)) > before
    act(studio, old.in_progress, [HandedOver(club=OWN)], by="")
    store.set_limits(golfer.id, date(2026, 11, 26), "")


@pytest.mark.parametrize("old", IN_POSTGRESQL, ids=lambda one: one.name)
def test_an_old_store_in_postgresql_is_brought_up_whole(
    old: OldStudio, cluster: Cluster, tmp_path: Path
) -> None:
    address = cluster.fresh()
    old.unpack_into(address)
    old.unpack_keys(tmp_path)
    with closing(open_postgres(address, tmp_path)) as store:
        nothing_lost(old, store)
        work(store, tmp_path, old)


@each
def test_an_old_file_is_copied_into_postgresql_whole(
    old: OldStudio, brought_up: SqlStore, cluster: Cluster, tmp_path: Path
) -> None:
    with closing(open_postgres(cluster.fresh(), tmp_path)) as target:
        copy_store(brought_up, target)
        nothing_lost(old, target)
        for fitting in old.golfers:
            assert target.record(fitting) == brought_up.record(fitting)
