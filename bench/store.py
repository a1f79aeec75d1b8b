"""Time of the store: an append that is on the disk, reading a record, opening."""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path

import numpy as np

from loftwright.domain.acts import Marked, ShotArrived
from loftwright.domain.fitting import Fitting, Mark
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.store.sqlite import open_store

BALLS = 300
RECORD = 200
REPEATS = 40
APPEND_LIMIT_MS = 5.0
RECORD_LIMIT_MS = 3.0
OPEN_LIMIT_MS = 150.0

NUMBERS = ShotNumbers(
    ball_speed=66.1, launch=0.21, direction=0.01, spin=262.0, axis=0.03, carry=221.5
)
LINE = "17;148.2;12.1;0.6;2502;1.7;242.2;range;Own"
OPENING = """
import sys, time
from pathlib import Path
begun = time.perf_counter()
from loftwright.store.sqlite import open_store
loaded = time.perf_counter()
open_store(Path(sys.argv[1])).close()
print(1e3 * (loaded - begun), 1e3 * (time.perf_counter() - loaded))
"""


def timed(act: Callable[[], object]) -> float:
    start = time.perf_counter()
    act()
    return 1e3 * (time.perf_counter() - start)


def disk_alone(folder: Path) -> list[float]:
    """Time a write of one page that waits for the disk, without any store."""
    with (folder / "alone").open("wb", buffering=0) as file:

        def write() -> None:
            file.write(b"x" * 4096)
            os.fsync(file.fileno())

        return [timed(write) for _ in range(REPEATS)]


def appends_and_records(folder: Path) -> tuple[list[float], list[float]]:
    """Fill a new store and time each append, and the reading of a record."""
    store = open_store(folder)
    store.add_golfer(Golfer(id="bench"), Identity(name="Balthazar Plum (invented)"))
    for fitting in ("balls", "record"):
        store.open_fitting(Fitting(id=fitting, golfer="bench", opened=date(2026, 5, 14)))
    ball, at = ShotArrived(numbers=NUMBERS, line=LINE), datetime.now(UTC)
    told = (ball, Marked(mark=Mark(toe=0.004, high=-0.002)))
    appends = [
        timed(partial(store.append, "balls", [ball], at=at, by="bench", key=key))
        for key in map(str, range(BALLS))
    ]
    for key in map(str, range(RECORD // 2)):
        store.append("record", told, at=at, by="bench", key=key)
    records = [timed(lambda: store.record("record")) for _ in range(REPEATS)]
    store.close()
    return appends, records


def loading_and_opening(folder: Path) -> tuple[float, float]:
    """Time a fresh program that opens the store: its modules, then the opening."""
    found = [
        subprocess.run(
            [sys.executable, "-c", OPENING, str(folder)],
            capture_output=True,
            text=True,
            check=True,
        ).stdout.split()
        for _ in range(5)
    ]
    loading, opening = np.median(np.array(found, dtype=float), axis=0)
    return float(loading), float(opening)


def main() -> None:
    # Where temporary files live in memory, name a folder on the disk in TMPDIR.
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        appends, records = appends_and_records(folder)
        loading, opening = loading_and_opening(folder)
        alone = disk_alone(folder)
    print("The store on this disk:")
    for name, times, limit in (
        ("append a ball", appends, APPEND_LIMIT_MS),
        (f"record of {RECORD}", records, RECORD_LIMIT_MS),
    ):
        middle, late = np.percentile(times, [50, 95])
        print(f"  {name:15s} median {middle:6.2f} ms   95 % {late:6.2f} ms   limit {limit:.0f} ms")
    print(f"  {'disk alone':15s} median {np.median(alone):6.2f} ms   one page and its fsync")
    print(
        f"  {'open again':15s} median {opening:6.2f} ms   limit {OPEN_LIMIT_MS:.0f} ms, "
        f"and {loading:.0f} ms to load the modules"
    )


if __name__ == "__main__":
    main()
