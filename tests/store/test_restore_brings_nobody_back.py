"""An older backup, restored and opened, brings no erased golfer back, in no file and no row."""

import gzip
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pyarrow.parquet as pq
import pytest

from erased_golfer import Erasable, a_desk, others_alone, with_golfer
from loftwright.services.backup import make_backup
from loftwright.services.backup_files import FOLDER
from loftwright.services.erasing import erase_everywhere, unfinished
from loftwright.services.opening import open_studio
from loftwright.services.published_kept import published_one, published_ones
from loftwright.services.published_making import Making
from loftwright.services.restore import restore
from loftwright.services.restore_aside import KEPT, put_aside_in
from loftwright.services.shop_folder import code_of_golfer
from loftwright.services.shop_learning import learn_shop
from loftwright.services.shop_publishing import look, publish, token_of
from loftwright.services.shop_record import record_shop
from loftwright.services.studio import Studio
from loftwright.services.summaries import keep_parts
from loftwright.shop.publishing import Question
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store
from published_shops import a_publishing_shop
from studios import Clock

LATER = timedelta(hours=3)
"""After the last ball, when a fitting is under way no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """A studio whose golfer was erased after a backup was made.

    Attributes
    ----------
    wanted : tuple of str
        What tells of the golfer.
    """

    data: Path
    backup: Path
    clock: Clock
    wanted: tuple[str, ...]


@pytest.fixture
def erased(tmp_path: Path) -> Erased:
    """Return one in which the golfer taught the shop and stands in its record and summaries."""
    data, clock = tmp_path / "data", Clock()
    studio = others_alone(open_store(data), data, clock)
    facts: Erasable = with_golfer(studio)
    record_shop(studio, a_desk())
    learn_shop(studio)
    keep_parts(data, "balls", {facts.fittings[0]: (1, b"packed")})
    backup = make_backup(studio, clock.at).path
    erase_everywhere(studio, facts.golfer)
    studio.store.close()
    return Erased(
        data=data,
        backup=backup,
        clock=clock,
        wanted=(*facts.words, *facts.ids, *map(code_of_golfer, facts.ids[:2])),
    )


def told_in(folder: Path, *apart: str) -> str:
    """Return every byte of every file of a folder and every row, but of folders that begin so."""
    told = []
    for file in sorted(folder.rglob("*")):
        if not file.is_file() or file.relative_to(folder).parts[0].startswith(apart):
            continue
        whole = file.read_bytes()
        told += [file.name, whole.decode("latin-1")]
        if whole[:2] == b"\x1f\x8b":
            told.append(gzip.decompress(whole).decode("latin-1"))
        if file.suffix == ".parquet" and whole:
            told.append(str(pq.read_table(file, partitioning=None).to_pylist()))
    with closing(sqlite3.connect(folder / FILE)) as door:
        names = door.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        told += [str(door.execute(f'SELECT * FROM "{one}"').fetchall()) for (one,) in names]  # noqa: S608
    return "\n".join(told)


def found(erased: Erased, data: Path, *apart: str) -> list[str]:
    there = told_in(data, *apart)
    return [one for one in erased.wanted if one in there]


def test_a_backup_from_before_an_erase_brings_nobody_back(erased: Erased) -> None:
    data, now = erased.data, erased.clock.at + LATER
    assert found(erased, data, FOLDER) == []
    done = restore(erased.backup, data, now, over=True)
    # Two records of one golfer, whose rows go when the studio is opened.
    assert (done.tried.erased, done.tried.sealed) == (2, 0)
    assert found(erased, data, FOLDER)
    assert not [file for file in data.rglob("*.key") if file.stem in erased.wanted]
    studio = open_studio(data)
    assert not unfinished(studio)
    studio.store.close()
    assert found(erased, data, FOLDER) == []


def test_what_a_second_restore_put_aside_goes_within_the_week(erased: Erased) -> None:
    data, now = erased.data, erased.clock.at + LATER
    restore(erased.backup, data, now, over=True)
    restore(erased.backup, data, now, over=True)
    studio = open_studio(data)
    assert len(put_aside_in(data)) == 2
    assert found(erased, data, FOLDER) != []
    make_backup(studio, now + KEPT)
    studio.store.close()
    assert put_aside_in(data) == ()
    assert found(erased, data, FOLDER) == []


def test_a_published_comparison_stands_without_who_was_erased(tmp_path: Path) -> None:
    data, clock = tmp_path / "data", Clock()
    shop = a_publishing_shop(8, studio=Studio(store=open_store(data), folder=data, clock=clock))
    asked = Question(
        kind="shaft", models=("s-egret", "s-bittern", "s-curlew"), reference="s-curlew"
    )
    seen = look(shop.studio, asked, Making())
    publish(shop.studio, asked, Making(), by="Umberto", stamp=seen.stamp)
    clock.at += LATER
    backup = make_backup(shop.studio, clock.at).path
    erase_everywhere(shop.studio, shop.golfers[0])
    (left,) = published_ones(shop.studio)
    assert "gone 1" in left.golfers
    assert token_of(code_of_golfer(shop.golfers[0])) not in left.golfers
    shop.studio.store.close()
    restore(backup, data, clock.at + LATER, over=True)
    studio = open_studio(data)
    assert published_one(studio, 1).golfers == left.golfers
    studio.store.close()
