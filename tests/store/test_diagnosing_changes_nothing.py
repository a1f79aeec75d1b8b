"""A diagnosis reads the store as it finds it: tables of another version stay, and are told."""

import json
from pathlib import Path

import psycopg
import pytest

from databases import Cluster
from loftwright.services.diagnosing import diagnose_into
from loftwright.services.opening import STORE
from loftwright.store.engine import FILE
from loftwright.store.postgres import open_postgres
from loftwright.store.schema import HEAD
from loftwright.store.sqlite import open_store


def told_of(file: Path) -> tuple[dict[str, object], list[str]]:
    """Make a bundle; return what it says of the installation, and the names of its parts."""
    bundle, _ = diagnose_into(file)
    parts = {one.name: one.text for one in bundle.parts}
    return json.loads(parts["installation.json"]), list(parts)


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.delenv(STORE, raising=False)
    return tmp_path / "data"


def test_an_older_database_is_not_brought_up_and_its_schema_is_told(
    cluster: Cluster, data: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    url = cluster.fresh()
    open_postgres(url, data).close()
    monkeypatch.setenv(STORE, url)
    told, parts = told_of(tmp_path / "well.zip")
    assert (told["schema"], told["database"], told["cannot_be_opened"]) == (
        *(HEAD, "postgresql"),
        None,
    )
    assert {"rows.json", "settings.json", "doctor.json"} <= set(parts)
    with psycopg.connect(url.replace("+psycopg", ""), autocommit=True) as door:
        door.execute("UPDATE alembic_version SET version_num = '0007'")
        told, parts = told_of(tmp_path / "older.zip")
        found = door.execute("SELECT version_num FROM alembic_version").fetchall()
    assert found == [("0007",)]
    assert (told["schema"], told["cannot_be_opened"]) == ("0007", "schema")
    assert "rows.json" not in parts


def test_an_empty_database_stays_empty(
    cluster: Cluster, data: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    url = cluster.fresh()
    monkeypatch.setenv(STORE, url)
    told, _ = told_of(tmp_path / "empty.zip")
    assert (told["schema"], told["cannot_be_opened"]) == (None, "schema")
    with psycopg.connect(url.replace("+psycopg", "")) as door:
        assert door.execute("SELECT to_regclass('fittings')").fetchone() == (None,)
    assert not data.exists()


def test_nothing_is_laid_beside_a_file_that_was_closed(data: Path, tmp_path: Path) -> None:
    open_store(data).close()
    before = {one: one.stat().st_mtime_ns for one in data.rglob("*")}
    told, parts = told_of(tmp_path / "help.zip")
    assert told["schema"] == HEAD
    assert "doctor.json" in parts
    assert {one: one.stat().st_mtime_ns for one in data.rglob("*")} == before
    assert data / FILE in before
