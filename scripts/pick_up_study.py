"""The study of built clubs hit against tested ones: many simulated pick-ups, as tables.

It resumes where it stopped: every pick-up is kept in `.cache/pick-up` under a fingerprint of the
code that made it. Without options it runs all of it and writes `docs/truth/pick_up.md`.
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
from loftwright.training.pick_up_study import DAYS, MADE, ability_of, answer, pick_up, to_record
from loftwright.training.pick_up_tables import SAME, page_lines

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "pick_up.md"
BEGIN = "<!-- tables: made by scripts/pick_up_study.py -->"
PICK_UPS = 200
MORE = {("6 tested, 8 built", SAME): 600}
"""Rows with more of them: whether *not* is said falsely, looked at after every ball."""
LOOKED = tuple(DAYS)[:-1]
"""Days that are looked at after every ball; the longest only at its end."""


def code() -> str:
    """Return a fingerprint of everything that a pick-up is computed by."""
    digest = sha256()
    for floor in ("physics", "domain", "evidence", "training"):
        for path in sorted((ROOT / "src" / "loftwright" / floor).glob("**/*.py")):
            if not path.stem.endswith("tables"):
                digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def run(day: str, made: str, count: int) -> list[dict[str, Any]]:
    """Return a row's pick-ups, simulating those that are not kept yet."""
    folder = ROOT / ".cache" / "pick-up" / code()
    folder.mkdir(parents=True, exist_ok=True)
    plain = "".join(c if c.isalnum() else "-" for c in f"{day} {made}")
    path = folder / f"{plain}.jsonl"
    have: dict[int, dict[str, Any]] = {}
    if path.exists():
        for line in path.read_text().splitlines():
            try:
                kept = json.loads(line)
            except ValueError:
                continue
            have[kept["number"]] = kept
    numbers = range(1, 1 + count)
    with path.open("a") as file:
        for number in track([one for one in numbers if one not in have], description=made):
            started = time.process_time()
            ability = ability_of(number)
            if made == SAME and day in LOOKED:
                found = pick_up(made, day, ability, number)
            else:
                found = (answer(made, day, ability, number),)
            record = {"number": number, "ability": ability, **to_record(found)}
            record["seconds"] = time.process_time() - started
            file.write(json.dumps(record) + "\n")
            file.flush()
            have[number] = record
    return [have[number] for number in numbers]


def main() -> None:
    """Run what was asked for and print or write its tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pick-ups", type=int, help="how many a row, printed and not written")
    asked = parser.parse_args()
    found = {
        (day, made): run(day, made, asked.pick_ups or MORE.get((day, made), PICK_UPS))
        for day in DAYS
        for made in MADE
    }
    lines = page_lines(found, LOOKED)
    if asked.pick_ups:
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
