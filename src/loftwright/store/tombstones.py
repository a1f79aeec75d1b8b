"""Who was erased, by a digest alone, so that no older copy of a store brings them back.

A digest is of a random id: it names nobody, and leads to the golfer only where the id stands.
"""

import os
import re
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Final

FOLDER: Final = "erased"
"""In the data folder, beside golfers' keys."""
_MARK: Final = re.compile(r"[0-9a-f]{64}")


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
    door = os.open(folder / digest_of(golfer), os.O_WRONLY | os.O_CREAT, 0o600)
    try:
        os.fsync(door)
    finally:
        os.close(door)
    settle(folder)
    settle(data)


def write_mark(data: Path, mark: str, told: str) -> None:
    """Say more of somebody who was erased, and have it on the disk.

    Parameters
    ----------
    data : Path
        The data folder; made if it is not there.
    mark : str
        As `digest_of` returns it.
    told : str

    Raises
    ------
    OSError
        If it cannot be written; what was told before stands then.
    """
    folder = data / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    draft = folder / f".new-{mark}"
    door = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(door, "w", encoding="utf-8") as held:
        held.write(told)
        held.flush()
        os.fsync(held.fileno())
    draft.replace(folder / mark)
    settle(folder)
    settle(data)


def marks_in(data: Path) -> Mapping[str, str]:
    """Return what is told of everybody who was erased, by their marks; empty where nothing is.

    Raises
    ------
    OSError
        If it cannot be read.
    """
    folder = data / FOLDER
    found = sorted(folder.iterdir()) if folder.is_dir() else []
    return {
        one.name: one.read_text(encoding="utf-8") for one in found if _MARK.fullmatch(one.name)
    }


def marks_stamp(data: Path) -> int:
    """Return what differs from before whenever any program wrote a mark; 0 while there is none."""
    try:
        return (data / FOLDER).stat().st_mtime_ns
    except OSError:
        return 0


def was_erased(data: Path, golfer: str) -> bool:
    """Return whether a golfer was erased."""
    return (data / FOLDER / digest_of(golfer)).exists()


def copy_marks(source: Path, target: Path) -> int:
    """Write down in another folder who was erased by this one; return how many that adds.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    folder = target / FOLDER
    fresh = [one for one in marks_in(source) if not (folder / one).exists()]
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


def digest_of(golfer: str) -> str:
    """Return the mark of a golfer's record."""
    return sha256(f"erased {golfer}".encode()).hexdigest()
