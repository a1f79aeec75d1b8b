"""One server a data folder: a studio in a file has one process that shows it.

A second one would be told nothing of what the first writes: its pages would stand still, and a
device that was withdrawn at one would still be let in by the other.
"""

import sys
from pathlib import Path
from typing import IO, Final

from loftwright.errors import ConflictError, StoreError

SERVING: Final = "serving"
DEMO_SERVING: Final = "serving-demo"


def hold(folder: Path, name: str = SERVING) -> IO[bytes]:
    """Take a data folder for this process until it ends, however it ends.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    name : str
        Of the file that is held; it stays empty.

    Returns
    -------
    IO of bytes
        To be kept open.

    Raises
    ------
    ConflictError
        If another process serves it.
    StoreError
        If the folder cannot be written, or lies on a disk that knows no locks.
    """
    place = folder / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
        held = place.open("ab")
    except OSError as error:
        raise StoreError(
            f"the data folder cannot be written: {error.strerror}",
            place=str(place),
            mend="Make the folder writable, or name another in LOFTWRIGHT_DATA.",
        ) from error
    try:
        _take(held)
    except (BlockingIOError, PermissionError) as error:
        held.close()
        raise ConflictError(
            "another Loftwright serves this studio already",
            place=str(folder),
            mend="Use the one that runs, or end it first; for several bays keep the studio in "
            "PostgreSQL (LOFTWRIGHT_STORE).",
        ) from error
    except OSError as error:
        held.close()
        raise StoreError(
            f"this disk cannot hold a file for one program: {error.strerror}",
            place=str(place),
            mend="Name a data folder on a disk of this machine in LOFTWRIGHT_DATA.",
        ) from error
    return held


if sys.platform == "win32":
    import msvcrt

    def _take(file: IO[bytes]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(file: IO[bytes]) -> None:
        # Of this process alone: a child that outlives it does not keep the folder.
        fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
