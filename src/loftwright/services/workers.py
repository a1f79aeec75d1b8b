"""Threads behind the pages: one that fails is told, and begun again a little later."""

import logging
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from threading import Event, Lock, Thread
from typing import Final

from loftwright.services.log_lines import told

FIRST_WAIT: Final = 1.0
LONGEST_WAIT: Final = 60.0
"""Seconds before a thread that failed is begun again: the first time, and at most."""

log: Final = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkerState:
    """How a thread stands.

    Attributes
    ----------
    alive : bool
        Whether it is there; one that waits to begin again is.
    waiting : bool
        Whether it failed and has not begun again.
    failures : int
        Since the studio was opened.
    failed : datetime, optional
        When it last did.
    """

    name: str
    alive: bool
    waiting: bool
    failures: int
    failed: datetime | None


class Worker:
    """Runs something in a thread of its own until told to stop, whatever fails in between.

    Parameters
    ----------
    name : str
        In the log and in what the studio says of its health; letters alone.
    run : callable
        Returns when `stop` is set.
    stop : Event
    clock : callable
        Returns the instant.
    first : callable, optional
        Done once before; where it fails, that is told and the rest goes on.
    after : float, optional
        Seconds that are left to others before.
    wait : float, optional
        Seconds before it is begun again the first time; twice as many each time after.
    """

    def __init__(
        self,
        name: str,
        run: Callable[[], None],
        *,
        stop: Event,
        clock: Callable[[], datetime],
        first: Callable[[], None] | None = None,
        after: float = 0.0,
        wait: float = FIRST_WAIT,
    ) -> None:
        self._name, self._run, self._first = name, run, first
        self._stop, self._clock = stop, clock
        self._after, self._wait = after, wait
        self._lock = Lock()
        self._failures = 0
        self._failed: datetime | None = None
        self._waiting = False
        self._thread = Thread(target=self._live, name=name, daemon=True)

    @property
    def state(self) -> WorkerState:
        """How it stands."""
        with self._lock:
            return WorkerState(
                name=self._name,
                alive=self._thread.is_alive(),
                waiting=self._waiting,
                failures=self._failures,
                failed=self._failed,
            )

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def join(self) -> None:
        """Wait until it has ended, which it does once `stop` is set."""
        self._thread.join()

    def _live(self) -> None:
        if self._stop.wait(self._after):
            return
        if self._first is not None:
            self._tried(self._first, 0.0)
        wait = self._wait
        while not self._stop.is_set():
            if self._tried(self._run, wait):
                return
            self._stop.wait(wait)
            wait = min(2.0 * wait, LONGEST_WAIT)
            with self._lock:
                self._waiting = False

    def _tried(self, what: Callable[[], None], wait: float) -> bool:
        """Do something and return whether it ended well; a failure is told."""
        try:
            what()
        except Exception:
            # Nobody stands above a thread who would be told; the studio goes on without it.
            log.exception(
                "a thread failed and is begun again",
                extra=told(thread=self._name, seconds=f"{wait:.3f}"),
            )
            with self._lock:
                self._failures += 1
                self._failed = self._clock()
                self._waiting = wait > 0.0
            return False
        return True
