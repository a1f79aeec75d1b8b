"""Figures from simulated benches hold the truth as often as they say: seeds 1 to 40 a truth.

Each bench has 1 % of error a deflection and one scale error common to all of them, as believed.
Bounds by the number of benches: ranges of nine in ten hold at least 32 of 40 (two standard errors
below 36), and the root mean square of errors in their own standard deviations stays below 1.25.
"""

from dataclasses import replace
from datetime import date
from typing import NamedTuple

import numpy as np
import pytest

from bench_readings import LENGTH, TRUTHS, lever, noisy, three_points, torque, weighed
from bench_shafts import FIVE_INCHES, WEIGHT
from loftwright.constants import INCH
from loftwright.domain.kept_profile import kept_profile
from loftwright.domain.read_figures import read_figures
from loftwright.domain.shaft_preview import Trims, preview
from loftwright.physics.bench.beliefs import Beliefs
from loftwright.physics.bench.measure import measure
from loftwright.physics.bench.piece import Estimate
from loftwright.physics.bench.readings import Cantilever, Reading, ThreePoint, Torque
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.profile import Profile, trimmed

COUNT = 40
NINE_IN_TEN = 1.645
INCH_OFF = Trims(tip=1.0 * INCH)


class Off(NamedTuple):
    """Errors of one bench in their own standard deviations."""

    read: float
    kept: float
    change: float


def of(truth: float, told: Estimate | None) -> float:
    assert told is not None
    return (told.value - truth) / told.spread


def scaled(readings: list[Reading], factor: float) -> list[Reading]:
    return [
        replace(one, value=one.value * factor)
        if isinstance(one, ThreePoint | Cantilever | Torque)
        else one
        for one in readings
    ]


def bench(truth: Profile, seed: int) -> Off:
    rng = np.random.default_rng(seed)
    clean = [*noisy(three_points(truth), rng), lever(truth, 0.15), lever(truth, 0.25)]
    scale = float(np.exp(Beliefs().static_scale * rng.standard_normal()))
    found = measure(LENGTH, [*scaled([*clean, torque(truth)], scale), *weighed(truth)])
    kept = kept_profile(found, piece="p", day=date(2026, 1, 1), bench="b", conditions="c")
    shown = preview(kept, INCH_OFF)
    whole = frequency(truth, FIVE_INCHES, WEIGHT)
    cut = frequency(trimmed(truth, tip=INCH_OFF.tip), FIVE_INCHES, WEIGHT)
    return Off(
        read=of(whole, read_figures(found).frequency),
        kept=of(whole, shown.before.frequency),
        change=of(cut - whole, shown.change.frequency),
    )


@pytest.mark.parametrize("name", ["plain", "wave", "steps"])
def test_frequencies_and_their_change_are_told_as_surely_as_they_are_known(name: str) -> None:
    benches = [bench(TRUTHS[name], seed) for seed in range(1, COUNT + 1)]
    for figure in Off._fields:
        off = np.array([getattr(one, figure) for one in benches])
        assert np.count_nonzero(np.abs(off) < NINE_IN_TEN) >= 32, figure
        assert np.sqrt(np.mean(off**2)) < 1.25, figure
