"""Three bays on one PostgreSQL take balls at once while their processes are killed."""

import random
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Thread

import httpx
import pytest

from bays import a_bay
from databases import Cluster, running
from loftwright.domain.acts import HandedOver, ShotArrived
from loftwright.services.acting import act
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.studio import Studio
from loftwright.store.postgres import open_postgres
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
BAYS, BALLS, KILLS = 3, 200, 5


@pytest.fixture(scope="module")
def cluster() -> Iterator[Cluster]:
    """Run a PostgreSQL of the test's own."""
    with running() as cluster:
        yield cluster


def post_all(server: ServerProcess, fitting: str) -> None:
    """Post every ball until it is answered for, over kills, as a device's program does."""
    posts = f"{server.address}/api/fittings/{fitting}/shots"
    with httpx.Client(timeout=10.0) as device:
        for number in range(BALLS):
            told = {"key": f"k{number}", "ball_speed_mph": 120.0 + number % 30, "spin_rpm": 2600}
            while True:
                try:
                    answer = device.post(posts, json=told | {"launch_deg": 12.0})
                except httpx.TransportError:
                    time.sleep(0.05)
                    continue
                assert answer.status_code == 200, answer.text
                break


def test_no_ball_is_lost_or_doubled_and_every_bay_shows_what_is_there(
    cluster: Cluster, tmp_path: Path, say: Callable[[str], None]
) -> None:
    url = cluster.fresh()
    studio = Studio(store=open_postgres(url, tmp_path), folder=tmp_path)
    fittings = []
    for _ in range(BAYS):
        bay = a_bay(studio=studio)
        act(studio, bay.fitting, [HandedOver(club="Ash")])
        fittings.append(bay.fitting)
    servers = [ServerProcess(SERVE, free_port(), tmp_path, store=url) for _ in range(BAYS)]
    senders = [Thread(target=post_all, args=pair) for pair in zip(servers, fittings, strict=True)]
    chance = random.Random(20261126)
    try:
        for server in servers:
            server.start()
        for sender in senders:
            sender.start()
        for _ in range(KILLS):
            time.sleep(chance.uniform(0.2, 1.0))
            victim = chance.choice(servers)
            victim.kill()
            victim.start()
        for sender in senders:
            sender.join()
        for fitting in fittings:
            shots = [
                one for one in studio.store.record(fitting) if isinstance(one.act, ShotArrived)
            ]
            keys = sorted(one.key for one in shots)
            assert keys == sorted(f"k{number}" for number in range(BALLS))
        compare_pages(studio, servers, fittings)
    finally:
        for server in servers:
            server.kill()
        studio.store.close()
    say(f"{BAYS} bays, {BALLS} balls each, {KILLS} kills: none lost, none doubled")


def compare_pages(studio: Studio, servers: list[ServerProcess], fittings: list[str]) -> None:
    """Check that every bay's process tells of every fitting what a fresh computation finds."""
    for fitting in fittings:
        fresh = bay_now(studio, Desk(), fitting)
        for server in servers:
            page = httpx.get(f"{server.address}/fittings/{fitting}/choice", timeout=60.0)
            assert page.status_code == 200
            shots = httpx.get(f"{server.address}/api/fittings/{fitting}/shots", timeout=60.0)
            assert len(shots.json()) == len(fresh.now.swings)
        pages = {
            httpx.get(f"{server.address}/fittings/{fitting}/evidence", timeout=60.0).text.split(
                "<main", 1
            )[1]
            for server in servers
        }
        assert len(pages) == 1
