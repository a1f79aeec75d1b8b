"""Put a row under its key, new or in the place of the old one, in the words of the database."""

from typing import Any

from sqlalchemy import Connection, Insert, Table
from sqlalchemy.dialects import postgresql, sqlite


def put(
    connection: Connection, table: Table, key: dict[str, Any], values: dict[str, Any]
) -> Insert:
    """Return the statement that puts values under a key.

    Parameters
    ----------
    connection : Connection
        Whose database's words are used.
    table : Table
    key, values : dict of str to object
        By column.
    """
    if connection.dialect.name == "postgresql":
        row = postgresql.insert(table).values(**key, **values)
        return row.on_conflict_do_update(index_elements=list(key), set_=values)
    line = sqlite.insert(table).values(**key, **values)
    return line.on_conflict_do_update(index_elements=list(key), set_=values)
