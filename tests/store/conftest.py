"""Every store that must answer like the reference in a dictionary."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from databases import Cluster, running
from fakes import MemoryStore
from loftwright.store.interface import Store
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """Run one PostgreSQL for all tests of a worker."""
    with running() as cluster:
        yield cluster


@pytest.fixture(params=["memory", "sqlite", "postgresql"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """Return an empty store of each kind."""
    made: Store
    if request.param == "memory":
        made = MemoryStore()
    elif request.param == "sqlite":
        made = open_store(tmp_path)
    else:
        made = open_postgres(request.getfixturevalue("cluster").fresh(), tmp_path)
    yield made
    made.close()
