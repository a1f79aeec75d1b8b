"""A studio that is killed while somebody marks keeps each answered mark once, whole."""

import random
import time
from collections.abc import Iterator
from pathlib import Path
from threading import Thread

import httpx
import pytest

from bays import a_bay
from loftwright.domain.acts import HandedOver, Marked
from loftwright.domain.fitting import Mark
from loftwright.services.acting import act
from loftwright.services.opening import open_studio
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
ROUNDS = 4
MARKS = 12


@pytest.fixture
def server(tmp_path: Path) -> Iterator[ServerProcess]:
    """Return a studio's server that does not outlive its test."""
    process = ServerProcess(SERVE, free_port(), tmp_path)
    yield process
    process.kill()


def a_fitting(folder: Path) -> str:
    """Open a fitting in a store on disk and return its id."""
    studio = open_studio(folder)
    bay = a_bay(studio=studio)
    act(studio, bay.fitting, [HandedOver(club="Ash")])
    studio.store.close()
    return bay.fitting


def mark(device: httpx.Client, address: str, number: int) -> httpx.Response:
    """Mark a strike as a page's script does, under a key of its own."""
    return device.post(
        address,
        data={"toe_mm": str(number), "high_mm": "1"},
        headers={
            "idempotency-key": f"m{number}",
            "origin": address.split("/fittings", maxsplit=1)[0],
        },
    )


def post_all(address: str, first: int, answered: list[int]) -> None:
    """Post marks until the studio is gone, and note which were answered."""
    with httpx.Client(timeout=20.0) as device:
        for number in range(first, first + MARKS):
            try:
                answer = mark(device, address, number)
            except httpx.TransportError:
                return
            assert answer.status_code in {200, 204, 303}, answer.text
            answered.append(number)


def marks_in(folder: Path, fitting: str) -> dict[str, Mark]:
    """Return the marks of a record by their keys, each of which is there once, without a gap."""
    studio = open_studio(folder)
    record = studio.store.record(fitting)
    studio.store.close()
    assert [one.sequence for one in record] == list(range(1, len(record) + 1))
    found = [(one.key, one.act.mark) for one in record if isinstance(one.act, Marked)]
    assert len(dict(found)) == len(found)
    return dict(found)


def test_every_mark_that_was_answered_for_is_there_once_after_kills(
    server: ServerProcess, tmp_path: Path
) -> None:
    chance = random.Random(20261126)
    fitting = a_fitting(tmp_path)
    address = f"{server.address}/fittings/{fitting}/acts/mark"
    answered: list[int] = []
    for kill in range(ROUNDS):
        server.start()
        poster = Thread(target=post_all, args=(address, MARKS * kill, answered))
        wanted = len(answered) + chance.randint(0, MARKS // 2)
        poster.start()
        while len(answered) < wanted and poster.is_alive():
            time.sleep(0.005)
        time.sleep(chance.uniform(0.0, 0.2))
        server.kill()
        poster.join()
    assert answered
    kept = marks_in(tmp_path, fitting)
    assert {f"m{number}" for number in answered} <= kept.keys()
    server.start()
    with httpx.Client(timeout=20.0) as device:
        for number in range(ROUNDS * MARKS):
            assert mark(device, address, number).status_code in {200, 204, 303}
        assert device.get(f"{server.address}/fittings/{fitting}/bay").status_code == 200
    server.stop()
    marks = marks_in(tmp_path, fitting)
    assert marks.keys() == {f"m{number}" for number in range(ROUNDS * MARKS)}
    assert marks.items() >= kept.items()
    for key, one in marks.items():
        assert one.toe == pytest.approx(int(key[1:]) / 1000.0)
