"""What the studio says of itself: ok, degraded with the reason, or failing."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from threading import Event
from time import monotonic

import pytest

from fakes import MemoryStore
from loftwright.errors import StoreError
from loftwright.services import health
from loftwright.services.backup_state import note_trouble
from loftwright.services.health import Pulse, Status, health_record, newest_backup
from loftwright.services.program_log import ProgramLog, log_file
from loftwright.services.studio import Studio
from loftwright.services.workers import Worker
from studios import NOON, Clock, studio_in_memory

HOUR = 3600.0


@dataclass(slots=True)
class Seconds:
    """A clock that is never set, moved by hand."""

    at: float = 0.0

    def __call__(self) -> float:
        return self.at


@pytest.fixture
def seconds() -> Seconds:
    return Seconds()


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory(Clock())


@pytest.fixture
def pulse(studio: Studio, seconds: Seconds, monkeypatch: pytest.MonkeyPatch) -> Pulse:
    monkeypatch.setattr(health, "room_in", lambda _: 10**10)
    return Pulse(studio, seconds=seconds)


def a_backup(studio: Studio, name: str) -> None:
    folder = studio.folder / "backups"
    folder.mkdir(exist_ok=True)
    (folder / name).touch()


def test_a_studio_just_opened_is_well(pulse: Pulse) -> None:
    found = pulse.look()
    assert (found.status, found.troubles) == (Status.OK, ())
    assert found.at == NOON
    assert (found.keeps, found.database) == (True, "memory")
    assert health_record(found)["schema"] == found.schema


def test_a_store_that_refuses_is_failing(pulse: Pulse, monkeypatch: pytest.MonkeyPatch) -> None:
    def gone(_: MemoryStore) -> str:
        raise StoreError("gone")

    monkeypatch.setattr(MemoryStore, "probe", gone)
    found = pulse.look()
    assert (found.status, found.keeps) == (Status.FAILING, False)
    assert found.troubles == ("the store cannot be read or written",)
    assert health_record(found)["schema"] is None


@pytest.mark.parametrize(
    ("room", "status", "told"),
    [
        (health.LITTLE_ROOM, Status.OK, ()),
        (health.LITTLE_ROOM - 1, Status.DEGRADED, ("499 MB are left on the disk",)),
        (health.NO_ROOM - 1, Status.FAILING, ("4 MB are left on the disk",)),
        (0, Status.FAILING, ("0 MB are left on the disk",)),
        (None, Status.DEGRADED, ("the disk does not say how much room is left",)),
    ],
)
def test_little_room_is_told_before_it_is_none(
    studio: Studio,
    monkeypatch: pytest.MonkeyPatch,
    room: int | None,
    status: Status,
    told: tuple[str, ...],
) -> None:
    monkeypatch.setattr(health, "room_in", lambda _: room)
    found = Pulse(studio).look()
    assert (found.status, found.troubles) == (status, told)


def test_the_newest_backup_is_known_by_its_name(studio: Studio) -> None:
    assert newest_backup(studio.folder, NOON) is None
    for name in (
        *("loftwright-20261124-030000.tar.gz", "loftwright-20261123-030000.tar.gz"),
        *("loftwright-20261131-030000.tar.gz", "loftwright-20261125-0300.tar.gz.part"),
    ):
        a_backup(studio, name)
    assert newest_backup(studio.folder, NOON) == NOON - timedelta(hours=33)
    a_backup(studio, "loftwright-20261124-040000-before-0008.tar.gz")
    assert newest_backup(studio.folder, NOON) == NOON - timedelta(hours=32)


def test_a_backup_that_a_wrong_clock_named_hides_no_old_one(
    studio: Studio, pulse: Pulse, seconds: Seconds
) -> None:
    a_backup(studio, "loftwright-20361124-030000.tar.gz")
    a_backup(studio, "loftwright-20261121-030000.tar.gz")
    seconds.at = HOUR
    assert pulse.look().troubles == ("the newest backup is 4 days old",)


def test_a_daily_backup_that_fails_is_told_without_what_it_says(
    studio: Studio, pulse: Pulse
) -> None:
    (studio.folder / "backups").mkdir()
    note_trouble(studio.folder, NOON - timedelta(days=1), "Zephyrine's disk is full")
    found = pulse.look()
    assert found.status is Status.DEGRADED
    assert found.troubles == ("the daily backup fails since 2026-11-24",)


def test_a_store_that_hangs_is_told_in_time_and_asked_once_until_it_answers(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    seconds, free, asked = Seconds(), Event(), []

    def hangs(_: MemoryStore) -> str:
        asked.append(1)
        free.wait(20.0)
        return "0008"

    monkeypatch.setattr(health, "room_in", lambda _: 10**10)
    monkeypatch.setattr(MemoryStore, "probe", hangs)
    pulse = Pulse(studio, seconds=seconds, patience=0.05)
    for _ in range(3):
        began = monotonic()
        found = pulse.look()
        assert monotonic() - began < 5.0
        assert (found.status, found.keeps) == (Status.FAILING, False)
        assert found.troubles == ("the store does not answer",)
        seconds.at += 100 * HOUR
    assert len(asked) == 1
    free.set()
    for _ in range(100):
        seconds.at += 2.0
        if pulse.look().keeps:
            break
    assert pulse.look().troubles == ("no backup was made yet",)


def test_whoever_waits_behind_a_look_that_took_long_does_not_look_again(
    pulse: Pulse, seconds: Seconds, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    def slow(_: MemoryStore) -> str:
        asked.append(1)
        seconds.at += 5.0
        return "0008"

    monkeypatch.setattr(MemoryStore, "probe", slow)
    pulse.look()
    pulse.look()
    assert len(asked) == 1


@pytest.mark.parametrize(
    ("backup", "hours", "told"),
    [
        ("", 0.5, ()),
        ("", 47.0, ()),
        ("", 48.0, ("no backup was made yet",)),
        ("loftwright-20261124-030000.tar.gz", 100.0, ()),
        ("loftwright-20261122-030000.tar.gz", 0.5, ()),
        ("loftwright-20261122-030000.tar.gz", 1.0, ("the newest backup is 3 days old",)),
    ],
)
def test_an_old_backup_is_told_once_the_studio_had_time_for_a_new_one(
    studio: Studio,
    pulse: Pulse,
    seconds: Seconds,
    backup: str,
    hours: float,
    told: tuple[str, ...],
) -> None:
    if backup:
        a_backup(studio, backup)
    seconds.at = hours * HOUR
    found = pulse.look()
    assert found.troubles == told
    assert found.status is (Status.DEGRADED if told else Status.OK)


def a_worker(run: Callable[[], None], stop: Event, clock: Clock) -> Worker:
    return Worker("predictor", run, stop=stop, clock=clock, wait=0.001)


def test_a_thread_that_failed_is_told_for_ten_minutes_and_one_that_ended_for_ever(
    studio: Studio, pulse: Pulse, seconds: Seconds
) -> None:
    clock, stop, again, failed = Clock(), Event(), Event(), Event()
    studio.clock = clock

    def run() -> None:
        if not failed.is_set():
            failed.set()
            raise RuntimeError
        again.set()
        stop.wait()

    worker = a_worker(run, stop, clock)
    worker.start()
    assert again.wait(5.0)
    pulse.workers = (worker,)
    assert pulse.look().troubles == ("the thread predictor failed and runs again",)
    clock.forward(11.0)
    seconds.at += 3.0
    assert pulse.look().troubles == ()
    stop.set()
    worker.join()
    seconds.at += 3.0
    found = pulse.look()
    assert found.troubles == ("the thread predictor has ended",)
    assert found.status is Status.DEGRADED


def test_who_asks_often_gets_the_last_answer(
    pulse: Pulse, seconds: Seconds, monkeypatch: pytest.MonkeyPatch
) -> None:
    probes: list[int] = []

    def probe(_: MemoryStore) -> str:
        probes.append(1)
        return "0007"

    monkeypatch.setattr(MemoryStore, "probe", probe)
    for _ in range(50):
        pulse.look()
    assert len(probes) == 1
    seconds.at += 2.0
    pulse.look()
    assert len(probes) == 2


def test_lines_that_were_lost_are_told(studio: Studio, tmp_path: Path) -> None:
    made = ProgramLog(log_file(tmp_path))
    made.lost = 3
    found = Pulse(studio, made).look()
    assert "lines of the log cannot be written" in found.troubles
    assert found.lost_lines == 3
