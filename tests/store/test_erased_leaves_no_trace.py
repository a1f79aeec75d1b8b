"""After an erase no byte of the data folder tells of the golfer, and nobody else's result moved."""

import gzip
import json
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import psycopg
import pyarrow.parquet as pq
import pytest

from databases import Cluster
from erased_golfer import Erasable, others_alone, results, with_golfer
from loftwright.errors import NotFoundError
from loftwright.services.erasing import erase_everywhere, finish_erasures, unfinished
from loftwright.services.erasing_list import FILE as LIST
from loftwright.services.erasing_list import read_erased
from loftwright.services.evidence import Desk
from loftwright.services.shop_export import export_record
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.shop_learning import learn_shop
from loftwright.services.shop_record import record_shop
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_by_piece
from loftwright.shop.record import files
from loftwright.store.engine import FILE
from loftwright.store.postgres import open_postgres
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from studios import Clock

Open = Callable[[Path], SqlStore]


@pytest.fixture(params=["sqlite", "postgresql"])
def opener(request: pytest.FixtureRequest) -> Open:
    """Return what opens a store of each kind for a data folder."""
    if request.param == "sqlite":
        return open_store
    cluster: Cluster = request.getfixturevalue("cluster")
    url = cluster.fresh()
    return lambda folder: open_postgres(url, folder)


@pytest.fixture
def erasable(opener: Open, tmp_path: Path) -> Iterator[Erasable]:
    """Return a studio in which somebody is to be erased, who taught the shop."""
    folder = tmp_path / "data"
    folder.mkdir()
    made = with_golfer(others_alone(opener(folder), folder))
    record_shop(made.studio, Desk())
    learn_shop(made.studio)
    export_record(made.studio, folder / "handed over")
    yield made
    made.studio.store.close()


def test_no_byte_in_the_data_folder_and_no_row_tells_of_the_golfer(erasable: Erasable) -> None:
    folder, studio = erasable.studio.folder, erasable.studio
    wanted = [*erasable.words, *erasable.ids, *map(code_of_golfer, erasable.ids[:2])]
    opened = [one for one in wanted if one in everything(studio, folder)]
    # Before, keys and rows are there to be found: a search that finds nothing proves nothing.
    assert set(erasable.ids) <= set(opened)
    assert {one for one in erasable.words if "device" in one or "ball" in one} <= set(opened)
    done = erase_everywhere(studio, erasable.second)
    assert (done.records, done.fittings) == (2, 1)
    assert done.record_balls == 80
    there = everything(studio, folder)
    assert [one for one in wanted if one in there] == []
    for one in erasable.fittings:
        with pytest.raises(NotFoundError):
            studio.record(one)
    studio.store.close()
    assert [one for one in wanted if one in everything(studio, folder, closed=True)] == []
    assert not unfinished(studio)


def test_every_other_result_is_the_same_to_the_last_digit(erasable: Erasable) -> None:
    studio = erasable.studio
    before, worn = results(studio, erasable.others), balls_by_piece(studio)
    erase_everywhere(studio, erasable.golfer)
    assert results(studio, erasable.others) == before
    own = set(worn) - set(studio.store.rack().pieces)
    left = balls_by_piece(studio)
    assert {piece: left[piece] for piece in worn if piece not in own} == {
        piece: worn[piece] for piece in worn if piece not in own
    }


def test_the_shop_record_is_that_of_a_shop_that_never_had_the_golfer(tmp_path: Path) -> None:
    first = others_alone(open_store(tmp_path / "never"), tmp_path / "never")
    first.store.close()
    shutil.copytree(tmp_path / "never", tmp_path / "had")
    never = Studio(store=open_store(tmp_path / "never"), folder=tmp_path / "never", clock=Clock())
    had = Studio(store=open_store(tmp_path / "had"), folder=tmp_path / "had", clock=Clock())
    erasable = with_golfer(had)
    for studio in (never, had):
        record_shop(studio, Desk())
        learn_shop(studio)
    assert learned(had) != learned(never)
    done = erase_everywhere(had, erasable.golfer)
    assert done.relearned == (1,)
    assert rows(had) == rows(never)
    assert learned(had) == learned(never)
    never.store.close()
    had.store.close()


def test_a_version_that_nobody_else_taught_goes_and_its_number_stays_taken(
    tmp_path: Path,
) -> None:
    studio = others_alone(open_store(tmp_path), tmp_path)
    erasable = with_golfer(studio)
    for one in erasable.others:
        golfer = studio.store.golfer(studio.store.fitting(one).value.golfer)
        quiet = json.loads("false")
        from dataclasses import replace

        studio.store.change_golfer(
            replace(golfer.value, consents=replace(golfer.value.consents, shop_record=quiet)),
            version=golfer.version,
        )
    record_shop(studio, Desk())
    learn_shop(studio)
    assert erase_everywhere(studio, erasable.golfer).unlearned == (1,)
    assert not (record_folder(studio) / "learned" / "0001.json").exists()
    studio.store.close()


def test_what_a_backup_brings_back_is_erased_again(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    made = with_golfer(others_alone(open_store(folder), folder))
    made.studio.store.close()
    shutil.copytree(folder, tmp_path / "copy")
    studio = Studio(store=open_store(folder), folder=folder, clock=Clock())
    erase_everywhere(studio, made.golfer)
    studio.store.close()
    for one in (FILE, f"{FILE}-wal", f"{FILE}-shm"):
        (folder / one).unlink(missing_ok=True)
    shutil.copy(tmp_path / "copy" / FILE, folder / FILE)
    shutil.copytree(tmp_path / "copy" / "keys", folder / "keys", dirs_exist_ok=True)
    studio = Studio(store=open_store(folder), folder=folder, clock=Clock())
    assert set(made.ids[:2]) <= set(studio.store.golfer_ids())
    assert finish_erasures(studio) == 2
    there = everything(studio, folder)
    assert [one for one in (*made.words, *made.ids) if one in there] == []
    assert finish_erasures(studio) == 0
    studio.store.close()


def test_the_list_of_who_was_erased_names_nobody(tmp_path: Path) -> None:
    made = with_golfer(others_alone(open_store(tmp_path), tmp_path))
    erase_everywhere(made.studio, made.golfer)
    listed = read_erased(tmp_path)
    assert [one.done for one in listed] == [True, True]
    text = (tmp_path / LIST).read_text()
    assert not any(one in text for one in (*made.words, *made.ids))
    made.studio.store.close()


def everything(studio: Studio, folder: Path, *, closed: bool = False) -> str:
    """Return every byte of every file and every row, with packed ones unpacked, as text."""
    told = []
    for file in sorted(folder.rglob("*")):
        told.append(file.name)
        if file.is_file():
            whole = file.read_bytes()
            told.append(whole.decode("latin-1"))
            if whole[:2] == b"\x1f\x8b":
                told.append(gzip.decompress(whole).decode("latin-1"))
            if file.suffix == ".parquet" and whole:
                told.append(str(pq.read_table(file, partitioning=None).to_pylist()))
    if closed:
        return "\n".join(told)
    if (folder / FILE).exists():
        door = sqlite3.connect(folder / FILE)
        tables = [row[0] for row in door.execute("SELECT name FROM sqlite_master")]
        names = [one for one in tables if not one.startswith(("pk_", "uq_", "sqlite_"))]
        told += [str(door.execute(f'SELECT * FROM "{one}"').fetchall()) for one in names]
        door.close()
        return "\n".join(told)
    assert isinstance(studio.store, SqlStore)
    url = studio.store._engine.url.set(drivername="postgresql")
    with psycopg.connect(url.render_as_string(hide_password=False)) as link:
        found = link.execute("SELECT tablename FROM pg_tables WHERE schemaname = 'public'")
        for (name,) in found.fetchall():
            told.append(str(link.execute(f'SELECT * FROM "{name}"').fetchall()))
    return "\n".join(told)


def rows(studio: Studio) -> list[dict[str, object]]:
    """Return the shop record, row by row."""
    return [
        row
        for file in files(record_folder(studio))
        for row in pq.read_table(file, partitioning=None).to_pylist()
    ]


def learned(studio: Studio) -> str:
    """Return what was learned, every figure of it."""
    folder = record_folder(studio) / "learned"
    beside = pq.read_table(folder / "0001.effects.parquet").to_pylist()
    return (folder / "0001.json").read_text() + str(beside)
