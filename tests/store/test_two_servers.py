"""Two servers on one studio: a file refuses the second, a database serves both."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import httpx
import pytest

from databases import Cluster
from kept_studios import NOW
from loftwright.errors import ConflictError, StoreError
from loftwright.services.backup_files import FOLDER, backups_in
from loftwright.services.backup_state import backup_state
from loftwright.services.daily_backup import DailyBackup
from loftwright.services.one_server import hold
from loftwright.services.studio import Studio
from loftwright.store.postgres import open_postgres
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
NONE, MADE = 3, 4
"""How a process ends that made no backup, or one."""


@pytest.fixture
def first(tmp_path: Path) -> Iterator[ServerProcess]:
    """Return a server on a file, running."""
    server = ServerProcess(SERVE, free_port(), tmp_path)
    server.start()
    yield server
    server.kill()


def second(folder: Path) -> subprocess.CompletedProcess[str]:
    """Start another server on the same folder, which is to end by itself."""
    return subprocess.run(
        [sys.executable, *SERVE[:-1], "0"],
        env=os.environ | {"LOFTWRIGHT_DATA": str(folder), "LOFTWRIGHT_STORE": ""},
        capture_output=True,
        text=True,
        check=False,
        timeout=60.0,
    )


def test_a_second_server_on_a_file_is_refused_and_the_first_goes_on(
    first: ServerProcess, tmp_path: Path
) -> None:
    refused = second(tmp_path)
    assert refused.returncode == 6
    assert "another Loftwright serves this studio already" in refused.stderr
    assert "LOFTWRIGHT_STORE" in refused.stderr
    assert httpx.get(f"{first.address}/", timeout=20.0).status_code == 200


def test_a_server_that_was_killed_leaves_its_folder_to_the_next(
    first: ServerProcess, tmp_path: Path
) -> None:
    first.kill()
    held = hold(tmp_path)
    held.close()
    first.start()
    with pytest.raises(ConflictError, match="serves this studio already"):
        hold(tmp_path)


def test_a_disk_that_knows_no_locks_is_told_and_not_taken_for_another_server(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(_: object) -> None:
        raise OSError(37, "No locks available")

    monkeypatch.setattr("loftwright.services.one_server._take", none)
    with pytest.raises(StoreError, match="No locks available"):
        hold(tmp_path)


@pytest.mark.skipif(sys.platform == "win32", reason="no fork there")
def test_two_servers_on_one_data_folder_make_one_daily_backup(
    cluster: Cluster, tmp_path: Path
) -> None:
    address = cluster.fresh()
    open_postgres(address, tmp_path).close()
    ended = [os.waitpid(one, 0)[1] for one in [looking(address, tmp_path) for _ in range(3)]]
    assert sorted(map(os.waitstatus_to_exitcode, ended)) == [NONE, NONE, MADE]
    assert len(backups_in(tmp_path / FOLDER)) == 1
    assert backup_state(tmp_path).trouble is None


def looking(address: str, folder: Path) -> int:
    """Let a process look whether it is time for the backup of the day; return it."""
    child = os.fork()
    if child:
        return child
    code = -1
    try:
        store = open_postgres(address, folder)
        daily = DailyBackup(Studio(store=store, folder=folder, clock=lambda: NOW))
        due = daily.due

        def seen(now: datetime) -> bool:
            found = due(now)
            # Long enough that each has looked before any has made one.
            time.sleep(1.0)
            return found

        daily.due = seen  # type: ignore[method-assign]
        code = MADE if daily.look() else NONE
    finally:
        os._exit(code)


def test_two_servers_on_one_database_show_one_studio(cluster: Cluster, tmp_path: Path) -> None:
    address = cluster.fresh()
    servers = [ServerProcess(SERVE, free_port(), tmp_path, store=address) for _ in range(2)]
    try:
        for server in servers:
            server.start()
        for server in servers:
            assert httpx.get(f"{server.address}/", timeout=20.0).status_code == 200
    finally:
        for server in servers:
            server.kill()
