"""The study of the bench's slips: simulated benches with one slip each, found and named or not.

`make slips` runs every kind of slip on 216 benches, some ten minutes on one core, and writes
`docs/truth/bench.md`. It resumes where it stopped: every bench is kept in `.cache/slips` under a
fingerprint of the code that made it. `--kind` runs one kind and prints its row.
"""

import argparse
import json
import os
from collections.abc import Callable
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from bench_cover import Held, held
from slip_tables import page, row_of
from slipped_benches import KINDS, Case, case

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "bench.md"
BENCHES = 216
MADE_BY = (
    *sorted((ROOT / "src" / "loftwright" / "physics" / "bench").glob("*.py")),
    *sorted((ROOT / "src" / "loftwright" / "physics" / "shaft").glob("*.py")),
    *(ROOT / "tests" / f"{name}.py" for name in ("slipped_benches", "bench_readings")),
)


def kept_in(name: str) -> Path:
    """Return the file in which this state of the code keeps a kind's benches."""
    digest = sha256()
    for path in MADE_BY:
        digest.update(path.read_bytes())
    folder = ROOT / ".cache" / "slips" / digest.hexdigest()[:12]
    folder.mkdir(parents=True, exist_ok=True)
    return folder / f"{''.join(c if c.isalnum() else '-' for c in name)}.jsonl"


def run(
    name: str, first: int, count: int, one: Callable[[int], tuple[Any, ...]]
) -> list[tuple[Any, ...]]:
    """Return what becomes of benches, trying those that are not kept yet."""
    path = kept_in(name)
    have: dict[int, tuple[Any, ...]] = {}
    if path.exists():
        for line in path.read_text(encoding="utf-8").splitlines():
            try:
                seed, *values = json.loads(line)
            except ValueError:  # a line that was cut off is tried again
                continue
            have[seed] = tuple(values)
    with path.open("a", encoding="utf-8") as file:
        for seed in range(first, first + count):
            if seed not in have:
                have[seed] = one(seed)
                file.write(json.dumps([seed, *have[seed]]) + "\n")
                file.flush()
    return [have[seed] for seed in range(first, first + count)]


def main() -> None:
    """Run what is missing and write the page, or print one row."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kind", choices=list(KINDS), help="run and print one kind only")
    parser.add_argument("--benches", type=int, default=BENCHES)
    parser.add_argument("--seeds-from", type=int, default=1)
    asked = parser.parse_args()
    found = {}
    for name in [asked.kind] if asked.kind else list(KINDS):
        benches = run(name, asked.seeds_from, asked.benches, partial(case, name))
        found[name] = [Case(*one) for one in benches]
        print(row_of(name, found[name]), flush=True)
    if not asked.kind:
        covered = [Held(*one) for one in run("held", asked.seeds_from, asked.benches, held)]
        PAGE.write_text(page(found, covered, asked.seeds_from), encoding="utf-8")


if __name__ == "__main__":
    main()
