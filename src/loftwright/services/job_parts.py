"""What follows from each job's record alone, worked out once and kept beside the store.

Only jobs that went on since are read again, and somebody who waits for a page waits for some of
them at most. The cache holds nothing of a golfer and may be removed at any time.
"""

import logging
from collections.abc import Callable
from threading import Lock
from typing import Final, Generic, TypeVar
from weakref import WeakKeyDictionary

from loftwright.domain.job_acts import JobEntry
from loftwright.errors import StoreError
from loftwright.services.studio import Studio
from loftwright.services.summaries import keep_parts, kept_parts
from loftwright.store.golfers import ERASED

MOST_AT_ONCE: Final = 20
"""Jobs that are read while somebody waits for a page; others are read behind it."""

Value = TypeVar("Value")

log: Final = logging.getLogger(__name__)


class JobParts(Generic[Value]):
    """A value for every job of a studio, brought up to date by the jobs that went on.

    Parameters
    ----------
    write : callable
        Gives the value as the cache keeps it, which names nobody.
    read : callable
        Gives it back; raises ValueError where that is no such text.
    """

    def __init__(self, write: Callable[[Value], str], read: Callable[[str], Value]) -> None:
        self._write, self._read = write, read
        self._lock = Lock()
        self._known: WeakKeyDictionary[Studio, tuple[str, dict[str, tuple[int, Value]]]] = (
            WeakKeyDictionary()
        )

    def over(
        self,
        studio: Studio,
        name: str,
        make: Callable[[tuple[JobEntry, ...]], Value],
        most: int | None = MOST_AT_ONCE,
    ) -> tuple[dict[str, Value], int]:
        """Return the values by fitting, and how many jobs are still to be read.

        Parameters
        ----------
        studio : Studio
        name : str
            Under which they are kept; says all that they rest on beside the record.
        make : callable
            Works out a job's value from its record, which is empty for an erased golfer.
        most : int, optional
            How many jobs may be read now; all of them without it.
        """
        ends = studio.store.job_ends()
        with self._lock:
            known = self._taken_up(studio, name, ends)
            for gone in known.keys() - ends.keys():
                del known[gone]
            stale = [one for one, end in ends.items() if known.get(one, (0, None))[0] != end]
            # One that went on is at work now; the others are of long ago.
            stale.sort(key=lambda one: one not in known)
            fresh = {
                one: (ends[one], make(job_record(studio, one)))
                for one in (stale if most is None else stale[:most])
            }
            if fresh:
                known.update(fresh)
                kept = {one: (end, self._write(value)) for one, (end, value) in fresh.items()}
                texts = {one: (end, text.encode()) for one, (end, text) in kept.items()}
                keep_parts(studio.folder, name, texts)
            return {one: value for one, (_, value) in known.items()}, len(stale) - len(fresh)

    def _taken_up(
        self, studio: Studio, name: str, ends: dict[str, int]
    ) -> dict[str, tuple[int, Value]]:
        """Return what is known under a name, taken from the cache where it is another one."""
        named, known = self._known.get(studio, ("", {}))
        if named == name:
            return known
        known = {}
        try:
            for one, (end, text) in kept_parts(studio.folder, name, ends).items():
                known[one] = (end, self._read(text.decode()))
        except ValueError:
            log.warning("what was kept of jobs cannot be read and is made again")
            known = {}
        self._known[studio] = (name, known)
        return known


def job_record(studio: Studio, fitting: str) -> tuple[JobEntry, ...]:
    """Return a job's record; nothing of a golfer who was erased."""
    try:
        return studio.store.job_record(fitting)
    except StoreError:
        if studio.store.identity(studio.store.fitting(fitting).value.golfer) != ERASED:
            raise
        return ()


def still_read(left: int) -> str:
    """Return in words that jobs are still to be read; empty where none is."""
    if not left:
        return ""
    jobs = "One job is" if left == 1 else f"{left} jobs are"
    return f"{jobs} still being read, as after a new version: open this page again in a minute."
