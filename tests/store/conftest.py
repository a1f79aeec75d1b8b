"""Every store that must answer like the reference in a dictionary."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from fakes import MemoryStore
from loftwright.store.interface import Store
from loftwright.store.sqlite import open_store


@pytest.fixture(params=["memory", "sqlite"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """Return an empty store of each kind."""
    made: Store = MemoryStore() if request.param == "memory" else open_store(tmp_path)
    yield made
    made.close()
