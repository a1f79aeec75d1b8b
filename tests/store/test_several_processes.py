"""Several processes on one PostgreSQL: they hear each other, and none writes over another."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from queue import Queue
from threading import Thread

import pytest

from databases import Cluster
from loftwright.domain import acts
from loftwright.errors import MovedOnError, StoreError
from loftwright.store.interface import Store
from loftwright.store.postgres import PostgresStore, open_postgres
from store_samples import with_fitting

AT = datetime(2026, 5, 14, 9, tzinfo=UTC)


@pytest.fixture
def bays(cluster: Cluster, tmp_path: Path) -> Iterator[tuple[PostgresStore, PostgresStore]]:
    """Return two stores on one database, as two processes open it."""
    url = cluster.fresh()
    first, second = open_postgres(url, tmp_path), open_postgres(url, tmp_path)
    yield first, second
    first.close()
    second.close()


def test_a_process_hears_what_another_wrote_and_not_what_it_wrote_itself(
    bays: tuple[PostgresStore, PostgresStore],
) -> None:
    here, there = bays
    heard: Queue[tuple[str, int]] = Queue()
    here.hear(lambda topic, revision: heard.put((topic, revision)))
    fitting = with_fitting(here)
    here.append(fitting, [acts.Rested()], at=AT, by="")
    there.append(fitting, [acts.Rested(), acts.Rested()], at=AT, by="")
    assert heard.get(timeout=10.0) == (f"fitting:{fitting}", 3)
    there.set_hitting("Bay 1", fitting, version=0)
    assert heard.get(timeout=10.0) == ("bay:Bay 1", 1)
    assert heard.empty()


def test_what_was_rolled_back_is_told_to_nobody(
    bays: tuple[PostgresStore, PostgresStore],
) -> None:
    here, there = bays
    heard: Queue[tuple[str, int]] = Queue()
    here.hear(lambda topic, revision: heard.put((topic, revision)))
    fitting = with_fitting(here)
    with pytest.raises(MovedOnError):
        there.append(fitting, [acts.Rested()], at=AT, by="", end=7)
    there.append(fitting, [acts.Rested()], at=AT, by="", end=0)
    assert heard.get(timeout=10.0) == (f"fitting:{fitting}", 1)


def test_two_processes_number_one_record_without_gaps(
    bays: tuple[PostgresStore, PostgresStore],
) -> None:
    fitting = with_fitting(bays[0])

    def write(store: Store) -> None:
        for _ in range(100):
            store.append(fitting, [acts.Rested()], at=AT, by="")

    threads = [Thread(target=write, args=(one,)) for one in bays]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert [one.sequence for one in bays[0].record(fitting)] == list(range(1, 201))


@pytest.mark.parametrize(
    ("url", "words"),
    [
        ("nonsense", "cannot be read"),
        ("sqlite:///x", "cannot be a sqlite"),
        ("postgresql+psycopg://postgres@127.0.0.1:1/none", "cannot be opened"),
    ],
)
def test_an_address_that_leads_nowhere_is_told_with_the_mend(
    url: str, words: str, tmp_path: Path
) -> None:
    with pytest.raises(StoreError, match=words) as refused:
        open_postgres(url, tmp_path)
    assert "LOFTWRIGHT_STORE" in refused.value.mend + refused.value.place
