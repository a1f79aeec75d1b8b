"""Where parts are in the store: moved only from where they are, with who moved them and when."""

from collections.abc import Sequence
from typing import Final

from sqlalchemy import Connection, RowMapping, delete, func, insert, select, update

from loftwright.domain.place import PlaceMove
from loftwright.errors import ConflictError
from loftwright.store.base import Base
from loftwright.store.codec import instant_of, instant_text
from loftwright.store.house_schema import place_moves
from loftwright.store.schema import golfers, items, pieces
from loftwright.store.topics import RACK
from loftwright.store.versions import missing, must_be_there

KEPT: Final = 8
"""Moves of a part that are remembered (judgement)."""


class Places(Base):
    """The store's places."""

    def check_out(self, moves: Sequence[PlaceMove]) -> int:
        """Move parts, all of them or none, and return the number of the newest move."""
        with self.writing() as connection:
            for move in moves:
                _move(connection, move)
                _forget_old(connection, move.piece)
            newest = connection.scalar(select(func.max(place_moves.c.came))) or 0
            self.tell(connection, RACK, newest)
        return newest

    def places(self) -> dict[str, PlaceMove]:
        """Return the newest move of every part that was ever moved."""
        newest = select(func.max(place_moves.c.came)).group_by(place_moves.c.piece)
        with self.reading() as connection:
            rows = connection.execute(
                select(place_moves).where(place_moves.c.came.in_(newest))
            ).mappings()
            return {row["piece"]: _read(row) for row in rows}

    def place_history(self, piece: str) -> tuple[PlaceMove, ...]:
        """Return the newest moves of a part, the last one first."""
        with self.reading() as connection:
            must_be_there(connection, pieces.c.id, piece, "piece")
            rows = connection.execute(
                select(place_moves)
                .where(place_moves.c.piece == piece)
                .order_by(place_moves.c.came.desc())
            ).mappings()
            return tuple(_read(row) for row in rows)


def _move(connection: Connection, move: PlaceMove) -> None:
    at = instant_text(move.at)
    stands = connection.scalar(select(pieces.c.place).where(pieces.c.id == move.piece))
    if stands is None:
        raise missing("piece", move.piece)
    if stands != move.was:
        where = f"at {stands}" if stands else "without a place"
        raise ConflictError(
            f"it is {where} by now: somebody moved it",
            place="place",
            mend="Move it again if it is elsewhere.",
        )
    if move.golfer is not None:
        must_be_there(connection, golfers.c.id, move.golfer, "golfer")
    if move.place != stands:
        connection.execute(
            update(pieces).where(pieces.c.id == move.piece).values(place=move.place)
        )
        connection.execute(
            update(items).where(items.c.id == move.piece).values(version=items.c.version + 1)
        )
    connection.execute(
        insert(place_moves).values(
            piece=move.piece,
            was=move.was,
            place=move.place,
            at=at,
            by=move.by,
            golfer=move.golfer,
        )
    )


def _forget_old(connection: Connection, piece: str) -> None:
    mine = place_moves.c.piece == piece
    newest = select(place_moves.c.came).where(mine).order_by(place_moves.c.came.desc()).limit(KEPT)
    connection.execute(delete(place_moves).where(mine, place_moves.c.came.not_in(newest)))


def _read(row: RowMapping) -> PlaceMove:
    return PlaceMove(
        piece=row["piece"],
        was=row["was"],
        place=row["place"],
        at=instant_of(row["at"]),
        by=row["by"],
        golfer=row["golfer"],
        number=row["came"],
    )
