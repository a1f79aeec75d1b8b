"""What a bench can tell, against the tolerances that a shop holds."""

from dataclasses import fields, replace

import pytest

from loftwright.constants import KILOGRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.domain.bench_doubts import (
    USUAL_DOUBTS,
    WORKED_OUT,
    BenchDoubts,
    tighter_than_the_bench,
)
from loftwright.domain.tolerances import Tolerances
from loftwright.physics.build.pendulum import Pendulum, pendulum_error


def test_every_tolerance_has_a_doubt_of_the_bench() -> None:
    assert {one.name for one in fields(Tolerances)} <= {one.name for one in fields(BenchDoubts)}


def test_the_usual_tolerance_of_the_club_moi_is_tighter_than_a_pendulum_tells() -> None:
    assert set(tighter_than_the_bench(Tolerances())) == {"inertia"}


def test_a_tolerance_as_wide_as_the_doubt_is_not_called_too_tight() -> None:
    told = replace(Tolerances(), inertia=USUAL_DOUBTS.inertia)
    assert tighter_than_the_bench(told) == {}
    tight = replace(told, length=1.0 * MILLIMETRE, grip=0.01 * MILLIMETRE)
    assert tighter_than_the_bench(tight) == {
        "length": USUAL_DOUBTS.length,
        "grip": USUAL_DOUBTS.grip,
    }


def test_the_doubt_of_the_club_moi_is_what_a_hand_timed_pendulum_leaves() -> None:
    """5 ms in 2.03 s are 12.8 kg cm² of a driver (hand-worked)."""
    swung = Pendulum(mass=0.3156, balance=0.85146, pivot=0.05, period=2.030184)
    error = pendulum_error(swung, period=USUAL_DOUBTS.period)
    assert error / KILOGRAM_SQUARE_CENTIMETRE == pytest.approx(12.8, abs=0.1)
    assert error == pytest.approx(USUAL_DOUBTS.inertia, rel=0.03)


def test_a_swingweight_that_is_worked_out_is_less_sure_than_one_that_is_read() -> None:
    """0.5 g and 1 mm of standard error are 0.3184 points of a driver (hand-worked)."""
    assert pytest.approx(2.0 * 0.3184, abs=1e-3) == WORKED_OUT
    assert USUAL_DOUBTS.swingweight < WORKED_OUT
