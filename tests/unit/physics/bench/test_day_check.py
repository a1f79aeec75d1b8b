"""The master shaft, read every day: chance is no shift, and a shift says what it does to EI."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import PLAIN, lever, swing, three_points, torque, weighed
from loftwright.errors import InputError
from loftwright.physics.bench.day_check import day_check
from loftwright.physics.bench.readings import Reading, ThreePoint, reads

THREE = three_points(PLAIN, 1)[0]


def days(reading: Reading, count: int, seed: int = 1, repeat: float = 1.0) -> list[Reading]:
    rng = np.random.default_rng(seed)
    return [
        reads(reading, reading.value * float(np.exp(repeat * reading.sigma * one)))
        for one in rng.standard_normal(count)
    ]


@pytest.mark.parametrize(
    "reading", [THREE, swing(PLAIN), torque(PLAIN)], ids=["three points", "frequency", "twist"]
)
def test_a_bench_that_did_not_move_is_seldom_said_to_have(reading: Reading) -> None:
    false = 0
    for seed in range(1, 1001):
        *history, today = days(reading, 9, seed)
        false += day_check(today, history).moved
    assert false <= 10


def shifted(reading: Reading, by: float) -> tuple[Reading, list[Reading]]:
    """Return today's reading, off by a factor, and twelve that repeat exactly."""
    return reads(reading, by * reading.value), [reading] * 12


def test_a_deflection_two_percent_up_makes_ei_two_percent_low() -> None:
    found = day_check(*shifted(replace(THREE, sigma=0.003), 1.02))
    assert found.moved
    assert found.days == 12
    assert found.usual == pytest.approx(THREE.value, rel=1e-12)
    assert found.shift == pytest.approx(0.02, rel=1e-9)
    assert found.stiffness == pytest.approx(1.0 / 1.02 - 1.0, rel=1e-9)
    assert found.frequency == pytest.approx(1.02**-0.5 - 1.0, rel=1e-9)
    assert isinstance(THREE, ThreePoint)
    assert found.span == pytest.approx(THREE.span * (1.02 ** (1.0 / 3.0) - 1.0), rel=1e-9)


def test_a_frequency_one_percent_up_makes_ei_two_percent_high() -> None:
    found = day_check(*shifted(swing(PLAIN), 1.01))
    assert found.moved
    assert found.stiffness == pytest.approx(1.01**2 - 1.0, rel=1e-9)
    assert found.frequency == pytest.approx(0.01, rel=1e-9)
    assert found.span is None


def test_a_twist_speaks_of_torsion_alone_and_a_scale_of_none() -> None:
    turned = day_check(*shifted(torque(PLAIN), 1.05))
    assert turned.stiffness == pytest.approx(1.0 / 1.05 - 1.0, rel=1e-9)
    assert turned.frequency is None
    for one in weighed(PLAIN):
        found = day_check(*shifted(one, 1.01))
        assert found.moved
        assert (found.stiffness, found.frequency, found.span) == (None, None, None)


def test_a_bench_that_repeats_worse_than_stated_says_so_and_is_not_said_to_have_moved() -> None:
    history = days(THREE, 200, repeat=4.0)
    found = day_check(reads(THREE, 1.05 * THREE.value), history)
    assert found.repeat == pytest.approx(0.04, abs=0.006)
    assert not found.moved


def test_few_days_and_another_set_up_are_refused() -> None:
    with pytest.raises(InputError, match="2 earlier readings tell no usual one"):
        day_check(THREE, [THREE] * 2)
    with pytest.raises(InputError, match="earlier reading 3 was read in another set-up"):
        day_check(swing(PLAIN), [swing(PLAIN), swing(PLAIN), swing(PLAIN, 0.152)])
    with pytest.raises(InputError, match="earlier reading 1 was read in another set-up"):
        day_check(lever(PLAIN, 0.15), [THREE] * 3)
