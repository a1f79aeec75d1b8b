"""What only a file can do wrong: pragmas, seals, schemas, folders."""

import sqlite3
import stat
import subprocess
import sys
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from loftwright.domain.acts import ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import SchemaError, StoreError
from loftwright.store.engine import FILE
from loftwright.store.keys import KeyRing
from loftwright.store.schema import HEAD, metadata
from loftwright.store.sqlite import SqlStore, open_store
from records import numbers

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
NAME = "Wilhelmina Tuppence"
LINE = "7;148.2;the golfer is called Wilhelmina"
NOBODY = 65534


def filled(folder: Path) -> SqlStore:
    store = open_store(folder)
    store.add_golfer(Golfer(id="g1"), Identity(name=NAME, contact="tuppence@example.org"))
    store.set_limits("g1", date(2026, 5, 14), "sore left wrist")
    store.open_fitting(Fitting(id="f1", golfer="g1", opened=date(2026, 5, 14)))
    shot = ShotArrived(numbers=numbers(), line=LINE)
    store.append("f1", [shot], at=AT, by="feed", key="k")
    return store


def test_every_connection_waits_for_the_disk_and_keeps_foreign_keys(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    for _ in range(3):
        with store.reading() as connection:
            said = [
                connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
            ]
        assert said == ["wal", 2, 1, 5000]
    store.close()


def test_the_first_migration_makes_just_the_tables_of_the_schema(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    with store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
        assert context.get_current_revision() == HEAD
    store.close()


def test_everything_is_there_after_closing_and_opening(tmp_path: Path) -> None:
    filled(tmp_path).close()
    store = open_store(tmp_path)
    assert store.identity("g1").name == NAME
    (entry,) = store.record("f1")
    assert isinstance(entry.act, ShotArrived)
    assert (entry.act.line, entry.key, entry.at) == (LINE, "k", AT)
    store.close()


def test_neither_name_nor_limits_nor_the_devices_line_stand_in_the_file(tmp_path: Path) -> None:
    store = filled(tmp_path)
    raw = b"".join(file.read_bytes() for file in tmp_path.iterdir() if file.name.startswith(FILE))
    store.close()
    raw += (tmp_path / FILE).read_bytes()
    for word in (b"Wilhelmina", b"Tuppence", b"example.org", b"wrist", b"148.2;"):
        assert word not in raw


def test_a_key_is_for_its_owner_alone_and_lies_outside_the_database(tmp_path: Path) -> None:
    filled(tmp_path).close()
    (key,) = (tmp_path / "keys").iterdir()
    assert stat.S_IMODE(key.stat().st_mode) == 0o600
    assert key.read_bytes() not in (tmp_path / FILE).read_bytes()


def test_without_its_key_a_golfer_is_erased_and_the_shots_stay(tmp_path: Path) -> None:
    store = filled(tmp_path)
    store.keys.forget("g1")
    assert store.identity("g1").name == "(erased)"
    assert store.limits("g1", date(2026, 5, 14)) == ""
    (entry,) = store.record("f1")
    assert isinstance(entry.act, ShotArrived)
    assert entry.act.line == ""
    assert entry.act.numbers == numbers()
    with pytest.raises(StoreError, match="key is gone"):
        store.change_identity("g1", Identity(name="anew"))
    store.close()


def test_another_golfers_key_opens_nothing(tmp_path: Path) -> None:
    ring = KeyRing(tmp_path)
    ring.make("one")
    ring.make("other")
    assert ring.opened("other", ring.seal("one", "secret")) is None
    assert ring.opened("one", ring.seal("one", "secret")) == "secret"


def test_a_store_of_a_newer_version_is_refused_with_both_versions(tmp_path: Path) -> None:
    filled(tmp_path).close()
    with sqlite3.connect(tmp_path / FILE) as door:
        door.execute("UPDATE alembic_version SET version_num = '9999'")
    door.close()
    with pytest.raises(SchemaError, match=f"9999.*{HEAD}"):
        open_store(tmp_path)


def test_a_file_that_is_no_store_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text("shots and letters, but no database at all\n" * 40)
    before = (tmp_path / FILE).read_bytes()
    with pytest.raises(StoreError, match="cannot be opened"):
        open_store(tmp_path)
    assert (tmp_path / FILE).read_bytes() == before


def test_a_folder_where_a_file_stands_is_named(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("")
    with pytest.raises(StoreError, match="taken"):
        open_store(tmp_path / "taken" / "inside")


def test_a_folder_that_cannot_be_written_is_named_with_the_mend(tmp_path: Path) -> None:
    """Run as another user where this one may write everywhere."""
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o555)
    program = (
        "import os, sys\n"
        "from pathlib import Path\n"
        "from loftwright.errors import StoreError\n"
        "from loftwright.store.sqlite import open_store\n"
        f"os.getuid() == 0 and os.setuid({NOBODY})\n"
        "try:\n"
        "    open_store(Path(sys.argv[1]))\n"
        "except StoreError as error:\n"
        "    print(error)\n"
    )
    for parent in (tmp_path, *tmp_path.parents):
        if parent.name.startswith(("pytest-", "test_", "popen-")):
            _open_to_all(parent)
    found = subprocess.run(
        [sys.executable, "-c", program, str(folder)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert "cannot be opened" in found.stdout, found.stderr
    assert "LOFTWRIGHT_DATA" in found.stdout


def _open_to_all(folder: Path) -> None:
    """Let another user pass through a folder of the tests."""
    mode = stat.S_IMODE(folder.stat().st_mode)
    folder.chmod(mode | stat.S_IXOTH | stat.S_IXGRP)


def test_a_shot_that_breaks_the_rules_of_the_tables_writes_nothing(tmp_path: Path) -> None:
    store = filled(tmp_path)
    with pytest.raises(StoreError, match="refuses"), store.writing() as connection:
        connection.exec_driver_sql("INSERT INTO acts VALUES ('f1', 9, 9, 'rested', '{}')")
    assert len(store.record("f1")) == 1
    store.close()
