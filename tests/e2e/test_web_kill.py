"""A studio that is killed while balls are posted loses none it has answered for."""

import random
import sqlite3
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest

from bays import a_bay
from loftwright.domain.acts import Entry, HandedOver, ShotArrived
from loftwright.services.acting import act
from loftwright.services.opening import open_studio
from loftwright.store.engine import FILE
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
ROUNDS = 30
SHOTS = 200


def a_fitting(folder: Path) -> str:
    """Open a fitting in a store on disk and return its id."""
    studio = open_studio(folder)
    bay = a_bay(studio=studio)
    act(studio, bay.fitting, [HandedOver(club="Ash")])
    studio.store.close()
    return bay.fitting


def ball(number: int) -> dict[str, object]:
    return {"key": f"k{number}", "ball_speed_mph": 100.0 + 0.25 * number, "spin_rpm": 2500}


class Sender(threading.Thread):
    """Posts balls one after another until the studio is gone, and notes which were answered."""

    def __init__(self, address: str, numbers: list[int], answered: set[int]) -> None:
        super().__init__()
        self._address, self._numbers, self._answered = address, numbers, answered

    def run(self) -> None:
        with httpx.Client(timeout=5.0) as device:
            for number in self._numbers:
                try:
                    answer = device.post(self._address, json=ball(number))
                except httpx.TransportError:
                    return
                assert answer.status_code == 200, answer.text
                self._answered.add(number)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[ServerProcess]:
    """Return a studio's server that does not outlive its test."""
    process = ServerProcess(SERVE, free_port(), tmp_path)
    yield process
    process.kill()


def test_every_ball_that_was_answered_for_is_there_once_after_thirty_kills(
    server: ServerProcess, tmp_path: Path, say: Callable[[str], None]
) -> None:
    chance = random.Random(20261125)
    fitting = a_fitting(tmp_path)
    posts = f"{server.address}/api/fittings/{fitting}/shots"
    answered: set[int] = set()
    starts = []
    for kill in range(ROUNDS):
        starts.append(server.start())
        missing = [number for number in range(SHOTS) if number not in answered]
        share = -(-len(missing) // (ROUNDS - kill))
        senders = [Sender(posts, missing[side : 2 * share : 2], answered) for side in (0, 1)]
        for sender in senders:
            sender.start()
        time.sleep(chance.uniform(0.0, 0.25))
        server.kill()
        for sender in senders:
            sender.join()
    server.start()
    device = httpx.Client(timeout=10.0)
    kept = {one.key for one in _record(tmp_path, fitting) if one.key.startswith("k")}
    assert {f"k{number}" for number in answered} <= kept
    for number in range(SHOTS):
        assert device.post(posts, json=ball(number)).status_code == 200
    assert device.get(f"{server.address}/fittings/{fitting}/bay").status_code == 200
    device.close()
    server.stop()
    record = _record(tmp_path, fitting)
    shots = [one for one in record if isinstance(one.act, ShotArrived)]
    assert sorted(one.key for one in shots) == sorted(f"k{number}" for number in range(SHOTS))
    for one in shots:
        assert isinstance(one.act, ShotArrived)
        speed = 100.0 + 0.25 * int(one.key[1:])
        assert one.act.numbers.ball_speed == speed * 0.44704
    assert [one.sequence for one in record] == list(range(1, len(record) + 1))
    door = sqlite3.connect(tmp_path / FILE)
    assert door.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    door.close()
    say(
        f"studio killed {ROUNDS} times during {SHOTS} posted balls: {len(answered)} answered "
        f"before the last kill, none lost, none doubled; median start {sorted(starts)[15]:.1f} s"
    )


def _record(folder: Path, fitting: str) -> tuple[Entry, ...]:
    studio = open_studio(folder)
    record = studio.store.record(fitting)
    studio.store.close()
    return record
