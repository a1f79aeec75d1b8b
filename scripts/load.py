"""Six bays at work for an hour: `make load` runs it and writes `docs/truth/load.md`.

`MINUTES` and `ENGINE` change it: with `ENGINE=sqlite` one process serves all bays from a file. A
run of less than an hour, or with another engine, prints its page and leaves the written one.
"""

import argparse
import os
import sys
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from load_report import holds, lines, page
from load_run import run
from loads import Pace

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "load.md"
HOUR = 60.0


def main() -> None:
    """Run, print the figures, write the page, and fail where something was lost or leaks."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=HOUR)
    parser.add_argument("--engine", choices=("postgresql", "sqlite"), default="postgresql")
    parser.add_argument("--balls", type=int, default=50, help="a fitting")
    parser.add_argument("--look", type=float, default=60.0, help="seconds between two looks")
    parser.add_argument("--page", type=Path, help="write the page here, however long the run")
    asked = parser.parse_args()
    pace = Pace(seconds=60.0 * asked.minutes, balls=asked.balls)
    load = os.getloadavg()[0]
    with TemporaryDirectory() as folder:
        ran = run(
            Path(folder),
            pace,
            engine=asked.engine,
            look_every=asked.look,
            waits=True,
            told=lambda at: print(f"{at / 60.0:.0f} min", flush=True),
        )
    for line in lines(ran):
        print(line)
    written = page(ran, pace, asked.engine, datetime.now(UTC).date(), load)
    whole = asked.minutes >= HOUR and asked.engine == "postgresql"
    target = asked.page or (PAGE if whole else None)
    if target is None:
        print(written)
    else:
        target.write_text(written, encoding="utf-8")
        print(f"written: {target}")
    if not holds(ran):
        sys.exit(1)


if __name__ == "__main__":
    main()
