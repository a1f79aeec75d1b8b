"""Writes that state the version they read."""

from typing import Any

from sqlalchemy import Column, Connection, Table, select, update

from loftwright.errors import ConflictError, MovedOnError, NotFoundError


def missing(what: str, name: str) -> NotFoundError:
    """Return the error for something that is not there."""
    return NotFoundError(
        f"there is no {what} {name!r}", place=what, mend="It may have been opened elsewhere."
    )


def must_be_there(connection: Connection, column: Column[str], name: str, what: str) -> None:
    """Check that something named elsewhere is in the store.

    Raises
    ------
    NotFoundError
        If it is not.
    """
    if connection.scalar(select(column).where(column == name)) is None:
        raise missing(what, name)


def stale(what: str, stands: int, read: int) -> ConflictError:
    """Return the error for a write that read an older version."""
    return ConflictError(
        f"the {what} was changed meanwhile: it stands at version {stands}, and version {read} "
        "was read",
        place=what,
        mend="Look at what stands now and change it again.",
    )


def must_end_at(what: str, last: int, end: int | None) -> None:
    """Check that a record ends where its reader says.

    Raises
    ------
    MovedOnError
        If it does not.
    """
    if end is not None and end != last:
        raise MovedOnError(
            f"the {what} went on meanwhile: it ends at {last}, and was read up to {end}",
            place=what,
            mend="Look at what stands now and act again.",
        )


def change(
    connection: Connection,
    table: Table,
    name: str,
    values: dict[str, Any],
    *,
    version: int,
    what: str,
) -> int:
    """Change the row of an id if it stands at a version, and return the new version.

    Raises
    ------
    NotFoundError
        If there is no such row.
    ConflictError
        If it stands at another version.
    """
    stands = connection.scalar(select(table.c.version).where(table.c.id == name))
    if stands is None:
        raise missing(what, name)
    if stands != version:
        raise stale(what, stands, version)
    connection.execute(
        update(table).where(table.c.id == name).values(**values, version=version + 1)
    )
    return version + 1
