"""`loftwright backup`, `restore` and `doctor`, with the studio running and with a full disk."""

import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import httpx
import pytest

from bays import a_bay
from commands import Cli
from kept_studios import a_studio, everything_in, rows_of
from loftwright.domain.acts import HandedOver, ShotArrived
from loftwright.services.acting import act
from loftwright.services.backup_files import backups_in
from loftwright.services.opening import open_studio
from loftwright.store.sqlite import open_store
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
FULL = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (150_000, 150_000))
from loftwright.cli.app import run
sys.exit(run(["backup", "--json"]))
"""
KILLED = """
import sys
from loftwright.cli.app import run
while True:
    run(["backup"])
"""


def test_a_studio_goes_into_a_backup_and_comes_back(cli: Cli, tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = cli("backup", "--json").record
    assert (made["keys_copied"], made["files"]) == (2, 3)
    told = cli("restore", made["file"], "--into", tmp_path / "new", "--json").record
    assert rows_of(tmp_path / "new") == rows_of(data)
    assert told["rows"] == made["rows"] == sum(len(rows) for rows in rows_of(data).values())
    said = cli("restore", made["file"], "--json")
    assert (said.code, said.error["kind"]) == (6, "conflict")
    said = cli("restore", made["file"], "--even-over")
    assert said.code == 0, said.err
    assert "2 fittings with 6 balls of 2 golfers were read, every one." in said.out


def test_the_doctor_ends_with_a_code_of_its_own_where_something_is_found(
    cli: Cli, tmp_path: Path
) -> None:
    data = a_studio(tmp_path / "data")
    (data / "shop" / "learned" / "0001.json").unlink()
    said = cli("doctor")
    assert said.code == 6
    assert "there is no backup yet" in said.out
    cli("backup")
    assert cli("doctor").code == 0
    (data / "keys" / "g0.key").chmod(0o644)
    found = cli("doctor", "--json")
    assert found.code == 6
    assert [one["check"] for one in found.record["findings"]] == ["rights"]
    assert cli("doctor", "--repair").code == 0


def test_a_drive_that_was_pulled_out_is_named_and_not_made_anew(cli: Cli, tmp_path: Path) -> None:
    a_studio(tmp_path / "data")
    said = cli("backup", "--to", tmp_path / "drive", "--json")
    assert (said.code, said.error["kind"]) == (6, "store")
    assert "not there" in said.error["message"]
    assert not (tmp_path / "drive").exists()


def test_a_full_disk_is_told_and_the_last_good_backup_stays(cli: Cli, tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    assert cli("backup").code == 0
    before = everything_in(data / "backups")
    done = subprocess.run(
        [sys.executable, "-c", FULL], capture_output=True, text=True, check=False
    )
    assert done.returncode == 6, done.stderr
    assert '"kind": "store"' in done.stderr
    assert everything_in(data / "backups") == before


def test_a_backup_that_is_killed_leaves_only_whole_ones(cli: Cli, tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data", balls=20)
    process = subprocess.Popen([sys.executable, "-c", KILLED], stdout=subprocess.DEVNULL)
    try:
        until = time.monotonic() + 60.0
        while not backups_in(data / "backups") and time.monotonic() < until:
            time.sleep(0.02)
        time.sleep(0.3)
    finally:
        process.kill()
        process.wait()
    found = backups_in(data / "backups")
    assert found
    done = cli("restore", found[0].path, "--into", tmp_path / "new", "--json")
    assert done.code == 0, done.err
    assert rows_of(tmp_path / "new") == rows_of(data)


class Balls(threading.Thread):
    """Posts balls until told to stop, and notes which were answered for and when."""

    def __init__(self, address: str) -> None:
        super().__init__()
        self.address, self.answered, self.enough = address, list[int](), threading.Event()

    def run(self) -> None:
        with httpx.Client(timeout=20.0) as device:
            number = 0
            while not self.enough.is_set():
                ball = {"key": f"k{number}", "ball_speed_mph": 100.0 + 0.25 * number}
                assert device.post(self.address, json=ball).status_code == 200
                self.answered.append(number)
                number += 1


@pytest.fixture
def fitting(tmp_path: Path) -> str:
    """Open a fitting in a studio on the disk."""
    studio = open_studio(tmp_path / "data")
    bay = a_bay(studio=studio)
    act(studio, bay.fitting, [HandedOver(club="Ash")])
    studio.store.close()
    return bay.fitting


def test_backups_while_balls_come_in_hold_each_that_was_answered_before(
    cli: Cli, tmp_path: Path, fitting: str
) -> None:
    process = ServerProcess(SERVE, free_port(), tmp_path / "data")
    process.start()
    balls = Balls(f"{process.address}/api/fittings/{fitting}/shots")
    balls.start()
    try:
        for round_ in range(3):
            while len(balls.answered) < 5 * (round_ + 1):
                time.sleep(0.05)
            before = len(balls.answered)
            made = cli("backup", "--json").record
            where = tmp_path / f"new{round_}"
            assert cli("restore", made["file"], "--into", where, "--json").code == 0
            store = open_store(where)
            record = store.record(fitting)
            store.close()
            came = [entry.act for entry in record if isinstance(entry.act, ShotArrived)]
            assert len(came) >= before
            assert len({entry.key for entry in record if entry.key}) == len(came)
        said = cli("restore", made["file"], "--even-over", "--json")
        assert (said.code, said.error["kind"]) == (6, "conflict")
    finally:
        balls.enough.set()
        balls.join()
        process.stop()


def test_a_studio_that_is_closed_backs_itself_up_when_nobody_is_fitted(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    process = ServerProcess(SERVE, free_port(), data)
    process.start()
    assert process.stop() in {0, 130}
    (found,) = backups_in(data / "backups")
    assert found.path.stat().st_mode & 0o777 == 0o600
    assert os.listdir(data / "backups" / "keys")  # noqa: PTH208 - that there is anything
