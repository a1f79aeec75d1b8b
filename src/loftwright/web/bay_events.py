"""Events of a bay: what a fitting, its partner and the bay itself change, and the minutes."""

import asyncio
from collections.abc import AsyncIterator, Callable, Sequence
from dataclasses import replace
from typing import Final

from fastapi import Request
from fastapi.responses import StreamingResponse
from starlette.concurrency import run_in_threadpool

from loftwright.services.evidence_runner import EvidenceRunner
from loftwright.services.live import Hub, Watch
from loftwright.services.studio import Studio
from loftwright.web.live import HEARTBEAT, RETRY, LiveState, changed, event, watcher
from loftwright.web.state import studio_of

Draw = Callable[[], LiveState]

_PAINTING: Final = 0.03
"""Seconds left to a browser on the same machine to paint what came first."""


def runner_of(request: Request) -> EvidenceRunner:
    """Return the one runner of the studio that holds what the address names."""
    state, studio = request.app.state, studio_of(request)
    if not hasattr(state, "runners"):
        state.runners = {}
    runners: dict[Studio, EvidenceRunner] = state.runners
    return runners.setdefault(studio, EvidenceRunner(studio, state.desk))


async def bay_events(
    request: Request, topics: Sequence[str], *draws: Draw, over: Callable[[], bool] = lambda: False
) -> StreamingResponse:
    """Return the events of a bay's page.

    Parameters
    ----------
    request : Request
    topics : sequence of str
        Whatever is published under one of them lets the page be drawn again.
    draws : callable
        Each returns some parts of the page as the store has it; called in a worker thread. Those
        of the first are sent before the next ones are drawn.
    over : callable, optional
        Returns whether whoever follows may see nothing more; called before anything is drawn
        again, in a worker thread.

    Notes
    -----
    A page is drawn again at every word of its topics, also one that does not change the
    revision, and at every heartbeat, for minutes pass without a ball.
    """
    studio = studio_of(request)
    owner = watcher(request)
    watches = tuple(studio.hub.subscribe(topic, owner=owner) for topic in topics)
    try:
        first = [await run_in_threadpool(draw) for draw in draws]
    except BaseException:
        _forget(studio.hub, watches)
        raise
    return StreamingResponse(
        _events(studio.hub, watches, first, draws, over),
        media_type="text/event-stream",
        headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
    )


async def _events(
    hub: Hub,
    watches: Sequence[Watch],
    shown: list[LiveState],
    draws: Sequence[Draw],
    over: Callable[[], bool],
) -> AsyncIterator[str]:
    try:
        yield f"retry: {RETRY}\n\n"
        everything = {name: html for state in shown for name, html in state.parts.items()}
        yield event("state", LiveState(revision=shown[0].revision, parts=everything))
        while True:
            await _word(watches)
            if any(watch.ended for watch in watches) or await run_in_threadpool(over):
                return
            sent = False
            for place, draw in enumerate(draws):
                if place:
                    await asyncio.sleep(_PAINTING)
                now = await run_in_threadpool(draw)
                difference = changed(shown[place], now)
                newer = place == 0 and now.revision != shown[0].revision
                shown[place] = now
                if difference.parts or newer:
                    # A page must not take itself for newer than what came first.
                    yield event("change", replace(difference, revision=shown[0].revision))
                    sent = True
            if not sent:
                yield ": still here\n\n"
    finally:
        _forget(hub, watches)


async def _word(watches: Sequence[Watch]) -> None:
    """Wait for a word on one of the topics, or for the next sign of life."""
    waiting = [asyncio.ensure_future(watch.next(HEARTBEAT)) for watch in watches]
    try:
        await asyncio.wait(waiting, return_when=asyncio.FIRST_COMPLETED)
    finally:
        for one in waiting:
            one.cancel()
        await asyncio.gather(*waiting, return_exceptions=True)


def _forget(hub: Hub, watches: Sequence[Watch]) -> None:
    for watch in watches:
        hub.forget(watch)
