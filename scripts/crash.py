"""Long rounds of kills: what of all that was answered for is there once, by moment and database.

Each round has seeds of its own, and what it found is added to `docs/truth/crash.json`, so that
the rounds can be stopped and taken up again; the page `docs/truth/crash.md` is drawn from it.
Ends with 1 where something was lost, is there twice, or half.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import crashes
from crashes import Kills, Outcome
from crashes_keeping import kill_backing_up, kill_restoring
from databases import Cluster, running
from doomed import Doomed, doomed
from old_studios import old_studios

ROOT = Path(__file__).resolve().parent.parent
RESULTS = ROOT / "docs" / "truth" / "crash.json"
PAGE = ROOT / "docs" / "truth" / "crash.md"
KILLS = Kills(count=10, most=60)
FOR_THE_RECORD = ("shop_samples", "pyarrow.parquet", "loftwright.shop.record")
HEAD = f"""# Killed while it works

How much of what a studio has answered for is there after its program was killed, or its database
ended, at a random moment of its work? `make crash` takes up the rounds where they were stopped;
`tests/store/test_crash_rounds.py` runs a few of them in every `make test`.

A **kill** is `kill -9` of the program that writes; in the rows that say so, the database ended all
its connections first, or was stopped at once. Writers are killed after none to {KILLS.most}
answers and a moment more. **Answered** are balls, acts, golfers and backups of which the program
had said that they are kept; of a watched folder, the lines that stood in it; of a store that is
brought up, the entries that its older program had written; of a restore, the balls that its backup
holds. **There** is what was found afterwards: a kill between the disk's answer and the word of it
leaves one more. The newest backup of each kill is restored and has its last ball. **Lost**,
**twice** and **half** would be faults.

"""
FOOT = """
## What is assumed

A killed program is not a power cut: what the system has taken, it still writes. That the last word
is on the disk when the power goes rests on `synchronous=FULL` with a write-ahead log, which waits
for the disk at every commit, and on `synchronous_commit=on` in PostgreSQL; no test can show that a
disk keeps its word. The databases of these rounds run with `fsync` off, as only their processes
die.

A golfer's form is several writes: name, own club, limits, fitting. A kill between two of them
leaves a golfer who can be read whole and has no fitting yet.
"""


@contextmanager
def folders() -> Iterator[Path]:
    """Give a folder for a moment's kills."""
    with TemporaryDirectory(prefix="loftwright-crash-") as made:
        yield Path(made)


def moments(
    program: Doomed, recording: Doomed, cluster: Cluster, seed: int
) -> Iterator[Callable[[Path], Outcome]]:
    """Yield what a round does, each in a folder of its own."""

    def chance() -> Random:
        return Random(seed)  # noqa: S311 - nothing is kept secret by it

    for address in ("", "PostgreSQL"):
        where = cluster.fresh if address else str
        for job in ("marking", "balls"):
            yield lambda folder, job=job, where=where: crashes.kill_writing(  # type: ignore[misc]
                program, job, folder, where(), chance(), KILLS
            )
        for act in (crashes.kill_watching, crashes.kill_golfers, kill_backing_up):
            yield lambda folder, act=act, where=where: act(  # type: ignore[misc]
                program, folder, where(), chance(), KILLS
            )
    for job in ("marking", "balls"):
        yield lambda folder, job=job: crashes.kill_connections(  # type: ignore[misc]
            program, job, folder, cluster.fresh(), chance(), KILLS
        )
    yield lambda folder: crashes.kill_server(program, "balls", folder, cluster, chance(), KILLS)
    for old in old_studios():
        for in_database in (False, True)[: 1 + old.in_postgresql]:
            yield lambda folder, old=old, there=in_database: crashes.kill_bringing_up(  # type: ignore[misc]
                program, old, folder, cluster.fresh() if there else "", chance(), KILLS
            )
    yield lambda folder: kill_restoring(program, folder, chance(), KILLS)
    yield lambda folder: crashes.kill_recording(recording, folder, chance(), KILLS)


def add(results: dict[str, Any], found: Outcome) -> None:
    """Add what a moment's kills found to the results."""
    row = results["moments"].setdefault(
        f"{found.moment} | {found.database}",
        dict.fromkeys(("kills", "answered", "kept", "lost", "doubled", "half"), 0),
    )
    row["kills"] += found.kills
    row["answered"] += found.answered
    row["kept"] += found.kept
    row["lost"] += len(found.lost)
    row["doubled"] += len(found.doubled)
    row["half"] += len(found.half)


def page(results: dict[str, Any]) -> str:
    """Return the page that shows the results."""
    rows = sorted(results["moments"].items())
    names = ("kills", "answered", "lost", "doubled", "half")
    total = {name: sum(row[name] for _, row in rows) for name in names}
    lines = [
        f"{total['kills']} kills, {total['answered']} things answered for: {total['lost']} lost, "
        f"{total['doubled']} twice, {total['half']} half there; the last on {results['day']}.",
        "",
        "| moment | kept in | kills | answered | there | lost | twice | half |",
        "| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    for name, row in rows:
        figures = (row[one] for one in ("kills", "answered", "kept", "lost", "doubled", "half"))
        lines.append(f"| {name} | {' | '.join(str(one) for one in figures)} |")
    return HEAD + "\n".join(lines) + "\n" + FOOT


def main() -> None:
    """Run rounds behind those that were run before, and write the page after each moment."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=10, help="how many more")
    asked = parser.parse_args()
    whole = True
    with running() as cluster, doomed() as program, doomed(*FOR_THE_RECORD) as recording:
        for _ in range(asked.rounds):
            whole &= one_round(program, recording, cluster)
    if not whole:
        sys.exit(1)


def one_round(program: Doomed, recording: Doomed, cluster: Cluster) -> bool:
    """Run what is missing of a round, and return whether each thing is there once, whole."""
    results, whole = read(), True
    left = list(moments(program, recording, cluster, results["rounds"] + 1))[results["done"] :]
    for kill in left:
        with folders() as folder:
            found = kill(folder)
        print(found, flush=True)
        whole &= found.whole
        add(results, found)
        results["done"] += 1
        if kill is left[-1]:
            results["rounds"] += 1
            results["done"] = 0
        results["day"] = datetime.now(UTC).date().isoformat()
        RESULTS.write_text(json.dumps(results, indent=1) + "\n")
        PAGE.write_text(page(results))
    return whole


def read() -> dict[str, Any]:
    """Return the results of the rounds that were run before."""
    if not RESULTS.exists():
        return {"rounds": 0, "done": 0, "day": "", "moments": {}}
    found: dict[str, Any] = json.loads(RESULTS.read_text())
    return found


if __name__ == "__main__":
    main()
