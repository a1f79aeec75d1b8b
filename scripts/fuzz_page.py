"""The page on broken input: what was found, and how much every way in was fed under guidance.

The figures are kept in `docs/truth/fuzz.json`, which every run of `make fuzz` adds to, and what
was found in `docs/truth/fuzz_found.toml`, which is written by hand; the page is made of both.
"""

import json
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
TRUTH: Final = ROOT / "docs" / "truth"
RESULTS: Final = TRUTH / "fuzz.json"
FOUND: Final = TRUTH / "fuzz_found.toml"
PAGE: Final = TRUTH / "fuzz.md"

HEAD: Final = """# Does broken input do harm?

Content that nobody vouches for comes in by {ways} ways: tables of shots in any dialect, our own
table, pasted text, typed lines and sheets, balls of a feed, bags, bench readings, files of home,
head, golfer, build and measurements, racks, rounds, remembered columns, the files of what a shop
learned and of its record, plays of the training studio, labels, quantities, every form of every
page, and backups.

The law for each: it returns a value, or one of our own errors that says what is wrong, where, and
what to do. Nothing else may be raised, content may not change, and time and memory are bounded.
For forms: no answer of 500 or above, and after a refusal every table of the store and every other
file of the data folder is as it was.

How it is tried:

- `tests/hostile.py` spoils content that is good: values that are no numbers or far too large,
  control signs, marks of direction, lone quotes, formulas, deep nests, many columns, other ends
  of lines, other encodings, breaking off.
- `make fuzz` lets a fuzzer (atheris, on libFuzzer) change content too and keeps what reaches new
  branches. It begins with what was fed least and goes on where it stopped; what it finds goes
  into `tests/corpus` once it is mended, and every test run reads that.
- `make test` has a short share of this with fixed seeds
  (`tests/property/test_hostile_ways_in.py`), sizes of a million bytes, the schema of the API
  under a device of each role, and hostile values in every form that a studio with fittings at
  every station shows (`tests/web/test_refused_changes_nothing.py`, which says how many were
  sent).
"""
FOUND_HEAD: Final = """
## Found and mended

*Kept* is how many inputs of `tests/corpus` bring it back in a program from before it was mended.

| Way in | What it was given | What happened | Kept |
|---|---|---|---|
"""
GUIDED_HEAD: Final = """
## Under guidance

{contents:,} contents were fed to {fed} of {ways} ways in{last}. Of those that break the law,
{found} are not mended.

| Way in | Minutes | Contents | Branches reached | Slowest | Not mended |
|---|---:|---:|---:|---:|---:|
"""
FOOT: Final = """
## What this does not say

A fuzzer asks for millions of contents a way in; the figures above stand for what was done, not
for safety. The shop record is read by DuckDB and Arrow, whose own code is not followed; neither
are compiled loops.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """What came of feeding one way in, over all runs.

    Attributes
    ----------
    minutes : float
    contents : int
    reached : int
        Most branches that a run reached.
    slowest : int
        Longest time of one content [s].
    found : int
        Contents that broke the law and are not mended.
    day : str
        Of the last run, as ISO 8601.
    """

    minutes: float = 0.0
    contents: int = 0
    reached: int = 0
    slowest: int = 0
    found: int = 0
    day: str = ""

    def and_then(self, later: "Fed") -> "Fed":
        """Return what came of these runs and a later one."""
        return Fed(
            minutes=round(self.minutes + later.minutes, 3),
            contents=self.contents + later.contents,
            reached=max(self.reached, later.reached),
            slowest=max(self.slowest, later.slowest),
            found=later.found,
            day=later.day,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something that broke the law and was mended.

    Attributes
    ----------
    ways : str
        Ways in, as the page names them.
    given, happened : str
    inputs : tuple of str
        Files of `tests/corpus` that bring it back.
    """

    ways: str
    given: str
    happened: str
    inputs: tuple[str, ...]


def read_fed(ways: Iterable[str]) -> dict[str, Fed]:
    """Return what came of earlier runs by way in; nothing of one that was never fed."""
    told = json.loads(RESULTS.read_text(encoding="utf-8"))
    return {name: Fed(**told[name]) if name in told else Fed() for name in ways}


def read_findings() -> tuple[Finding, ...]:
    """Return what was found and mended."""
    told = tomllib.loads(FOUND.read_text(encoding="utf-8"))
    return tuple(
        Finding(
            ways=one["ways"],
            given=one["given"],
            happened=one["happened"],
            inputs=tuple(one["inputs"]),
        )
        for one in told["finding"]
    )


def write(fed: Mapping[str, Fed]) -> None:
    """Keep what came of all runs, and write the page."""
    told = {name: asdict(one) for name, one in fed.items()}
    RESULTS.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
    PAGE.write_text(page(fed, read_findings()), encoding="utf-8")


def page(fed: Mapping[str, Fed], findings: Iterable[Finding]) -> str:
    """Return the page."""
    days = [one.day for one in fed.values() if one.day]
    rows = [
        f"| {one.ways} | {one.given} | {one.happened} | {len(one.inputs) or 'not replayed'} |\n"
        for one in findings
    ]
    guided = GUIDED_HEAD.format(
        contents=sum(one.contents for one in fed.values()),
        fed=len(days),
        ways=len(fed),
        last=f", the last on {max(days)}" if days else "",
        found=sum(one.found for one in fed.values()),
    )
    lines = [
        f"| {name} | {one.minutes:g} | {one.contents:,} | {one.reached:,} | {one.slowest} s "
        f"| {one.found} |\n"
        if one.day
        else f"| {name} | 0 | 0 | | | |\n"
        for name, one in fed.items()
    ]
    return "".join([HEAD.format(ways=len(fed)), FOUND_HEAD, *rows, guided, *lines, FOOT])
