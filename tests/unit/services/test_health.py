"""What the studio says of itself: ok, degraded with the reason, or failing."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from threading import Event

import pytest

from fakes import MemoryStore
from loftwright.errors import StoreError
from loftwright.services import health
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
    assert newest_backup(studio.folder) is None
    for name in (
        *("loftwright-20261124-030000.tar.gz", "loftwright-20261123-030000.tar.gz"),
        *("loftwright-20261131-030000.tar.gz", "loftwright-20261125-0300.tar.gz.part"),
    ):
        a_backup(studio, name)
    assert newest_backup(studio.folder) == NOON - timedelta(hours=33)


@pytest.mark.parametrize(
    ("backup", "hours", "told"),
    [
        ("", 0.5, ()),
        ("", 47.0, ()),
        ("", 48.0, ("no backup was made yet",)),
        ("loftwright-20261124-030000.tar.gz", 100.0, ()),
        ("loftwright-20261122-030000.tar.gz", 0.5, ()),
        ("loftwright-20261122-030000.tar.gz", 1.0, ("the newest backup is older than two days",)),
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
