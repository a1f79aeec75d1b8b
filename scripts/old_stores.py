"""Make the stores of older programs that the tests bring up: each by the program of its time.

For every revision of the schema, the last program that had it is taken out of the history and
makes a small invented studio; the studio is packed as SQL text into `tests/store/old`, with what
that program said of it. Where the tables changed within a revision, the earlier program makes one
too. A store that is there stays; `--again` makes it anew, to the same bytes.
"""

import argparse
import gzip
import os
import subprocess
import sys
import tarfile
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from databases import Cluster, programs, running

ROOT = Path(__file__).resolve().parent.parent
VERSIONS = "src/loftwright/store/migrations/versions"
FOLDER = ROOT / "tests" / "store" / "old"
MAKER = ROOT / "scripts" / "old_store.py"
CHANGED_WITHIN = {"0001": ("0001-closed", "9b559f82")}
"""By revision: the name of an earlier store, and the commit that changed its tables."""
NOWHERE = "-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """A program of the history and the name of the store that it makes."""

    name: str
    commit: str


def git(*words: str) -> bytes:
    """Return what git says."""
    return subprocess.run(["git", *words], cwd=ROOT, capture_output=True, check=True).stdout


def commit_of(words: str) -> str:
    """Return the full name of a commit."""
    return git("rev-parse", words).decode().strip()


def history() -> list[Program]:
    """Return the last program of every revision, and those before a change within one."""
    found: list[Program] = []
    names = sorted(path.stem[1:] for path in (ROOT / VERSIONS).glob("r*.py"))
    for name in names:
        if name in CHANGED_WITHIN:
            earlier, change = CHANGED_WITHIN[name]
            found.append(Program(name=earlier, commit=commit_of(f"{change}^")))
        follower = f"{VERSIONS}/r{int(name) + 1:04}.py"
        added = git("log", "--format=%H", "--diff-filter=A", "--", follower).decode().split()
        last = commit_of(f"{added[-1]}^") if added else commit_of("HEAD")
        found.append(Program(name=name, commit=last))
    return found


def made(program: Program, cluster: Cluster) -> None:
    """Have a program of the history make its store and pack it."""
    with TemporaryDirectory(prefix="loftwright-old-") as scratch:
        home = Path(scratch)
        with tarfile.open(fileobj=BytesIO(git("archive", program.commit, "src"))) as packed:
            packed.extractall(home, filter="data")
        several_bays = (home / "src/loftwright/services/store_copy.py").exists()
        address = cluster.fresh() if several_bays else NOWHERE
        out = home / program.name
        command = [sys.executable, str(MAKER), str(home / "data"), str(out), program.commit]
        paths = {"PYTHONPATH": str(home / "src"), "OPENBLAS_NUM_THREADS": "1"}
        subprocess.run([*command, address], env=os.environ | paths, check=True)
        FOLDER.mkdir(exist_ok=True)
        pack(out.with_name(f"{out.name}.sql").read_bytes(), f"{program.name}.sql.gz")
        told = FOLDER / f"{program.name}.json"
        told.write_bytes(out.with_name(f"{out.name}.json").read_bytes())
        if several_bays:
            pack(dumped(address), f"{program.name}.postgresql.sql.gz")


def dumped(address: str) -> bytes:
    """Return a PostgreSQL database as statements, without words to its own console."""
    said = subprocess.run(
        [programs() / "pg_dump", "--inserts", "--no-owner", address.replace("+psycopg", "")],
        capture_output=True,
        check=True,
    ).stdout
    return b"".join(line for line in said.splitlines(keepends=True) if not line.startswith(b"\\"))


def pack(text: bytes, name: str) -> None:
    """Write a text, packed to the same bytes on every run."""
    (FOLDER / name).write_bytes(gzip.compress(text, mtime=0))
    print(f"{name}: {len(text)} bytes of SQL")


def main() -> None:
    """Make the stores that are missing."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--again", metavar="NAME", nargs="*", help="make these anew")
    asked = parser.parse_args()
    again = asked.again or ()
    with running() as cluster:
        for program in history():
            there = (FOLDER / f"{program.name}.sql.gz").exists()
            if not there or program.name in again:
                print(f"{program.name} by {program.commit[:8]}", flush=True)
                made(program, cluster)


if __name__ == "__main__":
    main()
