"""Who opened a golfer's record: written beside the pages, never in their way."""

import logging
import re
from collections import OrderedDict, deque
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from threading import Lock
from typing import Final

from loftwright.domain.opening import Opening
from loftwright.errors import NotFoundError, StoreError
from loftwright.services.leaving import bears_name
from loftwright.services.one_golfer import first_record
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.store.door_interface import PairedDevice

WHILE: Final = timedelta(minutes=10)
"""In which one device that opens one golfer's record again is not written again."""
KEPT: Final = timedelta(days=730)
"""How long it is kept who opened a record."""
SHOWN: Final = 200
_BEFORE: Final = re.compile(r"^(?:/api)?/(?:fittings|golfers|follow-ups|build)/[^/]+/?")
_WAITING: Final = 1000
_KNOWN: Final = 4096
_DAY: Final = timedelta(days=1)

log: Final = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """Who opened a record, as a page shows it."""

    at: datetime
    device: str
    by: str
    page: str


class Openings:
    """Writes down who opened which record, in a thread of its own.

    Parameters
    ----------
    studio : Studio

    Notes
    -----
    What the store refuses for a while is written with the next; the page never waits for it.
    """

    def __init__(self, studio: Studio) -> None:
        self._studio = studio
        self._lock = Lock()
        self._noted: OrderedDict[tuple[str, str], datetime] = OrderedDict()
        self._waiting: deque[Opening] = deque(maxlen=_WAITING)
        self._thread: ThreadPoolExecutor | None = None
        self._forgot: datetime | None = None

    def note(
        self, page: str, *, golfer: str = "", fitting: str = "", device: PairedDevice | None = None
    ) -> None:
        """Take in that a page of a golfer, or of a fitting, was shown; returns at once.

        Parameters
        ----------
        page : str
            Its address.
        golfer, fitting : str
            One of the two.
        device : PairedDevice, optional
            This machine without it.
        """
        whom, where = golfer or fitting, "" if device is None else device.id
        if is_training(fitting) or not whom:
            return
        now = self._studio.now()
        with self._lock:
            before = self._noted.get((whom, where))
            if before is not None and abs(now - before) < WHILE:
                return
            self._noted[whom, where] = now
            self._noted.move_to_end((whom, where))
            while len(self._noted) > _KNOWN:
                self._noted.popitem(last=False)
            if self._thread is None:
                self._thread = ThreadPoolExecutor(1, thread_name_prefix="openings")
            self._thread.submit(self._take, page, golfer, fitting, device, now)

    def settle(self) -> None:
        """Return once everything that was noted is written, or waits for the store."""
        with self._lock:
            thread = self._thread
        if thread is not None:
            thread.submit(lambda: None).result()

    def close(self) -> None:
        """Write what is left, and end."""
        with self._lock:
            thread, self._thread = self._thread, None
        if thread is not None:
            thread.submit(self._write).result()
            thread.shutdown()
        if self._waiting:
            log.warning("%d openings of records could not be written", len(self._waiting))

    def _take(
        self, page: str, golfer: str, fitting: str, device: PairedDevice | None, at: datetime
    ) -> None:
        try:
            whose = golfer or self._studio.store.fitting(fitting).value.golfer
            by = "" if device is None else named_in(self._studio, device.name, fitting)
        except NotFoundError:
            return
        except StoreError:
            log.warning("an opening of a record could not be written: the store does not answer")
            return
        if len(self._waiting) == _WAITING:
            log.warning("an opening of a record is lost: the store takes none for too long")
        self._waiting.append(
            Opening(
                golfer=whose,
                fitting=fitting or None,
                device="" if device is None else device.id,
                by=by,
                page=page,
                at=at,
            )
        )
        self._write()

    def _write(self) -> None:
        store = self._studio.store
        try:
            while self._waiting:
                # Whoever is erased meanwhile leaves nothing to write it to.
                with suppress(NotFoundError):
                    store.keep_opening(self._waiting[0], within=WHILE)
                self._waiting.popleft()
            now = self._studio.now()
            if self._forgot is None or now - self._forgot >= _DAY:
                store.forget_openings(now - KEPT)
                self._forgot = now
        except StoreError:
            log.warning("openings of records wait for the store")


def opened_by(studio: Studio, golfer: str, *, most: int = SHOWN) -> tuple[Opened, ...]:
    """Return who opened any record of a golfer, the last one first.

    Parameters
    ----------
    studio : Studio
    golfer : str
    most : int
        How many of the last ones.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    names = {one.id: one.name for one in studio.store.paired()}
    return tuple(
        Opened(
            at=one.at.astimezone(studio.zone),
            device=names.get(one.device, one.device) if one.device else "this machine",
            by=one.by,
            page=one.page,
        )
        for one in studio.store.openings(first_record(studio, golfer), most=most)
    )


def page_words(address: str) -> str:
    """Return which page an address is, without the ids in it."""
    left = _BEFORE.sub("", address).strip("/").partition("/")[0]
    words = left.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:] if words else "Record"


def named_in(studio: Studio, device: str, fitting: str) -> str:
    """Return the fitter whose name a device's name bears; empty if it bears none that is known."""
    known = list(read_settings(studio).settings.mark_errors)
    if fitting:
        known.insert(0, studio.store.fitting(fitting).value.fitter)
    return next((name for name in known if name.strip() and bears_name(device, name)), "")
