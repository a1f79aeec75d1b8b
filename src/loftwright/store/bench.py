"""What is typed at the bench: sheets of readings, and the days of a master shaft."""

from typing import Any

from sqlalchemy import Connection, Row, insert, select, update

from loftwright.store.base import Base
from loftwright.store.codec import instant_of, instant_text
from loftwright.store.interface import BenchDay, Versioned
from loftwright.store.schema import bench_days, bench_sheets, pieces
from loftwright.store.versions import must_be_there, stale


class Bench(Base):
    """The store's bench sheets and days."""

    def bench_sheet(self, piece: str) -> Versioned[str]:
        """Return the open bench sheet of a piece; version 0 and empty if there is none."""
        with self.reading() as connection:
            found = _open(connection, piece)
        if found is None:
            return Versioned(value="", version=0)
        return Versioned(value=found.told, version=found.version)

    def bench_sheets(self) -> dict[str, str]:
        """Return every open bench sheet by its piece."""
        query = select(bench_sheets.c.piece, bench_sheets.c.told)
        with self.reading() as connection:
            rows = connection.execute(query.where(bench_sheets.c.kept.is_(None)))
            return {row.piece: row.told for row in rows}

    def set_bench_sheet(self, piece: str, told: str, *, version: int) -> int:
        """Replace the open bench sheet of a piece, new at version 0, and return its version."""
        with self.writing() as connection:
            must_be_there(connection, pieces.c.id, piece, "piece")
            found = _open(connection, piece)
            stands = 0 if found is None else found.version
            if stands != version:
                raise stale("bench sheet", stands, version)
            if found is None:
                connection.execute(insert(bench_sheets).values(piece=piece, told=told, version=1))
            else:
                connection.execute(
                    update(bench_sheets)
                    .where(bench_sheets.c.came == found.came)
                    .values(told=told, version=version + 1)
                )
        return version + 1

    def close_bench_sheet(self, piece: str, kept: str) -> None:
        """Close the open bench sheet of a piece under what became of it; it stays on record."""
        with self.writing() as connection:
            must_be_there(connection, pieces.c.id, piece, "piece")
            connection.execute(
                update(bench_sheets)
                .where(bench_sheets.c.piece == piece, bench_sheets.c.kept.is_(None))
                .values(kept=kept)
            )

    def keep_bench_day(self, day: BenchDay) -> None:
        """Keep what a bench read of its master shaft."""
        with self.writing() as connection:
            must_be_there(connection, pieces.c.id, day.piece, "piece")
            connection.execute(
                insert(bench_days).values(piece=day.piece, at=instant_text(day.at), told=day.told)
            )

    def bench_days(self) -> tuple[BenchDay, ...]:
        """Return what was read of master shafts, in the order in which it came."""
        with self.reading() as connection:
            rows = connection.execute(select(bench_days).order_by(bench_days.c.came))
            return tuple(
                BenchDay(piece=row.piece, at=instant_of(row.at), told=row.told) for row in rows
            )


def _open(connection: Connection, piece: str) -> Row[Any, Any, Any] | None:
    query = select(bench_sheets.c.came, bench_sheets.c.told, bench_sheets.c.version)
    return connection.execute(
        query.where(bench_sheets.c.piece == piece, bench_sheets.c.kept.is_(None))
    ).first()
