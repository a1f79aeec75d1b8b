"""A store that a newer version wrote is refused and stays as it is, byte by byte."""

import os
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import psycopg
import pytest

from databases import Cluster
from loftwright.cli.app import run
from loftwright.errors import SchemaError
from loftwright.services.one_server import SERVING
from loftwright.store.engine import FILE, sqlite_engine
from loftwright.store.naming import metadata
from loftwright.store.postgres import open_postgres
from loftwright.store.schema import HEAD
from loftwright.store.sqlite import open_store, open_store_to_read
from store_samples import with_fitting

NEWER = "9999"


def a_newer_store(folder: Path) -> None:
    """Make a store and say that a newer version wrote it."""
    store = open_store(folder)
    with_fitting(store)
    store.close()
    engine = sqlite_engine(folder)
    with engine.execution_options(writes=True).begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = ?", (NEWER,))
    engine.dispose()


def bytes_of(folder: Path) -> dict[str, str]:
    """Return every file of a folder with a sum of its bytes."""
    return {
        str(one.relative_to(folder)): sha256(one.read_bytes()).hexdigest()
        for one in sorted(folder.rglob("*"))
        if one.is_file()
    }


def test_a_newer_file_is_refused_and_no_byte_of_it_changes(tmp_path: Path) -> None:
    a_newer_store(tmp_path)
    before = bytes_of(tmp_path)
    with pytest.raises(SchemaError, match=NEWER) as refused:
        open_store(tmp_path)
    assert refused.value.mend
    assert HEAD in refused.value.message
    assert bytes_of(tmp_path) == before


def test_a_newer_file_is_refused_to_who_only_reads_and_no_byte_of_it_changes(
    tmp_path: Path,
) -> None:
    """The database makes an empty log beside a file that it may only read, and leaves it."""
    a_newer_store(tmp_path)
    before = bytes_of(tmp_path)
    with pytest.raises(SchemaError, match=NEWER):
        open_store_to_read(tmp_path)
    after = bytes_of(tmp_path)
    assert {name: after[name] for name in before} == before
    assert set(after) - set(before) <= {f"{FILE}-wal", f"{FILE}-shm"}


@pytest.mark.parametrize(
    "command",
    [("shop", "record"), ("store", "copy", "TARGET")],
    ids=lambda words: words[0],
)
def test_a_command_on_a_newer_file_ends_with_6_and_changes_nothing(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    command: tuple[str, ...],
) -> None:
    folder = tmp_path / "data"
    a_newer_store(folder)
    before = bytes_of(folder)
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(folder))
    code = run([str(tmp_path / "copy") if one == "TARGET" else one for one in command])
    assert code == 6
    assert NEWER in capsys.readouterr().err
    assert bytes_of(folder) == before


def test_a_newer_database_is_refused_and_nothing_in_it_changes(
    cluster: Cluster, tmp_path: Path
) -> None:
    address = cluster.fresh()
    store = open_postgres(address, tmp_path)
    with_fitting(store)
    store.close()
    with psycopg.connect(address.replace("+psycopg", "")) as door:
        door.execute("UPDATE alembic_version SET version_num = %s", [NEWER])
    before = dumped(address)
    with pytest.raises(SchemaError, match=NEWER):
        open_postgres(address, tmp_path)
    assert dumped(address) == before


def test_no_server_starts_on_a_newer_file(tmp_path: Path) -> None:
    a_newer_store(tmp_path)
    before = bytes_of(tmp_path)
    served = subprocess.run(
        [sys.executable, "-c", "from loftwright.cli.app import main; main()", "serve"],
        env=os.environ | {"LOFTWRIGHT_DATA": str(tmp_path), "LOFTWRIGHT_STORE": ""},
        capture_output=True,
        text=True,
        check=False,
        timeout=120.0,
    )
    assert served.returncode == 6, served.stderr
    assert NEWER in served.stderr
    after = bytes_of(tmp_path)
    assert {name: after[name] for name in before} == before
    # What it says of itself lies apart from what it keeps.
    fresh = {one for one in set(after) - set(before) if not one.startswith("logs/")}
    assert fresh == {SERVING}


def dumped(address: str) -> list[tuple[object, ...]]:
    """Return every column and the number of changed rows that the database has counted."""
    with psycopg.connect(address.replace("+psycopg", "")) as door:
        columns = door.execute(
            "SELECT table_name, column_name, data_type FROM information_schema.columns "
            "WHERE table_schema = 'public' ORDER BY 1, 2"
        ).fetchall()
        rows: list[tuple[object, ...]] = []
        for table in metadata.sorted_tables:
            # A row's own transaction tells whether it was written again.
            said = f"SELECT xmin::text, t::text FROM {table.name} t"  # noqa: S608 - own names
            rows += door.execute(said.encode()).fetchall()
    return [*columns, *rows]
