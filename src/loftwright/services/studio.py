"""The studio while it runs: its store, its clock and those who watch."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from threading import Lock
from uuid import uuid4

from loftwright.domain.acts import Entry
from loftwright.services.live import Hub
from loftwright.store.interface import Store


def utc_now() -> datetime:
    """Return the instant it is."""
    return datetime.now(UTC)


@dataclass(slots=True, kw_only=True)
class Studio:
    """What every use case needs.

    Attributes
    ----------
    store : Store
    folder : Path
        The data folder.
    clock : callable
        Returns the instant; a test gives its own.
    hub : Hub
        Tells pages what changed, after it was committed.
    """

    store: Store
    folder: Path
    clock: Callable[[], datetime] = utc_now
    hub: Hub = field(default_factory=Hub)
    lock: Lock = field(default_factory=Lock)
    records: dict[str, tuple[Entry, ...]] = field(default_factory=dict)

    def record(self, fitting: str) -> tuple[Entry, ...]:
        """Return a fitting's whole record, asking the store only for what is new.

        Raises
        ------
        NotFoundError
            If there is no such fitting.
        """
        known = self.records.get(fitting, ())
        fresh = self.store.record(fitting, after=known[-1].sequence if known else 0)
        if fresh:
            known = (*known, *fresh)
            self.records[fitting] = known
        return known

    def now(self) -> datetime:
        """Return the instant it is, in UTC."""
        return self.clock()

    def today(self) -> date:
        """Return the day it is in the shop's zone."""
        return self.now().astimezone().date()


def new_id() -> str:
    """Return a fresh id."""
    return str(uuid4())
