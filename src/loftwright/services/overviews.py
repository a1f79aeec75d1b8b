"""Which fittings may be open: told from how records end, not from replaying all of them."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from threading import Lock
from typing import Final
from weakref import WeakKeyDictionary

from loftwright.services.studio import Studio
from loftwright.store.overview import Ending, Outline

RECENT: Final = timedelta(days=2)
"""A visit of today was written to since, in whatever zone the shop is."""


class _Endings:
    """How records ended when they were looked at last; only those that grew are asked for."""

    def __init__(self) -> None:
        self._known: dict[str, Ending] = {}
        self._seen: Sequence[Outline] = ()
        self._open: tuple[datetime, tuple[Outline, ...]] | None = None
        self._lock = Lock()

    def of(self, studio: Studio, outlines: Sequence[Outline]) -> dict[str, Ending]:
        """Return how the records of these fittings end, by fitting."""
        with self._lock:
            self._look(studio, outlines)
            return self._known

    def unsettled(
        self, studio: Studio, outlines: Sequence[Outline], since: datetime
    ) -> tuple[Outline, ...]:
        """Return the fittings that may be open or were written to since."""
        with self._lock:
            self._look(studio, outlines)
            some: Sequence[Outline] = outlines
            if self._open is not None and self._open[0] <= since:
                some = self._open[1]
            found = tuple(one for one in some if not one.end or self._may(one, since))
            self._open = (since, found)
            return found

    def _look(self, studio: Studio, outlines: Sequence[Outline]) -> None:
        if outlines is self._seen:
            return
        grown = [one.fitting for one in outlines if one.end and not self._knows(one)]
        self._known.update(studio.store.endings(grown) if grown else {})
        self._seen, self._open = outlines, None

    def _may(self, one: Outline, since: datetime) -> bool:
        known = self._known.get(one.fitting)
        return known is None or not known.closing or known.at >= since

    def _knows(self, one: Outline) -> bool:
        known = self._known.get(one.fitting)
        return known is not None and known.end == one.end


_ENDINGS: Final[WeakKeyDictionary[Studio, _Endings]] = WeakKeyDictionary()
_LOCK: Final = Lock()


def unsettled(studio: Studio, since: datetime | None = None) -> tuple[Outline, ...]:
    """Return the fittings that may be open or were written to since, the newest first.

    Parameters
    ----------
    studio : Studio
    since : datetime, optional
        The instant `RECENT` before now without it.

    Notes
    -----
    Every other fitting is closed: the last entry of its record is its closing.
    """
    at = studio.now() - RECENT if since is None else since
    return _endings_of(studio).unsettled(studio, studio.store.outlines(), at)


def may_be_open(studio: Studio) -> tuple[Outline, ...]:
    """Return the fittings that are open or were corrected after closing, the newest first."""
    found = unsettled(studio)
    ends = _endings_of(studio).of(studio, studio.store.outlines())
    return tuple(one for one in found if not ((end := ends.get(one.fitting)) and end.closing))


def closed_ones(studio: Studio) -> Iterator[Outline]:
    """Yield the closed fittings, the newest first; only those corrected since are replayed."""
    outlines = studio.store.outlines()
    ends = _endings_of(studio).of(studio, outlines)
    for one in outlines:
        known = ends.get(one.fitting)
        if known and (known.closing or studio.standing(one.fitting).closed):
            yield one


def _endings_of(studio: Studio) -> _Endings:
    with _LOCK:
        return _ENDINGS.setdefault(studio, _Endings())
