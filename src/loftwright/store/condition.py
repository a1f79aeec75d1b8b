"""How the store itself is: which database, which tables, and whether it reads and writes."""

from pathlib import Path

from sqlalchemy import Connection, func, select

from loftwright.errors import StoreError
from loftwright.store.base import Base
from loftwright.store.naming import metadata


class Condition(Base):
    """What the store says of itself; nothing of it is anybody's."""

    @property
    def database(self) -> str:
        """Which database it is: sqlite or postgresql."""
        return self._engine.dialect.name

    def schema(self) -> str:
        """Return the revision at which the tables stand."""
        with self.reading() as connection:
            return _stands(connection)

    def probe(self) -> str:
        """Return the revision of the tables after making sure that a write would begin now.

        Raises
        ------
        StoreError
            If the store is gone, cannot be read, or would refuse a write.
        """
        file = self._engine.url.database
        if self.database == "sqlite" and file and not Path(file).exists():
            raise StoreError("the store's file is gone", place=self._place, mend=self.mend)
        with self.writing() as connection:
            return _stands(connection)

    def rows(self) -> dict[str, int]:
        """Return how many rows each table has."""
        with self.reading() as connection:
            return {
                table.name: int(
                    connection.execute(select(func.count()).select_from(table)).scalar_one()
                )
                for table in metadata.sorted_tables
            }


def _stands(connection: Connection) -> str:
    found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
    return "" if found is None else str(found)
