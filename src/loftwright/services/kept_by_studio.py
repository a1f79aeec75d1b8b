"""What a studio computed last, kept until what it stands on changes."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Final, Generic, TypeVar
from weakref import WeakKeyDictionary, ref

from loftwright.services.studio import Studio
from loftwright.store.topics import ERASED

Kept = TypeVar("Kept")
_MOST: Final = 16


class KeptByStudio(Generic[Kept]):
    """Keeps the newest results of a studio, which are forgotten with it."""

    def __init__(self) -> None:
        self._by_studio: WeakKeyDictionary[Studio, OrderedDict[Hashable, Kept]] = (
            WeakKeyDictionary()
        )
        self._lock = Lock()

    def of(self, studio: Studio, key: Hashable, make: Callable[[], Kept]) -> Kept:
        """Return what is kept under a key, made first where nothing is.

        Parameters
        ----------
        studio : Studio
        key : hashable
            All that the result stands on.
        make : callable
        """
        with self._lock:
            known = self._by_studio.get(studio)
            if known is None:
                known = self._by_studio[studio] = OrderedDict()
                studio.hub.listen(self._dropping(ref(studio)))
            if key not in known:
                known[key] = make()
                while len(known) > _MOST:
                    known.popitem(last=False)
            return known[key]

    def _dropping(self, whose: "ref[Studio]") -> Callable[[str], None]:
        """Return what drops the results of a studio once somebody was erased."""

        def heard(topic: str) -> None:
            studio = whose()
            if topic == ERASED and studio is not None:
                with self._lock:
                    self._by_studio.get(studio, OrderedDict()).clear()

        return heard
