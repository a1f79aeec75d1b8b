"""One evidence run a fitting at a time: who asks meanwhile waits for the newest state."""

from datetime import datetime, timedelta
from threading import Lock
from typing import Final

from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.newest import Newest
from loftwright.services.studio import Studio

FRESH: Final = timedelta(seconds=1)
"""How long the minutes that are left may stand."""


_MOST: Final = 12
"""Fittings that are kept drawn: more than a studio has open at once."""


class _Line:
    """Those who wait for one fitting."""

    def __init__(self) -> None:
        self.lock = Lock()
        self.newest: BayNow | None = None
        self.at: datetime | None = None
        self.turn = -1


class EvidenceRunner:
    """Draws fittings in their bays; made to be called from worker threads.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    """

    def __init__(self, studio: Studio, desk: Desk) -> None:
        self.studio, self.desk = studio, desk
        self._lines: Newest[_Line] = Newest(_MOST)

    def newest(self, fitting: str) -> BayNow:
        """Return a fitting in its bay, no older than the call.

        While one run is under way everybody else waits; then one of them runs for all, on the
        record as it stands by then, so that of three balls at once only the last is computed.

        Parameters
        ----------
        fitting : str

        Raises
        ------
        NotFoundError
            If there is no such fitting.
        """
        wanted = len(self.studio.record(fitting))
        opened = self.studio.store.fitting(fitting).value
        turn = self.studio.store.hitting(opened.bay).version
        line = self._lines.or_put(fitting, _Line())
        with line.lock:
            kept = line.newest
            if kept is not None and self._stands(line, kept, wanted, turn):
                return kept
            found = bay_now(self.studio, self.desk, fitting)
            line.newest, line.at, line.turn = found, self.studio.now(), found.turn_version
            return found

    def _stands(self, line: _Line, kept: BayNow, wanted: int, turn: int) -> bool:
        if kept.now.upto < wanted or line.turn < turn or line.at is None:
            return False
        return timedelta(0) <= self.studio.now() - line.at < FRESH
