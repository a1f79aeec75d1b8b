"""`loftwright serve` answers soon, says where, and ends at once."""

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from commands import Cli
from loftwright.errors import UsageError
from loftwright.web.server import access_for, listen, outer_address, port_of, web_address
from serving import free_port

"""Seconds from the command to the line that it answers."""

_PROGRAM = "from loftwright.cli.app import main; main()"


@contextmanager
def serving(folder: Path, *options: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Start the command and give it with the first line that it wrote."""
    process = subprocess.Popen(
        [sys.executable, "-c", _PROGRAM, "serve", *options],
        env=os.environ | {"LOFTWRIGHT_DATA": str(folder)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        yield process, process.stdout.readline().rstrip("\n")
    finally:
        process.kill()
        process.communicate()


def test_it_says_where_it_is_once_it_answers_and_ends_by_ctrl_c(tmp_path: Path) -> None:
    with serving(tmp_path, "--port", "0") as (process, line):
        found = re.fullmatch(r"Loftwright is at (http://127\.0\.0\.1:\d+)", line)
        assert found is not None, line
        assert httpx.get(f"{found.group(1)}/pair", timeout=60.0).status_code == 200
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=60)
        assert (process.returncode, out, err) == (0, "", "")
    told = (tmp_path / "logs" / "loftwright.log").read_text().splitlines()
    assert [line.partition(" | ")[0].rpartition(": ")[2] for line in told] == [
        *("a store was made", "started", "a backup of … bytes was made", "stopped")
    ]


def test_an_open_page_does_not_hold_it_up(tmp_path: Path) -> None:
    """A connection that asks for nothing, as a browser keeps them, is let go."""
    with serving(tmp_path, "--port", "0") as (process, line):
        address = line.rpartition(" ")[2]
        with httpx.Client() as kept:
            kept.get(f"{address}/pair")
            process.send_signal(signal.SIGTERM)
            process.communicate(timeout=60)


def test_a_taken_port_is_named_with_its_mend(cli: Cli) -> None:
    (taken,) = listen("127.0.0.1", 0)
    with taken:
        port = port_of(taken)
        said = cli("serve", "--port", port)
    assert said.code == 2
    assert f"port {port} is taken" in said.err
    assert "0 takes any that is free" in said.err


@pytest.mark.parametrize("host", ["no-such-host.invalid", "198.51.100.1"])
def test_a_host_that_is_not_this_machine_is_refused(cli: Cli, host: str) -> None:
    said = cli("serve", "--host", host, "--port", 0)
    assert said.code == 2
    assert "--host" in said.err


def test_beyond_this_machine_it_says_how_devices_are_let_in(tmp_path: Path) -> None:
    port = free_port()
    with serving(tmp_path, "--host", "0.0.0.0", "--port", str(port)) as (process, line):  # noqa: S104
        assert line == f"Loftwright is at http://127.0.0.1:{port}"
        assert process.stdout is not None
        assert process.stdout.readline().startswith("Other devices open http://")
        assert f"http://127.0.0.1:{port}/devices" in process.stdout.readline()
        near = httpx.get(f"http://127.0.0.1:{port}/devices")
        assert "Let a device in" in near.text
        outer = outer_address("0.0.0.0")  # noqa: S104
        if outer != "127.0.0.1":
            far = httpx.get(f"http://{outer}:{port}/devices", headers={"Accept": "text/html"})
            assert (far.status_code, far.headers["location"]) == (303, "/pair")


def test_one_address_of_this_machine_is_reached_as_loopback_too() -> None:
    outer = outer_address("0.0.0.0")  # noqa: S104
    sockets = listen(outer, 0)
    try:
        names = {one.getsockname()[0] for one in sockets}
        assert names == {outer, "127.0.0.1"}
        assert len({port_of(one) for one in sockets}) == 1
    finally:
        for one in sockets:
            one.close()


def test_loopback_alone_needs_no_pairing_and_anything_else_does() -> None:
    for host in ("127.0.0.1", "localhost", "::1"):
        assert not access_for(host).paired
    beyond = access_for("0.0.0.0", ["Studio.Example"])  # noqa: S104
    assert beyond.paired
    assert beyond.knows("studio.example")
    assert beyond.knows(socket.gethostname().lower())
    assert not beyond.knows("evil.example")


def test_an_address_is_written_as_a_browser_reads_it() -> None:
    assert web_address("::1", 80) == "http://[::1]:80"
    assert web_address("127.0.0.1", 80) == "http://127.0.0.1:80"


def test_a_port_without_right_is_told_apart() -> None:
    with pytest.raises(UsageError, match="cannot listen at 198"):
        listen("198.51.100.1", 0)
