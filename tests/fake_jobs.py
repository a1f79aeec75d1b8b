"""Jobs, measured cards and bags in a dictionary: a part of the reference store."""

from collections.abc import Callable, Sequence
from datetime import datetime
from threading import RLock

from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.measured_card import MeasuredCard
from loftwright.errors import ConflictError, InputError, MovedOnError, NotFoundError
from loftwright.store.interface import JobAppended, Versioned


class MemoryJobs:
    """Keeps what became of choices, what was measured and what is in bags."""

    def __init__(self) -> None:
        self._working = RLock()
        self._jobs: dict[str, list[JobEntry]] = {}
        self._cards: list[MeasuredCard] = []
        self._bags: dict[str, Versioned[str]] = {}

    def knows_fitting(self, fitting: str) -> bool:
        raise NotImplementedError

    def knows_item(self, item: str) -> bool:
        raise NotImplementedError

    def knows_golfer(self, golfer: str) -> bool:
        raise NotImplementedError

    def has_card(self, item: str) -> bool:
        """Return whether an item was ever measured."""
        return any(card.item == item for card in self._cards)

    def append_job(
        self,
        fitting: str,
        acts: Sequence[JobAct],
        *,
        at: datetime,
        by: str,
        key: str = "",
        end: int | None = None,
    ) -> JobAppended:
        with self._working:
            record = self._job(fitting)
            known = tuple(one for one in record if key and one.key == key)
            if known:
                return JobAppended(entries=known, repeated=True)
            if at.tzinfo is None:
                raise InputError("a time has no zone", place="at")
            if end is not None and end != len(record):
                raise MovedOnError("the job's record went on meanwhile", place="job's record")
            first = len(record) + 1
            entries = tuple(
                JobEntry(sequence=first + place, at=at, by=by, act=act, group=first, key=key)
                for place, act in enumerate(acts)
            )
            record.extend(entries)
            if entries:
                self._jobs[fitting] = record
            return JobAppended(entries=entries, repeated=False)

    def job_record(self, fitting: str, *, after: int = 0) -> tuple[JobEntry, ...]:
        return tuple(self._job(fitting)[after:])

    def hear(self, told: Callable[[str, int], None]) -> None:
        pass

    def jobs(self) -> tuple[str, ...]:
        return tuple(self._jobs)

    def keep_card(self, card: MeasuredCard) -> None:
        if not self.knows_item(card.item):
            raise NotFoundError(f"there is no item {card.item!r}", place="item")
        self._cards.append(card)

    def cards(self) -> dict[str, tuple[MeasuredCard, ...]]:
        known = dict.fromkeys(card.item for card in self._cards)
        return {one: tuple(card for card in self._cards if card.item == one) for one in known}

    def bag(self, golfer: str) -> Versioned[str]:
        self._golfer(golfer)
        return self._bags.get(golfer, Versioned(value="", version=0))

    def set_bag(self, golfer: str, told: str, *, version: int) -> int:
        with self._working:
            if self.bag(golfer).version != version:
                raise ConflictError("the bag was changed meanwhile", place="bag")
            self._bags[golfer] = Versioned(value=told, version=version + 1)
            return version + 1

    def _job(self, fitting: str) -> list[JobEntry]:
        if not self.knows_fitting(fitting):
            raise NotFoundError(f"there is no fitting {fitting!r}", place="fitting")
        return list(self._jobs.get(fitting, []))

    def _golfer(self, golfer: str) -> None:
        if not self.knows_golfer(golfer):
            raise NotFoundError(f"there is no golfer {golfer!r}", place="golfer")
