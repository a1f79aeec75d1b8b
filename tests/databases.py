"""A PostgreSQL of the tests' own, on loopback, with a fresh database for each test."""

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from shutil import chown
from tempfile import mkdtemp

import psycopg

from serving import free_port

OWNER = "postgres"


def programs() -> Path:
    """Return the folder of PostgreSQL's own programs."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    if not found:
        raise FileNotFoundError("PostgreSQL is missing: run scripts/postgresql")
    return found[-1].parent


@dataclass(slots=True)
class Cluster:
    """A PostgreSQL with a folder and a port of its own."""

    folder: Path
    port: int
    options: str
    made: Iterator[int] = field(default_factory=count)

    def fresh(self) -> str:
        """Return the address of a new, empty database."""
        name = f"studio{next(self.made)}"
        with psycopg.connect(self.address("postgres"), autocommit=True) as door:
            door.execute(f"CREATE DATABASE {name}")
        return f"postgresql+psycopg://{OWNER}@127.0.0.1:{self.port}/{name}"

    def address(self, name: str) -> str:
        """Return the address of a database as the driver takes it."""
        return f"postgresql://{OWNER}@127.0.0.1:{self.port}/{name}"

    def restart_at_once(self) -> None:
        """Have it die without a word and mend itself at its start."""
        self._control("restart", "-m", "immediate")

    def stop_at_once(self) -> None:
        """Have it die without a word."""
        self._control("stop", "-m", "immediate")

    def start(self) -> None:
        """Start it."""
        self._control("start", "-o", self.options)

    def _control(self, *words: str) -> None:
        control = [programs() / "pg_ctl", "-D", self.folder / "data", "-w"]
        _as_owner([*control, "-l", self.folder / "log", *words], self.folder)


def end_connections(address: str) -> None:
    """End every connection of a database from the server's side."""
    name = address.rsplit("/", 1)[1]
    with psycopg.connect(address.replace("+psycopg", ""), autocommit=True) as door:
        door.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity "
            "WHERE datname = %s AND pid <> pg_backend_pid()",
            [name],
        )


@contextmanager
def running(*, waits: bool = False) -> Iterator[Cluster]:
    """Run a PostgreSQL; unless told, one that waits for no disk: no test needs it afterwards."""
    folder, port = Path(mkdtemp(prefix="loftwright-pg-")), free_port()
    if os.geteuid() == 0:
        chown(folder, OWNER, OWNER)
    data = folder / "data"
    _as_owner(
        [programs() / "initdb", "-D", data, "-U", OWNER, "-A", "trust", "-E", "UTF8"], folder
    )
    disk = "on" if waits else "off"
    options = f"-p {port} -c listen_addresses=127.0.0.1 -c fsync={disk} -k {folder}"
    cluster = Cluster(folder=folder, port=port, options=options)
    cluster.start()
    try:
        yield cluster
    finally:
        cluster.stop_at_once()


def _as_owner(command: list[object], folder: Path) -> None:
    words = [str(one) for one in command]
    if os.geteuid() == 0:
        words = ["runuser", "-u", OWNER, "--", *words]
    done = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stdout + done.stderr)
