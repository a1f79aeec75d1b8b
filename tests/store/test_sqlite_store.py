"""What only a file can do wrong: pragmas, seals, schemas, folders."""

import sqlite3
import stat
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, date, datetime
from math import inf, nan
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from loftwright.domain.acts import Act, NotRead, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.home import Home
from loftwright.errors import InputError, SchemaError, StoreError
from loftwright.store.engine import FILE
from loftwright.store.naming import metadata
from loftwright.store.schema import HEAD
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from records import numbers

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
NAME = "Wilhelmina Tuppence"
LINE = "7;148.2;the golfer is called Wilhelmina"
NOBODY = 65534


def filled(folder: Path) -> SqlStore:
    store = open_store(folder)
    golfer = Golfer(
        id="g1", goal="beat Mortimer", looks="like Philippa's", home=Home(name="Grandpa's")
    )
    store.add_golfer(golfer, Identity(name=NAME, contact="tuppence@example.org"))
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
    for word in (
        *(b"Wilhelmina", b"Tuppence", b"example.org", b"wrist", b"148.2;"),
        *(b"Mortimer", b"Philippa", b"Grandpa"),
    ):
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


@pytest.mark.parametrize(
    ("second", "says"),
    [
        (ShotArrived(numbers=numbers(carry=nan)), "carry"),
        (ShotArrived(numbers=numbers(spin=inf)), "spin"),
        (ShotArrived(numbers=numbers(), line="\ud800"), "UTF-8"),
        (ShotArrived(numbers=numbers(), club="\ud800"), "UTF-8"),
        (NotRead(club="\ud800"), "not_read"),
        (ShotArrived(numbers=numbers(), after=2**63), "digits"),
    ],
)
def test_what_would_not_come_back_is_refused_with_all_that_came_with_it(
    tmp_path: Path, second: Act, says: str
) -> None:
    store = filled(tmp_path)
    with pytest.raises(InputError, match=says):
        store.append("f1", [NotRead(), second], at=AT, by="feed", key="bad")
    assert len(store.record("f1")) == 1
    again = store.append("f1", [NotRead()], at=AT, by="feed", key="bad")
    assert (again.repeated, again.entries[0].sequence) == (False, 2)
    store.close()


def test_a_full_disk_is_told_and_loses_nothing_that_was_answered_for(tmp_path: Path) -> None:
    """A file that may not grow stands for a disk that is full."""
    filled(tmp_path).close()
    program = (
        "import resource, signal, sys\n"
        "from datetime import UTC, datetime\n"
        "from pathlib import Path\n"
        "from loftwright.domain.acts import ShotArrived\n"
        "from loftwright.domain.numbers import ShotNumbers\n"
        "from loftwright.errors import StoreError\n"
        "from loftwright.store.sqlite import open_store\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "store = open_store(Path(sys.argv[1]))\n"
        "most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (200_000, most))\n"
        "shot = ShotArrived(numbers=ShotNumbers(carry=200.0), line=9000 * 'x')\n"
        "answered = 0\n"
        "try:\n"
        "    while answered < 200:\n"
        "        key = str(answered)\n"
        "        store.append('f1', [shot], at=datetime.now(UTC), by='feed', key=key)\n"
        "        answered += 1\n"
        "except StoreError as error:\n"
        "    print(error, file=sys.stderr)\n"
        "assert len(store.record('f1')) == answered + 1\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))\n"
        "store.append('f1', [shot], at=datetime.now(UTC), by='feed', key='after')\n"
        "print(answered)\n"
    )
    found = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert "disk is full" in found.stderr
    answered = int(found.stdout)
    store = open_store(tmp_path)
    keys = [entry.key for entry in store.record("f1")]
    assert keys == ["k", *(str(number) for number in range(answered)), "after"]
    store.close()


def test_programs_that_open_a_new_folder_at_once_find_one_store(tmp_path: Path) -> None:
    program = (
        "import sys\n"
        "from pathlib import Path\n"
        "from loftwright.store.sqlite import open_store\n"
        "sys.stdin.read()\n"
        "store = open_store(Path(sys.argv[1]))\n"
        "store.set_setting(sys.argv[2], 'there', version=0)\n"
        "store.close()\n"
    )
    at_once = [
        subprocess.Popen(
            [sys.executable, "-c", program, str(tmp_path / "new"), str(number)],
            stdin=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        for number in range(4)
    ]
    for one in at_once:
        assert one.stdin is not None
    said = [one.communicate()[1].decode() for one in at_once]
    assert [one.returncode for one in at_once] == [0, 0, 0, 0], said
    store = open_store(tmp_path / "new")
    assert store.settings() == dict.fromkeys("0123", "there")
    store.close()


def test_many_readers_do_not_keep_a_writer_out(tmp_path: Path) -> None:
    store = filled(tmp_path)

    def work(place: int) -> int:
        if place % 2:
            return len(store.record("f1"))
        return store.append("f1", [NotRead()], at=AT, by="", key=str(place)).entries[0].sequence

    with ThreadPoolExecutor(24) as pool:
        found = list(pool.map(work, range(240)))
    assert sorted(found[::2]) == list(range(2, 122))
    store.close()
