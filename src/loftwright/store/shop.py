"""What the shop itself keeps: settings, and who hits in which bay."""

from sqlalchemy import Column, Connection, Table, select

from loftwright.store.base import Base
from loftwright.store.interface import Versioned
from loftwright.store.schema import bays, fittings, settings
from loftwright.store.topics import BAY
from loftwright.store.upsert import put
from loftwright.store.versions import must_be_there, stale


class Shop(Base):
    """The store's settings and bays."""

    def setting(self, name: str) -> Versioned[str]:
        """Return a setting's text; version 0 and empty if it was never set."""
        with self.reading() as connection:
            return _named(connection, settings, settings.c.text, name)

    def set_setting(self, name: str, text: str, *, version: int) -> int:
        """Replace a setting and return the new version."""
        with self.writing() as connection:
            return _set(connection, settings, settings.c.text, name, text, version)

    def settings(self) -> dict[str, str]:
        """Return every setting."""
        with self.reading() as connection:
            rows = connection.execute(select(settings.c.name, settings.c.text))
            return {row.name: row.text for row in rows}

    def hitting(self, bay: str) -> Versioned[str]:
        """Return the fitting whose golfer hits in a bay; version 0 and empty if nobody does."""
        with self.reading() as connection:
            return _named(connection, bays, bays.c.hitting, bay)

    def set_hitting(self, bay: str, fitting: str, *, version: int) -> int:
        """Say whose golfer hits in a bay and return the new version."""
        with self.writing() as connection:
            must_be_there(connection, fittings.c.id, fitting, "fitting")
            changed = _set(connection, bays, bays.c.hitting, bay, fitting, version)
            self.tell(connection, f"{BAY}{bay}", changed)
        return changed


def _named(connection: Connection, table: Table, column: Column[str], name: str) -> Versioned[str]:
    query = select(column, table.c.version).where(table.c.name == name)
    row = connection.execute(query).first()
    return (
        Versioned(value="", version=0) if row is None else Versioned(value=row[0], version=row[1])
    )


def _set(
    connection: Connection, table: Table, column: Column[str], name: str, text: str, version: int
) -> int:
    stands = _named(connection, table, column, name).version
    if stands != version:
        raise stale(name, stands, version)
    values = {column.name: text, "version": version + 1}
    connection.execute(put(connection, table, {"name": name}, values))
    return version + 1
