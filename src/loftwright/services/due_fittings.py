"""Fittings that wait for work behind the pages: each once, and a little after it was told."""

from threading import Condition
from time import monotonic
from typing import Final

from loftwright.services.training_plays import is_training

_LOOK: Final = 1.0
"""Seconds after which whoever waits in vain may look whether to stop."""


class DueFittings:
    """Fittings by when their turn comes.

    Parameters
    ----------
    after : float
        Seconds that are left to pages; telling again begins them anew.
    *topics : str
        What topics begin with that tell of a fitting.
    """

    def __init__(self, after: float, *topics: str) -> None:
        self._after, self._topics = after, topics
        self._due: dict[str, float] = {}
        self._told = Condition()

    def add(self, fitting: str) -> None:
        """Take note of a fitting; made to be called from any thread."""
        with self._told:
            self._due[fitting] = monotonic() + self._after
            self._told.notify()

    def told(self, topic: str) -> None:
        """Take note of the fitting that a topic tells of; made to be called from any thread.

        A training case, which shares the hub, is nothing of the shop's and is passed over.
        """
        for begins in self._topics:
            fitting = topic.removeprefix(begins)
            if topic.startswith(begins) and not is_training(fitting):
                self.add(fitting)

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
