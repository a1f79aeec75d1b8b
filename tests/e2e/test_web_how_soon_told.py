"""How soon a fault of the store is told, by `/health` and on the settings, while a server runs."""

import json
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import httpx
import pytest

from loftwright.services.health import PATIENCE
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from serving import served

ROUNDS = 5
ANSWER_STANDS = 2.0
SLACK = 3.0
"""Seconds for a machine that has other work."""
MOST = ANSWER_STANDS + PATIENCE + SLACK


@pytest.fixture
def server(tmp_path: Path) -> Iterator[tuple[str, Path]]:
    studio = Studio(store=open_store(tmp_path), folder=tmp_path)
    with served(create_app(studio)) as address:
        yield address, tmp_path


def until(told: Callable[[], bool]) -> float:
    """Return the seconds until something is told, asked twenty times a second."""
    began = time.monotonic()
    while not told():
        assert time.monotonic() - began < 60.0, "it is never told"
        time.sleep(0.05)
    return time.monotonic() - began


def test_a_store_that_cannot_be_written_is_told_within_seconds_and_so_is_that_it_can_again(
    server: tuple[str, Path],
) -> None:
    address, folder = server
    with httpx.Client(base_url=address, timeout=30.0) as client:

        def failing() -> bool:
            answer = client.get("/health")
            return answer.status_code == 503 and bool(answer.json()["troubles"])

        def said() -> bool:
            return "Nothing can be kept" in client.get("/settings").text

        def well() -> bool:
            return client.get("/health").status_code == 200

        found: dict[str, list[float]] = {"health": [], "settings": [], "well again": []}
        for _ in range(ROUNDS):
            for name, told in (("health", failing), ("settings", said)):
                with closing(sqlite3.connect(folder / FILE, timeout=30.0)) as other:
                    other.isolation_level = None
                    other.execute("BEGIN IMMEDIATE")
                    found[name].append(until(told))
                    other.execute("ROLLBACK")
                found["well again"].append(until(well))
    (folder / "how-soon.json").write_text(json.dumps(found), encoding="utf-8")
    assert max(max(waits) for waits in found.values()) < MOST


def test_a_store_whose_file_is_gone_is_told_within_seconds(server: tuple[str, Path]) -> None:
    address, folder = server
    with httpx.Client(base_url=address, timeout=30.0) as client:
        assert client.get("/health").status_code == 200
        (folder / FILE).rename(folder / "elsewhere.sqlite")
        assert until(lambda: client.get("/health").status_code == 503) < MOST
        (folder / "elsewhere.sqlite").rename(folder / FILE)
        assert until(lambda: client.get("/health").status_code == 200) < MOST
