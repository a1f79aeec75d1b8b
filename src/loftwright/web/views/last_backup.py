"""When the last backup was made, and whether the daily one fails, in words."""

from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path

from loftwright.services.backup_state import backup_state


@dataclass(frozen=True, slots=True, kw_only=True)
class LastBackup:
    """What the settings say of backups.

    Attributes
    ----------
    trouble : str
        Since when the daily one fails and why; empty if it does not.
    """

    sentence: str
    trouble: str


def last_backup(data: Path, now: datetime, zone: tzinfo | None) -> LastBackup:
    """Return what the settings say of the backups of a data folder.

    Parameters
    ----------
    data : Path
    now : datetime
    zone : tzinfo, optional
        The shop's.
    """
    state = backup_state(data)
    trouble = ""
    if state.trouble:
        since = state.trouble.since.astimezone(zone)
        trouble = f"The daily backup fails since {since:%Y-%m-%d %H:%M}: {state.trouble.why}"
    if state.newest is None:
        return LastBackup(
            sentence="No backup yet: one is made each day in the first quiet minute.",
            trouble=trouble,
        )
    at = state.newest.astimezone(zone)
    kept = "the only one kept" if state.count == 1 else f"the newest of {state.count} kept"
    days = (now.astimezone(zone).date() - at.date()).days
    when = {0: "today", 1: "yesterday"}.get(days, f"{at:%Y-%m-%d}")
    return LastBackup(sentence=f"Last backup {when} at {at:%H:%M}, {kept}.", trouble=trouble)
