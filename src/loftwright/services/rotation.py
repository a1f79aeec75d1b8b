"""Which backups stay: seven days, four weeks, six months."""

from collections.abc import Callable, Hashable, Sequence
from datetime import date, datetime, timedelta, tzinfo
from typing import Final

from loftwright.services.backup_files import BackupFile

DAYS: Final = 7
WEEKS: Final = 4
MONTHS: Final = 6
BEFORE: Final = 2
"""Backups made before tables were changed that stay, beside the others."""
AHEAD: Final = timedelta(minutes=5)
"""A backup may be so much newer than the clock says, as when a clock is set by a network."""


def outdated(
    backups: Sequence[BackupFile], now: datetime, zone: tzinfo | None = None
) -> tuple[BackupFile, ...]:
    """Return the backups that may go.

    Of the newest days, weeks and months that have a backup the last one stays, so that a studio
    that was closed for long loses none by that.

    Parameters
    ----------
    backups : sequence of BackupFile
    now : datetime
    zone : tzinfo, optional
        The shop's, whose days count; the machine's own without it.

    Returns
    -------
    tuple of BackupFile
        None at all while one of them is from the future: then the clock was set back, and what is
        old cannot be told from what is new.
    """
    if any(one.at > now + AHEAD for one in backups):
        return ()
    daily = sorted((one for one in backups if not one.before), key=_at, reverse=True)
    days = {one.path: one.at.astimezone(zone).date() for one in daily}
    stay = {
        *_newest(daily, lambda one: days[one.path], DAYS),
        *_newest(daily, lambda one: _week(days[one.path]), WEEKS),
        *_newest(daily, lambda one: (days[one.path].year, days[one.path].month), MONTHS),
        *sorted((one for one in backups if one.before), key=_at, reverse=True)[:BEFORE],
    }
    return tuple(one for one in backups if one not in stay)


def _newest(
    backups: Sequence[BackupFile], of: Callable[[BackupFile], Hashable], most: int
) -> list[BackupFile]:
    """Return the newest backup of each of the newest spans; backups come the newest first."""
    found: dict[Hashable, BackupFile] = {}
    for one in backups:
        found.setdefault(of(one), one)
    return list(found.values())[:most]


def _week(day: date) -> tuple[int, int]:
    told = day.isocalendar()
    return told.year, told.week


def _at(one: BackupFile) -> datetime:
    return one.at
