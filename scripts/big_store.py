"""Every page of a big store: `make big-store` makes it once, times it, writes the page of truth.

The store lies outside the repository, in `LOFTWRIGHT_BIG` or the temporary folder, is made only
once for each size and schema, and goes on where its making was stopped. Its 20,000 fittings are
copies of a few that were really played, under other golfers, days, bays and figures.
"""

import argparse
import json
import os
import platform
import tempfile
import time
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import httpx
import numpy as np

from big_stores import Size, fitting_id, make_big_store
from load_watch import seen
from loftwright.store.schema import HEAD
from serving import ServerProcess, free_port

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "big_store.md"
SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
TARGET = 300.0
"""Milliseconds that a page may take."""
ROUNDS = 7
STILL, IDLE = 3, 0.1
"""Seconds in a row in which a server that rests takes so many seconds of processor at most."""
CLOSED = "/fittings/{closed}"
PAGES = {
    "today": "/",
    "today, a golfer sought": "/?find=amberley",
    "start a fitting": "/golfers/new",
    "start a fitting, a golfer sought": "/golfers/new?find=cindle",
    "people": "/people",
    "people, a golfer sought": "/people?find=dravery",
    "a closed fitting: golfer": CLOSED + "/golfer",
    "a closed fitting: bay": CLOSED + "/bay",
    "a closed fitting: evidence": CLOSED + "/evidence",
    "a closed fitting: choice": CLOSED + "/choice",
    "a closed fitting: report": CLOSED + "/report",
    "a closed fitting: order": CLOSED + "/order",
    "a closed fitting: follow-up": CLOSED + "/follow-up",
    "rack": "/rack",
    "bays": "/bays",
    "bench": "/bench",
    "build list": "/build",
    "follow-ups": "/follow-ups",
    "proof": "/proof",
    "shop": "/shop",
    "comparisons": "/shop/comparisons",
    "settings": "/settings",
    "terms": "/settings/terms",
    "fittings in progress, for senders": "/api/fittings",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """A page that was opened some times, in ms and bytes."""

    name: str
    first: float
    middle: float
    processor: float
    size: int
    status: int


def made(size: Size) -> Path:
    """Return the folder of a big store of a size."""
    usual = Path(tempfile.gettempdir()) / "loftwright-big"
    place = Path(os.environ.get("LOFTWRIGHT_BIG") or usual)
    folder = place / f"{HEAD}-{size.fittings}-{size.golfers}"
    folder.mkdir(parents=True, exist_ok=True)
    make_big_store(folder, size)
    return folder


def timed(client: httpx.Client, process: int, name: str, path: str) -> Timed:
    """Open a page once and then some times more."""
    waits, spent = [], []
    for _ in range(ROUNDS + 1):
        before, at = seen(process, 0.0).seconds, time.perf_counter()
        answer = client.get(path)
        waits.append(1e3 * (time.perf_counter() - at))
        spent.append(1e3 * (seen(process, 0.0).seconds - before))
    return Timed(
        name=name,
        first=waits[0],
        middle=float(np.median(waits[1:])),
        processor=float(np.mean(spent[1:])),
        size=len(answer.content),
        status=answer.status_code,
    )


def settled(process: int) -> float:
    """Wait until a server does nothing any more, and return the seconds of processor it took."""
    before, still = seen(process, 0.0).seconds, 0
    while still < STILL:
        time.sleep(1.0)
        now = seen(process, 0.0).seconds
        still = still + 1 if now - before < IDLE else 0
        before = now
    return before


def measure(folder: Path, size: Size, only: str) -> tuple[list[Timed], float, float]:
    """Serve a store and time its pages; return the start's processor time and memory too."""
    server = ServerProcess(SERVE, free_port(), folder)
    server.start(180.0)
    try:
        started = settled(server.pid)
        closed = fitting_id(size.fittings - size.fittings % size.jobs_each - size.jobs_each)
        with httpx.Client(base_url=server.address, timeout=600.0) as client:
            found = []
            for name, path in PAGES.items():
                if only in name:
                    found.append(timed(client, server.pid, name, path.format(closed=closed)))
                    print(found[-1], flush=True)
        return found, started, seen(server.pid, 0.0).resident
    finally:
        server.stop()


def page(folder: Path, found: list[Timed], started: float, resident: float, load: float) -> str:
    """Return the page that tells of it."""
    told = json.loads((folder / "MADE.json").read_text(encoding="utf-8"))
    file = (folder / "loftwright.sqlite").stat().st_size / 2**30
    slow = [one for one in found if one.middle > TARGET]
    verdict = "Every page does." if not slow else f"{len(slow)} of {len(found)} do not."
    lines = [
        "# A store of many years",
        "",
        f"**Question.** With {told['fittings']:,} fittings and {told['shots']:,} balls in the "
        f"store, does a page still take less than {TARGET:.0f} ms? {verdict}",
        "",
        f"Written by `make big-store` on {datetime.now(UTC):%-d %B %Y}: one process on a file of "
        f"{file:.1f} GiB, {platform.system()} on {platform.machine()}, {os.cpu_count()} cores, "
        f"load average {load:.1f} before. The start took {started:.0f} s of processor time, and "
        f"the process {resident:.0f} MiB at the end. The store also holds "
        f"{told['golfers']:,} golfers, {told['predictions']:,} predictions, {told['acts']:,} acts "
        f"and {told['job_acts']:,} acts of jobs. Its fittings are copies of five that were "
        "played, with other golfers, days, bays and ball speeds; golfers’ own clubs are not "
        "copied into the rack, and no golfer agreed to the shop record, whose size "
        "[has a study of its own](shop_scale.md).",
        "",
        "| page | first, ms | then, ms | processor, ms | kB | |",
        "| --- | ---: | ---: | ---: | ---: | --- |",
    ]
    for one in found:
        mark = "" if one.status == httpx.codes.OK else f"answered {one.status}"
        mark = mark or ("**slow**" if one.middle > TARGET else "")
        lines.append(
            f"| {one.name} | {one.first:.0f} | {one.middle:.0f} | {one.processor:.0f} | "
            f"{one.size / 1e3:.0f} | {mark} |"
        )
    lines += [
        "",
        f"*First* is the first time after a start; *then* the median of {ROUNDS} more; processor "
        "time is the mean of these, in steps of 10 ms.",
        "",
        "## How it is checked",
        "",
        "`tests/web/test_big_lists.py` holds pages of a small copy of this store against the same "
        "pages worked out from every record, and counts what they ask of the store.",
        "",
    ]
    return "\n".join(lines)


def main() -> None:
    """Make the store where it is missing, time its pages and write the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fittings", type=int, default=Size().fittings)
    parser.add_argument("--golfers", type=int, default=Size().golfers)
    parser.add_argument("--only", default="", help="time the pages whose name has this in it")
    asked = parser.parse_args()
    size = Size(fittings=asked.fittings, golfers=asked.golfers)
    folder = made(size)
    load = os.getloadavg()[0]
    written = page(folder, *measure(folder, size, asked.only), load)
    whole = size == Size() and not asked.only
    if whole:
        PAGE.write_text(written, encoding="utf-8")
    print(f"written: {PAGE}" if whole else written)


if __name__ == "__main__":
    main()
