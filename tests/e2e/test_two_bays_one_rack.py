"""Two bays with a process each and one rack: no part is in both, and each hears of the other."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from queue import Queue
from threading import Barrier, Thread

import pytest

from bays import a_bay
from databases import Cluster, running
from loftwright.domain.acts import HandedOver
from loftwright.domain.piece_code import code_of
from loftwright.errors import ConflictError, SchemaError
from loftwright.services.places import check_out, take_here
from loftwright.services.quiet import running as under_way
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.store.postgres import open_postgres, postgres_engine
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from loftwright.store.topics import RACK
from studios import a_shaft

ROUNDS = 12


@pytest.fixture(scope="module")
def cluster() -> Iterator[Cluster]:
    """Run a PostgreSQL of the test's own."""
    with running() as cluster:
        yield cluster


@pytest.fixture(params=["postgresql", "sqlite"])
def two(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[Studio, Studio]]:
    """Return two studios on one store, as two bays' processes open it."""
    if request.param == "postgresql":
        url = request.getfixturevalue("cluster").fresh()
        stores: tuple[SqlStore, SqlStore] = (
            open_postgres(url, tmp_path),
            open_postgres(url, tmp_path),
        )
    else:
        stores = (open_store(tmp_path), open_store(tmp_path))
    studios = tuple(Studio(store=one, folder=tmp_path) for one in stores)
    kept = read_settings(studios[0])
    change_settings(
        studios[0], replace(kept.settings, bays=("Bay 1", "Bay 2")), version=kept.version
    )
    yield studios[0], studios[1]
    for one in stores:
        one.close()


def go(
    studio: Studio, code: str, bay: str, start: Barrier, told: "Queue[tuple[str, str]]"
) -> None:
    """Check a part out to a bay as soon as both are ready, and tell what was said of it."""
    start.wait()
    try:
        check_out(studio, code, bay, by=f"fitter of {bay}")
    except ConflictError as error:
        told.put((bay, error.message))
    else:
        told.put((bay, ""))


def test_of_two_check_outs_at_once_one_wins_and_the_other_is_told_who_has_it(
    two: tuple[Studio, Studio],
) -> None:
    """Twelve times: exactly one of two bays gets it, and the refusal names the other."""
    shaft, _ = a_shaft(two[0])
    code, place = code_of(shaft.id), ""
    for number in range(ROUNDS):
        check_out(two[0], code, "Drawer", had=place)
        told: Queue[tuple[str, str]] = Queue()
        start = Barrier(2)
        threads = [
            Thread(target=go, args=(studio, code, bay, start, told))
            for studio, bay in zip(two, ("Bay 1", "Bay 2"), strict=True)
        ]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        found = dict(told.get(timeout=5.0) for _ in threads)
        place = two[0].store.rack().pieces[shaft.id].place
        assert place in found, number
        loser = next(bay for bay in found if bay != place)
        assert found[place] == ""
        assert f"with {place} since " in found[loser]
        assert f"fitter of {place}" in found[loser]


def test_a_later_scan_wins_by_saying_who_had_it_and_the_other_bay_hears(
    two: tuple[Studio, Studio],
) -> None:
    here, there = two
    heard: Queue[tuple[str, int]] = Queue()
    there.store.hear(lambda topic, revision: heard.put((topic, revision)))
    shaft, _ = a_shaft(here)
    take_here(here, [shaft.id], "Bay 1", by="Ann")
    told = take_here(there, [shaft.id], "Bay 2", by="Bo")
    assert told.startswith("Reedmace was with Bay 1 since ")
    assert told.endswith(", Ann")
    assert here.store.rack().pieces[shaft.id].place == "Bay 2"
    assert [one.place for one in here.store.place_history(shaft.id)] == ["Bay 2", "Bay 1"]
    if here.store.__class__.__name__ == "PostgresStore":
        assert heard.get(timeout=10.0) == (RACK, 1)


def test_a_fitting_in_one_bay_is_under_way_for_every_process(two: tuple[Studio, Studio]) -> None:
    here, there = two
    bay = a_bay(studio=here)
    here.clock = there.clock = bay.clock
    bay.ball()
    assert [one.fitting for one in under_way(there)] == [bay.fitting]


def test_an_older_store_is_not_brought_up_under_a_golfer(cluster: Cluster, tmp_path: Path) -> None:
    url = cluster.fresh()
    store = open_postgres(url, tmp_path)
    studio = Studio(store=store, folder=tmp_path)
    fitting = a_bay(studio=studio).fitting
    now = datetime.now(UTC)
    studio.store.append(fitting, [HandedOver(club="Own")], at=now, by="Ann")
    _set_back(url)
    with pytest.raises(SchemaError, match="a fitting runs in Bay 1"):
        open_postgres(url, tmp_path)
    store.close()
    # Nobody else is on it any more, so that nobody's pages break.
    again = open_postgres(url, tmp_path)
    assert again.places() == {}
    again.close()


def _set_back(url: str) -> None:
    """Make a store older, as a program before this one left it."""
    engine = postgres_engine(url)
    with engine.execution_options(writes=True).begin() as door:
        door.exec_driver_sql("DROP TABLE openings")
        door.exec_driver_sql("ALTER TABLE paired_devices DROP COLUMN pin")
        door.exec_driver_sql("DROP TABLE place_moves")
        door.exec_driver_sql("ALTER TABLE fittings DROP COLUMN bay_check")
        door.exec_driver_sql("ALTER TABLE golfers DROP COLUMN merged_into")
        door.exec_driver_sql("UPDATE alembic_version SET version_num = '0006'")
    engine.dispose()
