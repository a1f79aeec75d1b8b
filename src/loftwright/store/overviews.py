"""All fittings of the store at once: by lookups in the indexes that are there, no record read."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from sqlalchemy import Column, Engine, ScalarSelect, Select, Table, bindparam, func, select

from loftwright.domain.acts import Closed
from loftwright.store.base import Base
from loftwright.store.codec import identity_of, instant_of, kind_of
from loftwright.store.keys import KeyRing
from loftwright.store.overview import Ending, Outline
from loftwright.store.schema import acts, appends, fittings, golfers, identities, job_acts, shots

_AT_ONCE: Final = 500
"""Fittings that one question names; databases limit how many it can."""
_CLOSED: Final = kind_of(Closed)


def _newest(table: Table, column: Column[int]) -> ScalarSelect[int]:
    """Return the newest of a fitting's rows, looked up in the key's own index."""
    mine = select(func.max(column)).where(table.c.fitting == fittings.c.id)
    return mine.correlate(fittings).scalar_subquery()


_END: Final = _newest(appends, appends.c.first)
_ROLL: Final = (
    select(golfers.c.id).where(golfers.c.merged_into.is_(None)).order_by(golfers.c.came.desc())
)
_FIRST: Final = golfers.alias("first")
_STANDING: Final = _FIRST.c.id == func.coalesce(golfers.c.merged_into, golfers.c.id)
_CONTACT: Final = select(golfers.c.id, _FIRST.c.id.label("first"), _FIRST.c.contact).join_from(
    golfers, _FIRST, _STANDING
)
_JOB_ENDS: Final = select(
    job_acts.c.fitting, func.max(job_acts.c.sequence).label("last")
).group_by(job_acts.c.fitting)
_AGREED: Final = select(golfers.c.id, _FIRST.c.id.label("first")).join_from(
    golfers,
    _FIRST,
    _STANDING & _FIRST.c.shop_record,
)
_TO_KEEP: Final = select(golfers.c.id).where(golfers.c.merged_into.is_(None), golfers.c.keep)
_TO_PUBLISH: Final = select(golfers.c.id).where(golfers.c.publish, golfers.c.shop_record)
_SECONDS: Final = (
    select(golfers.c.id, golfers.c.merged_into)
    .where(golfers.c.merged_into.is_not(None))
    .order_by(golfers.c.came.desc())
)
_SEALED: Final = (
    select(golfers.c.id, golfers.c.minor, identities.c.sealed)
    .join_from(golfers, identities, identities.c.golfer == golfers.c.id)
    .where(golfers.c.merged_into.is_(None))
    .order_by(golfers.c.came.desc())
)
_OUTLINES: Final = select(
    fittings.c.id.label("fitting"),
    fittings.c.golfer,
    fittings.c.fitter,
    fittings.c.invented,
    fittings.c.bay_check,
    fittings.c.opened,
    func.coalesce(_END, 0).label("end"),
).order_by(fittings.c.came.desc())


def _outline(row: tuple[Any, ...]) -> Outline:
    return Outline(**dict(zip(_OUTLINES.selected_columns.keys(), row, strict=True)))


def _endings() -> Select[Any]:
    asked = (
        select(
            fittings.c.id,
            _END.label("end"),
            _newest(acts, acts.c.sequence).label("act"),
            _newest(shots, shots.c.sequence).label("shot"),
        )
        .where(fittings.c.id.in_(bindparam("fittings", expanding=True)))
        .subquery()
    )
    wrote = (appends.c.fitting == asked.c.id) & (appends.c.first == asked.c.end)
    said = (acts.c.fitting == asked.c.id) & (acts.c.sequence == asked.c.act)
    return (
        select(asked.c.id, asked.c.end, appends.c.at, acts.c.kind, asked.c.act, asked.c.shot)
        .join_from(asked, appends, wrote)
        .join(acts, said, isouter=True)
    )


_ENDINGS: Final = _endings()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """What is kept in mind of a golfer, as long as what was sealed is the same."""

    sealed: bytes
    minor: bool
    name: str
    growth_check: date | None


def _named(text: str, sealed: bytes, *, minor: bool) -> _Named:
    who = identity_of(text)
    return _Named(sealed=sealed, minor=minor, name=who.name, growth_check=who.growth_check)


class Overviews(Base):
    """What the store tells of all its fittings and golfers."""

    keys: KeyRing

    def __init__(self, engine: Engine, place: str) -> None:
        super().__init__(engine, place)
        self._named: dict[str, _Named] = {}
        self._outlined: tuple[object, tuple[Outline, ...]] | None = None
        self._known_outlines: dict[tuple[Any, ...], Outline] = {}
        self._job_ends: tuple[object, dict[str, int]] | None = None

    def outlines(self) -> tuple[Outline, ...]:
        """Return every fitting in a line, the newest first; read again only after a write."""
        state = self.state()
        kept = self._outlined
        if kept is not None and kept[0] == state:
            return kept[1]
        with self.reading() as connection:
            rows = [tuple(row) for row in connection.execute(_OUTLINES)]
        # Of many fittings few changed: the others' outlines are taken as they were.
        known = self._known_outlines
        told = {row: known.get(row) or _outline(row) for row in rows}
        found = tuple(told.values())
        self._known_outlines, self._outlined = told, (state, found)
        return found

    def endings(self, fittings: Collection[str]) -> dict[str, Ending]:
        """Return how the records of these fittings end; an empty record has no ending."""
        asked, found = list(fittings), {}
        with self.reading() as connection:
            for first in range(0, len(asked), _AT_ONCE):
                some = {"fittings": asked[first : first + _AT_ONCE]}
                for fitting, end, at, kind, act, shot in connection.execute(_ENDINGS, some):
                    closing = kind == _CLOSED and (shot is None or shot < act)
                    found[fitting] = Ending(end=end, at=instant_of(at), closing=closing)
        return found

    def job_ends(self) -> dict[str, int]:
        """Return the fittings that have a job, with the last sequence of the job's record.

        Read again only after a write.
        """
        state = self.state()
        kept = self._job_ends
        if kept is not None and kept[0] == state:
            return kept[1]
        with self.reading() as connection:
            found = {row.fitting: row.last for row in connection.execute(_JOB_ENDS)}
        self._job_ends = (state, found)
        return found

    def contact(self) -> dict[str, bool]:
        """Return whether each record's golfer agreed to be asked, without who was erased.

        By the record that stands for all of that golfer's.
        """
        there = self.keys.there()
        with self.reading() as connection:
            rows = connection.execute(_CONTACT).all()
        return {row.id: row.contact for row in rows if row.first in there}

    def agreed(self) -> dict[str, str]:
        """Return the records of golfers who agreed to the shop record, with the standing one.

        Whether they were erased since is not looked at.
        """
        with self.reading() as connection:
            return {row.id: row.first for row in connection.execute(_AGREED)}

    def roll(self) -> tuple[str, ...]:
        """Return the golfers' records that point to no other one, the newest first."""
        with self.reading() as connection:
            return tuple(connection.scalars(_ROLL))

    def names(self) -> dict[str, str]:
        """Return the names of the golfers on the roll, in its order, without who was erased.

        Names that were opened before and whose keys are there are not opened again.
        """
        return {golfer: one.name for golfer, one in self._who().items()}

    def growth_checks(self) -> dict[str, date]:
        """Return when minors on the roll are to be looked at, as `names` tells of them."""
        return {
            golfer: one.growth_check
            for golfer, one in self._who().items()
            if one.minor and one.growth_check is not None
        }

    def _who(self) -> dict[str, "_Named"]:
        there = self.keys.there()
        with self.reading() as connection:
            rows = connection.execute(_SEALED).all()
        with self._lock:
            found: dict[str, _Named] = {}
            for golfer, minor, sealed in rows:
                if golfer not in there:
                    continue
                known = self._named.get(golfer)
                if known is None or (known.minor, known.sealed) != (minor, bytes(sealed)):
                    text = self.keys.opened(golfer, bytes(sealed))
                    known = None if text is None else _named(text, bytes(sealed), minor=minor)
                if known is not None:
                    found[golfer] = known
            self._named = found
        return found

    def to_keep(self) -> frozenset[str]:
        """Return the golfers on the roll who agreed that they are kept after the visit."""
        with self.reading() as connection:
            return frozenset(connection.scalars(_TO_KEEP))

    def to_publish(self) -> frozenset[str]:
        """Return the records of golfers who agreed to publishing and to the shop record."""
        with self.reading() as connection:
            return frozenset(connection.scalars(_TO_PUBLISH))

    def seconds(self) -> dict[str, str]:
        """Return the records that point to another one, with that one, the newest first."""
        with self.reading() as connection:
            return {row.id: row.merged_into for row in connection.execute(_SECONDS)}
