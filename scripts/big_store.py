"""Every page of a big store: `make big-store` makes it once, times it, writes the page of truth.

The store lies outside the repository, in `LOFTWRIGHT_BIG` or the temporary folder, is made only
once for each size and schema, and goes on where its making was stopped. Its 20,000 fittings are
copies of a few that were really played, under other golfers, days, bays and figures. Pages that
were timed are kept beside it, so that timing goes on where it was stopped as well, until the
program changes.
"""

import argparse
import json
import os
import platform
import tempfile
import time
from dataclasses import asdict, dataclass, field
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import httpx
import numpy as np

import loftwright
from big_stores import PAGES, Size, closed_with_job, make_big_store
from load_watch import seen
from loftwright.intake.files import write_whole
from loftwright.services.program_log import log_file
from loftwright.store.schema import HEAD
from serving import ServerProcess, free_port

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "big_store.md"
SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
TARGET = 300.0
"""Milliseconds that a page may take."""
ROUNDS = 7
LONGEST = 6 * 3600.0
"""Seconds that a server may take to sum up what is not kept yet."""
KNOWN = "what fittings and jobs add up to is known"
"""What the log says when it has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """A page that was opened some times, in ms and bytes."""

    name: str
    first: float
    middle: float
    processor: float
    size: int
    status: int


@dataclass(slots=True, kw_only=True)
class Measured:
    """What was timed so far of one program; is kept after every page.

    Attributes
    ----------
    started : float
        Seconds of processor from the first start until all sums were known.
    resident : float
        MiB of the process at most.
    loads : list of float
        Load average after each page.
    """

    program: str
    started: float
    resident: float = 0.0
    pages: list[Timed] = field(default_factory=list)
    loads: list[float] = field(default_factory=list)


def made(size: Size) -> Path:
    """Return the folder of a big store of a size."""
    usual = Path(tempfile.gettempdir()) / "loftwright-big"
    place = Path(os.environ.get("LOFTWRIGHT_BIG") or usual)
    folder = place / f"{HEAD}-{size.fittings}-{size.golfers}"
    folder.mkdir(parents=True, exist_ok=True)
    make_big_store(folder, size)
    return folder


def timed(client: httpx.Client, process: int, name: str, path: str) -> Timed:
    """Open a page once and then some times more; status 0 stands for no answer."""
    waits, spent, size, status = [], [], 0, 0
    for _ in range(ROUNDS + 1):
        before, at = seen(process, 0.0).seconds, time.perf_counter()
        try:
            answer = client.get(path)
        except httpx.TransportError:
            status = 0
            waits.append(1e3 * (time.perf_counter() - at))
            break
        waits.append(1e3 * (time.perf_counter() - at))
        spent.append(1e3 * (seen(process, 0.0).seconds - before))
        size, status = len(answer.content), answer.status_code
    return Timed(
        name=name,
        first=waits[0],
        middle=float(np.median(waits[1:] or waits)),
        processor=float(np.mean(spent[1:] or spent or [0.0])),
        size=size,
        status=status,
    )


def caught_up(folder: Path, process: int) -> float:
    """Wait until a server has summed up what was missing; return its seconds of processor."""
    began, log = time.monotonic(), log_file(folder)
    while time.monotonic() - began < LONGEST:
        if log.exists() and KNOWN in log.read_text(encoding="utf-8"):
            return seen(process, 0.0).seconds
        time.sleep(1.0)
    raise SystemExit(f"after {LONGEST:.0f} s the server still sums up; start this again to go on")


def measure(folder: Path, size: Size, only: str) -> Measured:
    """Serve a store and time its pages, without those that were timed by this program before."""
    kept = folder / "TIMED.json"
    known = taken_up(kept)
    log_file(folder).unlink(missing_ok=True)
    server = ServerProcess(SERVE, free_port(), folder)
    server.start(600.0)
    try:
        spent = caught_up(folder, server.pid)
        known = known or Measured(program=program(), started=spent)
        with httpx.Client(base_url=server.address, timeout=600.0) as client:
            for name, path in PAGES.items():
                if only not in name or name in {one.name for one in known.pages}:
                    continue
                at = path.format(closed=closed_with_job(size))
                known.pages.append(timed(client, server.pid, name, at))
                known.loads.append(os.getloadavg()[0])
                known.resident = max(known.resident, seen(server.pid, 0.0).resident)
                write_whole(kept, json.dumps(asdict(known)).encode())
                print(known.pages[-1], flush=True)
        return known
    finally:
        server.stop()


def taken_up(kept: Path) -> Measured | None:
    """Return what was timed of this program before it was stopped; None if nothing was."""
    if not kept.exists():
        return None
    told = json.loads(kept.read_text(encoding="utf-8"))
    if told["program"] != program():
        return None
    return Measured(**told | {"pages": [Timed(**one) for one in told["pages"]]})


def program() -> str:
    """Return what changes with the source of the program."""
    files = sorted(Path(loftwright.__file__).parent.rglob("*.*"))
    texts = (one.read_bytes() for one in files if one.suffix in {".py", ".html", ".js", ".css"})
    return sha256(b"".join(texts)).hexdigest()[:16]


def page(folder: Path, told: Measured) -> str:
    """Return the page that tells of it."""
    holds = json.loads((folder / "MADE.json").read_text(encoding="utf-8"))
    file = (folder / "loftwright.sqlite").stat().st_size / 2**30
    missing = [name for name in PAGES if name not in {one.name for one in told.pages}]
    lines = [
        "# A store of many years",
        "",
        f"**Question.** With {holds['fittings']:,} fittings and {holds['shots']:,} balls in the "
        f"store, does a page still take less than {TARGET:.0f} ms? {verdict(told, missing)}",
        "",
        f"Written by `make big-store` on {datetime.now(UTC):%-d %B %Y}: one process on a file of "
        f"{file:.1f} GiB, {platform.system()} on {platform.machine()}, {os.cpu_count()} cores, "
        f"load average {min(told.loads):.1f} to {max(told.loads):.1f} while pages were timed. "
        f"The start took {told.started:.0f} s of processor time until all sums were known, and "
        f"the process {told.resident:.0f} MiB at most. The store also holds "
        f"{holds['golfers']:,} golfers, {holds['predictions']:,} predictions, {holds['acts']:,} "
        f"acts and {holds['job_acts']:,} acts of jobs. Its fittings are copies of five that were "
        "played, with other golfers, days, bays and ball speeds; golfers’ own clubs are not "
        "copied into the rack, and no golfer agreed to the shop record, whose size "
        "[has a study of its own](shop_scale.md).",
        "",
        "| page | first, ms | then, ms | processor, ms | kB | |",
        "| --- | ---: | ---: | ---: | ---: | --- |",
        *(
            f"| {one.name} | {one.first:.0f} | {one.middle:.0f} | {one.processor:.0f} | "
            f"{one.size / 1e3:.0f} | {mark(one)} |"
            for one in sorted(told.pages, key=lambda one: list(PAGES).index(one.name))
        ),
        "",
        *([f"Not timed in this run: {', '.join(missing)}.", ""] if missing else []),
        f"*First* is the first time after a start; *then* the median of {ROUNDS} more; processor "
        "time is the mean of these, in steps of 10 ms, and has other threads of the program in "
        "it. Where other programs take the cores, the clock says little and processor time "
        "counts.",
        "",
        "## How it is checked",
        "",
        "`tests/web/test_big_lists.py` holds pages of a small copy of this store against the same "
        "pages worked out from every record, and counts what every page of this table asks of "
        "the store.",
        "",
    ]
    return "\n".join(lines)


def verdict(told: Measured, missing: list[str]) -> str:
    """Return the answer to the page's question."""
    failed = [one.name for one in told.pages if one.status != httpx.codes.OK]
    if failed:
        return f"Not shown: of {len(told.pages)} pages these did not open: {', '.join(failed)}."
    slow = sum(one.middle >= TARGET for one in told.pages)
    busy = sum(one.processor >= TARGET for one in told.pages)
    timed_pages = f"the {len(told.pages)} pages that were timed" if missing else "all pages"
    if not slow:
        return f"Yes, {timed_pages} do."
    return (
        f"Not by the clock: of {timed_pages} {slow} took longer, {busy} of them of processor "
        "time as well."
    )


def mark(one: Timed) -> str:
    """Return what stands at the end of a page's line."""
    if one.status != httpx.codes.OK:
        return f"answered {one.status}" if one.status else "no answer"
    return "**slow**" if one.middle >= TARGET else ""


def main() -> None:
    """Make the store where it is missing, time its pages and write the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fittings", type=int, default=Size().fittings)
    parser.add_argument("--golfers", type=int, default=Size().golfers)
    parser.add_argument("--only", default="", help="time the pages whose name has this in it")
    parser.add_argument("--again", action="store_true", help="time pages that were timed before")
    asked = parser.parse_args()
    size = Size(fittings=asked.fittings, golfers=asked.golfers)
    folder = made(size)
    if asked.again:
        (folder / "TIMED.json").unlink(missing_ok=True)
    told = measure(folder, size, asked.only)
    if not told.pages:
        raise SystemExit(f"no page has {asked.only!r} in its name")
    written = page(folder, told)
    whole = size == Size() and not asked.only
    if whole:
        PAGE.write_text(written, encoding="utf-8")
    print(f"written: {PAGE}" if whole else written)


if __name__ == "__main__":
    main()
