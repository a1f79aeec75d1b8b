"""The study of choices over whole clubs: many simulated fittings, as tables.

It resumes where it stopped: every fitting is kept in `.cache/choice` under a fingerprint of the
code that made it. Without options it runs all of it and writes `docs/truth/choice.md`.
"""

import argparse
import json
import os
import time
from hashlib import sha256
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from rich.progress import track

from loftwright import __version__
from loftwright.training.choice_study import CHOICES, choice_outcomes, to_record
from loftwright.training.choice_tables import page_lines

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "choice.md"
BEGIN = "<!-- tables: made by scripts/choice_study.py -->"
FITTINGS = {"as believed": 600}
FEWER = 300


def code() -> str:
    """Return a fingerprint of everything that a fitting is computed by."""
    digest = sha256()
    for floor in ("physics", "domain", "evidence", "training"):
        for path in sorted((ROOT / "src" / "loftwright" / floor).glob("**/*.py")):
            if not path.stem.endswith("tables"):
                digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def run(name: str, first: int, count: int) -> list[dict[str, Any]]:
    """Return a scenario's fittings, simulating those that are not kept yet."""
    folder = ROOT / ".cache" / "choice" / code()
    folder.mkdir(parents=True, exist_ok=True)
    plain = "".join(c if c.isalnum() else "-" for c in name)
    path = folder / f"{plain}.jsonl"
    have: dict[int, dict[str, Any]] = {}
    if path.exists():
        for line in path.read_text().splitlines():
            try:
                kept = json.loads(line)
            except ValueError:
                continue
            have[kept["number"]] = kept
    numbers = range(first, first + count)
    with path.open("a") as file:
        for number in track([one for one in numbers if one not in have], description=name):
            started = time.process_time()
            record = {"number": number, "told": to_record(choice_outcomes(CHOICES[name], number))}
            record["seconds"] = time.process_time() - started
            file.write(json.dumps(record) + "\n")
            file.flush()
            have[number] = record
    return [have[number] for number in numbers]


def main() -> None:
    """Run what was asked for and print or write its tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--row", choices=tuple(CHOICES), help="one row, printed and not written")
    parser.add_argument("--fittings", type=int, help="how many, in place of the usual number")
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    asked = parser.parse_args()
    names = (asked.row,) if asked.row else tuple(CHOICES)
    found = {
        name: run(name, asked.first, asked.fittings or FITTINGS.get(name, FEWER)) for name in names
    }
    lines = page_lines(found)
    if asked.row or asked.fittings or asked.first != 1:
        print("\n".join(lines))
        return
    seconds = sum(one["seconds"] for records in found.values() for one in records)
    made = (
        f"Seeds 1 to n; loftwright {__version__}, code {code()}, {seconds / 60.0:.0f} minutes of "
        "one core."
    )
    words = PAGE.read_text(encoding="utf-8").partition(BEGIN)[0]
    PAGE.write_text("\n".join([words + BEGIN, "", made, "", *lines, ""]), encoding="utf-8")


if __name__ == "__main__":
    main()
