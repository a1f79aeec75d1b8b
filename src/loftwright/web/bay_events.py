"""Events of a bay: what a fitting, its partner and the bay itself change, and the minutes."""

import asyncio
from collections.abc import AsyncIterator, Callable

from fastapi import Request
from fastapi.responses import StreamingResponse
from starlette.concurrency import run_in_threadpool

from loftwright.services.live import Hub, Watch
from loftwright.services.studio import Studio
from loftwright.web.live import HEARTBEAT, RETRY, LiveState, changed, event

Draw = Callable[[], LiveState]


async def bay_events(request: Request, topic: str, draw: Draw) -> StreamingResponse:
    """Return the events of a bay's page.

    Parameters
    ----------
    request : Request
    topic : str
        What is published when the page should be drawn again.
    draw : callable
        Returns the page as the store has it; called in a worker thread.

    Notes
    -----
    A page is drawn again at every word of its topic, also one that does not change the
    revision, and at every heartbeat, for minutes pass without a ball.
    """
    studio: Studio = request.app.state.studio
    device = getattr(request.state, "device", None)
    watch = studio.hub.subscribe(topic, owner=device.id if device is not None else "")
    try:
        first = await run_in_threadpool(draw)
    except BaseException:
        studio.hub.forget(watch)
        raise
    return StreamingResponse(
        _events(studio.hub, watch, first, draw),
        media_type="text/event-stream",
        headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
    )


async def _events(hub: Hub, watch: Watch, first: LiveState, draw: Draw) -> AsyncIterator[str]:
    try:
        yield f"retry: {RETRY}\n\n"
        yield event("state", first)
        shown = first
        while not watch.ended:
            await watch.next(HEARTBEAT)
            if watch.ended:
                return
            now = await run_in_threadpool(draw)
            difference = changed(shown, now)
            if difference.parts or now.revision != shown.revision:
                yield event("change", difference)
                shown = now
            else:
                yield ": still here\n\n"
            await asyncio.sleep(0)
    finally:
        hub.forget(watch)
