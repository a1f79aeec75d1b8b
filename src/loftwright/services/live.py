"""Who watches what, and how a change made in any thread reaches them."""

import asyncio
from collections.abc import AsyncIterator, Callable
from threading import Lock
from types import TracebackType
from typing import Final, Self

from loftwright.store.topics import ERASED

MAIN_SCREEN: Final = "main screen"
"""Owns what this machine watches, so that its lock ends it; ids of devices are UUIDs."""


class Watch:
    """One watcher of one topic: holds the newest revision it has not taken yet, never more.

    Parameters
    ----------
    hub : Hub
    topic : str
    owner : str
        Whom it serves, so that all that serves one device can be ended.
    """

    def __init__(self, hub: "Hub", topic: str, owner: str) -> None:
        self.topic = topic
        self.owner = owner
        self._hub = hub
        self._loop = asyncio.get_running_loop()
        self._woken = asyncio.Event()
        self._newest: int | None = None
        self._ended = False

    @property
    def ended(self) -> bool:
        """Whether nothing will come any more."""
        return self._ended

    async def next(self, timeout: float | None = None) -> int | None:
        """Return the newest revision once there is one.

        Parameters
        ----------
        timeout : float, optional
            How long to wait [s]; for ever without it.

        Returns
        -------
        int, optional
            Nothing if the time is over or the watch has ended.
        """
        try:
            await asyncio.wait_for(self._woken.wait(), timeout)
        except TimeoutError:
            return None
        self._woken.clear()
        newest, self._newest = self._newest, None
        return newest

    async def __aiter__(self) -> AsyncIterator[int]:
        while not self._ended:
            revision = await self.next()
            if revision is not None:
                yield revision

    def offer(self, revision: int) -> None:
        """Take a revision in, from any thread; a newer one replaces it until it is taken."""
        self._call(self._take, revision)

    def end(self) -> None:
        """End the watch, from any thread."""
        self._call(self._stop)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._hub.forget(self)

    def _call(self, what: Callable[..., None], *arguments: int) -> None:
        try:
            self._loop.call_soon_threadsafe(what, *arguments)
        except RuntimeError:
            # The loop is closed: nobody is left who could take it.
            self._hub.forget(self)

    def _take(self, revision: int) -> None:
        self._newest = revision if self._newest is None else max(revision, self._newest)
        self._woken.set()

    def _stop(self) -> None:
        self._ended = True
        self._woken.set()


class Hub:
    """Tells everybody who watches a topic that there is a newer revision of it."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._watches: set[Watch] = set()
        self._listeners: list[Callable[[str], None]] = []
        self._closed = False

    @property
    def closed(self) -> bool:
        """Whether the studio is closing, so that nobody should begin to watch."""
        return self._closed

    def subscribe(self, topic: str, *, owner: str = "") -> Watch:
        """Return a watch of a topic, to be used as a context and iterated in an event loop.

        Parameters
        ----------
        topic : str
        owner : str
            The paired device that watches.
        """
        watch = Watch(self, topic, owner)
        with self._lock:
            self._watches.add(watch)
            closed = self._closed
        if closed:
            watch.end()
        return watch

    def heard(self, topic: str, revision: int) -> None:
        """Tell watchers what another process wrote; an empty topic wakes all of them.

        Empty where some was missed: that may have been an erase.
        """
        if topic:
            self.publish(topic, revision)
            return
        with self._lock:
            watching = list(self._watches)
        for watch in watching:
            watch.offer(revision)
        for told in self._listeners:
            told(ERASED)

    def publish(self, topic: str, revision: int) -> None:
        """Tell a topic's watchers, from any thread, that it stands at a newer revision.

        Parameters
        ----------
        topic : str
        revision : int
            Grows with every change that was committed.
        """
        with self._lock:
            watching = [watch for watch in self._watches if watch.topic == topic]
        for watch in watching:
            watch.offer(revision)
        for told in self._listeners:
            told(topic)

    def listen(self, told: Callable[[str], None]) -> None:
        """Have something told every topic after its watchers, in the thread that publishes.

        Parameters
        ----------
        told : callable
            Takes the topic; it must return at once.
        """
        self._listeners.append(told)

    def end(self, owner: str) -> None:
        """End every watch of one owner, whose key was withdrawn."""
        with self._lock:
            theirs = [watch for watch in self._watches if watch.owner == owner]
        for watch in theirs:
            watch.end()

    def close(self) -> None:
        """End every watch; later ones end at once."""
        with self._lock:
            self._closed = True
            watching = list(self._watches)
        for watch in watching:
            watch.end()

    def forget(self, watch: Watch) -> None:
        """Tell a watch nothing any more."""
        with self._lock:
            self._watches.discard(watch)

    @property
    def streams(self) -> int:
        """How many watch anything."""
        with self._lock:
            return len(self._watches)

    def watching(self, topic: str) -> int:
        """Return how many watch a topic."""
        with self._lock:
            return sum(watch.topic == topic for watch in self._watches)
