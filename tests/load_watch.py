"""A page that follows its fitting, without a browser; and a process seen from outside."""

import time
from bisect import bisect_left
from dataclasses import dataclass
from pathlib import Path
from threading import Condition, Thread

import httpx

SILENT = 60.0
"""Seconds without a sign of life after which a stream counts as dead; it gives one every ten."""


class Follower:
    """Reads an event stream as the page's script does, and keeps when each revision came."""

    def __init__(self, address: str) -> None:
        self._address = address
        self._revisions: list[int] = []
        self._times: list[float] = []
        self._came = Condition()
        self._stopping = False
        self._connected = False
        self.failed = ""
        self._thread = Thread(target=self._follow, daemon=True)

    def start(self) -> None:
        """Connect, and return once the whole state came."""
        self._thread.start()
        self.wait_for(0, SILENT)

    def stop(self) -> None:
        """Let go of the stream."""
        self._stopping = True

    def wait_for(self, revision: int, longest: float) -> None:
        """Wait until a revision or a later one was shown."""
        with self._came:
            there = self._came.wait_for(
                lambda: self.failed or (self._revisions and self._revisions[-1] >= revision),
                longest,
            )
            if not there:
                self.failed = f"{self._address}: revision {revision} was not shown"

    def when(self, revision: int) -> float | None:
        """Return when a revision or a later one was first shown."""
        with self._came:
            place = bisect_left(self._revisions, revision)
            return self._times[place] if place < len(self._times) else None

    def _follow(self) -> None:
        try:
            with (
                httpx.Client(timeout=SILENT) as client,
                client.stream("GET", self._address) as answer,
            ):
                if answer.status_code != httpx.codes.OK:
                    self._fail(f"was answered {answer.status_code}")
                    return
                for line in answer.iter_lines():
                    if self._stopping:
                        return
                    if line.startswith("id: "):
                        self._take(int(line.removeprefix("id: ")))
            if not self._stopping:
                self._fail("ended by itself")
        except httpx.HTTPError as error:
            if not self._stopping:
                self._fail(repr(error))

    def _take(self, revision: int) -> None:
        with self._came:
            newest = max(revision, self._revisions[-1] if self._revisions else 0)
            self._revisions.append(newest)
            self._times.append(time.monotonic())
            self._came.notify_all()

    def _fail(self, what: str) -> None:
        with self._came:
            self.failed = f"{self._address} {what}"
            self._came.notify_all()


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A process at one moment.

    Attributes
    ----------
    at : float
        Second of the run.
    resident : float
        Of its memory [MiB].
    files, threads : int
    seconds : float
        Of processor time since its start.
    """

    at: float
    resident: float
    files: int
    threads: int
    seconds: float


def seen(process: int, at: float) -> Seen:
    """Return a process as the kernel tells of it."""
    place = Path(f"/proc/{process}")
    status = dict(
        line.split(":", 1) for line in (place / "status").read_text(encoding="utf-8").splitlines()
    )
    times = (place / "stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()
    return Seen(
        at=at,
        resident=int(status["VmRSS"].split()[0]) / 1024.0,
        files=len(list((place / "fd").iterdir())),
        threads=int(status["Threads"]),
        seconds=(int(times[11]) + int(times[12])) / 100.0,
    )
