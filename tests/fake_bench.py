"""What is typed at the bench, in a dictionary: a part of the reference store."""

from threading import RLock

from loftwright.domain.rack import Rack
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.interface import BenchDay, Versioned


class MemoryBench:
    """Keeps bench sheets and the days of master shafts."""

    def __init__(self) -> None:
        self._typing = RLock()
        self._sheets: dict[str, Versioned[str]] = {}
        self._closed: list[tuple[str, str]] = []
        self._days: list[BenchDay] = []

    def rack(self) -> Rack:
        raise NotImplementedError

    def _shaft(self, piece: str) -> None:
        if piece not in self.rack().pieces:
            raise NotFoundError(f"there is no piece {piece!r}", place="piece")

    def on_the_bench(self, piece: str) -> bool:
        """Return whether a piece was ever on the bench."""
        known = {*self._sheets, *(one for one, _ in self._closed), *(d.piece for d in self._days)}
        return piece in known

    def bench_sheet(self, piece: str) -> Versioned[str]:
        return self._sheets.get(piece, Versioned(value="", version=0))

    def bench_sheets(self) -> dict[str, str]:
        return {piece: kept.value for piece, kept in self._sheets.items()}

    def set_bench_sheet(self, piece: str, told: str, *, version: int) -> int:
        with self._typing:
            self._shaft(piece)
            if self.bench_sheet(piece).version != version:
                raise ConflictError(
                    f"the bench sheet stands at version {self.bench_sheet(piece).version}",
                    place="bench sheet",
                )
            self._sheets[piece] = Versioned(value=told, version=version + 1)
            return version + 1

    def close_bench_sheet(self, piece: str, kept: str) -> None:
        self._shaft(piece)
        if self._sheets.pop(piece, None) is not None:
            self._closed.append((piece, kept))

    def keep_bench_day(self, day: BenchDay) -> None:
        self._shaft(day.piece)
        if day.at.tzinfo is None:
            raise InputError("a time needs a zone", place="at")
        self._days.append(day)

    def bench_days(self) -> tuple[BenchDay, ...]:
        return tuple(self._days)
