"""A store says of itself which it is, at what schema, and whether a write would begin."""

import sqlite3
from pathlib import Path

import pytest

from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.errors import StoreError
from loftwright.store.engine import FILE
from loftwright.store.interface import Store
from loftwright.store.schema import HEAD
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store, open_store_to_read


@pytest.fixture
def opened(tmp_path: Path) -> SqlStore:
    return open_store(tmp_path)


def test_every_store_says_which_it_is_its_schema_and_its_rows(store: Store) -> None:
    assert store.database in {"memory", "sqlite", "postgresql"}
    assert store.schema() == store.probe() == HEAD
    assert set(store.rows().values()) == {0}
    store.add_golfer(Golfer(id="g", hand=Hand.RIGHT), Identity(name="Ottoline Brambleby"))
    assert store.rows()["golfers"] == 1


def test_asking_writes_nothing(opened: SqlStore, tmp_path: Path) -> None:
    def state() -> tuple[int, int]:
        with sqlite3.connect(tmp_path / FILE) as door:
            return (
                door.execute("PRAGMA data_version").fetchone()[0],
                sum(file.stat().st_size for file in tmp_path.glob(f"{FILE}*")),
            )

    before = state()
    for _ in range(20):
        opened.probe()
    assert state() == before


def test_a_file_that_was_taken_away_is_told(opened: SqlStore, tmp_path: Path) -> None:
    (tmp_path / FILE).unlink()
    with pytest.raises(StoreError, match="gone"):
        opened.probe()


def test_a_store_that_may_not_be_written_is_told(opened: SqlStore, tmp_path: Path) -> None:
    opened.close()
    with pytest.raises(StoreError):
        open_store_to_read(tmp_path).probe()


def test_a_write_that_does_not_end_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    soon = ("PRAGMA journal_mode=WAL", "PRAGMA busy_timeout=50")
    monkeypatch.setattr("loftwright.store.engine.PRAGMAS", soon)
    opened = open_store(tmp_path)
    holds = sqlite3.connect(tmp_path / FILE, isolation_level=None)
    holds.execute("BEGIN IMMEDIATE")
    try:
        with pytest.raises(StoreError):
            opened.probe()
        assert opened.schema() == HEAD
    finally:
        holds.close()
    assert opened.probe() == HEAD
