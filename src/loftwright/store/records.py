"""Records of fittings in the store: one sequence over balls and acts, appended to only."""

from collections.abc import Callable, Collection, Sequence
from datetime import datetime
from typing import Any, Final, TypeAlias

from sqlalchemy import (
    JSON,
    ColumnElement,
    Connection,
    Select,
    Table,
    Text,
    bindparam,
    cast,
    func,
    insert,
    or_,
    select,
)

from loftwright.domain.acts import Act, ClubJoined, Entry, ShotArrived
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.store.base import Base
from loftwright.store.codec import act_of, act_text, finite, instant_of, instant_text, kind_of
from loftwright.store.free_text import FreeText
from loftwright.store.interface import Appended
from loftwright.store.keys import KeyRing
from loftwright.store.schema import acts as acts_told
from loftwright.store.schema import appends, fittings, shots
from loftwright.store.topics import FITTING
from loftwright.store.versions import missing, must_end_at

Which: TypeAlias = tuple[Select[Any], Select[Any]]


def _which(condition: Callable[[Table], ColumnElement[bool]]) -> Which:
    """Return what reads acts, and what reads shots; columns in the order of their readers."""

    def asked(table: Table, *told: ColumnElement[Any]) -> Select[Any]:
        together = (appends.c.fitting == table.c.fitting) & (appends.c.first == table.c.first)
        line = (table.c.sequence, table.c.first, appends.c.at, appends.c.by, appends.c.key)
        return (
            select(*line, *told)
            .join_from(table, appends, together)
            .where(table.c.fitting == bindparam("fitting"), condition(table))
        )

    said = shots.c
    return (
        asked(acts_told, acts_told.c.kind, acts_told.c.told),
        asked(
            shots,
            *(said.club, said.time, said.device, said.source, said.after, said.sealed_line),
            *(said[name] for name in FIELDS),
        ),
    )


_BEHIND: Final = _which(lambda table: table.c.sequence > bindparam("after"))
_END: Final = select(
    fittings.c.golfer,
    *(
        select(func.max(table.c.sequence))
        .where(table.c.fitting == bindparam("fitting"))
        .scalar_subquery()
        for table in (acts_told, shots)
    ),
).where(fittings.c.id == bindparam("fitting"))
_TOGETHER: Final = _which(lambda table: table.c.first == bindparam("first"))


class Records(Base):
    """The store's records."""

    keys: KeyRing

    def append(
        self,
        fitting: str,
        acts: Sequence[Act],
        *,
        at: datetime,
        by: str,
        key: str = "",
        end: int | None = None,
    ) -> Appended:
        """Write acts together behind a fitting's record.

        With a key that the record knows nothing is added, and what was written under it is
        returned. Where the record does not end at `end`, raises `MovedOnError`.
        """
        with self.writing() as connection:
            golfer, last = _end(connection, fitting)
            known = _first_of_key(connection, fitting, key) if key else None
            if known is not None:
                wanted = {"fitting": fitting, "first": known}
                found = self._entries(connection, golfer, _TOGETHER, wanted)
                return Appended(entries=found, repeated=True)
            must_end_at("record", last, end)
            if not acts:
                return Appended(entries=(), repeated=False)
            first = last + 1
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
            self.tell(connection, f"{FITTING}{fitting}", entries[-1].sequence)
        return Appended(entries=entries, repeated=False)

    def record(self, fitting: str, *, after: int = 0) -> tuple[Entry, ...]:
        """Return a fitting's record behind a sequence, in order."""
        with self.reading() as connection:
            golfer, last = _end(connection, fitting)
            if last <= after:
                return ()
            wanted = {"fitting": fitting, "after": after}
            return self._entries(connection, golfer, _BEHIND, wanted)

    def fittings_with(self, pieces: Collection[str]) -> frozenset[str]:
        """Return the fittings that a club with one of these pieces ever joined, undone or not."""
        with self.reading() as connection:
            parts = [_of_card(connection, one) for one in ("head_piece", "shaft_piece")]
            query = (
                select(acts_told.c.fitting)
                .where(acts_told.c.kind == kind_of(ClubJoined))
                .where(or_(*(one.in_(pieces) for one in parts)))
                .distinct()
            )
            return frozenset(connection.scalars(query))

    def _write(self, connection: Connection, fitting: str, golfer: str, entry: Entry) -> None:
        place = {"fitting": fitting, "sequence": entry.sequence, "first": entry.group}
        act = entry.act
        if not isinstance(act, ShotArrived):
            words = FreeText(self.keys, golfer)
            told = {"kind": kind_of(type(act)), "told": words.seal_act(act_text(act))}
            connection.execute(insert(acts_told), place | told)
            return
        numbers = {name: finite(name, getattr(act.numbers, name)) for name in FIELDS}
        said = {
            "club": act.club,
            "time": act.time,
            "device": act.device,
            "source": act.source,
            "after": act.after,
            "sealed_line": self.keys.seal(golfer, act.line) if act.line else None,
        }
        connection.execute(insert(shots), place | numbers | said)

    def _entries(
        self, connection: Connection, golfer: str, which: Which, wanted: dict[str, Any]
    ) -> tuple[Entry, ...]:
        words = FreeText(self.keys, golfer)
        found = [_entry(row, _act(row, words)) for row in connection.execute(which[0], wanted)]
        opened = self.keys.opener(golfer)
        found += [_entry(row, _shot(row, opened)) for row in connection.execute(which[1], wanted)]
        return tuple(sorted(found, key=lambda entry: entry.sequence))


def _of_card(connection: Connection, name: str) -> ColumnElement[str]:
    """Return what the card of a club that joined says, in the words of the database."""
    told = acts_told.c.told
    if connection.dialect.name == "postgresql":
        found: ColumnElement[str] = cast(told, JSON)["card"][name].as_string()
        return found
    return func.json_extract(told, f"$.card.{name}", type_=Text)


def _act(row: Sequence[Any], words: FreeText) -> Act:
    return act_of(row[5], words.opened_act(row[6]))


def _shot(row: Sequence[Any], opened: Callable[[bytes], str | None]) -> Act:
    club, time, device, source, after, sealed, *told = row[5:]
    return ShotArrived(
        numbers=ShotNumbers(**dict(zip(FIELDS, told, strict=True))),
        club=club,
        line="" if sealed is None else opened(sealed) or "",
        time=time,
        device=device,
        source=source,
        after=after,
    )


def _entry(row: Sequence[Any], act: Act) -> Entry:
    sequence, first, at, by, key = row[:5]
    return Entry(sequence=sequence, at=instant_of(at), by=by, act=act, group=first, key=key or "")


def _first_of_key(connection: Connection, fitting: str, key: str) -> int | None:
    wanted = (appends.c.fitting == fitting) & (appends.c.key == key)
    return connection.scalar(select(appends.c.first).where(wanted))


def _end(connection: Connection, fitting: str) -> tuple[str, int]:
    """Return whose fitting it is, and the sequence of its record's last entry."""
    found = connection.execute(_END, {"fitting": fitting}).one_or_none()
    if found is None:
        raise missing("fitting", fitting)
    golfer, *newest = found
    return golfer, max(one or 0 for one in newest)
