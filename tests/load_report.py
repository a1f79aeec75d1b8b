"""What a run of bays at work says: its figures as lines and as a page."""

import platform
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt
from os import cpu_count
from types import MappingProxyType
from typing import Final

import numpy as np

from load_run import BAYS, Ran
from load_watch import Seen
from loads import Pace
from loftwright.arrays import FloatArray

LEAK: Final = 12.0
"""MiB an hour [judgement]: what a process may grow by in its second half, all day long, and still
need no more than another 150 MiB by the evening."""
LINGER: Final = 12
"""Files or threads that a process may have more than early on [judgement]: links that are just
being opened or let go."""
SHORTEST: Final = 1200.0
"""Seconds below which a run cannot show growth: a process still loads what it needs."""
PARTS: Final = 4
"""Into which a run is parted to see whether it grew slower."""
ENGINES: Final = MappingProxyType({"postgresql": "PostgreSQL", "sqlite": "SQLite"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """How fast a process grew in the second half of a run [MiB h^-1], with its standard error."""

    slope: float
    error: float

    @property
    def leaks(self) -> bool:
        """Whether it grew faster than `LEAK`, beyond doubt: by its lower 95 % bound."""
        return self.slope - 1.96 * self.error > LEAK


def growth(process: Sequence[Seen]) -> Growth | None:
    """Return how fast a process grew in its second half; None where too little was seen.

    Notes
    -----
    Least squares of resident memory on time. Looks that follow each other are alike, so the error
    is the larger of that of single looks and that of four means.
    """
    half = [one for one in process if one.at >= process[-1].at / 2.0]
    if len(half) < 2 * PARTS or process[-1].at < SHORTEST:
        return None
    hours = np.array([one.at for one in half]) / 3600.0
    resident = np.array([one.resident for one in half])
    slope, error = _line(hours, resident)
    groups = np.array_split(np.arange(len(half)), PARTS)
    means = [(hours[some].mean(), resident[some].mean()) for some in groups]
    _, coarse = _line(*(np.array(one) for one in zip(*means, strict=True)))
    return Growth(slope=slope, error=max(error, coarse))


def leaks(process: Sequence[Seen]) -> bool:
    """Return whether a process leaks by the rule that its page states."""
    found, early, last = growth(process), process[len(process) // 4], process[-1]
    more = max(last.files - early.files, last.threads - early.threads)
    return more > LINGER or (found is not None and found.leaks)


def holds(ran: Ran) -> bool:
    """Return whether a run lost nothing, answered nothing wrongly, and no process leaks."""
    wrong = ran.lost or ran.doubled or ran.figures.errors or ran.differ
    return not wrong and not any(leaks(one) for one in ran.processes)


def _verdict(ran: Ran) -> str:
    if not holds(ran):
        return "**It does not hold.**"
    if any(growth(one) is None for one in ran.processes):
        return "All of it holds; whether it grows, so short a run cannot show."
    return "All of it holds, and no process leaks."


def _line(x: FloatArray, y: FloatArray) -> tuple[float, float]:
    middle = x - x.mean()
    spread = float(middle @ middle)
    slope = float(middle @ y) / spread
    rest = y - y.mean() - slope * middle
    return slope, sqrt(float(rest @ rest) / (len(x) - 2) / spread)


def percentiles(times: Sequence[tuple[float, float]]) -> str:
    """Return median, 95 % and slowest of some waits in ms, with how many there were."""
    if not times:
        return "none"
    told = np.percentile([1e3 * took for _, took in times], [50, 95, 100])
    middle, late, last = (f"{one:.0f}" for one in told)
    return f"median {middle} ms, p95 {late} ms, slowest {last} ms of {len(times)}"


def lines(ran: Ran) -> Iterator[str]:
    """Yield the figures of a run."""
    figures = ran.figures
    yield f"ball posted to answered: {percentiles(figures.answers)}"
    yield f"ball posted to shown: {percentiles(figures.events)}"
    yield f"tap to answered: {percentiles(figures.acts)}"
    pages = [one for some in figures.pages.values() for one in some]
    yield f"page opened: {percentiles(pages)}"
    yield (
        f"{len(figures.answers)} balls in {len(figures.fittings)} fittings: {ran.lost} lost, "
        f"{ran.doubled} doubled, {len(figures.errors)} errors, {len(ran.differ)} differ"
    )
    grown = max(one[-1].resident for one in ran.processes)
    yield f"{len(ran.processes)} processes, the largest of {grown:.0f} MiB at the end"


def page(ran: Ran, pace: Pace, engine: str, day: date, load: float) -> str:
    """Return the page that tells of a run."""
    head = _head(ran, pace, engine, day, load)
    return "\n".join([*head, *_waits(ran), *_memory(ran), *_checked()])


def _head(ran: Ran, pace: Pace, engine: str, day: date, load: float) -> list[str]:
    hit = len(ran.figures.answers)
    late = np.percentile(ran.figures.late, [50, 95]) if ran.figures.late else (0.0, 0.0)
    return [
        "# Six bays at work",
        "",
        "**Question.** Does a studio with six bays keep up with balls all day, lose none and grow "
        "no larger?",
        "",
        f"{hit} balls in {pace.seconds / 60.0:.0f} minutes, one every {pace.every:g} s in each of "
        f"{BAYS} bays: {ran.lost} lost, {ran.doubled} doubled, {len(ran.figures.errors)} requests "
        f"answered wrongly, {len(ran.differ)} fittings told otherwise than by a fresh "
        f"computation. {_verdict(ran)}",
        "",
        f"Written by `make load` on {day:%-d %B %Y}: {ENGINES[engine]}, "
        f"{len(ran.processes)} process{'es' if len(ran.processes) > 1 else ''}, "
        f"{platform.system()} on {platform.machine()}, {cpu_count()} cores, load average "
        f"{load:.1f} before the run; the database waits for the disk. The senders and the "
        "watchers run on the same cores.",
        "",
        f"Each bay opens a fitting, takes {pace.balls} balls, with marks, handed clubs and "
        "feelings between them, closes it and opens the next one. The bay’s page and the golfer’s "
        f"screen stay open, and a page is opened every ten seconds. Balls were sent "
        f"{late[0]:.2f} s after their time in the middle, {late[1]:.2f} s at p95.",
        "",
    ]


def _waits(ran: Ran) -> list[str]:
    figures = ran.figures
    rows = [
        ("ball posted to answered", figures.answers),
        ("ball posted to shown on the bay’s page", figures.events),
        ("tap to answered", figures.acts),
        *sorted((f"page `{name.format('…')}`", some) for name, some in figures.pages.items()),
    ]
    told = ["## How long one waits", ""]
    told += [
        "| what | times | median, ms | p95, ms | slowest, ms |",
        "| --- | ---: | ---: | ---: | ---: |",
    ]
    for name, some in rows:
        if some:
            three = np.percentile([1e3 * took for _, took in some], [50, 95, 100])
            told.append(
                f"| {name} | {len(some)} | " + " | ".join(f"{x:.0f}" for x in three) + " |"
            )
    told += [
        "",
        "Over the run, ball posted to shown, p95 in ms:",
        "",
        _quarters(figures.events),
        "",
    ]
    return told


def _quarters(times: Sequence[tuple[float, float]]) -> str:
    if not times:
        return "None was shown."
    end = max(at for at, _ in times) + 1e-9
    parts: list[list[float]] = [[] for _ in range(PARTS)]
    for at, took in times:
        parts[min(int(PARTS * max(at, 0.0) / end), PARTS - 1)].append(1e3 * took)
    told = [f"{np.percentile(one, 95):.0f}" if one else "none" for one in parts]
    return f"first quarter {told[0]}, then {', '.join(told[1:])}."


def _memory(ran: Ran) -> list[str]:
    told = [
        "## Whether it grows",
        "",
        "The rule: a process leaks if the lower 95 % bound of its growth in the second half of "
        "the run, by least squares of resident memory on time, is above "
        f"{LEAK:.0f} MiB an hour, or if at the end it has more than {LINGER} open files or "
        "threads over those after the first quarter. A run of less than "
        f"{SHORTEST / 60.0:.0f} minutes cannot show growth: a process still loads what it needs.",
        "",
        "| process | MiB after a quarter | at the end | growth, MiB an hour | open files "
        "| threads | processor, s | leaks |",
        "| ---: | ---: | ---: | ---: | ---: | ---: | ---: | --- |",
    ]
    for number, process in enumerate(ran.processes, start=1):
        early, last = process[len(process) // 4], process[-1]
        found = growth(process)
        slope = "too short a run" if found is None else f"{found.slope:.1f} ± {found.error:.1f}"
        says = "yes" if leaks(process) else "no" if found else "not shown"
        told.append(
            f"| {number} | {early.resident:.0f} | {last.resident:.0f} | {slope} | "
            f"{early.files} to {last.files} | {early.threads} to {last.threads} | "
            f"{last.seconds:.0f} | {says} |"
        )
    wrong = [f"- {one}" for one in (*ran.figures.errors[:10], *ran.differ[:10])]
    return [*told, "", *([*wrong, ""] if wrong else [])]


def _checked() -> list[str]:
    return [
        "## How it is checked",
        "",
        "`make test` has two minutes of it (`tests/e2e/test_load.py`): no ball lost or doubled, "
        "no wrong answer, no page that loses its link, memory within a stated bound. Times are "
        "told there and not judged, for other tests run beside it.",
        "",
    ]
