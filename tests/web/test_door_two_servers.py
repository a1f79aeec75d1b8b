"""A key that is withdrawn at one server opens nothing at another on the same store, soon."""

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import httpx
import pytest
from fastapi import FastAPI

from bays import a_bay
from databases import running
from loftwright.services.pin_lock import PinLocks
from loftwright.services.studio import Studio
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from loftwright.web.security import Access
from serving import served

SOON = 2.0
"""Seconds in which another server has heard of it, as promised."""
FAR = {"Host": "192.0.2.7:8432"}


@pytest.fixture(params=["sqlite", "postgresql"])
def two(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[FastAPI, FastAPI]]:
    """Return two applications on one store, each with a connection of its own."""
    with ExitStack() as stack:
        opened: Callable[[], Studio]
        if request.param == "sqlite":

            def opened() -> Studio:
                return Studio(store=open_store(tmp_path), folder=tmp_path)
        else:
            url = stack.enter_context(running()).fresh()

            def opened() -> Studio:
                return Studio(store=open_postgres(url, tmp_path), folder=tmp_path)

        access = Access(addresses=True, paired=True)
        yield create_app(opened(), access=access), create_app(opened(), access=access)


class Watching(threading.Thread):
    """A device that watches a bay until the stream ends."""

    def __init__(self, address: str, key: str) -> None:
        super().__init__(daemon=True)
        self._address = address
        self._headers = {**FAR, "Authorization": f"Bearer {key}", "Accept": "text/event-stream"}
        self.began = threading.Event()
        self.ended_at = 0.0
        self.status = 0

    def run(self) -> None:
        """Read until nothing comes any more."""
        with httpx.stream("GET", self._address, headers=self._headers, timeout=30.0) as answer:
            self.status = answer.status_code
            for _ in answer.iter_bytes():
                self.began.set()
        self.ended_at = time.monotonic()


def asks(address: str, key: str) -> int:
    headers = {**FAR, "Authorization": f"Bearer {key}"}
    return httpx.get(f"{address}/api/fittings", headers=headers).status_code


def test_what_one_server_withdraws_or_locks_the_other_ends_within_two_seconds(
    two: tuple[FastAPI, FastAPI],
) -> None:
    here, there = two
    fitting = a_bay(studio=here.state.studio).fitting
    letting_in = here.state.pairing
    with served(here) as one, served(there) as other:
        for ends, status in (("locked", 423), ("withdrawn", 401)):
            made = letting_in.let_in(letting_in.new_code().figures, name=ends, role="fitter")
            deadline = time.monotonic() + SOON
            while asks(other, made.key) != 200:
                assert time.monotonic() < deadline, "the other server lets it in late"
                time.sleep(0.05)
            watching = Watching(f"{other}/fittings/{fitting}/bay/events", made.key)
            watching.start()
            assert watching.began.wait(20.0), watching.status
            if ends == "locked":
                PinLocks(here.state.studio.store, here.state.studio.now).set(
                    made.device.id, "4711", idle=0
                )
                began = time.monotonic()
                here.state.locks.lock(made.device.id)
            else:
                began = time.monotonic()
                letting_in.withdraw(made.device.id)
            watching.join(10.0)
            assert not watching.is_alive(), "the stream goes on"
            assert watching.ended_at - began < SOON
            assert asks(other, made.key) == asks(one, made.key) == status
