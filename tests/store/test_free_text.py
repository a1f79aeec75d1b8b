"""What people type freely may name somebody: it goes with the golfer's key."""

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from loftwright.domain.acts import Felt, Marked, SetMarked
from loftwright.domain.fitting import Fitting, Mark
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.home import Home
from loftwright.errors import NotFoundError
from loftwright.store.engine import FILE
from loftwright.store.free_text import SEALED
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
GOLFER = Golfer(
    id="g1", goal="beat Mortimer", looks="as Philippa likes it", home=Home(name="Ermintrude's")
)
TYPED = (
    Felt(club="Own", place=0.4, word="like Leopold's"),
    Marked(mark=Mark(toe=0.1 / 3, high=-0.002, words="where Cuthbert hits it")),
    SetMarked(balls=(1, 2), marks=(Mark(toe=0.0, high=0.0, words="Hortense's"),)),
)
NAMES = (b"Mortimer", b"Philippa", b"Ermintrude", b"Leopold", b"Cuthbert", b"Hortense")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqlStore]:
    made = open_store(tmp_path)
    made.add_golfer(GOLFER, Identity(name="Wilhelmina Tuppence"))
    made.open_fitting(Fitting(id="f1", golfer="g1", opened=date(2026, 5, 14)))
    made.append("f1", TYPED, at=AT, by="fitter")
    yield made
    made.close()


def test_free_text_comes_back_and_stands_nowhere_in_the_file(
    store: SqlStore, tmp_path: Path
) -> None:
    assert store.golfer("g1").value == GOLFER
    assert tuple(entry.act for entry in store.record("f1")) == TYPED
    version = store.change_golfer(replace(GOLFER, goal="beat Mortimer twice"), version=1)
    assert store.golfer("g1").value.goal == "beat Mortimer twice"
    assert version == 2
    raw = b"".join(file.read_bytes() for file in tmp_path.iterdir() if file.name.startswith(FILE))
    store.close()
    raw += (tmp_path / FILE).read_bytes()
    assert SEALED.encode() in raw
    assert [name for name in NAMES if name in raw] == []


def test_without_the_key_free_text_is_gone_and_every_number_stays(store: SqlStore) -> None:
    store.keys.forget("g1")
    erased = store.golfer("g1").value
    assert erased == replace(GOLFER, goal="", looks="", home=Home(name=""))
    felt, marked, together = (entry.act for entry in store.record("f1"))
    assert felt == replace(TYPED[0], word="")
    assert isinstance(marked, Marked)
    assert marked.mark == replace(TYPED[1].mark, words="")
    assert isinstance(together, SetMarked)
    assert [mark.words for mark in together.marks] == [""]
    store.change_golfer(replace(erased, head_speed=40.0), version=1)
    assert store.golfer("g1").value.head_speed == 40.0


def test_records_that_hold_clear_text_read_as_they_did(store: SqlStore, tmp_path: Path) -> None:
    door = sqlite3.connect(tmp_path / FILE)
    door.execute("UPDATE golfers SET goal = 'further', looks = 'sealed: no, low'")
    told = json.dumps({"club": "Own", "place": 1 / 3, "word": "solid"})
    door.execute("UPDATE acts SET told = ? WHERE kind = 'felt'", (told,))
    door.commit()
    door.close()
    golfer = store.golfer("g1").value
    assert (golfer.goal, golfer.looks) == ("further", "sealed: no, low")
    assert store.record("f1")[0].act == Felt(club="Own", place=1 / 3, word="solid")


def test_a_text_that_looks_sealed_comes_back_as_it_was_typed(store: SqlStore) -> None:
    typed = replace(GOLFER, goal=f"{SEALED}gAAAAABtext", looks="")
    store.change_golfer(typed, version=1)
    assert store.golfer("g1").value == typed


def test_a_golfer_who_is_not_there_is_not_taken_for_an_erased_one(store: SqlStore) -> None:
    with pytest.raises(NotFoundError):
        store.change_golfer(replace(GOLFER, id="nobody"), version=1)
