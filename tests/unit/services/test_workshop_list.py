"""The workshop's list: what waits first, a bounded number of jobs, and each read only once."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from builds import BUILD_TOML
from loftwright.domain.order_acts import Agreed, OrderSent, Withdrawn
from loftwright.domain.sheet_acts import SheetIssued
from loftwright.services import workshop_list
from loftwright.services.job_parts import still_read
from loftwright.services.studio import Studio
from loftwright.services.summaries import keep_parts
from loftwright.services.workshop_list import State, read_states, workshop_jobs
from loftwright.store.sqlite import open_store
from taken_clubs import Shop, quoted


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop()
    made.studio = Studio(store=open_store(tmp_path), folder=tmp_path, clock=made.clock)
    yield made
    made.studio.store.close()


def waits(shop: Shop, name: str, days: int) -> str:
    """Open a fitting whose club is to be built within some days."""
    fitting = shop.fitting(name)
    shop.do(fitting, quoted())
    shop.do(fitting, Agreed(name=name))
    promised = shop.studio.today() + timedelta(days=days)
    shop.do(fitting, OrderSent(to="own workshop", promised=promised))
    return fitting


def listed(shop: Shop) -> list[str]:
    return [one.fitting for one in workshop_jobs(shop.studio).jobs]


def test_the_earliest_promise_comes_first_and_the_last_that_was_checked_behind(
    shop: Shop,
) -> None:
    late, early = waits(shop, "Ottoline", 9), waits(shop, "Peregrine", 3)
    done, later_done = waits(shop, "Quentin", 1), waits(shop, "Rosalind", 2)
    shop.do(shop.fitting("Only quoted"), quoted())
    for one in (done, later_done):
        shop.taken(one)
        shop.later(1)
    assert listed(shop)[:2] == [early, late]
    assert listed(shop)[2:] == [later_done, done]
    assert workshop_jobs(shop.studio).going == 2
    assert [one.checked for one in workshop_jobs(shop.studio).jobs] == [False, False, True, True]


def test_a_job_that_went_off_is_told_and_waits_no_more(shop: Shop) -> None:
    gone = waits(shop, "Ottoline", 9)
    assert workshop_jobs(shop.studio).going == 1
    shop.do(gone, SheetIssued(build=BUILD_TOML, fields={}))
    shop.do(gone, Withdrawn(reason="no use for it"))
    told = workshop_jobs(shop.studio)
    assert (told.going, [one.stopped for one in told.jobs]) == (0, [True])


def test_of_many_jobs_the_first_are_shown_and_all_are_counted(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workshop_list, "MOST_OPEN", 2)
    monkeypatch.setattr(workshop_list, "MOST_CHECKED", 1)
    opened = [waits(shop, f"Golfer {number}", number) for number in (4, 2, 3)]
    for name in ("Quentin", "Rosalind"):
        shop.taken(shop.fitting(name))
    told = workshop_jobs(shop.studio)
    assert [one.fitting for one in told.jobs[:2]] == [opened[1], opened[2]]
    assert (len(told.jobs), told.going, told.not_shown) == (3, 3, 2)


def test_a_golfer_who_was_erased_hides_no_other_job(shop: Shop) -> None:
    gone, here = waits(shop, "Zwetschge", 1), waits(shop, "Ottoline", 2)
    assert listed(shop) == [gone, here]
    shop.studio.store.keys.forget(shop.studio.store.fitting(gone).value.golfer)  # type: ignore[attr-defined]
    assert listed(shop) == [here]
    again = Studio(store=shop.studio.store, folder=shop.studio.folder, clock=shop.clock)
    assert [one.fitting for one in workshop_jobs(again).jobs] == [here]


def test_a_page_reads_some_jobs_and_says_how_many_are_left(shop: Shop) -> None:
    for number in range(5):
        waits(shop, f"Golfer {number}", number)
    assert [read_states(shop.studio, 2)[1] for _ in range(4)] == [3, 1, 0, 0]
    assert still_read(3).startswith("3 jobs are still being read")
    assert still_read(1).startswith("One job is")
    assert still_read(0) == ""


def test_a_job_that_goes_on_is_read_before_those_of_long_ago(shop: Shop) -> None:
    fittings = [waits(shop, f"Golfer {number}", number) for number in range(6)]
    known = set(read_states(shop.studio, 3)[0])
    one = next(iter(known))
    shop.do(one, Withdrawn(reason="no use for it"))
    states, left = read_states(shop.studio, 1)
    assert states[one][0] is State.NONE
    assert left == len(fittings) - 3


def test_a_program_that_starts_reads_no_job_again(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    waits(shop, "Ottoline", 9)
    first, _ = read_states(shop.studio)
    again = Studio(store=shop.studio.store, folder=shop.studio.folder, clock=shop.clock)
    asked: list[str] = []
    monkeypatch.setattr(type(again.store), "job_record", lambda _, one: asked.append(one))
    assert read_states(again) == (first, 0)
    assert asked == []
    assert first[next(iter(first))] == (State.OPEN, date(2026, 12, 4))


def test_a_cache_that_holds_something_else_is_made_again(shop: Shop) -> None:
    fitting = waits(shop, "Ottoline", 9)
    first, _ = read_states(shop.studio)
    end = shop.studio.store.job_ends()[fitting]
    for wrong in (b"open", b"nothing 2026-12-04", b"\xff"):
        keep_parts(shop.studio.folder, "workshop", {fitting: (end, wrong)})
        again = Studio(store=shop.studio.store, folder=shop.studio.folder, clock=shop.clock)
        assert read_states(again) == (first, 0)
