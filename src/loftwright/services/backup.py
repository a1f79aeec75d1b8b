"""Back a studio up while it runs: written aside, read back, and only then given its name."""

import os
import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import mkdtemp
from typing import Final

from loftwright.errors import IntakeError, StoreError
from loftwright.services.backup_content import Source, gather, size_of, source_of
from loftwright.services.backup_files import DRAFT, FOLDER, Manifest, backup_name, backups_in
from loftwright.services.backup_tar import pack, read_backup
from loftwright.services.key_copies import KeyCopies, copies_of, copy_keys
from loftwright.services.restore_aside import remove_put_aside
from loftwright.services.restore_swap import FRESH, PLAN
from loftwright.services.studio import Studio
from loftwright.store.tombstones import copy_marks, settle

__all__ = ["STALE", "Made", "backups_in", "make_backup", "sweep"]

STALE: Final = timedelta(days=1)
"""What was begun so long ago was given up, as when the power went."""
_ROOM: Final = 1.6
"""Times the size of what is backed up that must be free: a copy of it, and the copy packed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A backup that was made and read back.

    Attributes
    ----------
    left_out : tuple of str
        Files in the folder of the shop record that are none of the program's.
    keys : KeyCopies
        What became of the copies of golfers' keys.
    """

    path: Path
    size: int
    manifest: Manifest
    keys: KeyCopies
    left_out: tuple[str, ...]


def make_backup(
    source: Studio | Source,
    at: datetime,
    *,
    to: Path | None = None,
    keys_to: Path | None = None,
    before: str = "",
) -> Made:
    """Back a studio up and return the file, after it was read back and found as it was written.

    Golfers' keys are not in it. Their copies in the data folder are brought up to date, and what
    a restore put aside a week ago is removed.

    Parameters
    ----------
    source : Studio or Source
    at : datetime
        The instant it is.
    to : Path, optional
        A folder that is there; `backups` in the data folder without it.
    keys_to : Path, optional
        A folder that is there, which is given copies of golfers' keys too.
    before : str
        The schema that is to come, where the tables are about to change.

    Raises
    ------
    StoreError
        If the store cannot be read, or the file cannot be written whole. Backups that are there
        stay as they are.
    """
    what = source_of(source) if isinstance(source, Studio) else source
    remove_put_aside(what.folder, at)
    if not (what.folder / PLAN).exists():
        # On trial a restore lays golfers' keys beside it; one that was killed must not keep them.
        sweep(what.folder, begins=FRESH)
    target = _target(what.folder, to)
    if keys_to is not None:
        _must_be_there(keys_to)
    with _scratch(target) as scratch:
        _must_have_room(target, what.folder)
        gathered = gather(what, scratch, at)
        draft = scratch / "whole"
        pack(gathered.manifest, scratch, draft)
        draft.chmod(0o600)
        _on_the_disk(draft)
        _must_read_back(draft, gathered.manifest)
        path = _named(draft, target, at, before)
        if to is not None:
            # An older backup beside it must not bring back who is erased by now.
            copy_marks(what.folder, to)
    keys = copy_keys(what.folder, copies_of(what.folder), at)
    if keys_to is not None:
        keys = copy_keys(what.folder, keys_to, at)
    return Made(
        path=path,
        size=path.stat().st_size,
        manifest=gathered.manifest,
        keys=keys,
        left_out=gathered.left_out,
    )


def sweep(folder: Path, older: timedelta = STALE, begins: str = DRAFT) -> int:
    """Remove from a folder what was begun and given up; return how many that was."""
    gone = 0
    for one in folder.glob(f"{begins}*"):
        if one.is_dir() and time.time() - one.stat().st_mtime >= older.total_seconds():
            shutil.rmtree(one, ignore_errors=True)
            gone += not one.exists()
    return gone


def _target(data: Path, to: Path | None) -> Path:
    target = data / FOLDER if to is None else to
    if to is not None:
        _must_be_there(to)
    try:
        target.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise _unwritten(error, target) from error
    sweep(target)
    return target


def _must_be_there(folder: Path) -> None:
    # Where a drive was pulled out, making its folder anew would fill the wrong disk.
    if not folder.is_dir():
        raise StoreError(
            "this folder is not there",
            place=str(folder),
            mend="Plug in the drive it lies on, or make the folder; no backup was made.",
        )


def _must_have_room(target: Path, data: Path) -> None:
    wanted = int(_ROOM * size_of(data))
    free = shutil.disk_usage(target).free
    if free < wanted:
        needed, left = wanted // 1_000_000 + 1, free // 1_000_000
        raise StoreError(
            f"a backup needs about {needed} MB, and {left} MB are free",
            place=str(target),
            mend="Free some space, or name a folder on another disk with --to; earlier backups "
            "stay.",
        )


@contextmanager
def _scratch(target: Path) -> Iterator[Path]:
    try:
        made = Path(mkdtemp(prefix=DRAFT, dir=target))
    except OSError as error:
        raise _unwritten(error, target) from error
    try:
        yield made
    except OSError as error:
        raise _unwritten(error, target) from error
    finally:
        shutil.rmtree(made, ignore_errors=True)


def _named(draft: Path, target: Path, at: datetime, before: str) -> Path:
    """Give a whole backup its name; one of the same second stays, and this one takes the next."""
    path = target / backup_name(at, before)
    while path.exists():
        at += timedelta(seconds=1)
        path = target / backup_name(at, before)
    draft.rename(path)
    settle(target)
    return path


def _on_the_disk(file: Path) -> None:
    with file.open("rb") as held:
        os.fsync(held.fileno())


def _must_read_back(draft: Path, manifest: Manifest) -> None:
    try:
        same = read_backup(draft) == manifest
    except IntakeError:
        same = False
    if not same:
        raise StoreError(
            "what was written is not what is read back",
            place=str(draft.parent.parent),
            mend="The disk fails: name a folder on another one with --to. Earlier backups stay.",
        )


def _unwritten(error: OSError, target: Path) -> StoreError:
    return StoreError(
        f"the backup cannot be written: {error.strerror or error}",
        place=str(target),
        mend="Free some space, make the folder writable, or name another with --to; earlier "
        "backups stay as they are.",
    )
