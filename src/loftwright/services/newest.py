"""The newest of some values by name; older ones are let go, so that memory does not grow."""

from collections import OrderedDict
from threading import Lock
from typing import Generic, TypeVar

Value = TypeVar("Value")


class Newest(Generic[Value]):
    """Keeps the values that were used last; made to be used from any thread.

    Parameters
    ----------
    most : int
        How many are kept.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[str, Value] = OrderedDict()
        self._lock = Lock()

    def get(self, name: str) -> Value | None:
        """Return a value; None if it was never kept or let go."""
        with self._lock:
            if name in self._kept:
                self._kept.move_to_end(name)
            return self._kept.get(name)

    def put(self, name: str, value: Value) -> None:
        """Keep a value and let go of what was not used for longest."""
        with self._lock:
            self._kept[name] = value
            self._kept.move_to_end(name)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)

    def or_put(self, name: str, value: Value) -> Value:
        """Return the value that is kept, or keep this one where none is."""
        with self._lock:
            found = self._kept.setdefault(name, value)
            self._kept.move_to_end(name)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
            return found

    def clear(self) -> None:
        """Let go of everything."""
        with self._lock:
            self._kept.clear()

    def __len__(self) -> int:
        return len(self._kept)
