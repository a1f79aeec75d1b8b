"""Fittings that wait for work behind the pages: each once, and a little after it was told."""

from threading import Condition
from time import monotonic
from typing import Final

_LOOK: Final = 1.0
"""Seconds after which whoever waits in vain may look whether to stop."""


class DueFittings:
    """Fittings by when their turn comes.

    Parameters
    ----------
    after : float
        Seconds that are left to pages; telling again begins them anew.
    """

    def __init__(self, after: float) -> None:
        self._after = after
        self._due: dict[str, float] = {}
        self._told = Condition()

    def add(self, fitting: str) -> None:
        """Take note of a fitting; made to be called from any thread."""
        with self._told:
            self._due[fitting] = monotonic() + self._after
            self._told.notify()

    def wake(self) -> None:
        """End the wait for the next fitting."""
        with self._told:
            self._told.notify_all()

    def next(self) -> str | None:
        """Wait for the fitting that is due first; None after a while or when woken."""
        with self._told:
            if not self._due:
                self._told.wait(_LOOK)
                return None
            fitting, due = min(self._due.items(), key=lambda one: one[1])
            left = due - monotonic()
            if left > 0.0:
                self._told.wait(left)
                return None
            del self._due[fitting]
            return fitting
