"""Time of the shop record: the sums of ten million balls."""

import tempfile
import time
from pathlib import Path

from bench.shop_balls import BALLS, write_balls
from loftwright.shop.engine import sum_lots

FITTINGS = 250_000
SUMS_LIMIT_S = 40.0
"""Ten million balls on one thread of a machine that does nothing else."""


def main() -> None:
    # Where temporary files live in memory, name a folder on the disk in TMPDIR.
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        begun = time.perf_counter()
        size = write_balls(folder, FITTINGS)
        drawn = time.perf_counter() - begun
        begun, busy = time.perf_counter(), time.process_time()
        rows = sum(table.num_rows for table in sum_lots(folder))
        took, busy = time.perf_counter() - begun, time.process_time() - busy
    print("The shop record:")
    print(f"  {FITTINGS * BALLS:,} balls drawn in {drawn:.0f} s, {size / 1e9:.2f} GB on disk")
    print(
        f"  sums, one thread {took:6.1f} s   limit {SUMS_LIMIT_S:.0f} s   {busy:.1f} s of work, "
        f"{rows:,} rows"
    )


if __name__ == "__main__":
    main()
