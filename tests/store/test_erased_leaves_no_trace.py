"""After an erase no byte of the data folder tells of the golfer, and no other result moved."""

import gzip
import os
import shutil
import signal
import sqlite3
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np
import psycopg
import pyarrow.parquet as pq
import pytest

from databases import Cluster
from erased_golfer import Erasable, others_alone, results, with_golfer
from loftwright.errors import NotFoundError
from loftwright.services.erasing import erase_everywhere, finish_erasures, unfinished
from loftwright.services.erasing_list import read_erased
from loftwright.services.evidence import Desk
from loftwright.services.exporting import export_golfer, export_shop
from loftwright.services.shop_export import export_record
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.shop_learning import learn_shop, learned_versions
from loftwright.services.shop_newest import newest
from loftwright.services.shop_record import record_shop
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_by_piece
from loftwright.shop.record import files
from loftwright.store.copying import copy_store
from loftwright.store.engine import FILE
from loftwright.store.postgres import open_postgres
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from loftwright.store.tombstones import marks_in
from shop_studios import with_consent
from studios import Clock, app_of
from web_client import asking

KILLS: Final = int(os.environ.get("LOFTWRIGHT_KILLS", "6"))
"""Rounds in which an erase is killed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shops:
    """Two folders of one shop: before somebody came who is to be erased, and after.

    Attributes
    ----------
    facts : Erasable
        Its studio is closed; ids and words hold in every copy of `had`.
    """

    never: Path
    had: Path
    facts: Erasable


@pytest.fixture(scope="module")
def shops(tmp_path_factory: pytest.TempPathFactory) -> Shops:
    """Return both, with their records and what they learned."""
    never, had = (tmp_path_factory.mktemp("shop") / name for name in ("never", "had"))
    others_alone(open_store(never), never).store.close()
    shutil.copytree(never, had)
    studio = at_noon(never)
    record_shop(studio, Desk())
    learn_shop(studio)
    studio.store.close()
    facts = with_golfer(at_noon(had))
    record_shop(facts.studio, Desk())
    learn_shop(facts.studio)
    export_record(facts.studio, had / "handed over")
    export_golfer(facts.studio, facts.golfer, had / "copies" / "one", results=False)
    export_golfer(facts.studio, other_golfer(facts), had / "copies" / "other", results=False)
    export_shop(facts.studio, had / "copies" / "all")
    facts.studio.store.close()
    return Shops(never=never, had=had, facts=facts)


@pytest.fixture(params=["sqlite", "postgresql"])
def erasable(request: pytest.FixtureRequest, shops: Shops, tmp_path: Path) -> Iterator[Erasable]:
    """Return a studio of each kind in which somebody is to be erased, who taught the shop."""
    folder = tmp_path / "data"
    shutil.copytree(shops.had, folder)
    studio = at_noon(folder)
    if request.param == "postgresql":
        cluster: Cluster = request.getfixturevalue("cluster")
        source, target = studio.store, open_postgres(cluster.fresh(), folder)
        assert isinstance(source, SqlStore)
        copy_store(source, target)
        source.close()
        for one in folder.glob(f"{FILE}*"):
            one.unlink()
        studio = Studio(store=target, folder=folder, clock=Clock())
    yield replace(shops.facts, studio=studio)
    studio.store.close()


def at_noon(folder: Path) -> Studio:
    """Return the studio of a folder, on the tests' own day."""
    return Studio(store=open_store(folder), folder=folder, clock=Clock())


def other_golfer(facts: Erasable) -> str:
    """Return a golfer who is not erased."""
    return facts.studio.store.fitting(facts.others[0]).value.golfer


def test_no_byte_in_the_data_folder_and_no_row_tells_of_the_golfer(erasable: Erasable) -> None:
    folder, studio = erasable.studio.folder, erasable.studio
    wanted = [*erasable.words, *erasable.ids, *map(code_of_golfer, erasable.ids[:2])]
    before = everything(studio, folder)
    opened = [one for one in wanted if one in before]
    # Before, keys and rows are there to be found: a search that finds nothing proves nothing.
    assert set(erasable.ids) <= set(opened)
    assert {one for one in erasable.words if "device" in one or "ball" in one} <= set(opened)
    done = erase_everywhere(studio, erasable.second)
    assert (done.records, done.fittings) == (2, 1)
    assert done.record_balls == 40
    there = everything(studio, folder)
    assert [one for one in wanted if one in there] == []
    for one in erasable.fittings:
        with pytest.raises(NotFoundError):
            studio.record(one)
    studio.store.close()
    there = everything(studio, folder, closed=True)
    assert [one for one in wanted if one in there] == []
    assert not unfinished(studio)
    assert sorted(one.name for one in (folder / "copies").iterdir()) == ["other"]
    assert done.exports == 2
    assert [one.done for one in read_erased(folder)] == [True, True]


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


def test_the_shop_record_is_that_of_a_shop_that_never_had_the_golfer(
    shops: Shops, tmp_path: Path
) -> None:
    shutil.copytree(shops.had, tmp_path / "had")
    never, had = at_noon(shops.never), at_noon(tmp_path / "had")
    assert learned(had) != learned(never)
    assert erase_everywhere(had, shops.facts.golfer).relearned == (1,)
    assert rows(had) == rows(never)
    assert learned(had) == learned(never)
    never.store.close()
    had.store.close()


def test_another_process_forgets_what_it_had_in_mind(erasable: Erasable) -> None:
    other = beside(erasable.studio)
    fitting = erasable.fittings[0]
    with asking(app_of(other)) as client:
        assert other.standing(fitting).closed
        before = in_mind(other)
        erase_everywhere(erasable.studio, erasable.golfer)
        fresh = beside(erasable.studio)
        assert in_mind(fresh) != before
        until = time.monotonic() + 30.0
        while in_mind(other) != in_mind(fresh) and time.monotonic() < until:
            assert client.get("/what-is-kept").status_code == 200
        assert in_mind(other) == in_mind(fresh)
        assert other._records.get(fitting) is None
        assert other._standing.get(fitting) is None
        assert client.get(f"/fittings/{fitting}/golfer").status_code == 404
        fresh.store.close()
    other.store.close()


def beside(studio: Studio) -> Studio:
    """Return the studio as another process opens it."""
    assert isinstance(studio.store, SqlStore)
    url = studio.store._engine.url
    store = (
        open_store(studio.folder)
        if url.get_backend_name() == "sqlite"
        else open_postgres(url.render_as_string(hide_password=False), studio.folder)
    )
    return Studio(store=store, folder=studio.folder, clock=Clock())


def in_mind(studio: Studio) -> str:
    """Return what a studio tells of everybody, from what it keeps in mind."""
    learned = newest(studio).learned
    assert learned is not None
    return repr(
        (
            studio.store.names(),
            studio.store.outlines(),
            sorted(balls_by_piece(studio).items()),
            learned.balls,
            learned.fittings,
        )
    )


def test_a_version_that_nobody_else_taught_goes_and_its_number_stays_taken(
    shops: Shops, tmp_path: Path
) -> None:
    shutil.copytree(shops.had, tmp_path / "had")
    studio = at_noon(tmp_path / "had")
    for one in shops.facts.others:
        with_consent(studio, one, agreed=False)
    record_shop(studio, Desk())
    assert erase_everywhere(studio, shops.facts.golfer).unlearned == (1,)
    assert learned_versions(studio) == ()
    for one in shops.facts.others:
        with_consent(studio, one, agreed=True)
    record_shop(studio, Desk())
    assert learn_shop(studio).version == 2
    studio.store.close()


def test_what_a_backup_brings_back_is_erased_again(shops: Shops, tmp_path: Path) -> None:
    folder, facts = tmp_path / "data", shops.facts
    shutil.copytree(shops.had, folder)
    studio = at_noon(folder)
    erase_everywhere(studio, facts.golfer)
    studio.store.close()
    for one in folder.glob(f"{FILE}*"):
        one.unlink()
    shutil.copy(shops.had / FILE, folder / FILE)
    shutil.copytree(shops.had / "keys", folder / "keys", dirs_exist_ok=True)
    studio = at_noon(folder)
    assert set(facts.ids[:2]) <= set(studio.store.golfer_ids())
    assert finish_erasures(studio) == 2
    there = everything(studio, folder)
    assert [one for one in (*facts.words, *facts.ids) if one in there] == []
    assert finish_erasures(studio) == 0
    studio.store.close()


@pytest.mark.skipif(sys.platform == "win32", reason="no fork there")
def test_an_erase_that_is_killed_anywhere_is_finished_when_the_studio_opens(
    shops: Shops, tmp_path: Path
) -> None:
    facts, rng = shops.facts, np.random.default_rng(8)
    cut_off = 0
    for number in range(KILLS):
        folder = tmp_path / f"round{number}"
        shutil.copytree(shops.had, folder)
        # Every third is killed before or while it is written down that it shall be done.
        begun = killed_after(
            float(rng.uniform(0.0, 0.3 if number % 3 else 0.01)),
            folder,
            facts.golfer,
            written_down=bool(number % 3),
        )
        listed = read_erased(folder)
        cut_off += bool(listed) and not all(one.done for one in listed)
        studio = at_noon(folder)
        finish_erasures(studio)
        there = everything(studio, folder)
        found = [one for one in (*facts.words, *facts.ids) if one in there]
        # Killed before it was written down that it shall be done, nothing has happened.
        assert bool(found) is not bool(listed), (number, begun)
        assert not unfinished(studio)
        if not listed:
            assert studio.store.identity(facts.golfer).contact
        assert {one.value.id for one in studio.store.fittings()} >= set(facts.others)
        studio.store.close()
        shutil.rmtree(folder)
    assert cut_off >= 2


def killed_after(seconds: float, folder: Path, golfer: str, *, written_down: bool) -> float:
    """Let a process erase a golfer and kill it some time after it began, or wrote that down."""
    told, tell = os.pipe()
    child = os.fork()
    if not child:
        try:
            studio = at_noon(folder)
            os.write(tell, b"1")
            erase_everywhere(studio, golfer)
        finally:
            os._exit(0)
    os.read(told, 1)
    began = time.monotonic()
    while written_down and not marks_in(folder) and time.monotonic() < began + 30.0:
        time.sleep(0.001)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(told)
    os.close(tell)
    return time.monotonic() - began


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
        tables = door.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        names = [one for (one,) in tables if not one.startswith("sqlite_")]
        asked = [f'SELECT * FROM "{one}"' for one in names]  # noqa: S608 - its own names
        told += [str(door.execute(one).fetchall()) for one in asked]
        door.close()
        return "\n".join(told)
    assert isinstance(studio.store, SqlStore)
    url = studio.store._engine.url.set(drivername="postgresql")
    with psycopg.connect(url.render_as_string(hide_password=False)) as link:
        found = link.execute("SELECT tablename FROM pg_tables WHERE schemaname = 'public'")
        for (name,) in found.fetchall():
            told.append(str(link.execute(f'SELECT * FROM "{name}"').fetchall()))  # noqa: S608
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
