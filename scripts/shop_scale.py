"""Sum a shop record of up to 100 million invented balls, and write how long that takes.

Sizes that were measured are not measured again, and balls that were written are not drawn again;
what is drawn lies in a folder that is named and is removed at the end.
"""

import argparse
import json
import os
import platform
import resource
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from time import perf_counter, process_time

import duckdb
from bench.shop_balls import BALLS, CLUBS, DRAWN, FITTINGS_A_PART, write_balls

from loftwright.shop.engine import LOT, write_sums

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "docs" / "truth" / "shop_scale.md"
SIZES = (1_000_000, 10_000_000, 100_000_000)
MEMORY = "4GB"
GIB = 2.0**30
HEADS = (
    "| balls | record [GiB] | seconds | work [s] | work a ball [µs] | memory [GiB] "
    "| rows of sums | sums [GiB] | load |"
)


def measure(folder: Path, balls: int, threads: int) -> dict[str, float]:
    """Draw so many balls, sum them with sums going to disk, and return what it took."""
    record, place = folder / f"balls-{balls}", folder / f"sums-{balls}.parquet"
    begun = perf_counter()
    for file in sorted(folder.glob("balls-*/part=*/*.parquet")):
        part = record / file.parent.name / file.name
        number = int(file.parent.name.partition("=")[2])
        if number < min(balls // BALLS // FITTINGS_A_PART, DRAWN) and not part.exists():
            part.parent.mkdir(parents=True)
            part.hardlink_to(file)
    size = write_balls(record, balls // BALLS)
    drawn = perf_counter() - begun
    begun, busy = perf_counter(), process_time()
    rows = write_sums(record, place, memory=MEMORY, threads=threads)
    told = {
        "balls": balls,
        "drawn_s": drawn,
        "record_gib": size / GIB,
        "seconds": perf_counter() - begun,
        "busy_seconds": process_time() - busy,
        "rows": rows,
        "sums_gib": place.stat().st_size / GIB,
        # Of this process since it began, in KiB on Linux.
        "memory_gib": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2.0**20,
        "load": os.getloadavg()[0],
    }
    place.unlink()
    return told


def page_of(found: Sequence[dict[str, float]], threads: int) -> str:
    """Return the page that says what was measured."""
    rows = [
        f"| {one['balls']:,.0f} | {one['record_gib']:.2f} | {one['seconds']:.1f} "
        f"| {one['busy_seconds']:.1f} | {1e6 * one['busy_seconds'] / one['balls']:.2f} "
        f"| {one['memory_gib']:.2f} | {one['rows']:,.0f} | {one['sums_gib']:.2f} "
        f"| {one['load']:.1f} |"
        for one in found
    ]
    most = found[-1]
    if most["balls"] > DRAWN * FITTINGS_A_PART * BALLS:
        alike = " Of the largest record each ball stands in it ten times, in files of other names."
        unseen = ""
    else:
        alike, unseen = "", " more balls than these;"
    return f"""# How long the sums of a shop record take

{most["balls"]:,.0f} balls were summed in **{most["seconds"]:.0f} s** ({most["busy_seconds"]:.0f} s
of work), with {most["memory_gib"]:.1f} GiB of memory.

{chr(10).join((HEADS, "| --- " * 9 + "|", *rows))}

`scripts/shop_scale.py` draws fittings of {BALLS} balls with {CLUBS} clubs, four balls in five
marked, in the form of the record, and sums them with DuckDB {duckdb.__version__} in lots of
{LOT:,} balls on {threads} threads, within {MEMORY} for DuckDB; the sums go to
disk as they come.{alike}
Memory is the most that the process held, drawing the balls included, work is the processor's time,
and load how many processes wanted the machine at the end: where it is above the number of cores,
which was {os.cpu_count()}, seconds tell of the others as well. {platform.machine()},
{platform.system()}, Python {platform.python_version()}.

**What it does not show.** Learning from the sums;{unseen} a cluster.
"""


def main(arguments: Sequence[str]) -> None:
    """Measure every size up to the largest asked for, each in a process of its own."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--folder", type=Path, default=ROOT / ".cache" / "shop_scale")
    asked.add_argument("--most", type=int, default=SIZES[-1])
    asked.add_argument("--threads", type=int, default=2)
    asked.add_argument("--one", type=int, default=0, help="measure this size alone and print it")
    told = asked.parse_args(arguments)
    if told.one:
        print(json.dumps(measure(told.folder, told.one, told.threads)))
        return
    found = []
    for balls in (size for size in SIZES if size <= told.most):
        place = told.folder / f"measured-{balls}.json"
        if not place.exists():
            told.folder.mkdir(parents=True, exist_ok=True)
            alone = ("--folder", told.folder, "--threads", str(told.threads), "--one", str(balls))
            said = subprocess.run(
                [sys.executable, __file__, *alone], check=True, capture_output=True, text=True
            )
            place.write_text(said.stdout, encoding="utf-8")
        found.append(json.loads(place.read_text(encoding="utf-8")))
        PAGE.write_text(page_of(found, told.threads), encoding="utf-8")
        print(place.read_text(encoding="utf-8"))
    for drawn in told.folder.glob("balls-*"):
        shutil.rmtree(drawn)


if __name__ == "__main__":
    main(sys.argv[1:])
