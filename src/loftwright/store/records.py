"""Records of fittings in the store: one sequence over balls and acts, appended to only."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, RowMapping, func, insert, select

from loftwright.domain.acts import Act, Entry, ShotArrived
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.store.codec import act_of, act_text, instant_of, instant_text, kind_of
from loftwright.store.engine import Base
from loftwright.store.interface import Appended
from loftwright.store.keys import KeyRing
from loftwright.store.schema import acts as acts_told
from loftwright.store.schema import appends, fittings, shots
from loftwright.store.versions import missing


class Records(Base):
    """The store's records."""

    keys: KeyRing

    def append(
        self, fitting: str, acts: Sequence[Act], *, at: datetime, by: str, key: str = ""
    ) -> Appended:
        """Write acts together behind a fitting's record.

        With a key that the record knows nothing is added, and what was written under it is
        returned.
        """
        with self.writing() as connection:
            golfer = _golfer_of(connection, fitting)
            known = _first_of_key(connection, fitting, key) if key else None
            if known is not None:
                return Appended(
                    entries=self._entries(connection, fitting, golfer, group=known), repeated=True
                )
            if not acts:
                return Appended(entries=(), repeated=False)
            first = _last(connection, fitting) + 1
            connection.execute(
                insert(appends).values(
                    fitting=fitting, first=first, at=instant_text(at), by=by, key=key or None
                )
            )
            entries = tuple(
                Entry(sequence=first + place, at=at, by=by, act=act, group=first, key=key)
                for place, act in enumerate(acts)
            )
            for entry in entries:
                self._write(connection, fitting, golfer, entry)
        return Appended(entries=entries, repeated=False)

    def record(self, fitting: str, *, after: int = 0) -> tuple[Entry, ...]:
        """Return a fitting's record behind a sequence, in order."""
        with self.reading() as connection:
            golfer = _golfer_of(connection, fitting)
            return self._entries(connection, fitting, golfer, after=after)

    def _write(self, connection: Connection, fitting: str, golfer: str, entry: Entry) -> None:
        place = {"fitting": fitting, "sequence": entry.sequence, "first": entry.group}
        act = entry.act
        if not isinstance(act, ShotArrived):
            connection.execute(
                insert(acts_told).values(**place, kind=kind_of(type(act)), told=act_text(act))
            )
            return
        numbers = {name: getattr(act.numbers, name) for name in FIELDS}
        connection.execute(
            insert(shots).values(
                **place,
                **numbers,
                club=act.club,
                time=act.time,
                device=act.device,
                source=act.source,
                after=act.after,
                sealed_line=self.keys.seal(golfer, act.line) if act.line else None,
            )
        )

    def _entries(
        self,
        connection: Connection,
        fitting: str,
        golfer: str,
        *,
        after: int = 0,
        group: int | None = None,
    ) -> tuple[Entry, ...]:
        found: list[Entry] = []
        for table in (acts_told, shots):
            query = (
                select(table, appends.c.at, appends.c.by, appends.c.key)
                .join(
                    appends,
                    (appends.c.fitting == table.c.fitting) & (appends.c.first == table.c.first),
                )
                .where(table.c.fitting == fitting, table.c.sequence > after)
            )
            if group is not None:
                query = query.where(table.c.first == group)
            rows = connection.execute(query).mappings()
            told = self._shot if table is shots else _act
            found += [_entry(row, told(row, golfer)) for row in rows]
        return tuple(sorted(found, key=lambda entry: entry.sequence))

    def _shot(self, row: RowMapping, golfer: str) -> Act:
        sealed = row["sealed_line"]
        line = "" if sealed is None else self.keys.opened(golfer, sealed) or ""
        return ShotArrived(
            numbers=ShotNumbers(**{name: row[name] for name in FIELDS}),
            club=row["club"],
            line=line,
            time=row["time"],
            device=row["device"],
            source=row["source"],
            after=row["after"],
        )


def _act(row: RowMapping, _: str) -> Act:
    return act_of(row["kind"], row["told"])


def _entry(row: RowMapping, act: Act) -> Entry:
    return Entry(
        sequence=row["sequence"],
        at=instant_of(row["at"]),
        by=row["by"],
        act=act,
        group=row["first"],
        key=row["key"] or "",
    )


def _golfer_of(connection: Connection, fitting: str) -> str:
    golfer: str | None = connection.scalar(
        select(fittings.c.golfer).where(fittings.c.id == fitting)
    )
    if golfer is None:
        raise missing("fitting", fitting)
    return golfer


def _first_of_key(connection: Connection, fitting: str, key: str) -> int | None:
    wanted = (appends.c.fitting == fitting) & (appends.c.key == key)
    return connection.scalar(select(appends.c.first).where(wanted))


def _last(connection: Connection, fitting: str) -> int:
    newest: list[Any] = [
        connection.scalar(select(func.max(table.c.sequence)).where(table.c.fitting == fitting))
        for table in (acts_told, shots)
    ]
    return max(one or 0 for one in newest)
