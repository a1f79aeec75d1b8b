"""A backup of a store in PostgreSQL is a file that any studio opens, whatever its revision."""

from pathlib import Path

import pytest
from sqlalchemy import select

from databases import Cluster
from kept_studios import NOW, rows_of
from loftwright.domain.acts import ShotArrived
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError
from loftwright.services.backup import backups_in, make_backup
from loftwright.services.backup_content import source_in
from loftwright.services.backup_tar import read_manifest
from loftwright.services.doctor import look_over
from loftwright.services.opening import _store_at
from loftwright.services.restore import restore
from loftwright.store.engine import sqlite_engine
from loftwright.store.migrate import make_at, revision_of
from loftwright.store.postgres import open_postgres, postgres_engine
from loftwright.store.schema import HEAD, golfers
from loftwright.store.sqlite import open_store
from store_samples import AT, with_fitting, with_rack

ODD = "a \ue000 mark, a nought \0 and ü"


def fill(url: str, folder: Path) -> None:
    store = open_postgres(url, folder)
    with_rack(store)
    with_fitting(store)
    shot = ShotArrived(numbers=ShotNumbers(ball_speed=0.1 + 0.2), line="line", device=ODD)
    store.append("f1", [shot], at=AT, by="feed", key="k")
    store.set_setting("odd", ODD, version=0)
    store.close()


def test_a_database_is_backed_up_into_a_file_and_back_into_an_empty_database(
    cluster: Cluster, tmp_path: Path
) -> None:
    url, data = cluster.fresh(), tmp_path / "data"
    fill(url, data)
    made = make_backup(source_in(data, url), NOW)
    restore(made.path, tmp_path / "new", NOW)
    store = open_store(tmp_path / "new")
    (entry,) = store.record("f1")
    assert isinstance(entry.act, ShotArrived)
    assert entry.act.numbers.ball_speed == 0.1 + 0.2
    assert (entry.act.device, entry.act.line) == (ODD, "line")
    assert store.setting("odd").value == ODD
    store.close()
    other = cluster.fresh()
    # The cluster of the tests asks for no password, and takes any.
    secret = other.replace("@", ":unmistakable@")
    assert "unmistakable" not in restore(made.path, tmp_path / "second", NOW, url=secret).into
    again = make_backup(source_in(tmp_path / "second", other), NOW)
    restore(again.path, tmp_path / "third", NOW)
    assert rows_of(tmp_path / "third") == rows_of(tmp_path / "new")
    with pytest.raises(ConflictError, match="holds"):
        restore(made.path, tmp_path / "fourth", NOW, url=other)
    checks = {one.check for one in look_over(data, NOW, url).findings}
    assert checks <= {"rights"}


def test_a_database_is_backed_up_before_its_tables_change(
    cluster: Cluster, tmp_path: Path
) -> None:
    url = cluster.fresh()
    engine = postgres_engine(url)
    make_at(engine, "0001")
    engine.dispose()
    _store_at(url, tmp_path).close()
    (found,) = backups_in(tmp_path / "backups")
    assert found.before
    assert read_manifest(found.path).schema == "0001"
    restore(found.path, tmp_path / "new", NOW)


def test_a_file_is_backed_up_before_its_tables_change_and_stays_when_that_fails(
    tmp_path: Path,
) -> None:
    engine = sqlite_engine(tmp_path)
    make_at(engine, "0001")
    (tmp_path / "backups").write_text("a file in the place of the folder")
    with pytest.raises(Exception, match="backup cannot be written"):
        _store_at("", tmp_path)
    assert revision_of(engine) == "0001"
    (tmp_path / "backups").unlink()
    _store_at("", tmp_path).close()
    assert revision_of(engine) == HEAD
    with engine.begin() as connection:
        assert connection.execute(select(golfers)).all() == []
    engine.dispose()
    (found,) = backups_in(tmp_path / "backups")
    assert read_manifest(found.path).schema == "0001"
    _store_at("", tmp_path).close()
    assert len(backups_in(tmp_path / "backups")) == 1
