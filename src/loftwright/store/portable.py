"""One moment of a store in PostgreSQL as a SQLite file, at whatever revision it stands."""

import hashlib
import json
from pathlib import Path
from typing import Any, Final

from sqlalchemy import (
    Column,
    Connection,
    Engine,
    MetaData,
    RowMapping,
    Table,
    Text,
    insert,
    inspect,
    select,
)

from loftwright.errors import StoreError
from loftwright.store.engine import sqlite_engine_on
from loftwright.store.migrate import make_at
from loftwright.store.words import Words

_AT_ONCE: Final = 2000
_MANY: Final = 1 << 256


def carry_over(source: Engine, file: Path, revision: str) -> None:
    """Write every row of a store into a new SQLite file with the tables of its revision.

    Parameters
    ----------
    source : Engine
        Read in one transaction, which sees one moment.
    file : Path
    revision : str

    Raises
    ------
    StoreError
        If the two are not alike afterwards, in number of rows or in what the rows hold.
    """
    target = sqlite_engine_on(file, journal="DELETE")
    try:
        make_at(target, revision)
        tables = _tables_of(target)
        with source.begin() as read, target.execution_options(writes=True).begin() as written:
            for table in tables:
                _carry(read, written, table)
            wrong = [one.name for one in tables if _sum(read, one) != _sum(written, one)]
    finally:
        target.dispose()
    if wrong:
        raise StoreError(
            f"what was written is not what was read: {', '.join(wrong)}",
            place=str(file),
            mend="Nothing was kept; look at the disk, and run it again.",
        )


def _tables_of(target: Engine) -> list[Table]:
    """Return the tables as they stand in a file, in types that both databases take."""
    known = MetaData()
    known.reflect(bind=target)
    plain = MetaData()
    made = []
    for table in known.sorted_tables:
        if table.name == "alembic_version":
            continue
        keys = {one.name for one in table.primary_key.columns}
        columns = [_plain(one, key=one.name in keys) for one in table.columns]
        made.append(Table(table.name, plain, *columns))
    return made


def _plain(column: Column[Any], *, key: bool) -> Column[Any]:
    kind = column.type.as_generic()
    return Column(column.name, Words() if isinstance(kind, Text) else kind, primary_key=key)


def _carry(read: Connection, written: Connection, table: Table) -> None:
    _must_have(read, table)
    # A row may name one of its own table that came before it.
    found = read.execute(select(table).order_by(*table.primary_key.columns)).mappings()
    while rows := found.fetchmany(_AT_ONCE):
        written.execute(insert(table), [dict(row) for row in rows])


def _must_have(read: Connection, table: Table) -> None:
    there = {one["name"] for one in inspect(read).get_columns(table.name)}
    odd = there ^ set(table.columns.keys())
    if odd:
        raise StoreError(
            f"the columns {', '.join(sorted(odd))} of {table.name} are not those of its schema",
            place=str(read.engine.url.render_as_string(hide_password=True)),
            mend="Somebody changed the tables by hand; put them right first.",
        )


def _sum(connection: Connection, table: Table) -> tuple[int, int]:
    """Return how many rows a table has and a sum over them in whatever order they come."""
    rows, summed = 0, 0
    found = connection.execute(select(table)).mappings()
    while some := found.fetchmany(_AT_ONCE):
        for row in some:
            summed = (summed + int.from_bytes(_digest(row), "big")) % _MANY
        rows += len(some)
    return rows, summed


def _digest(row: RowMapping) -> bytes:
    told = json.dumps([_told(row[name]) for name in sorted(row.keys())])
    return hashlib.sha256(told.encode()).digest()


def _told(value: object) -> object:
    if isinstance(value, bytes | memoryview):
        return bytes(value).hex()
    if isinstance(value, float):
        return value.hex()
    return value if value is None or isinstance(value, bool | int | str) else str(value)
