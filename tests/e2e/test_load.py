"""Two minutes of six bays at work: every ball kept once, every page alive, no process growing."""

from collections.abc import Callable
from pathlib import Path
from typing import Final

from load_report import lines
from load_run import BAYS, run
from loads import Pace

SECONDS: Final = 120.0
BALLS: Final = 24
"""A fitting: each bay closes its first and second, and goes on in a third."""
FEWEST: Final = 150
"""Of 360 balls that are due: a machine that does something else may send them late [judgement]."""
GROWN: Final = 100.0
"""MiB by which a process may grow after its first fitting [judgement]: it still loads what it had
not needed; a fitting that would stay in memory is of some MiB, and there are three."""
FILES: Final = 24
"""Open files, links to pages among them, that a process may have more than at the first look."""


def test_six_bays_lose_no_ball_and_their_processes_do_not_grow(
    tmp_path: Path, say: Callable[[str], None]
) -> None:
    ran = run(tmp_path, Pace(seconds=SECONDS, balls=BALLS), look_every=10.0)
    for line in lines(ran):
        say(f"six bays, two minutes: {line}")
    assert not ran.figures.errors
    assert (ran.lost, ran.doubled) == (0, 0)
    assert not ran.differ
    assert len(ran.figures.answers) >= FEWEST
    assert len(ran.figures.events) == len(ran.figures.answers)
    assert len(ran.processes) == BAYS
    for process in ran.processes:
        settled = next(one for one in process if one.at >= SECONDS / 2.0)
        assert process[-1].resident - settled.resident < GROWN
        assert process[-1].files - process[0].files < FILES
