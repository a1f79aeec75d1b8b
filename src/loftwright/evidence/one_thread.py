"""One linear algebra thread around every update, since more of them change last digits.

The program itself runs on one from its start (`loftwright.cli`); this holds for whoever calls
an update from a process of their own, and gives them their threads back.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from threading import Lock
from typing import Any

from threadpoolctl import ThreadpoolController


@cache
def _controller() -> ThreadpoolController:
    """Find the libraries once.

    That of scipy is another than that of numpy, and is not there to be found before it is loaded.
    """
    import scipy.linalg  # noqa: F401, PLC0415 - scipy is slow to import

    return ThreadpoolController()


def _take_control(controller: ThreadpoolController) -> None:
    """Let this thread set the number of threads; it is the whole process's all the same.

    threadpoolctl lets the first thread alone that ever set it do so, and does nothing for others,
    while the last update to end may be in another thread than the first to begin.
    """
    for library in controller.lib_controllers:
        clear = getattr(library, "clear_controlling_thread", None)
        if clear is not None:
            clear(force=True)


class _Inside:
    """How many updates are under way; the limit holds for the whole process."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._count = 0
        self._first: Any = None

    def enter(self) -> None:
        with self._lock:
            controller = _controller()
            if self._count == 0:
                _take_control(controller)
                self._first = controller.limit(limits=1, user_api="blas")
            self._count += 1

    def leave(self) -> None:
        with self._lock:
            self._count -= 1
            if self._count == 0:
                controller = _controller()
                _take_control(controller)
                self._first.restore_original_limits()
                _take_control(controller)


_inside = _Inside()


@contextmanager
def one_thread() -> Iterator[None]:
    """Run linear algebra on one thread, until the last of several updates at once is done."""
    _inside.enter()
    try:
        yield
    finally:
        _inside.leave()
