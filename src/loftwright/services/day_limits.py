"""Forgets what bodies allowed on earlier days, whether or not anybody opens a page."""

import logging
from datetime import date
from threading import Event
from typing import Final

from loftwright.errors import LoftwrightError
from loftwright.services.golfers import forget_old_limits
from loftwright.services.studio import Studio

LOOK: Final = 60.0
"""Seconds between two looks at the clock."""

log: Final = logging.getLogger(__name__)


class DayLimits:
    """Removes the limits of earlier days once when it begins, and then once a day.

    Parameters
    ----------
    studio : Studio
    """

    def __init__(self, studio: Studio) -> None:
        self._studio = studio
        self._done: date | None = None

    def look(self) -> int:
        """Remove what is of an earlier day, if the day is a new one; return how many went."""
        today = self._studio.today()
        if today == self._done:
            return 0
        gone = forget_old_limits(self._studio, today)
        self._done = today
        return gone

    def run(self, stop: Event) -> None:
        """Look until told to stop; what could not be removed is tried again at the next look."""
        while True:
            try:
                self.look()
            except LoftwrightError:
                log.exception("limits of earlier days could not be removed")
            if stop.wait(LOOK):
                return
