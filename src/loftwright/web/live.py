"""Live pages: the whole state when a page connects, then only the parts that changed."""

import json
from collections.abc import AsyncIterator, Callable, Mapping
from dataclasses import dataclass
from typing import Final

from fastapi import Request
from fastapi.responses import StreamingResponse
from starlette.concurrency import run_in_threadpool

from loftwright.services.live import MAIN_SCREEN, Hub, Watch
from loftwright.web.state import studio_of

HEARTBEAT: Final = 10.0
"""Seconds between signs of life while nothing changes."""

RETRY: Final = 250
"""Milliseconds after which a browser that lost the link tries again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LiveState:
    """A live page as it stands.

    Attributes
    ----------
    revision : int
        Grows with every change that was committed.
    parts : mapping of str to str
        HTML of each part by its name; the page holds it in `<… id="part-NAME">`.
    """

    revision: int
    parts: Mapping[str, str]


Draw = Callable[[], LiveState]


async def live_events(request: Request, topic: str, draw: Draw) -> StreamingResponse:
    """Return the events of a live page.

    Parameters
    ----------
    request : Request
    topic : str
        What the studio's hub publishes when the page should be drawn again.
    draw : callable
        Returns the page as the store has it; called in a worker thread after every change.

    Notes
    -----
    The watch begins before the first drawing, so no change can fall between them. Changes that
    come while a page is being drawn are drawn together: only the newest state is sent.
    """
    studio = studio_of(request)
    watch = studio.hub.subscribe(topic, owner=watcher(request))
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


def watcher(request: Request) -> str:
    """Return whom a page's events serve: a device, this machine, or a golfer's screen on it."""
    device = getattr(request.state, "device", None)
    if device is not None:
        return str(device.id)
    return "" if request.url.path.startswith("/screen/") else MAIN_SCREEN


def event(name: str, state: LiveState) -> str:
    """Return one event as the stream bears it."""
    data = json.dumps({"revision": state.revision, "parts": dict(state.parts)}, ensure_ascii=False)
    return f"event: {name}\nid: {state.revision}\ndata: {data}\n\n"


def changed(before: LiveState, after: LiveState) -> LiveState:
    """Return the parts of a state that differ from those before it."""
    parts = {name: html for name, html in after.parts.items() if before.parts.get(name) != html}
    return LiveState(revision=after.revision, parts=parts)


async def _events(hub: Hub, watch: Watch, first: LiveState, draw: Draw) -> AsyncIterator[str]:
    try:
        yield f"retry: {RETRY}\n\n"
        yield event("state", first)
        shown = first
        while not watch.ended:
            revision = await watch.next(HEARTBEAT)
            if watch.ended:
                return
            if revision is None:
                yield ": still here\n\n"
            elif revision > shown.revision:
                now = await run_in_threadpool(draw)
                yield event("change", changed(shown, now))
                shown = now
    finally:
        hub.forget(watch)
