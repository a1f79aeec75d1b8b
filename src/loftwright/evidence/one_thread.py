"""One linear algebra thread around every update, since more of them change last digits."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from threading import Lock
from typing import Any

from threadpoolctl import ThreadpoolController


@cache
def _controller() -> ThreadpoolController:
    """Find the loaded libraries once: looking takes as long as a fit."""
    return ThreadpoolController()


class _Inside:
    """How many updates are under way; the limit holds for the whole process."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._count = 0
        self._limit: Any = None

    def enter(self) -> None:
        with self._lock:
            if self._count == 0:
                self._limit = _controller().limit(limits=1, user_api="blas")
            self._count += 1

    def leave(self) -> None:
        with self._lock:
            self._count -= 1
            if self._count == 0:
                self._limit.restore_original_limits()


_inside = _Inside()


@contextmanager
def one_thread() -> Iterator[None]:
    """Run linear algebra on one thread, until the last of several updates at once is done."""
    _inside.enter()
    try:
        yield
    finally:
        _inside.leave()
