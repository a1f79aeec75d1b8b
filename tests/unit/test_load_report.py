"""The report of bays at work calls a process that grows a leak, and says what it cannot show."""

import re
from datetime import date
from pathlib import Path
from random import Random

import pytest

from load_report import LEAK, LINGER, growth, leaks, page
from load_run import Ran
from load_watch import Seen
from loads import Figures, Pace

WRITTEN = Path(__file__).resolve().parents[2] / "docs" / "truth" / "load.md"
HOUR = 3600.0


def process(slope: float, *, seconds: float = HOUR, files: int = 20) -> tuple[Seen, ...]:
    """Return a process seen every minute that grows by some MiB an hour, and shakes by one."""
    chance = Random(1)
    times = [60.0 * minute for minute in range(int(seconds / 60.0) + 1)]
    return tuple(
        Seen(
            at=at,
            resident=200.0 + slope * at / HOUR + chance.gauss(0.0, 1.0),
            files=files if at == times[-1] else 20,
            threads=8,
            seconds=at / 10.0,
        )
        for at in times
    )


def told(*processes: tuple[Seen, ...], wrong: str = "") -> str:
    """Return the page of a run."""
    seconds = processes[0][-1].at
    figures = Figures(answers=[(1.0, 0.05)], events=[(1.0, 0.1)], errors=[wrong] if wrong else [])
    ran = Ran(figures=figures, processes=processes, lost=0, doubled=0, differ=())
    return page(ran, Pace(seconds=seconds), "sqlite", date(2026, 11, 26), 0.5)


def test_a_process_that_grows_fast_leaks_and_one_that_only_shakes_does_not() -> None:
    assert leaks(process(3.0 * LEAK))
    assert not leaks(process(0.0))
    found = growth(process(3.0 * LEAK))
    assert found is not None
    assert found.slope == pytest.approx(3.0 * LEAK, abs=3.0 * found.error)


def test_a_short_run_cannot_show_growth_and_its_page_says_so() -> None:
    short = process(3.0 * LEAK, seconds=600.0)
    assert growth(short) is None
    assert not leaks(short)
    text = told(short)
    assert "All of it holds; whether it grows, so short a run cannot show." in text
    assert "A run of less than 20 minutes cannot show growth" in text
    assert "| too short a run | 20 to 20 | 8 to 8 | 60 | not shown |" in text


def test_files_that_stay_open_are_a_leak_in_a_run_of_any_length() -> None:
    assert leaks(process(0.0, seconds=600.0, files=21 + LINGER))
    assert not leaks(process(0.0, seconds=600.0, files=20 + LINGER))


def test_the_page_says_whether_all_of_it_holds_and_what_does_not() -> None:
    assert "All of it holds, and no process leaks." in told(process(0.0))
    assert "**It does not hold.**" in told(process(0.0), process(3.0 * LEAK))
    text = told(process(0.0), wrong="Bay 1: a page was answered 500")
    assert "**It does not hold.**" in text
    assert "\n- Bay 1: a page was answered 500\n" in text


def test_what_the_written_page_says_of_growth_is_what_the_script_says() -> None:
    def said(text: str) -> list[str]:
        part = text.partition("## Whether it grows\n")[2]
        return [line for line in part.splitlines() if line and not re.match(r"\| \d", line)]

    assert said(WRITTEN.read_text(encoding="utf-8")) == said(told(process(0.0)))
