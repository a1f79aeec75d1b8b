"""A golfer goes out of every table, and out of the pages that the database leaves behind.

References
----------
SQLite documentation, "PRAGMA secure_delete", "VACUUM", "PRAGMA wal_checkpoint".
PostgreSQL 15 documentation, VACUUM (FULL writes a table anew, without what was deleted).
"""

import json
import time
from collections.abc import Collection, Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from sqlalchemy import Column, Connection, Table, delete, select, update

from loftwright.errors import StoreError
from loftwright.store.base import Base
from loftwright.store.erasing_interface import ErasedRows
from loftwright.store.naming import metadata
from loftwright.store.owned import forget_owned, owned_items
from loftwright.store.schema import fittings, golfers, place_moves, settings
from loftwright.store.topics import ERASED
from loftwright.store.upsert import put

_AT_ONCE: Final = 500
_TRIES: Final = 20
_PAUSE: Final = 0.25
"""Seconds between two tries at emptying the log: a page that reads is done by then."""


class Erasing(Base):
    """The store's way to forget somebody."""

    def golfer_ids(self) -> tuple[str, ...]:
        """Return the id of every golfer, without looking at who it is."""
        with self.reading() as connection:
            return tuple(connection.scalars(select(golfers.c.id).order_by(golfers.c.came)))

    def erase_golfers(
        self, gone: Collection[str], *, keeping: Mapping[str, str] = MappingProxyType({})
    ) -> ErasedRows:
        """Remove every row of these records of golfers, all of them or none.

        Fittings of others that took turns with them stand alone. A part that somebody else hit
        stays, as nobody's. Settings that are to be kept instead are written with it.
        """
        with self.writing() as connection:
            theirs = _ids(connection, fittings, fittings.c.golfer, gone)
            owned = owned_items(connection, gone, theirs)
            for some in _some(theirs):
                connection.execute(
                    update(fittings).where(fittings.c.partner.in_(some)).values(partner=None)
                )
            _drop_rows(connection, gone, theirs)
            forget_owned(connection, gone, owned)
            _drop(connection, golfers, golfers.c.id, gone)
            for name, text in keeping.items():
                _put_setting(connection, name, text)
            _forget_in_settings(connection, (*gone, *theirs, *owned.every))
            self.tell(connection, ERASED, 0)
        return ErasedRows(golfers=len(gone), fittings=len(theirs), items=len(owned.every))

    def scrub(self) -> None:
        """Write the tables anew, so that no page of the database holds what was deleted.

        Raises
        ------
        StoreError
            If another program reads all the while; what was deleted stays deleted.
        """
        with self._lock, self._told():
            if self._engine.dialect.name == "postgresql":
                self._write_anew()
            else:
                self._vacuum()

    def _vacuum(self) -> None:
        with self._engine.connect() as connection:
            door = connection.connection.cursor()
            try:
                door.execute("VACUUM")
                for _ in range(_TRIES):
                    if not door.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]:
                        return
                    time.sleep(_PAUSE)
            finally:
                door.close()
        raise StoreError(
            "another program reads the store all the while, and its log cannot be emptied",
            place=self._place,
            mend="What was erased can be read by nobody. Close the other programs on this store "
            "and open the studio: it is finished then.",
        )

    def _write_anew(self) -> None:
        with self._engine.execution_options(isolation_level="AUTOCOMMIT").connect() as connection:
            door = connection.connection.cursor()
            try:
                for table in metadata.sorted_tables:
                    door.execute(f'VACUUM FULL "{table.name}"')
            finally:
                door.close()


def _drop_rows(connection: Connection, gone: Collection[str], theirs: Sequence[str]) -> None:
    """Remove what names the golfers or their fittings, the tables that name others first."""
    for table in reversed(metadata.sorted_tables):
        if table in (golfers, place_moves):
            continue
        for column, named in (
            ("golfer", gone),
            ("fitting", theirs),
            ("hitting", theirs),
        ):
            if column in table.c:
                _drop(connection, table, table.c[column], named)


def _drop(
    connection: Connection, table: Table, column: Column[str], named: Collection[str]
) -> None:
    for some in _some(named):
        connection.execute(delete(table).where(column.in_(some)))


def _ids(
    connection: Connection, table: Table, column: Column[str], named: Collection[str]
) -> tuple[str, ...]:
    return tuple(
        one
        for some in _some(named)
        for one in connection.scalars(select(table.c.id).where(column.in_(some)))
    )


def _forget_in_settings(connection: Connection, ids: Collection[str]) -> None:
    """Take out of settings whatever names one of these ids, and settings that are called so."""
    known = frozenset(ids)
    for row in connection.execute(select(settings)).all():
        if _names(row.name, known):
            connection.execute(delete(settings).where(settings.c.name == row.name))
        elif _names(row.text, known):
            change = {"text": without_ids(row.text, known), "version": row.version + 1}
            connection.execute(
                update(settings).where(settings.c.name == row.name).values(**change)
            )


def _put_setting(connection: Connection, name: str, text: str) -> None:
    version = connection.scalar(select(settings.c.version).where(settings.c.name == name)) or 0
    told = {"text": text, "version": version + 1}
    connection.execute(put(connection, settings, {"name": name}, told))


def without_ids(text: str, ids: Collection[str]) -> str:
    """Return the JSON of a setting without what names one of these ids.

    Of a list the whole entry goes that names one, of an object the whole pair.
    """
    try:
        told = json.loads(text)
    except ValueError:
        return ""
    return json.dumps(_pruned(told, ids), ensure_ascii=False, sort_keys=True)


def _pruned(value: object, ids: Collection[str]) -> object:
    if isinstance(value, list):
        return [_pruned(one, ids) for one in value if not _told_of(one, ids)]
    if isinstance(value, dict):
        return {
            name: _pruned(one, ids)
            for name, one in value.items()
            if not _names(name, ids) and not _told_of(one, ids)
        }
    return value


def _told_of(value: object, ids: Collection[str]) -> bool:
    if isinstance(value, dict):
        return any(_names(one, ids) for one in value.values())
    return _names(value, ids)


def _names(value: object, ids: Collection[str]) -> bool:
    return isinstance(value, str) and any(one in value for one in ids)


def _some(named: Iterable[str]) -> list[list[str]]:
    """Return names in lists that a database takes as parameters."""
    every = list(named)
    return [every[at : at + _AT_ONCE] for at in range(0, len(every), _AT_ONCE)]
