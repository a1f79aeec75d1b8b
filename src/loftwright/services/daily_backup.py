"""The backup of the day, made by the running studio when nobody is being fitted."""

import logging
from datetime import datetime
from pathlib import Path
from threading import Event
from typing import Final

from loftwright.errors import ConflictError, LoftwrightError
from loftwright.services.backup import Made, make_backup
from loftwright.services.backup_files import FOLDER, MAKING, backups_in
from loftwright.services.backup_state import note_trouble
from loftwright.services.one_server import hold
from loftwright.services.quiet import lately, running
from loftwright.services.rotation import outdated
from loftwright.services.studio import Studio

EVERY: Final = 60.0
"""Seconds between two looks whether it is time."""
AGAIN: Final = 60
"""Looks that are let pass after one that failed: an hour."""

log: Final = logging.getLogger(__name__)


class DailyBackup:
    """Makes the backup of the day in its first quiet minute, or when the studio is closed.

    Parameters
    ----------
    studio : Studio
    """

    def __init__(self, studio: Studio) -> None:
        self._studio = studio
        self._passing = 0

    @property
    def folder(self) -> Path:
        """Where the backups lie."""
        return self._studio.folder / FOLDER

    def run(self, stop: Event) -> None:
        """Look again and again until told to stop."""
        while not stop.wait(EVERY):
            self.look()

    def look(self) -> Made | None:
        """Make the backup of the day if it is time, unless one failed less than an hour ago."""
        if self._passing > 0:
            self._passing -= 1
            return None
        return self.make_if_due()

    def make_if_due(self) -> Made | None:
        """Make the backup of the day if there is none yet and nobody is being fitted.

        One that fails is written down and never ends the studio.
        """
        try:
            now = self._studio.now()
            if not self.due(now) or self._busy(now):
                return None
            return self._made_alone(now)
        except (LoftwrightError, OSError) as error:
            self._passing = AGAIN
            log.exception("the daily backup could not be made")
            self._failed(error)
            return None

    def _made_alone(self, now: datetime) -> Made | None:
        """Make it, unless another server on the same data folder does or just did."""
        try:
            held = hold(self._studio.folder, MAKING)
        except ConflictError:
            return None
        with held:
            if not self.due(now):
                return None
            made = make_backup(self._studio, now)
            self._went_well(made, now)
        return made

    def due(self, now: datetime) -> bool:
        """Return whether no backup bears this day, in the shop's zone."""
        zone = self._studio.zone
        today = now.astimezone(zone).date()
        return all(one.at.astimezone(zone).date() != today for one in backups_in(self.folder))

    def _busy(self, now: datetime) -> bool:
        """Return whether somebody is being fitted; an act from the future says that of nobody."""
        return bool(lately(running(self._studio), now))

    def _went_well(self, made: Made, now: datetime) -> None:
        log.info("a backup of %d bytes was made", made.size)
        note_trouble(self._studio.folder, now, "")
        for one in outdated(backups_in(self.folder), now, self._studio.zone):
            if one.path != made.path:
                one.path.unlink(missing_ok=True)

    def _failed(self, error: Exception) -> None:
        try:
            note_trouble(self._studio.folder, self._studio.now(), str(error))
        except (LoftwrightError, OSError):
            # The disk that holds no backup may hold no note either; the log has both.
            log.exception("that the backup failed could not be written down")
