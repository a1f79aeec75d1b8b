"""Names that were looked for: an address bears a mark of what was, and the name stands nowhere."""

from collections import OrderedDict
from collections.abc import Callable
from secrets import token_urlsafe
from threading import Lock
from time import monotonic
from typing import Final

KEPT: Final = 3600.0
"""Seconds for which a name is kept in mind."""
MOST: Final = 200


class Sought:
    """Keeps in mind what was looked for lately, so that going back finds the same page.

    Parameters
    ----------
    seconds : callable
        The time, in s, from any moment on.
    """

    def __init__(self, seconds: Callable[[], float] = monotonic) -> None:
        self._seconds = seconds
        self._lock = Lock()
        self._kept: OrderedDict[str, tuple[float, str]] = OrderedDict()

    def keep(self, text: str) -> str:
        """Return a mark that stands for a text, which tells nothing of it; of no words, none."""
        if not text.split():
            return ""
        mark = token_urlsafe(9)
        with self._lock:
            self._forget()
            self._kept[mark] = (self._seconds() + KEPT, text)
        return mark

    def text(self, mark: str) -> str:
        """Return what a mark stands for; nothing after an hour, or when many were kept since."""
        with self._lock:
            self._forget()
            _, text = self._kept.get(mark, (0.0, ""))
        return text

    def _forget(self) -> None:
        now = self._seconds()
        while self._kept:
            until, _ = next(iter(self._kept.values()))
            if until > now and len(self._kept) < MOST:
                return
            self._kept.popitem(last=False)
