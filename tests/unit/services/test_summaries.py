"""Counts over all fittings are the same from the cache, without it, and after a fitting grew."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path
from threading import Event, Thread

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import NotOurs
from loftwright.services import summaries
from loftwright.services.erasing import erase_everywhere
from loftwright.services.piece_balls import balls_in
from loftwright.services.studio import MOST_KEPT, Studio
from loftwright.services.summaries import FILE, FOLDER, Added, Part
from loftwright.services.summing import sum_up
from loftwright.services.wear import balls_by_piece
from loftwright.store.sqlite import open_store
from studios import Clock


@pytest.fixture
def bay(tmp_path: Path) -> Iterator[Bay]:
    clock = Clock()
    made = a_bay(
        studio=Studio(store=open_store(tmp_path), folder=tmp_path, clock=clock), clock=clock
    )
    made.hand("Ash")
    made.balls(4)
    yield made
    made.studio.store.close()


def worked_out(studio: Studio) -> dict[str, int]:
    """Return the balls of each piece from every record."""
    found: dict[str, int] = {}
    for kept in studio.store.fittings():
        for piece, balls in balls_in(studio.standing(kept.value.id)).items():
            found[piece] = found.get(piece, 0) + balls
    return found


def again(bay: Bay) -> Studio:
    """Return the same folder as a program that starts anew."""
    return Studio(store=bay.studio.store, folder=bay.studio.folder, clock=bay.clock)


def rows(bay: Bay) -> list[tuple[str, str]]:
    with sqlite3.connect(bay.studio.folder / FOLDER / FILE) as file:
        return file.execute("SELECT fitting, program FROM parts").fetchall()


def test_counts_are_those_of_every_record_with_the_cache_and_without(bay: Bay) -> None:
    fresh = balls_by_piece(bay.studio)
    assert fresh == worked_out(bay.studio)
    assert fresh["shaft-Ash"] == 4
    assert balls_by_piece(again(bay)) == fresh
    (bay.studio.folder / FOLDER / FILE).unlink()
    assert balls_by_piece(again(bay)) == fresh


def test_a_fitting_that_grew_is_counted_anew_and_once(bay: Bay) -> None:
    balls_by_piece(bay.studio)
    bay.hand("Birch")
    newest = bay.balls(2)[-1]
    assert balls_by_piece(bay.studio) == worked_out(bay.studio)
    bay.do(NotOurs(ball=newest.sequence))
    other = a_bay(studio=bay.studio, clock=bay.clock)
    other.hand("Ash")
    other.ball()
    told = balls_by_piece(bay.studio)
    assert told == worked_out(bay.studio) == balls_by_piece(again(bay))
    assert (told["shaft-Birch"], told["shaft-Ash"]) == (1, 5)


def test_what_another_version_of_the_program_kept_is_not_believed(
    bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    balls_by_piece(bay.studio)
    with sqlite3.connect(bay.studio.folder / FOLDER / FILE) as file:
        file.execute("UPDATE parts SET told = X'00'")
    monkeypatch.setattr(summaries, "__version__", "another")
    assert balls_by_piece(again(bay)) == worked_out(bay.studio)
    assert rows(bay) == [(bay.fitting, "another")]


def test_a_part_that_cannot_be_read_is_made_again(bay: Bay) -> None:
    balls_by_piece(bay.studio)
    with sqlite3.connect(bay.studio.folder / FOLDER / FILE) as file:
        file.execute("UPDATE parts SET told = X'00'")
    assert balls_by_piece(again(bay)) == worked_out(bay.studio)
    assert balls_by_piece(again(bay)) == worked_out(bay.studio)


def test_a_cache_that_is_no_cache_costs_time_and_nothing_else(bay: Bay) -> None:
    (bay.studio.folder / FOLDER).mkdir()
    (bay.studio.folder / FOLDER / FILE).write_bytes(b"no cache" * 200)
    assert balls_by_piece(bay.studio) == worked_out(bay.studio)


def test_no_more_is_worked_out_at_once_than_was_asked(bay: Bay) -> None:
    a_bay(studio=bay.studio, clock=bay.clock)
    asked: list[str] = []

    def make(_: Studio, fitting: str) -> Part:
        asked.append(fitting)
        return {"fittings": (1,)}

    added = Added("tried", make)
    outlines = bay.studio.store.outlines()
    assert added.over(bay.studio, outlines, 1) == ({"fittings": [1]}, 1)
    assert added.over(bay.studio, outlines, 1) == ({"fittings": [2]}, 0)
    assert added.over(bay.studio, outlines[:1]) == ({"fittings": [1]}, 0)
    assert sorted(asked) == sorted(one.fitting for one in outlines)


def test_erasing_a_golfer_takes_the_golfers_fittings_out_of_the_cache(bay: Bay) -> None:
    balls_by_piece(bay.studio)
    other = a_bay(studio=bay.studio, clock=bay.clock)
    balls_by_piece(bay.studio)
    bay.clock.forward(60.0)
    erase_everywhere(bay.studio, bay.golfer.id)
    assert [fitting for fitting, _ in rows(bay)] == [other.fitting]


def test_the_cache_holds_no_name(bay: Bay) -> None:
    balls_by_piece(bay.studio)
    held = (bay.studio.folder / FOLDER / FILE).read_bytes()
    assert b"Brambleby" not in held
    assert bay.golfer.id.encode() not in held


def test_a_studio_remembers_the_fittings_of_a_day_and_lets_the_others_go(bay: Bay) -> None:
    studio = bay.studio
    for _ in range(MOST_KEPT + 3):
        studio.standing(a_bay(studio=studio, clock=bay.clock, warm=False).fitting)
    assert len(studio._standing) == MOST_KEPT
    assert len(studio._records) == MOST_KEPT
    assert len(studio.standing(bay.fitting).balls) == 4


def test_counts_that_were_handed_out_do_not_change_while_they_are_read(bay: Bay) -> None:
    added = Added("balls in a test", _counts)
    told, _ = added.over(bay.studio, bay.studio.store.outlines())
    before = dict(told)
    bay.balls(3)
    added.over(bay.studio, bay.studio.store.outlines())
    assert told == before


def _counts(studio: Studio, fitting: str) -> Part:
    return {str(ball.sequence): (1,) for ball in studio.standing(fitting).balls}


def test_what_is_missing_is_summed_up_behind_the_pages_and_told_to_stop_it_ends(bay: Bay) -> None:
    stop = Event()
    thread = Thread(target=sum_up, args=(bay.studio, stop))
    thread.start()
    try:
        for _ in range(200):
            if (bay.studio.folder / FOLDER / FILE).exists() and rows(bay):
                break
            stop.wait(0.05)
    finally:
        stop.set()
        thread.join(20.0)
    assert not thread.is_alive()
    assert {fitting for fitting, _ in rows(bay)} == {bay.fitting}
