"""Hear what other processes wrote, over PostgreSQL's own notifications."""

import json
from collections.abc import Callable
from threading import Event, Thread
from typing import Final

import psycopg
from sqlalchemy import URL

CHANNEL: Final = "loftwright"
_LOOK: Final = 1.0
"""Seconds after which a listener looks whether it should end."""
_AGAIN: Final = 1.0
"""Seconds before a lost connection is tried again."""


def told_as(origin: str, topic: str, revision: int) -> str:
    """Return what is sent of a topic."""
    return json.dumps([origin, topic, revision])


class Hearing:
    """Listens in a thread of its own until it is closed.

    Parameters
    ----------
    url : URL
    origin : str
        Of this process, whose own words it does not repeat.
    told : callable
        Takes topic and revision; an empty topic after a lost connection.
    """

    def __init__(self, url: URL, origin: str, told: Callable[[str, int], None]) -> None:
        self._address = url.set(drivername="postgresql").render_as_string(hide_password=False)
        self._origin, self._told = origin, told
        self._closed = Event()
        self._listening = Event()
        self._thread = Thread(target=self._listen, name="hearing", daemon=True)

    def start(self) -> None:
        """Begin to listen; returns once nothing more is missed."""
        self._thread.start()
        self._listening.wait(timeout=5.0)

    def close(self) -> None:
        """Listen no more."""
        self._closed.set()
        self._thread.join(timeout=5.0)

    def _listen(self) -> None:
        lost = False
        while not self._closed.is_set():
            try:
                with psycopg.connect(self._address, autocommit=True) as door:
                    door.execute(f"LISTEN {CHANNEL}")
                    self._listening.set()
                    if lost:
                        self._told("", 0)
                    self._hear(door)
            except psycopg.OperationalError:
                lost = True
                self._closed.wait(_AGAIN)

    def _hear(self, door: "psycopg.Connection[tuple[object, ...]]") -> None:
        while not self._closed.is_set():
            for one in door.notifies(timeout=_LOOK):
                origin, topic, revision = json.loads(one.payload)
                if origin != self._origin:
                    self._told(topic, revision)
                if self._closed.is_set():
                    return
