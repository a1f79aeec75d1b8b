"""When closed fittings were here: read from a record once, however often the day is looked at."""

from dataclasses import dataclass
from datetime import date, datetime
from threading import Lock
from typing import Final
from weakref import WeakKeyDictionary

from loftwright.domain.acts import Closed
from loftwright.services.newest import Newest
from loftwright.services.studio import Studio
from loftwright.store.overview import Outline

_MOST: Final = 1000
"""Fittings that are remembered, as of two days of a very busy shop."""
_KNOWN: Final[WeakKeyDictionary[Studio, Newest[tuple[int, "ClosedVisit"]]]] = WeakKeyDictionary()
_LOCK: Final = Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedVisit:
    """The newest visit of a closed fitting.

    Attributes
    ----------
    day : date, optional
        None where it was closed without one.
    begins : datetime, optional
    ends : datetime, optional
        When it was closed.
    """

    day: date | None
    begins: datetime | None
    ends: datetime | None


def closed_visit(studio: Studio, outline: Outline) -> ClosedVisit | None:
    """Return the newest visit of a fitting that is closed; None while it is open."""
    with _LOCK:
        visits = _KNOWN.setdefault(studio, Newest(_MOST))
    known = visits.get(outline.fitting)
    if known is not None and known[0] == outline.end:
        return known[1]
    now = studio.standing(outline.fitting)
    if not now.closed:
        return None
    record = reversed(studio.record(outline.fitting))
    visit = ClosedVisit(
        day=None if now.visit is None else now.visit.day,
        begins=None if now.visit is None else now.visit.opened,
        ends=next((one.at for one in record if isinstance(one.act, Closed)), None),
    )
    visits.put(outline.fitting, (outline.end, visit))
    return visit
