"""How soon a fault is told while a server runs: by `/health`, on the settings and on a page."""

import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import Page, expect

from browser import LOST, Faults
from databases import running
from loftwright.services.health import PATIENCE
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from serving import ServerProcess, free_port, served

ROUNDS = 3
ANSWER_STANDS = 2.0
TRIED_AGAIN = 2.0
"""Seconds after which a page tries a lost link again, at most."""
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
    server: tuple[str, Path], say: Callable[[str], None]
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
    for name, waits in found.items():
        say(f"a store that cannot be written, {name}: {min(waits):.1f} to {max(waits):.1f} s")
    assert max(max(waits) for waits in found.values()) < MOST


def test_a_store_whose_file_is_gone_is_told_within_seconds(
    server: tuple[str, Path], say: Callable[[str], None]
) -> None:
    address, folder = server
    with httpx.Client(base_url=address, timeout=30.0) as client:
        gone, back = [], []
        for _ in range(ROUNDS):
            assert client.get("/health").status_code == 200
            (folder / FILE).rename(folder / "elsewhere.sqlite")
            gone.append(until(lambda: client.get("/health").status_code == 503))
            (folder / "elsewhere.sqlite").rename(folder / FILE)
            back.append(until(lambda: client.get("/health").status_code == 200))
    say(f"a store that is gone: {max(gone):.1f} s at most, and back: {max(back):.1f} s")
    assert max(*gone, *back) < MOST


def test_a_database_that_is_stopped_is_told_within_seconds(
    tmp_path: Path, say: Callable[[str], None]
) -> None:
    with running() as own:
        studio = Studio(store=open_postgres(own.fresh(), tmp_path), folder=tmp_path)
        with (
            served(create_app(studio)) as address,
            httpx.Client(base_url=address, timeout=30.0) as client,
        ):
            gone, back = [], []
            for _ in range(ROUNDS):
                assert client.get("/health").status_code == 200
                own.stop_at_once()
                gone.append(until(lambda: client.get("/health").status_code == 503))
                own.start()
                back.append(until(lambda: client.get("/health").status_code == 200))
        studio.store.close()
    say(f"a database that is stopped: {max(gone):.1f} s at most, and back: {max(back):.1f} s")
    assert max(*gone, *back) < MOST


def test_a_lost_link_is_told_on_the_page_within_seconds(
    page: Page, faults: Faults, tmp_path: Path, say: Callable[[str], None]
) -> None:
    faults.allow(LOST)
    program = str(Path(__file__).parents[1] / "tally_pages.py")
    process = ServerProcess([program, "PORT"], free_port(), tmp_path / "studio")
    process.start()
    page.goto(f"{process.address}/fittings/7/bay")
    line = page.locator("#link")
    gone, back = [], []
    for _ in range(ROUNDS):
        expect(line).to_have_text("Live")
        process.kill()
        gone.append(until(lambda: "lost" in line.inner_text()))
        process.start()
        back.append(until(lambda: line.inner_text() == "Live"))
    process.kill()
    say(f"a lost link: {max(gone):.1f} s at most, and back: {max(back):.1f} s")
    assert max(*gone, *back) < TRIED_AGAIN + SLACK
