"""Keeps the shop record while the studio runs, behind the pages and after what they wrote.

A fitting goes into the record when it is closed and comes out when it is opened again. Nothing
of it is part of what closing writes: a record that cannot be written loses no closing.
"""

import logging
from threading import Event
from typing import Final

from loftwright.errors import LoftwrightError
from loftwright.services.due_fittings import DueFittings
from loftwright.services.evidence import Desk
from loftwright.services.shop_folder import places_allowed, record_folder
from loftwright.services.shop_leaving import take_out_stale
from loftwright.services.shop_record import keep_fitting
from loftwright.services.studio import Studio
from loftwright.shop.record import standing
from loftwright.store.topics import FITTING, RECORD

AFTER_PAGES: Final = 1.0
"""Seconds that are left to pages and predictions before the record is written."""

log: Final = logging.getLogger(__name__)


class ShopKeeper:
    """Writes what closed fittings leave in the shop record.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    """

    def __init__(self, studio: Studio, desk: Desk) -> None:
        self._studio, self._desk = studio, desk
        self._due = DueFittings(AFTER_PAGES, FITTING, RECORD)
        self._there: set[str] = set()
        studio.hub.listen(self.told)

    def told(self, topic: str) -> None:
        """Take note that something happened to a fitting; made to be called from any thread.

        Training cases leave nothing in the record.
        """
        self._due.told(topic)

    def resume(self) -> None:
        """Take out what may not stand in the record, and take up what is missing in it."""
        try:
            take_out_stale(self._studio)
            there = set(standing(record_folder(self._studio)))
            self._there = {fitting for fitting, _ in there}
            outlines = self._studio.store.outlines()
            for fitting, place in places_allowed(self._studio, outlines).items():
                if place not in there:
                    self.told(f"{RECORD}{fitting}")
        except LoftwrightError:
            # The record stays as it is; its command says more, and the studio goes on.
            log.exception("the shop record could not be looked through")

    def run(self, stop: Event) -> None:
        """Keep the record until told to stop; `wake` ends a wait."""
        while not stop.is_set():
            fitting = self._due.next()
            if fitting is not None and not stop.is_set():
                self.keep(fitting)

    def wake(self) -> None:
        """End the wait for the next fitting."""
        self._due.wake()

    def keep(self, fitting: str) -> None:
        """Bring a fitting up to date in the record, unless it is still being hit in."""
        self._studio.look_for_erased()
        try:
            if not self._studio.standing(fitting).closed and fitting not in self._there:
                return
            stands = keep_fitting(self._studio, self._desk, fitting)
        except LoftwrightError:
            # A note was kept; the fitting itself is closed all the same.
            log.exception("the shop record of fitting %s could not be brought up to date", fitting)
            return
        if stands:
            self._there.add(fitting)
        else:
            self._there.discard(fitting)
