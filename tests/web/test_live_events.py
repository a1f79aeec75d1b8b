"""A live page gets its whole state first, then what changed, and nothing piles up."""

import asyncio
import json
import threading
from collections.abc import Awaitable, Callable
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from fastapi import Request

from fakes import MemoryStore
from loftwright.errors import NotFoundError
from loftwright.services.live import Hub
from loftwright.services.studio import Studio
from loftwright.web import live
from loftwright.web.bay_events import bay_events
from loftwright.web.live import LiveState, changed, event, live_events

TOPIC = "fitting:7"
Asked = Callable[[Hub], Awaitable[None]]


def run(what: Asked) -> None:
    """Run a coroutine with a hub of its own."""

    async def inside() -> None:
        await asyncio.wait_for(what(Hub()), 10.0)

    asyncio.run(inside())


def request_of(hub: Hub, device: object = None) -> Request:
    """Return as much of a request as the events ask for."""
    studio = Studio(store=MemoryStore(), folder=Path(), hub=hub)
    app = SimpleNamespace(state=SimpleNamespace(studio=studio))
    made = Request({"type": "http", "app": app, "path": "/", "headers": []})
    if device is not None:
        made.state.device = device
    return made


def read(text: str) -> tuple[str, dict[str, Any]]:
    """Return the name and the data of an event."""
    lines = dict(line.split(": ", 1) for line in text.strip().splitlines())
    return lines["event"], json.loads(lines["data"])


def test_a_watcher_gets_the_newest_revision_only() -> None:
    async def what(hub: Hub) -> None:
        watch = hub.subscribe(TOPIC)
        for revision in (1, 2, 3):
            hub.publish(TOPIC, revision)
        hub.publish("fitting:8", 99)
        assert await watch.next(1.0) == 3
        assert await watch.next(0.01) is None

    run(what)


def test_a_late_older_revision_does_not_hide_a_newer_one() -> None:
    async def what(hub: Hub) -> None:
        watch = hub.subscribe(TOPIC)
        hub.publish(TOPIC, 5)
        hub.publish(TOPIC, 4)
        assert await watch.next(1.0) == 5

    run(what)


def test_changes_of_any_thread_arrive() -> None:
    async def what(hub: Hub) -> None:
        watch = hub.subscribe(TOPIC)
        threads = [threading.Thread(target=hub.publish, args=(TOPIC, n)) for n in range(1, 9)]
        for thread in threads:
            thread.start()
        for thread in threads:
            await asyncio.to_thread(thread.join)
        assert await watch.next(1.0) == 8

    run(what)


def test_watching_ends_with_the_hub_and_later_watches_end_at_once() -> None:
    async def what(hub: Hub) -> None:
        watch = hub.subscribe(TOPIC)
        hub.publish(TOPIC, 1)
        hub.close()
        assert [revision async for revision in watch] in ([1], [])
        assert [revision async for revision in hub.subscribe(TOPIC)] == []
        assert hub.closed

    run(what)


def test_only_the_owner_s_watches_end() -> None:
    async def what(hub: Hub) -> None:
        theirs, others = hub.subscribe(TOPIC, owner="a"), hub.subscribe(TOPIC, owner="b")
        hub.end("a")
        await theirs.next(1.0)
        assert theirs.ended
        assert not others.ended

    run(what)


def test_a_watch_is_forgotten_when_its_block_ends() -> None:
    async def what(hub: Hub) -> None:
        with hub.subscribe(TOPIC):
            assert hub.watching(TOPIC) == 1
        assert hub.watching(TOPIC) == 0

    run(what)


def test_a_watcher_whose_loop_is_gone_is_forgotten() -> None:
    hub = Hub()

    async def watch() -> None:
        hub.subscribe(TOPIC)

    asyncio.run(watch())
    assert hub.watching(TOPIC) == 1
    hub.publish(TOPIC, 1)
    assert hub.watching(TOPIC) == 0


def test_the_whole_state_comes_first_then_the_parts_that_changed() -> None:
    async def what(hub: Hub) -> None:
        state = LiveState(revision=1, parts={"say": "<p>é</p>", "fly": "a\nb"})
        drawn = [state]
        answer = await live_events(request_of(hub), TOPIC, lambda: drawn[-1])
        assert answer.media_type == "text/event-stream"
        stream = answer.body_iterator.__aiter__()
        assert await anext(stream) == "retry: 250\n\n"
        first = str(await anext(stream))
        assert "\nid: 1\n" in first
        assert read(first) == ("state", {"revision": 1, "parts": dict(state.parts)})
        drawn.append(LiveState(revision=4, parts={**state.parts, "fly": "c"}))
        hub.publish(TOPIC, 4)
        assert read(str(await anext(stream))) == ("change", {"revision": 4, "parts": {"fly": "c"}})

    run(what)


def test_three_changes_at_once_are_drawn_once() -> None:
    async def what(hub: Hub) -> None:
        drawings = []

        def draw() -> LiveState:
            drawings.append(1)
            return LiveState(revision=3 if len(drawings) > 1 else 0, parts={})

        answer = await live_events(request_of(hub), TOPIC, draw)
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        await anext(stream)
        for revision in (1, 2, 3):
            hub.publish(TOPIC, revision)
        assert read(str(await anext(stream)))[1]["revision"] == 3
        assert len(drawings) == 2

    run(what)


def test_a_change_that_falls_into_the_first_drawing_is_not_lost() -> None:
    async def what(hub: Hub) -> None:
        drawings = []

        def draw() -> LiveState:
            drawings.append(1)
            if len(drawings) == 1:
                hub.publish(TOPIC, 7)
                return LiveState(revision=6, parts={})
            return LiveState(revision=7, parts={})

        answer = await live_events(request_of(hub), TOPIC, draw)
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        assert read(str(await anext(stream)))[1]["revision"] == 6
        assert read(str(await anext(stream)))[1]["revision"] == 7

    run(what)


def test_signs_of_life_come_while_nothing_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(live, "HEARTBEAT", 0.01)

    async def what(hub: Hub) -> None:
        answer = await live_events(request_of(hub), TOPIC, lambda: LiveState(revision=1, parts={}))
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        await anext(stream)
        assert str(await anext(stream)).startswith(":")

    run(what)


def test_a_fitting_that_is_not_there_has_no_events() -> None:
    async def what(hub: Hub) -> None:
        def draw() -> LiveState:
            raise NotFoundError("there is no fitting 9", place="fitting", mend="Go to Today.")

        with pytest.raises(NotFoundError):
            await live_events(request_of(hub), TOPIC, draw)
        assert hub.watching(TOPIC) == 0

    run(what)


def test_a_withdrawn_device_s_events_end() -> None:
    async def what(hub: Hub) -> None:
        device = SimpleNamespace(id="tablet")
        state = LiveState(revision=1, parts={})
        answer = await live_events(request_of(hub, device), TOPIC, lambda: state)
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        await anext(stream)
        hub.end("tablet")
        with pytest.raises(StopAsyncIteration):
            await anext(stream)
        assert hub.watching(TOPIC) == 0

    run(what)


def test_nothing_is_sent_that_did_not_change() -> None:
    state = LiveState(revision=1, parts={"a": "1", "b": "2"})
    assert changed(state, state).parts == {}
    assert changed(state, replace(state, parts={"a": "1", "b": "3"})).parts == {"b": "3"}


def test_an_event_is_one_block_whatever_a_part_holds() -> None:
    text = event("change", LiveState(revision=2, parts={"a": "x\n\ny\r\nz"}))
    assert text.count("\n\n") == 1
    assert text.endswith("\n\n")
    assert read(text)[1]["parts"]["a"] == "x\n\ny\r\nz"


def test_a_page_that_may_be_seen_no_more_ends_before_it_is_drawn_again() -> None:
    async def what(hub: Hub) -> None:
        over = [False]
        drawn: list[int] = []

        def draw() -> LiveState:
            drawn.append(1)
            return LiveState(revision=len(drawn), parts={"say": f"ball {len(drawn)}"})

        answer = await bay_events(request_of(hub), (TOPIC,), draw, over=lambda: over[0])
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        await anext(stream)
        over[0] = True
        hub.publish(TOPIC, 2)
        with pytest.raises(StopAsyncIteration):
            await anext(stream)
        assert len(drawn) == 1

    run(what)


def test_what_takes_longer_to_find_follows_what_a_fitter_waits_for() -> None:
    async def what(hub: Hub) -> None:
        at = [1]

        def prompt() -> LiveState:
            return LiveState(revision=at[0], parts={"say": f"ball {at[0]}"})

        def doubted() -> LiveState:
            return LiveState(revision=at[0], parts={"doubts": f"doubt {at[0]}"})

        answer = await bay_events(request_of(hub), (TOPIC,), prompt, doubted)
        stream = answer.body_iterator.__aiter__()
        await anext(stream)
        both = {"say": "ball 1", "doubts": "doubt 1"}
        assert read(str(await anext(stream))) == ("state", {"revision": 1, "parts": both})
        at[0] = 2
        hub.publish(TOPIC, 2)
        first = {"revision": 2, "parts": {"say": "ball 2"}}
        assert read(str(await anext(stream))) == ("change", first)
        # A ball that comes between the two does not make the page newer than it looks.
        at[0] = 3
        then = {"revision": 2, "parts": {"doubts": "doubt 3"}}
        assert read(str(await anext(stream))) == ("change", then)

    run(what)
