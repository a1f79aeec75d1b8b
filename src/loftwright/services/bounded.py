"""Ask something that may never answer, and wait no longer than is bearable."""

from collections.abc import Callable
from concurrent.futures import Future
from threading import Lock, Thread
from typing import Generic, TypeVar

Answer = TypeVar("Answer")


class Bounded(Generic[Answer]):
    """Asks in a thread of its own; what hangs is not asked again before it has answered.

    Parameters
    ----------
    ask : callable
    patience : float
        Seconds that whoever wants the answer waits for it.
    """

    def __init__(self, ask: Callable[[], Answer], patience: float) -> None:
        self._ask, self._patience = ask, patience
        self._lock = Lock()
        self._asked: Future[Answer] | None = None

    def answer(self) -> Answer:
        """Return an answer that was not there before; an error of the asking is raised.

        Raises
        ------
        TimeoutError
            If there is none in time.
        """
        with self._lock:
            if self._asked is None or self._asked.done():
                self._asked = Future()
                Thread(target=self._run, args=(self._asked,), name="asking", daemon=True).start()
            asked = self._asked
        return asked.result(self._patience)

    def _run(self, asked: "Future[Answer]") -> None:
        try:
            asked.set_result(self._ask())
        except BaseException as error:  # noqa: BLE001 - raised again where it is waited for
            asked.set_exception(error)
