"""One writer of the shop record at a time, also over several processes on one folder."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import RLock
from typing import IO, Final

FILE: Final = ".writing"
_here = RLock()
_mine: set[Path] = set()
"""Folders in which this process has the turn."""


@contextmanager
def turn(folder: Path) -> Iterator[None]:
    """Wait until nobody else writes in a folder, and keep others waiting meanwhile.

    Parameters
    ----------
    folder : Path
        Made if it is not there.

    Raises
    ------
    OSError
        If the folder cannot be written.

    Notes
    -----
    A process that dies lets go of its turn.
    """
    with _here:
        folder.mkdir(parents=True, exist_ok=True)
        place = folder.resolve()
        if place in _mine:
            yield
            return
        with (place / FILE).open("ab") as file:
            _take(file)
            _mine.add(place)
            try:
                yield
            finally:
                _mine.discard(place)
                _leave(file)


if sys.platform == "win32":
    import msvcrt

    def _take(file: IO[bytes]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)

    def _leave(file: IO[bytes]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _take(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX)

    def _leave(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_UN)
