"""Erased is erased: rows, keys and parts go, others stay, and nobody is erased while hitting."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Closed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import ConflictError, NotFoundError, StoreError
from loftwright.services.erasing import (
    erase_everywhere,
    finish_erasures,
    finish_if_possible,
    unfinished,
)
from loftwright.services.erasing_list import read_erased
from loftwright.services.erasing_look import Going, look, said
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer, golfers_called
from loftwright.services.merging import merge
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_by_piece
from loftwright.store.sqlite import open_store
from loftwright.store.tombstones import copy_marks, digest_of, write_mark
from studios import studio_in_memory


def on_disk(folder: Path) -> Studio:
    at = datetime(2026, 11, 26, 9, tzinfo=UTC)
    return Studio(store=open_store(folder), folder=folder, clock=lambda: at)


def test_all_records_of_a_golfer_go_with_their_keys_and_others_keep_theirs(tmp_path: Path) -> None:
    studio = on_disk(tmp_path)
    first, second, other = (
        add_golfer(studio, Golfer(id="", goal=f"goal of {name}"), Identity(name=name))
        for name in ("A", "B", "C")
    )
    merge(studio, second.id, first.id)
    assert erase_everywhere(studio, second.id).records == 2
    assert studio.store.golfer_ids() == (other.id,)
    assert sorted(one.name for one in (tmp_path / "keys").iterdir()) == [f"{other.id}.key"]
    assert list(golfers_called(studio, "").values()) == ["C"]
    assert studio.store.golfer(other.id).value.goal == "goal of C"
    assert not any(one.startswith("merged:") for one in studio.store.settings())
    with pytest.raises(NotFoundError):
        erase_everywhere(studio, first.id)
    studio.store.close()


def test_nobody_is_erased_while_hitting() -> None:
    bay = a_bay()
    second = add_golfer(bay.studio, replace(bay.golfer, id="", own=None), Identity(name="B"))
    bay.ball()
    with pytest.raises(ConflictError, match="runs in Bay 1"):
        erase_everywhere(bay.studio, bay.golfer.id)
    assert bay.studio.store.identity(bay.golfer.id).name == "Ottoline Brambleby"
    assert read_erased(bay.studio.folder) == ()
    bay.do(Closed())
    merge(bay.studio, second.id, bay.golfer.id)
    done = erase_everywhere(bay.studio, second.id)
    assert (done.records, done.fittings) == (2, 1)
    with pytest.raises(NotFoundError):
        bay.studio.record(bay.fitting)


def test_a_golfer_who_is_not_there_cannot_be_erased() -> None:
    with pytest.raises(NotFoundError):
        erase_everywhere(studio_in_memory(), "nobody")


def closed_bay() -> Bay:
    bay = a_bay()
    bay.ball()
    bay.do(Closed())
    return bay


def test_a_part_is_not_new_because_who_hit_it_is_forgotten() -> None:
    bay = closed_bay()
    before = balls_by_piece(bay.studio)
    assert before["head-1"] > 0
    erase_everywhere(bay.studio, bay.golfer.id)
    assert balls_by_piece(bay.studio)["head-1"] == before["head-1"]


def test_the_fitting_of_who_took_turns_stands_alone() -> None:
    bay = closed_bay()
    studio = bay.studio
    other = add_golfer(studio, Golfer(id=""), Identity(name="Hob Noughtley"))
    theirs = open_fitting(studio, other.id, bay="Bay 1", partner=bay.fitting)
    bay.clock.forward(60.0)
    erase_everywhere(studio, bay.golfer.id)
    assert studio.store.fitting(theirs.id).value.partner is None


def test_what_an_erase_takes_is_said_before_and_nothing_is_changed() -> None:
    bay = closed_bay()
    going = look(bay.studio, bay.golfer.id)
    assert (going.records, going.fittings, going.balls) == (1, 1, 1)
    lines = "\n".join(said(going))
    assert "O.B." in lines
    assert "1 fitting" in lines
    assert "within 7 days" in lines
    assert "what a restore put aside keeps them for 7 days" in lines
    assert bay.studio.store.identity(bay.golfer.id).name == "Ottoline Brambleby"


def test_each_line_says_what_happens_and_to_what() -> None:
    going = Going(
        initials="O.B.",
        records=2,
        fittings=1,
        jobs=1,
        balls=3,
        record_balls=4,
        versions=(1, 2),
        published=(3,),
    )
    told = [line.partition(": ") for line in said(going)]
    assert len(told) == 7
    assert all(words and len(what) < 35 for what, _, words in told)


STEPS = (
    "loftwright.services.erasing.leave_records",
    "loftwright.services.erasing.learn_without",
    "loftwright.services.erasing.leave_publications",
    "loftwright.services.erasing.remove_exports",
    "loftwright.services.erasing.clean_logs",
    "loftwright.services.erasing.end",
)


@pytest.mark.parametrize("step", STEPS)
def test_an_erase_that_fails_at_any_step_is_finished_when_the_studio_opens(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    studio = on_disk(tmp_path)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="A"))
    opened = open_fitting(studio, golfer.id, bay="Bay 1")
    broken: Callable[..., None] = _fails
    with monkeypatch.context() as patched:
        patched.setattr(step, broken)
        with pytest.raises(StoreError, match="disk"):
            erase_everywhere(studio, golfer.id)
    assert unfinished(studio)
    assert not list((tmp_path / "keys").glob("*.key"))
    assert golfer.id not in golfers_called(studio, "")
    finish_if_possible(studio)
    assert not unfinished(studio)
    assert golfer.id not in studio.store.golfer_ids()
    assert opened.id not in [kept.value.id for kept in studio.store.fittings()]
    assert finish_erasures(studio) == 0
    studio.store.close()


def test_a_data_folder_that_cannot_be_written_is_named_and_the_studio_opens_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    studio = on_disk(tmp_path)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="A"))
    write_mark(tmp_path, digest_of("somebody"), '{"day": "", "done": false}')
    monkeypatch.setattr("loftwright.services.erasing_files.turn", _read_only)
    with pytest.raises(StoreError, match="Read-only") as refused:
        erase_everywhere(studio, golfer.id)
    assert refused.value.place == str(tmp_path)
    finish_if_possible(studio)
    assert studio.store.identity(golfer.id).name == "A"
    studio.store.close()


def test_two_who_erase_one_golfer_at_once_leave_nothing_unfinished(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here, there = on_disk(tmp_path), on_disk(tmp_path)
    golfer = add_golfer(here, Golfer(id=""), Identity(name="A"))

    @contextmanager
    def after_the_other(_: Path) -> Iterator[None]:
        monkeypatch.undo()
        erase_everywhere(there, golfer.id)
        yield

    monkeypatch.setattr("loftwright.services.erasing.alone_in", after_the_other)
    with pytest.raises(NotFoundError):
        erase_everywhere(here, golfer.id)
    assert not unfinished(here)
    here.store.close()
    there.store.close()


def _read_only(_: Path) -> None:
    raise OSError(30, "Read-only file system")


def _fails(*_: object) -> None:
    raise StoreError("the disk is full", place="disk", mend="Free some space.")


def test_a_list_that_cannot_be_read_erases_nobody_and_says_so(tmp_path: Path) -> None:
    studio = on_disk(tmp_path)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="A"))
    write_mark(tmp_path, digest_of("somebody"), "not JSON")
    with pytest.raises(StoreError, match="cannot be read"):
        erase_everywhere(studio, golfer.id)
    assert studio.store.identity(golfer.id).name == "A"
    studio.store.close()


def test_who_was_erased_is_carried_over_to_another_data_folder(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    studio = on_disk(here)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="A"))
    erase_everywhere(studio, golfer.id)
    assert [copy_marks(here, there) for _ in range(2)] == [1, 0]
    assert [(one.who, one.done) for one in read_erased(there)] == [(digest_of(golfer.id), False)]
    studio.store.close()


def test_a_key_is_overwritten_before_it_goes(tmp_path: Path) -> None:
    studio = on_disk(tmp_path)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="A"))
    key = tmp_path / "keys" / f"{golfer.id}.key"
    held = os.open(key, os.O_RDONLY)
    erase_everywhere(studio, golfer.id)
    assert os.read(held, 100) == bytes(44)
    os.close(held)
    studio.store.close()
