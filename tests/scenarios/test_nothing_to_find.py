"""Five equal clubs: what is said of them, 200 golfers of four abilities by turns, seeds 1 to 200.

The bounds were set before the figures were known.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from dealt_fittings import Fitting, fittings
from loftwright.evidence.advice import Call, advise
from loftwright.report.golfer_words import next_steps
from loftwright.report.marks import marks_of_fitting
from loftwright.report.wording import sentence
from loftwright.services.training import DealOptions
from loftwright.training.summary import Mean, mean_of
from study_tables import Say

GOLFERS = 200
CLUBS, BALLS = 5, 40
DECLARED_AT = 0.95

pytestmark = pytest.mark.study


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What one fitting with nothing to find came to."""

    call: Call
    declared: float
    sentence: str
    steps: str
    state: str


def heard(one: Fitting) -> Said:
    chances = [pair.p_a_better for pair in one.decision.pairs]
    told = [p >= DECLARED_AT or p <= 1.0 - DECLARED_AT for p in chances if p is not None]
    marks = marks_of_fitting(one.decision, one.reading.table)
    steps = [
        "".join(next(iter(run.values())) for run in step)
        for step in next_steps(one.decision, marks)
    ]
    assert len(told) == CLUBS * (CLUBS - 1) // 2
    return Said(
        call=advise(one.decision).call,
        declared=100.0 * float(np.mean(told)),
        sentence=sentence(one.decision),
        steps=" ".join(steps),
        state=str(one.decision.state),
    )


@cache
def said(device: str) -> list[Said]:
    options = DealOptions(seed=0, clubs=CLUBS, balls=BALLS, no_difference=True, device=device)
    with TemporaryDirectory() as folder:
        return [heard(one) for one in fittings(Path(folder), options, range(1, GOLFERS + 1))]


def called(device: str, *calls: Call) -> Mean:
    """Return the fittings that come to one of these, per cent."""
    return mean_of([100.0 * float(one.call in calls) for one in said(device)])


def worded(device: str, words: str) -> Mean:
    """Return the fittings whose sentence has these words, per cent."""
    return mean_of([100.0 * float(f" {words} " in one.sentence) for one in said(device)])


full = pytest.mark.xdist_group("equal clubs, everything measured")
ball_only = pytest.mark.xdist_group("equal clubs, ball data only")
carry_only = pytest.mark.xdist_group("equal clubs, speed and carry")
VALUED = [pytest.param("full", marks=full), pytest.param("ball-only", marks=ball_only)]
DEVICES = [*VALUED, pytest.param("speed-and-carry", marks=carry_only)]


@pytest.mark.parametrize("device", DEVICES)
def test_of_equal_clubs_the_own_one_is_kept_or_none_is_called(device: str, say: Say) -> None:
    kept = called(device, Call.KEEP_OWN, Call.TOO_CLOSE)
    told = ", ".join(f"{call} {called(device, call).mean:.1f}" for call in Call)
    say(f"equal clubs, {device}: keep your own or too close in {kept} % of fittings: {told}")
    assert kept.mean >= 90.0


@pytest.mark.parametrize("device", DEVICES)
def test_of_equal_clubs_few_pairs_are_declared(device: str, say: Say) -> None:
    declared = mean_of([one.declared for one in said(device)])
    say(f"equal clubs, {device}: {declared} % of pairs declared at 0.95")
    assert declared.mean <= 5.0


@pytest.mark.parametrize("device", DEVICES)
def test_how_often_equal_clubs_are_called_better_is_printed(device: str, say: Say) -> None:
    for words in ("very likely", "probably"):
        found = worded(device, words)
        say(f"equal clubs, {device}: the sentence says {words!r} in {found} % (not bounded)")
        assert found.error > 0.0


@pytest.mark.parametrize("device", DEVICES)
def test_the_path_that_costs_nothing_is_always_offered(device: str) -> None:
    offered = ("Nothing has to be bought after today", "it costs nothing", "Play Own for now")
    for one in said(device):
        if one.call is not Call.CHANGE:
            assert any(words in one.steps for words in offered), one.steps
