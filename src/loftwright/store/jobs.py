"""What becomes of a fitting's choice: records of jobs, measured cards and golfers' bags."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select, update

from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.measured_card import MeasuredCard
from loftwright.errors import StoreError
from loftwright.store.base import Base
from loftwright.store.codec import (
    figures_of,
    figures_text,
    instant_of,
    instant_text,
    job_act_of,
    job_act_text,
    kind_of,
)
from loftwright.store.interface import JobAppended, Versioned
from loftwright.store.keys import KeyRing
from loftwright.store.schema import bags, fittings, golfers, items, job_acts, measured_cards
from loftwright.store.topics import JOB
from loftwright.store.versions import missing, must_be_there, must_end_at, stale


class Jobs(Base):
    """The store's jobs, measured cards and bags."""

    keys: KeyRing

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
        """Write acts together behind the record of a fitting's job; as `append`."""
        with self.writing() as connection:
            golfer = _golfer(connection, fitting)
            if key and (known := self._job_entries(connection, fitting, golfer, key=key)):
                return JobAppended(entries=known, repeated=True)
            last = connection.scalar(
                select(func.max(job_acts.c.sequence)).where(job_acts.c.fitting == fitting)
            )
            must_end_at("job's record", last or 0, end)
            first = (last or 0) + 1
            entries = tuple(
                JobEntry(sequence=first + place, at=at, by=by, act=act, group=first, key=key)
                for place, act in enumerate(acts)
            )
            for entry in entries:
                connection.execute(
                    insert(job_acts).values(
                        fitting=fitting,
                        sequence=entry.sequence,
                        first=first,
                        at=instant_text(at),
                        by=by,
                        key=key or None,
                        kind=kind_of(type(entry.act)),
                        sealed=self.keys.seal(golfer, job_act_text(entry.act)),
                    )
                )
            if entries:
                self.tell(connection, f"{JOB}{fitting}", entries[-1].sequence)
        return JobAppended(entries=entries, repeated=False)

    def job_record(self, fitting: str, *, after: int = 0) -> tuple[JobEntry, ...]:
        """Return the record of a fitting's job behind a sequence, in order."""
        with self.reading() as connection:
            golfer = _golfer(connection, fitting)
            return self._job_entries(connection, fitting, golfer, after=after)

    def jobs(self) -> tuple[str, ...]:
        """Return the fittings that have a job, in the order in which these began."""
        query = select(job_acts.c.fitting).where(job_acts.c.sequence == 1).order_by(job_acts.c.at)
        with self.reading() as connection:
            return tuple(connection.scalars(query))

    def keep_card(self, card: MeasuredCard) -> None:
        """Keep what was measured of an item of the rack."""
        with self.writing() as connection:
            must_be_there(connection, items.c.id, card.item, "item")
            connection.execute(
                insert(measured_cards).values(
                    item=card.item, day=card.day, by=card.by, told=figures_text(card.figures)
                )
            )

    def cards(self) -> dict[str, tuple[MeasuredCard, ...]]:
        """Return every measured card by its item, in the order in which they came."""
        found: dict[str, tuple[MeasuredCard, ...]] = {}
        with self.reading() as connection:
            for row in connection.execute(select(measured_cards).order_by(measured_cards.c.came)):
                card = MeasuredCard(
                    item=row.item, day=row.day, by=row.by, figures=figures_of(row.told)
                )
                found[row.item] = (*found.get(row.item, ()), card)
        return found

    def bag(self, golfer: str) -> Versioned[str]:
        """Return the clubs of a golfer's bag as text; version 0 and empty if none was typed."""
        with self.reading() as connection:
            must_be_there(connection, golfers.c.id, golfer, "golfer")
            found = _bag(connection, golfer)
        if found is None:
            return Versioned(value="", version=0)
        return Versioned(value=self._opened(golfer, found.sealed), version=found.version)

    def set_bag(self, golfer: str, told: str, *, version: int) -> int:
        """Replace the clubs of a golfer's bag, new at version 0, and return its version."""
        with self.writing() as connection:
            must_be_there(connection, golfers.c.id, golfer, "golfer")
            found = _bag(connection, golfer)
            stands = 0 if found is None else found.version
            if stands != version:
                raise stale("bag", stands, version)
            values = {"sealed": self.keys.seal(golfer, told), "version": version + 1}
            if found is None:
                connection.execute(insert(bags).values(golfer=golfer, **values))
            else:
                connection.execute(update(bags).where(bags.c.golfer == golfer).values(**values))
        return version + 1

    def _job_entries(
        self, connection: Connection, fitting: str, golfer: str, *, after: int = 0, key: str = ""
    ) -> tuple[JobEntry, ...]:
        query = select(job_acts).where(job_acts.c.fitting == fitting, job_acts.c.sequence > after)
        if key:
            query = query.where(job_acts.c.key == key)
        rows = connection.execute(query.order_by(job_acts.c.sequence)).all()
        return tuple(
            JobEntry(
                sequence=row.sequence,
                at=instant_of(row.at),
                by=row.by,
                act=job_act_of(row.kind, self._opened(golfer, row.sealed)),
                group=row.first,
                key=row.key or "",
            )
            for row in rows
        )

    def _opened(self, golfer: str, sealed: bytes) -> str:
        text = self.keys.opened(golfer, sealed)
        if text is None:
            raise StoreError(
                "this golfer's key is gone, as after an erase, and what it sealed with it",
                place=golfer,
                mend="Nothing of it can be read any more.",
            )
        return text


def _golfer(connection: Connection, fitting: str) -> str:
    query = select(fittings.c.golfer).where(fittings.c.id == fitting)
    golfer: str | None = connection.scalar(query)
    if golfer is None:
        raise missing("fitting", fitting)
    return golfer


def _bag(connection: Connection, golfer: str) -> Row[Any, Any, Any] | None:
    return connection.execute(select(bags).where(bags.c.golfer == golfer)).first()
