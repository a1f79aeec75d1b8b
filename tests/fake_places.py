"""Where parts are, and which fittings are written to, in dictionaries: a part of the reference."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import datetime

from loftwright.domain.acts import Closed, Entry
from loftwright.domain.fitting import Fitting
from loftwright.domain.place import PlaceMove
from loftwright.domain.rack import Piece, RackItem
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.interface import Busy, Versioned

KEPT = 8


class MemoryPlaces:
    """Keeps the newest moves of every part."""

    _items: dict[str, Versioned[RackItem]]
    _fittings: dict[str, Versioned[Fitting]]
    _records: dict[str, list[Entry]]

    def __init__(self) -> None:
        self._moves: list[PlaceMove] = []
        self._numbered = 0

    def knows_golfer(self, golfer: str) -> bool:
        raise NotImplementedError

    def check_out(self, moves: Sequence[PlaceMove]) -> int:
        before = dict(self._items), list(self._moves), self._numbered
        try:
            for move in moves:
                self._move(move)
        except BaseException:
            self._items.clear()
            self._items.update(before[0])
            self._moves, self._numbered = before[1:]
            raise
        return max((one.number for one in self._moves), default=0)

    def places(self) -> dict[str, PlaceMove]:
        return {one.piece: one for one in self._moves}

    def place_history(self, piece: str) -> tuple[PlaceMove, ...]:
        self._piece(piece)
        return tuple(one for one in reversed(self._moves) if one.piece == piece)

    def busy(self, since: datetime, among: Collection[str] | None = None) -> tuple[Busy, ...]:
        found = []
        for kept in self._fittings.values():
            if among is not None and kept.value.id not in among:
                continue
            record = self._records[kept.value.id]
            if not record or record[-1].at < since:
                continue
            group = [one for one in record if one.group == record[-1].group]
            if not any(isinstance(one.act, Closed) for one in group):
                found.append(_busy(kept.value, record[-1]))
        return tuple(sorted(sorted(found, key=lambda one: one.fitting), key=_newest_first))

    def _move(self, move: PlaceMove) -> None:
        kept = self._piece(move.piece)
        if move.at.tzinfo is None:
            raise InputError("a time has no zone", place="at")
        assert isinstance(kept.value, Piece)
        if kept.value.place != move.was:
            raise ConflictError("somebody moved it", place="place")
        if move.golfer is not None and not self.knows_golfer(move.golfer):
            raise NotFoundError("there is no such golfer", place="golfer")
        if move.place != move.was:
            self._items[move.piece] = Versioned(
                value=replace(kept.value, place=move.place), version=kept.version + 1
            )
        self._numbered += 1
        self._moves.append(replace(move, number=self._numbered))
        mine = [one for one in self._moves if one.piece == move.piece]
        for one in mine[:-KEPT]:
            self._moves.remove(one)

    def _piece(self, piece: str) -> Versioned[RackItem]:
        kept = self._items.get(piece)
        if kept is None or not isinstance(kept.value, Piece):
            raise NotFoundError(f"there is no piece {piece!r}", place="piece")
        return kept


def _busy(fitting: Fitting, entry: Entry) -> Busy:
    return Busy(
        fitting=fitting.id, bay=fitting.bay, fitter=fitting.fitter, at=entry.at, by=entry.by
    )


def _newest_first(one: Busy) -> float:
    return -one.at.timestamp()
