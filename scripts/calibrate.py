"""The truth study: many simulated fittings a scenario, decided by every method, as tables.

It resumes where it stopped: every fitting is kept in `.cache/truth` under a fingerprint of the
code that made it. `make calibrate` runs all of it and writes `docs/truth`; `--row` runs one
scenario and prints its row; `--tables` draws the tables again from the committed results.
"""

import argparse
import json
import multiprocessing
import os
import time
from dataclasses import asdict, fields, replace
from functools import cache, partial
from hashlib import sha256
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TimeRemainingColumn

from loftwright import __version__
from loftwright.evidence.learning import Expected, expected, learn
from loftwright.evidence.spreads import SpreadTable
from loftwright.evidence.visit import set_up
from loftwright.training.chance import MOST_BALLS
from loftwright.training.scenarios import SCENARIOS, Scenario
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.tally import Tally, tally
from loftwright.training.truth_study import ABILITIES, Kind, seed_of, study_fitting, to_record
from loftwright.training.truth_tables import EVERY_SCENARIO, chances_of, page, row_of

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "docs" / "truth"
RESULTS = FOLDER / "results.json"
PAGE = FOLDER / "golfers.md"
PER_ABILITY = 200
NOT_IN_A_FITTING = (
    *("case", "debrief", "deal", "tally", "truth_tables", "truth_pictures"),
    *("builds", "choice"),
)
LEARNING_SEEDS = 50_000
LEARNING_GOLFERS = 50
LEARNING_ROUNDS = 8


@cache
def code() -> str:
    """Return a fingerprint of everything that a fitting is computed by."""
    digest = sha256()
    for floor in ("physics", "domain", "evidence"):
        for path in sorted((ROOT / "src" / "loftwright" / floor).glob("**/*.py")):
            digest.update(path.read_bytes())
    for path in sorted((ROOT / "src" / "loftwright" / "training").glob("*.py")):
        if not path.stem.startswith(NOT_IN_A_FITTING):
            digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def cache_folder() -> Path:
    """Return where this state of the code keeps what it has run."""
    folder = ROOT / ".cache" / "truth" / code()
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def one_line(kind: Kind, job: tuple[str, int]) -> str:
    """Run one fitting in a worker and write it as a line."""
    ability, number = job
    started = time.process_time()
    record = to_record(study_fitting(kind, ability, number))
    record["ability"], record["number"] = ability, number
    record["seconds"] = time.process_time() - started
    return json.dumps(record)


def run(
    name: str, kind: Kind, jobs: list[tuple[str, int]], workers: int, progress: Progress
) -> list[dict[str, Any]]:
    """Return a scenario's fittings, simulating those that are not kept yet."""
    plain = "".join(c if c.isalnum() else "-" for c in name)
    path = cache_folder() / f"{plain}.jsonl"
    have: dict[tuple[str, int], dict[str, Any]] = {}
    if path.exists():
        for line in path.read_text().splitlines():
            record = whole(line)
            if record is not None:
                have[record["ability"], record["number"]] = record
    wanted = [job for job in jobs if job not in have]
    task = progress.add_task(name, total=len(jobs), completed=len(jobs) - len(wanted))
    if wanted:
        with path.open("a") as file, multiprocessing.Pool(workers) as pool:
            for line in pool.imap_unordered(partial(one_line, kind), wanted, chunksize=4):
                file.write(line + "\n")
                file.flush()
                record = json.loads(line)
                have[record["ability"], record["number"]] = record
                progress.advance(task)
    return [have[job] for job in jobs]


def whole(line: str) -> dict[str, Any] | None:
    """Read a kept fitting; a line that was cut off when the run was stopped is run again."""
    try:
        record: dict[str, Any] = json.loads(line)
    except ValueError:
        return None
    return record


def expectation(table: SpreadTable, job: tuple[str, int]) -> Expected:
    """Return what one learning fitting expects of the spreads."""
    ability, number = job
    seed = seed_of(ability, number)
    drawn = SCENARIOS["table learned from other fittings"].draw(ability, seed)
    order = shuffled_blocks(drawn.clubs, MOST_BALLS, np.random.default_rng([seed, 1]))
    return expected(set_up(drawn.play(order), replace(drawn.beliefs, table=table)))


def learned_table(workers: int) -> SpreadTable:
    """Return the table that 250 other fittings teach, learned once a state of the code."""
    path = cache_folder() / "learned.json"
    if path.exists():
        return SpreadTable(**{k: np.array(v) for k, v in json.loads(path.read_text()).items()})
    jobs = [
        (ability, LEARNING_SEEDS + number)
        for ability in ABILITIES
        for number in range(LEARNING_GOLFERS)
    ]
    with multiprocessing.Pool(workers) as pool:
        table = learn(
            lambda known: pool.map(partial(expectation, known), jobs, chunksize=8),
            rounds=LEARNING_ROUNDS,
        )
    path.write_text(
        json.dumps({one.name: getattr(table, one.name).tolist() for one in fields(table)})
    )
    return table


def kind_of(name: str, workers: int) -> Kind:
    """Return a scenario, with its table learned where it says so."""
    kind = EVERY_SCENARIO[name]
    if isinstance(kind, Scenario) and kind.learned:
        return replace(kind, table=learned_table(workers))
    return kind


def study(
    name: str, first: int, count: int, workers: int, progress: Progress
) -> dict[str, dict[str, Any]]:
    """Run one scenario and return its tallies by ability, and for all together."""
    jobs = [(ability, first + n) for ability in ABILITIES for n in range(count)]
    records = run(name, kind_of(name, workers), jobs, workers, progress)
    found = {
        ability: asdict(tally([one for one in records if one["ability"] == ability]))
        for ability in ABILITIES
    }
    found["all"] = asdict(tally(records))
    found["all"]["seconds"] = float(np.mean([one["seconds"] for one in records]))
    return found


def main() -> None:
    """Run what is missing and write the tables, or one row of them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--row", choices=list(EVERY_SCENARIO), help="run and print one scenario only"
    )
    parser.add_argument("--fittings", type=int, default=PER_ABILITY, help="golfers an ability")
    parser.add_argument("--seeds-from", type=int, default=1, help="number of the first golfer")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--tables", action="store_true", help="draw the committed results again")
    asked = parser.parse_args()
    if asked.tables:
        write(json.loads(RESULTS.read_text()))
        return
    columns = (*Progress.get_default_columns()[:1], BarColumn(), MofNCompleteColumn())
    with Progress(*columns, TimeRemainingColumn()) as progress:
        names = [asked.row] if asked.row else list(EVERY_SCENARIO)
        found = {
            name: study(name, asked.seeds_from, asked.fittings, asked.workers, progress)
            for name in names
        }
    if asked.row:
        one = tallies(found[asked.row])
        print(row_of(asked.row, EVERY_SCENARIO[asked.row], one))
        print(chances_of(asked.row, one["all"]))
        return
    results = {
        "version": __version__,
        "code": code(),
        "first": asked.seeds_from,
        "fittings": asked.fittings,
        "scenarios": found,
    }
    RESULTS.write_text(json.dumps(rounded(results), indent=None, separators=(",", ":")) + "\n")
    # From what was kept, so that `--tables` draws the same page.
    write(json.loads(RESULTS.read_text()))


def tallies(found: dict[str, dict[str, Any]]) -> dict[str, Tally]:
    """Return a scenario's tallies from their plain values."""
    known = {one.name for one in fields(Tally)}
    return {
        who: Tally(**{name: value for name, value in one.items() if name in known})
        for who, one in found.items()
    }


def rounded(value: object) -> object:
    """Return plain values with five significant digits, so that the file stays small."""
    if isinstance(value, dict):
        return {name: rounded(one) for name, one in value.items()}
    if isinstance(value, list | tuple):
        return [rounded(one) for one in value]
    return float(f"{value:.5g}") if isinstance(value, float) else value


def write(results: dict[str, Any]) -> None:
    """Write the page and its pictures."""
    found = {name: tallies(one) for name, one in results["scenarios"].items()}
    seconds = {name: one["all"]["seconds"] for name, one in results["scenarios"].items()}
    text, pictures = page(
        found,
        version=results["version"],
        code=results["code"],
        first=results["first"],
        fittings=results["fittings"],
        seconds=seconds,
    )
    FOLDER.mkdir(parents=True, exist_ok=True)
    PAGE.write_text(text)
    for name, svg in pictures.items():
        (FOLDER / name).write_text(svg)


if __name__ == "__main__":
    main()
