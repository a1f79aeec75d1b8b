"""The studio while it runs: its store, its clock and those who watch."""

from collections.abc import Callable
from datetime import UTC, date, datetime, tzinfo
from pathlib import Path
from threading import RLock
from typing import Final
from uuid import uuid4

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.domain.acts import Entry
from loftwright.services.live import Hub
from loftwright.services.newest import Newest
from loftwright.store.interface import Store
from loftwright.store.tombstones import marks_stamp
from loftwright.store.topics import ERASED

MOST_KEPT: Final = 64
"""Fittings that a studio remembers, as of a busy day; others are read again when asked for."""


def utc_now() -> datetime:
    """Return the instant it is."""
    return datetime.now(UTC)


class Studio:
    """What every use case needs.

    Parameters
    ----------
    store : Store
    folder : Path
        The data folder.
    clock : callable, optional
        Returns the instant; a test gives its own.
    hub : Hub, optional
        Tells pages what changed, after it was committed.

    Attributes
    ----------
    zone : tzinfo, optional
        The shop's; the machine's own without it.
    lock : RLock
        Held from looking at a record until what depends on it is written.
    """

    def __init__(
        self,
        *,
        store: Store,
        folder: Path,
        clock: Callable[[], datetime] = utc_now,
        hub: Hub | None = None,
    ) -> None:
        self.store, self.folder, self.clock = store, folder, clock
        self.hub = hub if hub is not None else Hub()
        store.hear(self.hub.heard)
        self.hub.listen(self._heard)
        self._marks = marks_stamp(folder)
        self.zone: tzinfo | None = None
        self.lock = RLock()
        self._records: Newest[tuple[Entry, ...]] = Newest(MOST_KEPT)
        self._standing: Newest[tuple[tuple[Entry, ...], FittingNow]] = Newest(MOST_KEPT)

    def record(self, fitting: str) -> tuple[Entry, ...]:
        """Return a fitting's whole record, asking the store only for what is new.

        Raises
        ------
        NotFoundError
            If there is no such fitting.
        """
        known = self._records.get(fitting) or ()
        fresh = self.store.record(fitting, after=known[-1].sequence if known else 0)
        if fresh:
            known = (*known, *fresh)
            self._records.put(fitting, known)
        return known

    def standing(self, fitting: str) -> FittingNow:
        """Return a fitting as it stands after its whole record, replayed once a record.

        Raises
        ------
        NotFoundError
            If there is no such fitting.
        """
        record = self.record(fitting)
        known = self._standing.get(fitting)
        if known is None or known[0] is not record:
            known = (record, replay(record))
            self._standing.put(fitting, known)
        return known[1]

    def wrote(
        self, fitting: str, entries: tuple[Entry, ...], tried: tuple[Entry, ...], now: FittingNow
    ) -> None:
        """Take in what the store just wrote, and how the fitting stands if it is what was tried.

        Parameters
        ----------
        fitting : str
        entries : tuple of Entry
            As the store wrote them.
        tried : tuple of Entry
            The whole record that was replayed before.
        now : FittingNow
            What the replay gave.
        """
        known = self._records.get(fitting) or ()
        if entries and entries[0].sequence == (known[-1].sequence if known else 0) + 1:
            known = (*known, *entries)
            self._records.put(fitting, known)
        if known == tried:
            self._standing.put(fitting, (known, now))

    def _heard(self, topic: str) -> None:
        """Drop what is kept in mind of fittings once somebody was erased, here or elsewhere."""
        if topic == ERASED:
            self._records.clear()
            self._standing.clear()

    def look_for_erased(self) -> None:
        """Have everything dropped that is kept in mind if another process erased somebody.

        A store in a file tells of nothing that another process wrote.
        """
        marks = marks_stamp(self.folder)
        if marks != self._marks:
            self._marks = marks
            self.hub.publish(ERASED, 0)

    def now(self) -> datetime:
        """Return the instant it is, in UTC."""
        return self.clock()

    def today(self) -> date:
        """Return the day it is in the shop's zone."""
        return self.now().astimezone(self.zone).date()


def new_id() -> str:
    """Return a fresh id."""
    return str(uuid4())
