"""A web application behind a real server, in a thread of this process or in one of its own."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import httpx
from fastapi import FastAPI

from loftwright.web.server import StudioServer, listen, port_of, web_address

LONGEST_START = 180.0
"""Seconds that a server may take to answer first: several start at once, and other tests run."""
TESTS = Path(__file__).parent


@contextmanager
def served(app: FastAPI, host: str = "127.0.0.1") -> Iterator[str]:
    """Serve an application from a thread of this process and give its address."""
    sockets = listen(host, 0)
    answers = threading.Event()
    server = StudioServer(app, app.state.studio.hub, answers.set)
    thread = threading.Thread(target=server.run, kwargs={"sockets": sockets}, daemon=True)
    thread.start()
    assert answers.wait(LONGEST_START), "the server did not start"
    try:
        yield web_address(host, port_of(sockets[0]))
    finally:
        server.should_exit = True
        thread.join(LONGEST_START)
        assert not thread.is_alive(), "the server did not end"


class ServerProcess:
    """A server in a process of its own, which can be killed and started again.

    Parameters
    ----------
    arguments : sequence of str
        Those of Python; `PORT` stands for the port.
    port : int
    folder : Path
        Its data folder.
    store : str
        Address of its database; a file in the data folder without it.
    """

    def __init__(self, arguments: Sequence[str], port: int, folder: Path, store: str = "") -> None:
        self._arguments = [word.replace("PORT", str(port)) for word in arguments]
        self._environment = os.environ | {
            "LOFTWRIGHT_DATA": str(folder),
            "LOFTWRIGHT_STORE": store,
            "PYTHONPATH": os.pathsep.join(
                filter(None, (str(TESTS), os.environ.get("PYTHONPATH", "")))
            ),
        }
        self.address = f"http://127.0.0.1:{port}"
        self._process: subprocess.Popen[bytes] | None = None

    def start(self, longest: float = LONGEST_START) -> float:
        """Start it and return the seconds until it answered, `longest` at most."""
        began = time.monotonic()
        self._process = subprocess.Popen(
            [sys.executable, *self._arguments],
            env=self._environment,
            stdout=subprocess.DEVNULL,
        )
        while time.monotonic() - began < longest:
            assert self._process.poll() is None, "the server ended while it was starting"
            try:
                httpx.get(f"{self.address}/pair", timeout=1.0)
            except httpx.TransportError:
                time.sleep(0.02)
                continue
            return time.monotonic() - began
        raise AssertionError("the server did not answer")

    @property
    def pid(self) -> int:
        """Number of the process; it must run."""
        assert self._process is not None, "the server does not run"
        return self._process.pid

    def kill(self) -> None:
        """Kill it as a power cut does."""
        self._end(signal.SIGKILL)

    def stop(self) -> int:
        """Stop it as Ctrl-C does and return its exit code."""
        return self._end(signal.SIGINT)

    def _end(self, how: signal.Signals) -> int:
        if self._process is None:
            return 0
        process, self._process = self._process, None
        process.send_signal(how)
        return process.wait(LONGEST_START)


def free_port() -> int:
    """Return a port that nobody listens at."""
    (listening,) = listen("127.0.0.1", 0)
    with listening:
        return port_of(listening)
