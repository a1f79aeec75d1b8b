"""Slips of every kind, undone on paper and held against the other readings."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import (
    LENGTH,
    PLAIN,
    lever,
    noisy,
    swing,
    swings,
    three_points,
    torque,
    weighed,
)
from bench_shafts import WEIGHT
from loftwright.constants import FOOT_POUND, GRAM, INCH, MILLIMETRE
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.fit import Solution, solve
from loftwright.physics.bench.readings import Frequency, Reading, Torque
from loftwright.physics.bench.slips import Slip, likely
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount

TABLE = noisy(
    [
        *three_points(PLAIN),
        *swings(PLAIN),
        *weighed(PLAIN),
        torque(PLAIN, 1.0),
        torque(PLAIN, 0.9),
        lever(PLAIN, 0.15),
    ],
    np.random.default_rng(2),
)
OTHERS: Solution = solve(unknowns(LENGTH, Beliefs()), TABLE)


def best(reading: Reading) -> tuple[Slip, Reading | None]:
    first = likely(reading, OTHERS)[0]
    return first.slip, first.reading


def test_a_balance_point_with_one_wrong_digit_is_named() -> None:
    _, balance = weighed(PLAIN)
    slip, mended = best(replace(balance, value=balance.value + 0.1, typed="671.5"))
    assert slip is Slip.ONE_DIGIT
    assert mended is not None
    assert mended.value == pytest.approx(balance.value, abs=0.002)


def test_digits_with_a_comma_are_read_too() -> None:
    _, balance = weighed(PLAIN)
    slip, mended = best(replace(balance, value=0.7515, typed="751,5"))
    assert slip is Slip.SWAPPED_DIGITS
    assert mended is not None
    assert mended.value == pytest.approx(0.5715, abs=1e-6)


def test_text_that_is_no_number_names_no_digits() -> None:
    _, balance = weighed(PLAIN)
    slip, _ = best(replace(balance, value=0.7515, typed="7-51"))
    assert slip is Slip.UNKNOWN


def test_a_moment_in_foot_pounds_is_named() -> None:
    slip, mended = best(replace(torque(PLAIN), moment=1.0 / FOOT_POUND))
    assert slip is Slip.UNIT
    assert isinstance(mended, Torque)
    assert mended.moment == pytest.approx(1.0, rel=1e-9)


def test_a_torque_with_a_deeper_clamp_is_named() -> None:
    """Torsion is too little known to tell half an inch from one; which way is told."""
    wrong = replace(torque(PLAIN, 0.5, clamp=0.127 + 1.0 * INCH), clamp=0.127)
    found = {mend.slip: mend.reading for mend in likely(wrong, OTHERS)}
    mended = found[Slip.CLAMP]
    assert isinstance(mended, Torque)
    assert mended.clamp > 0.127


def test_another_weight_in_use_is_named() -> None:
    slip, mended = best(replace(swing(PLAIN), weight=TipBody(mass=250.0 * GRAM)))
    assert slip is Slip.WEIGHT
    assert isinstance(mended, Frequency)
    assert mended.weight == WEIGHT


def test_a_load_on_a_lever_in_kilograms_is_named() -> None:
    reading = lever(PLAIN, 0.25)
    slip, mended = best(replace(reading, force=10.0 / 9.80665))
    assert slip is Slip.UNIT
    assert mended is not None


def test_a_clamp_that_leaves_too_little_is_no_candidate() -> None:
    """A step further in would hold too much of the shaft; the others are tried all the same."""
    edge = swing(PLAIN, LENGTH - 13.0 * INCH)
    wrong = replace(edge, mount=Mount(clamp=edge.mount.clamp - 1.0 * INCH))
    slip, mended = best(wrong)
    assert slip is Slip.CLAMP
    assert isinstance(mended, Frequency)
    assert mended.mount.clamp == pytest.approx(edge.mount.clamp, abs=1.0 * MILLIMETRE)
