"""Who was erased, by a digest alone, so that no older copy of a store brings them back.

A digest is of a random id: it names nobody, and leads to the golfer only where the id stands.
"""

import os
from hashlib import sha256
from pathlib import Path
from typing import Final

FOLDER: Final = "erased"
"""In the data folder, beside golfers' keys."""


def mark_erased(data: Path, golfer: str) -> None:
    """Write down that a golfer was erased, and have it on the disk.

    Parameters
    ----------
    data : Path
        The data folder; made if it is not there.
    golfer : str

    Raises
    ------
    OSError
        If it cannot be written.
    """
    folder = data / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    door = os.open(folder / _digest(golfer), os.O_WRONLY | os.O_CREAT, 0o600)
    try:
        os.fsync(door)
    finally:
        os.close(door)
    settle(folder)
    settle(data)


def was_erased(data: Path, golfer: str) -> bool:
    """Return whether a golfer was erased."""
    return (data / FOLDER / _digest(golfer)).exists()


def copy_marks(source: Path, target: Path) -> int:
    """Write down in another folder who was erased by this one; return how many that adds.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    there = source / FOLDER
    marks = sorted(one.name for one in there.iterdir()) if there.is_dir() else []
    folder = target / FOLDER
    fresh = [one for one in marks if not (folder / one).exists()]
    if fresh:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    for one in fresh:
        (folder / one).touch(mode=0o600)
    if fresh:
        settle(folder)
    return len(fresh)


def settle(folder: Path) -> None:
    """Have a folder's list of files on the disk, where the platform can."""
    try:
        door = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(door)
    finally:
        os.close(door)


def _digest(golfer: str) -> str:
    return sha256(f"erased {golfer}".encode()).hexdigest()
