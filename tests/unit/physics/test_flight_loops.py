"""Compiled loops against the plain formulas they are made of."""

from math import atan, cos, log, sin

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics import _kernels, _lanes
from loftwright.physics._quick_math import (
    quick_arctangent,
    quick_cosine,
    quick_inverse_root,
    quick_logarithm,
    quick_sine,
)
from loftwright.physics.flight import Conditions, Launch, fly, fly_many, fly_quickly
from loftwright.physics.landing import Outcome
from shots import CALM, STANDARD_AIR

WINDY = Conditions(
    air=STANDARD_AIR, wind_along=-12.0 * MILE_PER_HOUR, wind_across=9.0 * MILE_PER_HOUR
)
AIRLESS = Conditions(air=STANDARD_AIR, drag_scale=0.0, lift_scale=0.0)


def drives(count: int, seed: int = 1) -> FloatArray:
    rng = np.random.default_rng(seed)
    low = np.array([130.0, 6.0, 1500.0, -15.0, -6.0])
    high = np.array([183.0, 18.0, 4000.0, 15.0, 6.0])
    units = np.array([MILE_PER_HOUR, DEGREE, REVOLUTION_PER_MINUTE, DEGREE, DEGREE])
    return rng.uniform(low, high, size=(count, 5)) * units


@pytest.mark.parametrize("conditions", [CALM, WINDY], ids=["calm", "windy"])
def test_the_scalar_loop_is_its_own_python(conditions: Conditions) -> None:
    launches = drives(4)
    launches[3, 1] = -0.05
    compiled, plain = np.empty((4, 11)), np.empty((4, 11))
    arguments = (conditions.medium, conditions.ground, 0.02, 0.1)
    _kernels.fly_each(launches, *arguments, compiled)
    _kernels.fly_each.py_func(launches, *arguments, plain)
    assert compiled == pytest.approx(plain, rel=1e-12, nan_ok=True)


def test_one_flight_is_its_own_python() -> None:
    start = (0.0, 0.0, 0.0, 60.0, 13.0, 0.5, 280.0)
    arguments = (start, (0.0, -0.05, 0.99875), WINDY.medium, WINDY.ground, 0.01, 0.1, False)
    plain = _kernels.fly_one.py_func(*arguments)
    assert tuple(_kernels.fly_one(*arguments)) == pytest.approx(tuple(plain), rel=1e-12)


def test_a_loop_that_never_lands_gives_no_number() -> None:
    start = (0.0, 0.0, 0.0, 70.0, 500.0, 0.0, 300.0)
    arguments = (start, (0.0, 0.0, 1.0), AIRLESS.medium, AIRLESS.ground, 0.2, 0.2, False)
    assert np.isnan(tuple(_kernels.fly_one.py_func(*arguments))).all()
    assert np.isnan(tuple(_kernels.fly_one(*arguments))).all()


def test_lanes_are_their_own_python(monkeypatch: pytest.MonkeyPatch) -> None:
    """fastmath reorders sums, so the two agree to nine digits rather than twelve."""
    launches = drives(20, seed=2)
    compiled, plain = np.empty((20, 11)), np.empty((20, 11))
    arguments = (WINDY.medium, WINDY.ground, 0.0125, 0.2)
    _lanes.fly_in_lanes(launches, *arguments, compiled)
    monkeypatch.setattr(_lanes, "advance", _lanes.advance.py_func)
    monkeypatch.setattr(_lanes, "settle", _lanes.settle.py_func)
    _lanes.fly_in_lanes.py_func(launches, *arguments, plain)
    assert compiled == pytest.approx(plain, rel=1e-7, abs=1e-7)


@pytest.mark.parametrize("conditions", [CALM, WINDY], ids=["calm", "windy"])
def test_lanes_fly_as_the_scalar_loop(conditions: Conditions) -> None:
    launches = drives(300, seed=3)
    together = fly_many(launches, conditions, step=0.1)
    apart = np.empty((300, len(Outcome._fields)))
    first = 0.1 if conditions is CALM else 0.1 / 16.0
    _kernels.fly_each(launches, conditions.medium, conditions.ground, first, 0.1, apart)
    assert np.abs(together.carry - apart[:, 0]).max() < 0.001 * YARD
    assert np.abs(together.total - apart[:, 1]).max() < 0.02 * YARD
    assert np.abs(together.total_offline - apart[:, 3]).max() < 0.02 * YARD
    assert (together.bounces == apart[:, 9]).mean() > 0.98


def test_lanes_give_no_number_for_a_ball_that_never_lands() -> None:
    launches = drives(70)
    launches[5] = [700.0, 0.78, 300.0, 0.0, 0.0]
    table = fly_many(launches, AIRLESS, step=0.5)
    assert np.isnan(table.carry[5])


@pytest.mark.parametrize(("step", "carry", "total"), [(0.05, 0.016, 0.025), (0.1, 0.053, 0.057)])
@pytest.mark.parametrize("conditions", [CALM, WINDY], ids=["calm", "windy"])
def test_loops_keep_their_stated_error(
    conditions: Conditions, step: float, carry: float, total: float
) -> None:
    """Self-consistent: greatest errors stated for the fixed step against DOP853."""
    launches = drives(6, seed=4)
    table = fly_many(launches, conditions, step=step)
    for row, (ball_speed, launch, spin, axis, direction) in enumerate(launches):
        exact = fly(
            Launch(
                ball_speed=ball_speed, launch=launch, spin=spin, axis=axis, direction=direction
            ),
            conditions,
        )
        assert abs(table.carry[row] - exact.carry) < carry * YARD
        assert abs(table.total[row] - exact.total) < total * YARD


def test_halving_the_step_divides_the_error_by_about_sixteen() -> None:
    """Order of convergence of the classical fourth-order method, in still air."""
    launch = Launch(ball_speed=72.0, launch=0.2, spin=270.0, axis=0.1, direction=0.0)
    exact = fly(launch, CALM).carry
    errors = [abs(fly_quickly(launch, CALM, step=step).carry - exact) for step in (0.4, 0.2, 0.1)]
    orders = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert orders == pytest.approx(4.0, abs=0.7)


@pytest.mark.parametrize("value", np.geomspace(1e-3, 1e6, 40))
def test_quick_logarithm_and_root_are_good_to_a_few_parts_in_ten_million(value: float) -> None:
    assert quick_logarithm(value) == pytest.approx(log(value), abs=5e-7)
    assert quick_inverse_root(value) == pytest.approx(value**-0.5, rel=5e-7)


@pytest.mark.parametrize("value", np.linspace(0.0, 1.0, 21))
def test_quick_sine_and_cosine_are_good_to_a_few_parts_in_ten_million(value: float) -> None:
    assert quick_sine(value) == pytest.approx(sin(value), abs=5e-7)
    assert quick_cosine(value) == pytest.approx(cos(value), abs=5e-7)


@pytest.mark.parametrize("value", np.linspace(0.0, 0.71, 21))
def test_quick_arctangent_is_good_to_a_few_parts_in_ten_million(value: float) -> None:
    assert quick_arctangent(value) == pytest.approx(atan(value), abs=5e-7)
