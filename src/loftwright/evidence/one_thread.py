"""One linear algebra thread around every update, since more of them change last digits."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

from threadpoolctl import ThreadpoolController


@cache
def _controller() -> ThreadpoolController:
    """Find the loaded libraries once: looking takes as long as a fit."""
    return ThreadpoolController()


@contextmanager
def one_thread() -> Iterator[None]:
    """Run linear algebra on one thread."""
    with _controller().limit(limits=1, user_api="blas"):
        yield
