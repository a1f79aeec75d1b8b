"""Copy a whole store into an empty one, and show that the two are alike."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, Table, func, insert, select, text, update

from loftwright.errors import ConflictError, StoreError
from loftwright.store.naming import metadata
from loftwright.store.sql import SqlStore

_AT_ONCE: Final = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Copied:
    """A table that was copied.

    Attributes
    ----------
    checksum : str
        SHA-256 over its rows in the order of their keys, the same in every database.
    """

    table: str
    rows: int
    checksum: str


def copy_store(source: SqlStore, target: SqlStore) -> tuple[Copied, ...]:
    """Copy everything into an empty store, all of it or nothing.

    Parameters
    ----------
    source, target : SqlStore
        Both at the newest schema. Golfers' keys are files and are not copied.

    Returns
    -------
    tuple of Copied
        As counted and summed in the target after it was written.

    Raises
    ------
    ConflictError
        If the target holds anything.
    StoreError
        If what was written is not what was read.
    """
    with source.reading() as read, target.writing() as written:
        filled = [table.name for table in metadata.sorted_tables if _count(written, table)]
        if filled:
            raise ConflictError(
                f"the store to copy into holds {', '.join(filled)}",
                place="to",
                mend="Name an empty database or folder; nothing was copied.",
            )
        for table in metadata.sorted_tables:
            _copy_rows(read, written, table)
            _count_on(written, table)
        found = tuple(_summed(written, table) for table in metadata.sorted_tables)
        before = tuple(_summed(read, table) for table in metadata.sorted_tables)
        if found != before:
            wrong = [one.table for one, other in zip(found, before, strict=True) if one != other]
            raise StoreError(
                f"what was written is not what was read: {', '.join(wrong)}",
                place="to",
                mend="Nothing was kept; look at the disk, and copy again.",
            )
    return found


def _copy_rows(read: Connection, written: Connection, table: Table) -> None:
    """Copy a table's rows; what names another row of it only once all are there.

    Of two golfers who took turns each fitting names the other.
    """
    own = [one.parent.name for one in table.foreign_keys if one.column.table is table]
    for rows in _batches(read, table):
        written.execute(insert(table), [row | dict.fromkeys(own) for row in rows])
    for rows in _batches(read, table) if own else ():
        for row in rows:
            named = {name: row[name] for name in own if row[name] is not None}
            if named:
                here = [column == row[column.name] for column in table.primary_key.columns]
                written.execute(update(table).where(*here).values(named))


def _batches(connection: Connection, table: Table) -> Iterator[list[dict[str, Any]]]:
    rows = connection.execute(select(table).order_by(*table.primary_key.columns)).mappings()
    while some := rows.fetchmany(_AT_ONCE):
        yield [dict(row) for row in some]


def _count(connection: Connection, table: Table) -> int:
    return connection.scalar(select(func.count()).select_from(table)) or 0


def _summed(connection: Connection, table: Table) -> Copied:
    """Return a table's rows in a form that no database changes, summed up."""
    lines = sorted(_line(row) for row in connection.execute(select(table)).mappings())
    summed = sha256()
    for line in lines:
        summed.update(line)
    return Copied(table=table.name, rows=len(lines), checksum=summed.hexdigest())


def _line(row: RowMapping) -> bytes:
    told = [_plain(row[name]) for name in sorted(row.keys())]
    return json.dumps(told, ensure_ascii=True).encode() + b"\n"


def _plain(value: object) -> object:
    if isinstance(value, bytes | memoryview):
        return bytes(value).hex()
    if isinstance(value, float):
        return value.hex()
    return value if value is None or isinstance(value, bool | int | str) else str(value)


def _count_on(connection: Connection, table: Table) -> None:
    """Have the database number the next row behind those that were copied."""
    if connection.dialect.name != "postgresql" or "came" not in table.c:
        return
    connection.execute(
        text(
            f"SELECT setval(pg_get_serial_sequence('{table.name}', 'came'), "  # noqa: S608 - own names
            f"COALESCE((SELECT max(came) FROM {table.name}), 0) + 1, false)"
        )
    )
