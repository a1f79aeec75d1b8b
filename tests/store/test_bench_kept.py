"""Bench sheets and the days of a master shaft, in every store alike."""

from datetime import UTC, datetime

import pytest

from loftwright.domain.rack import Piece
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.interface import BenchDay, Store, TakenBack
from store_samples import with_rack

DAY = BenchDay(piece="p2", at=datetime(2026, 5, 14, 9, tzinfo=UTC), told='{"mass": 0.062}')


def test_a_sheet_is_kept_version_by_version(store: Store) -> None:
    with_rack(store)
    assert store.bench_sheet("p2").version == 0
    assert store.set_bench_sheet("p2", "one", version=0) == 1
    assert store.set_bench_sheet("p2", "two", version=1) == 2
    assert (store.bench_sheet("p2").value, store.bench_sheet("p2").version) == ("two", 2)
    assert store.bench_sheets() == {"p2": "two"}


def test_a_sheet_from_a_stale_page_is_refused(store: Store) -> None:
    with_rack(store)
    store.set_bench_sheet("p2", "one", version=0)
    with pytest.raises(ConflictError, match="version 1"):
        store.set_bench_sheet("p2", "other", version=0)
    assert store.bench_sheet("p2").value == "one"


def test_a_closed_sheet_makes_room_for_a_new_one(store: Store) -> None:
    with_rack(store)
    store.set_bench_sheet("p2", "one", version=0)
    store.close_bench_sheet("p2", "m1")
    assert store.bench_sheet("p2").version == 0
    assert store.bench_sheets() == {}
    assert store.set_bench_sheet("p2", "next", version=0) == 1
    assert store.bench_sheet("p2").value == "next"


def test_a_sheet_of_what_is_no_piece_is_refused(store: Store) -> None:
    with_rack(store)
    with pytest.raises(NotFoundError, match="piece 's1'"):
        store.set_bench_sheet("s1", "one", version=0)
    with pytest.raises(NotFoundError, match="piece 's1'"):
        store.close_bench_sheet("s1", "m1")


def test_days_come_back_in_the_order_in_which_they_came(store: Store) -> None:
    with_rack(store)
    later = BenchDay(piece="p2", at=datetime(2026, 5, 13, 9, tzinfo=UTC), told="{}")
    store.keep_bench_day(DAY)
    store.keep_bench_day(later)
    assert store.bench_days() == (DAY, later)
    with pytest.raises(NotFoundError, match="piece 's1'"):
        store.keep_bench_day(BenchDay(piece="s1", at=DAY.at, told="{}"))
    with pytest.raises(InputError, match="zone"):
        store.keep_bench_day(
            BenchDay(piece="p2", at=datetime(2026, 5, 14, 9), told="{}")  # noqa: DTZ001 - the point
        )


@pytest.mark.parametrize("closed", [False, True])
def test_a_shaft_that_was_on_the_bench_is_not_taken_back(store: Store, closed: bool) -> None:
    with_rack(store)
    version = store.put(Piece(id="p3", model="s1"), version=None)
    store.set_bench_sheet("p3", "one", version=0)
    if closed:
        store.close_bench_sheet("p3", "m1")
    with pytest.raises(ConflictError, match="came later"):
        store.take_back(TakenBack(items=(("p3", version),)))
    assert "p3" in store.rack().pieces
