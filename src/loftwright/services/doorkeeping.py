"""Look after the door while the studio runs: withdrawn keys, and devices that were left alone."""

import logging
from threading import Event
from typing import Final

from loftwright.errors import LoftwrightError
from loftwright.services.live import MAIN_SCREEN, Hub
from loftwright.services.pairing import Pairing
from loftwright.services.pin_lock import THIS_MACHINE, PinLocks
from loftwright.store.topics import DEVICES

EVERY: Final = 1.0
"""Seconds between two looks; a database of several bays wakes the keeper before."""

log: Final = logging.getLogger(__name__)


class Doorkeeper:
    """Ends what devices watch whose key was withdrawn or which are locked, in whatever process.

    Parameters
    ----------
    pairing : Pairing
    locks : PinLocks
    hub : Hub
    """

    def __init__(self, pairing: Pairing, locks: PinLocks, hub: Hub) -> None:
        self._pairing, self._locks, self._hub = pairing, locks, hub
        self._wake = Event()
        self._unreachable = False
        hub.listen(self._hear)

    def run(self, stop: Event) -> None:
        """Look until the studio ends."""
        while not stop.is_set():
            try:
                self.look()
            except LoftwrightError:
                if not self._unreachable:
                    log.warning("the door cannot be looked after")
                self._unreachable = True
            else:
                self._unreachable = False
            self._wake.wait(EVERY)
            self._wake.clear()

    def look(self) -> None:
        """Look once."""
        self._pairing.look()
        self._locks.look()
        alone = [(one.id, self._locks.of(one)) for one in self._pairing.known()]
        for device, lock in (*alone, (THIS_MACHINE, self._locks.of(None))):
            if lock is None:
                continue
            if self._locks.left_alone(device, lock, asks=False):
                self._locks.lock(device)
            elif lock.since is None:
                continue
            self._hub.end(device if device != THIS_MACHINE else MAIN_SCREEN)

    def wake(self) -> None:
        """Look now."""
        self._wake.set()

    def _hear(self, topic: str) -> None:
        if topic == DEVICES:
            self._wake.set()
