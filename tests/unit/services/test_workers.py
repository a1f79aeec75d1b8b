"""A thread that fails is told and begun again, a little later each time."""

import logging
from collections.abc import Callable
from threading import Event

import pytest

from loftwright.services.workers import LONGEST_WAIT, Worker
from studios import NOON, Clock


def a_worker(run: Callable[[], None], stop: Event, **more: object) -> Worker:
    return Worker("watches", run, stop=stop, clock=Clock(), wait=0.001, **more)  # type: ignore[arg-type]


def test_it_is_begun_again_after_a_failure(caplog: pytest.LogCaptureFixture) -> None:
    stop, third = Event(), Event()
    tries: list[int] = []

    def run() -> None:
        tries.append(1)
        if len(tries) < 3:
            raise RuntimeError("nobody foresaw this")
        third.set()
        stop.wait()

    worker = a_worker(run, stop)
    worker.start()
    assert third.wait(5.0)
    state = worker.state
    assert (state.alive, state.waiting, state.failures, state.failed) == (True, False, 2, NOON)
    assert [one.levelno for one in caplog.records] == [logging.ERROR] * 2
    stop.set()
    worker.join()
    assert not worker.state.alive


def test_what_was_to_be_taken_up_first_does_not_hold_up_the_rest() -> None:
    stop, ran = Event(), Event()

    def broken() -> None:
        raise RuntimeError("a record that cannot be read")

    def run() -> None:
        ran.set()
        stop.wait()

    worker = a_worker(run, stop, first=broken)
    worker.start()
    assert ran.wait(5.0)
    assert worker.state.failures == 1
    assert not worker.state.waiting
    stop.set()
    worker.join()


def test_one_that_waits_to_begin_again_ends_at_once_when_told() -> None:
    stop, failed = Event(), Event()

    def run() -> None:
        failed.set()
        raise RuntimeError

    worker = Worker("keeper", run, stop=stop, clock=Clock(), wait=LONGEST_WAIT)
    worker.start()
    assert failed.wait(5.0)
    stop.set()
    worker.join()
    assert worker.state.failures == 1


def test_nothing_is_done_when_the_studio_ends_before() -> None:
    stop = Event()
    stop.set()
    worker = a_worker(lambda: pytest.fail("it ran"), stop, after=60.0)
    worker.start()
    worker.join()
    assert worker.state.failures == 0
