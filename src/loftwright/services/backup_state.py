"""When the last backup was made, and since when it fails if it does."""

import json
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from loftwright.intake.files import write_whole
from loftwright.services.backup_files import FOLDER, TROUBLE, backups_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A daily backup that could not be made.

    Attributes
    ----------
    since : datetime
        When it failed first since the last that was made.
    """

    since: datetime
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupState:
    """How the backups of a data folder stand.

    Attributes
    ----------
    newest : datetime, optional
        When the newest was made; None if there is none.
    """

    newest: datetime | None
    count: int
    trouble: Trouble | None


def backup_state(data: Path) -> BackupState:
    """Return how the backups of a data folder stand, by their names and by what was noted."""
    folder = data / FOLDER
    found = backups_in(folder)
    return BackupState(
        newest=found[0].at if found else None, count=len(found), trouble=_trouble(folder)
    )


def note_trouble(data: Path, at: datetime, why: str) -> None:
    """Write down that a daily backup failed; without a reason that one was made since.

    Raises
    ------
    IntakeError
        If it cannot be written.
    """
    folder = data / FOLDER
    known = _trouble(folder)
    if why:
        since = known.since if known else at
        told = {"since": since.isoformat(), "why": why}
        write_whole(folder / TROUBLE, json.dumps(told).encode() + b"\n")
    elif known:
        (folder / TROUBLE).unlink(missing_ok=True)


def _trouble(folder: Path) -> Trouble | None:
    try:
        told = json.loads((folder / TROUBLE).read_bytes())
        return Trouble(since=datetime.fromisoformat(told["since"]), why=str(told["why"]))
    except (OSError, ValueError, KeyError, TypeError):
        return None
