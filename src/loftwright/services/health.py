"""How the studio is: whether it keeps what it is told, and what somebody should look at.

*ok*: all is well. *degraded*: every ball is kept, and something wants a look. *failing*: the
store cannot be read or written, so that nothing is kept.
"""

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from functools import partial
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Final

from loftwright import __version__
from loftwright.errors import LoftwrightError
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.backup_files import backups_in
from loftwright.services.backup_state import backup_state
from loftwright.services.bounded import Bounded
from loftwright.services.program_log import ProgramLog
from loftwright.services.rotation import AHEAD
from loftwright.services.studio import Studio
from loftwright.services.workers import Worker, WorkerState

OVERDUE: Final = timedelta(hours=48)
"""Age of the newest backup that wants a look: two days' were missed (judgement)."""
SETTLED: Final = timedelta(hours=1)
"""How long a studio runs before an old backup counts: it is opened before it makes one."""
RECENT: Final = timedelta(minutes=10)
"""How long a thread that failed is told, though it runs again."""
LITTLE_ROOM: Final = 500_000_000
NO_ROOM: Final = 5_000_000
"""Bytes left on the disk that want a look, and with which a ball may not be kept (judgement)."""
_AGAIN: Final = 2.0
"""Seconds for which an answer stands, so that whoever asks often cannot hold up the store."""
PATIENCE: Final = 2.0
"""Seconds without an answer after which the store counts as stuck (judgement)."""


class Status(StrEnum):
    """How the studio is."""

    OK = "ok"
    DEGRADED = "degraded"
    FAILING = "failing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Health:
    """How the studio is at an instant; nothing of it is anybody's.

    Attributes
    ----------
    schema : str
        Of the store's tables; empty where the store does not answer.
    keeps : bool
        Whether the store can be read, and a write would begin now.
    room : int, optional
        Bytes left on the disk of the data folder; None where it does not answer.
    backup : datetime, optional
        When the newest backup was made.
    streams : int
        Pages that are told of changes as they come.
    lost_lines : int
        Lines of the log that could not be written since the last one that could.
    troubles : tuple of str
        What somebody should look at, in words.
    """

    status: Status
    at: datetime
    uptime: timedelta
    version: str
    schema: str
    database: str
    keeps: bool
    room: int | None
    backup: datetime | None
    streams: int
    threads: tuple[WorkerState, ...]
    lost_lines: int
    troubles: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """What the store and the data folder said of themselves, unless they hang."""

    answered: bool = True
    schema: str | None = None
    room: int | None = None
    backup: datetime | None = None
    failing_since: datetime | None = None
    troubles: tuple[str, ...] = ()


class Pulse:
    """Looks how the studio is, at most once in two seconds.

    Parameters
    ----------
    studio : Studio
    program_log : ProgramLog, optional
    seconds : callable, optional
        A clock that is never set.
    patience : float, optional
        Seconds that store and disk are given to answer.

    Attributes
    ----------
    workers : tuple of Worker
        The threads behind the pages, once they run.
    """

    def __init__(
        self,
        studio: Studio,
        program_log: ProgramLog | None = None,
        seconds: Callable[[], float] = monotonic,
        *,
        patience: float = PATIENCE,
    ) -> None:
        self._studio, self._log, self._seconds = studio, program_log, seconds
        self._began = seconds()
        self._lock = Lock()
        self._last: tuple[float, Health] | None = None
        self._disks = Bounded(partial(_look_at_disks, studio), patience)
        self.workers: tuple[Worker, ...] = ()

    @property
    def log_path(self) -> Path | None:
        """The file of the program's log; None where it writes none."""
        return self._log.path if self._log is not None else None

    def look(self) -> Health:
        """Return how the studio is, `PATIENCE` seconds after it was asked at the latest."""
        with self._lock:
            if self._last is None or self._seconds() - self._last[0] >= _AGAIN:
                health = self._looked()
                # The answer stands from here on: whoever waited meanwhile does not ask again.
                self._last = (self._seconds(), health)
            return self._last[1]

    def _looked(self) -> Health:
        studio = self._studio
        at, uptime = studio.now(), timedelta(seconds=self._seconds() - self._began)
        threads = tuple(worker.state for worker in self.workers)
        lost = self._log.lost if self._log is not None else 0
        found = self._found()
        troubles = (
            *found.troubles,
            *_thread_troubles(threads, at),
            *_backup_troubles(found, at, uptime),
            *(["lines of the log cannot be written"] if lost else []),
        )
        fails = found.schema is None or (found.room is not None and found.room < NO_ROOM)
        return Health(
            status=Status.FAILING if fails else Status.DEGRADED if troubles else Status.OK,
            at=at,
            uptime=uptime,
            version=__version__,
            schema=found.schema or "",
            database=studio.store.database,
            keeps=found.schema is not None,
            room=found.room,
            backup=found.backup,
            streams=studio.hub.streams,
            threads=threads,
            lost_lines=lost,
            troubles=troubles,
        )

    def _found(self) -> _Found:
        try:
            return self._disks.answer()
        except TimeoutError:
            return _Found(answered=False, troubles=("the store does not answer",))


def _look_at_disks(studio: Studio) -> _Found:
    """Return what store and data folder say of themselves, which may take for ever."""
    schema: str | None = None
    told: list[str] = []
    try:
        schema = studio.store.probe()
    except LoftwrightError:
        told.append("the store cannot be read or written")
    room, backups = room_in(studio.folder), backup_state(studio.folder)
    if room is None:
        told.append("the disk does not say how much room is left")
    elif room < LITTLE_ROOM:
        told.append(f"{room // 1_000_000} MB are left on the disk")
    return _Found(
        schema=schema,
        room=room,
        backup=newest_backup(studio.folder, studio.now()),
        failing_since=backups.trouble.since if backups.trouble else None,
        troubles=tuple(told),
    )


def newest_backup(folder: Path, now: datetime) -> datetime | None:
    """Return when the newest backup of a data folder was made, by its file's name.

    Parameters
    ----------
    folder : Path
    now : datetime
        A name that is later is no sign of a backup: the clock went wrong when it was given.
    """
    found = (one.at for one in backups_in(folder / BACKUPS) if one.at <= now + AHEAD)
    return next(found, None)


def room_in(folder: Path) -> int | None:
    """Return the bytes left on the disk of a folder; None where it does not answer."""
    try:
        return shutil.disk_usage(folder).free
    except OSError:
        return None


def health_record(health: Health) -> dict[str, object]:
    """Return how the studio is as JSON writes it."""
    return {
        "status": health.status.value,
        "at": _text(health.at),
        "uptime_seconds": int(health.uptime.total_seconds()),
        "version": health.version,
        "schema": health.schema or None,
        "database": health.database,
        "keeps": health.keeps,
        "room_mb": None if health.room is None else health.room // 1_000_000,
        "backup": _text(health.backup),
        "streams": health.streams,
        "threads": [
            {
                "name": one.name,
                "alive": one.alive,
                "waiting": one.waiting,
                "failures": one.failures,
                "failed": _text(one.failed),
            }
            for one in health.threads
        ],
        "lost_lines": health.lost_lines,
        "troubles": list(health.troubles),
    }


def _thread_troubles(threads: tuple[WorkerState, ...], at: datetime) -> list[str]:
    told = []
    for one in threads:
        if not one.alive:
            told.append(f"the thread {one.name} has ended")
        elif one.waiting:
            told.append(f"the thread {one.name} failed and is begun again soon")
        elif one.failed is not None and at - one.failed < RECENT:
            told.append(f"the thread {one.name} failed and runs again")
    return told


def _backup_troubles(found: _Found, at: datetime, uptime: timedelta) -> list[str]:
    told = []
    if found.failing_since is not None:
        told.append(f"the daily backup fails since {found.failing_since:%Y-%m-%d}")
    age = at - found.backup if found.backup is not None else uptime
    if found.answered and uptime >= SETTLED and age >= OVERDUE:
        told.append(
            f"the newest backup is {age.days} days old"
            if found.backup is not None
            else "no backup was made yet"
        )
    return told


def _text(at: datetime | None) -> str | None:
    return None if at is None else at.astimezone(UTC).isoformat(timespec="seconds")
