"""Who opened a golfer's record, as far as the store keeps that."""

from collections.abc import Collection

from sqlalchemy import select

from loftwright.store.base import Base
from loftwright.store.naming import metadata

TABLE = "openings"


class Opened(Base):
    """The store's list of who looked at whom, as it stands in the table."""

    def opened_rows(self, golfers: Collection[str]) -> tuple[dict[str, str], ...]:
        """Return who opened these records, oldest first; ids of golfers are left out."""
        table = metadata.tables.get(TABLE)
        if table is None:
            return ()
        told = [column for column in table.c if column.name not in {"came", "golfer"}]
        query = select(*told).where(table.c.golfer.in_(golfers)).order_by(table.c.came)
        with self.reading() as connection:
            rows = connection.execute(query).mappings()
            return tuple(
                {name: "" if one is None else str(one) for name, one in row.items()}
                for row in rows
            )
