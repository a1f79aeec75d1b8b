"""The loops over vector lanes against the plain formulas and the plain loop.

A difference here right after a formula has changed means stale machine code: the compiler's cache
looks only at the file of the loop. Remove the *.nbi and *.nbc files beside it.
"""

from dataclasses import replace

import numpy as np
import pytest

from drives import conditions
from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.physics import _lanes
from loftwright.physics._kernels import fly_each
from loftwright.physics._lanes import LANES, advance, fly_in_lanes, settle
from loftwright.physics.conditions import Conditions
from loftwright.physics.landing import Outcome, landing_speeds, touch_down
from loftwright.physics.motion import runge_kutta_step
from loftwright.physics.tee import spin_axis, start_state
from loftwright.physics.turf import MOST_IMPACTS, GroundLaw, run_out

WHERE = [
    pytest.param(conditions(), id="calm"),
    pytest.param(conditions(tail=-12.0, cross=9.0), id="windy"),
    pytest.param(conditions(tail=9.0, roughness=0.0, ground="firm"), id="uniform"),
]


def _drives(count: int) -> FloatArray:
    rng = np.random.default_rng(11)
    return np.column_stack(
        [
            rng.uniform(60.0, 183.0, count) * MILE_PER_HOUR,
            rng.uniform(1.0, 35.0, count) * DEGREE,
            rng.uniform(0.0, 9000.0, count) * REVOLUTION_PER_MINUTE,
            rng.uniform(-80.0, 80.0, count) * DEGREE,
            rng.normal(0.0, 5.0, count) * DEGREE,
        ]
    )


def _flown(loop: object, launches: FloatArray, where: Conditions, step: float) -> FloatArray:
    assert callable(loop)
    table = np.empty((len(launches), len(Outcome._fields)))
    loop(launches, where.medium, where.ground, step / 16.0, step, table)
    return table


def _work(launches: FloatArray) -> FloatArray:
    work = np.zeros(_lanes._SIZE)
    for lane in range(LANES):
        ball_speed, launch, spin, tilt, direction = launches[lane].tolist()
        work[lane : 7 * LANES : LANES] = start_state(ball_speed, launch, spin, direction)
        work[_lanes._AXIS + lane : _lanes._TIME : LANES] = spin_axis(tilt, direction)
    return work


def _lane(work: FloatArray, begin: int, lane: int, count: int = 7) -> tuple[float, ...]:
    return tuple(work[begin + lane : begin + count * LANES : LANES].tolist())


@pytest.mark.parametrize("where", WHERE)
def test_a_step_in_lanes_is_the_step_of_the_plain_formula(where: Conditions) -> None:
    launches = _drives(LANES)
    work = _work(launches)
    before = work.copy()
    lowest = advance(work, where.medium, 0.1, 0.1)
    for lane in range(LANES):
        start, axis = _lane(before, 0, lane), _lane(before, _lanes._AXIS, lane, 3)
        expected = runge_kutta_step(start, 0.1, axis, where.medium)  # type: ignore[arg-type]
        assert _lane(work, 0, lane) == pytest.approx(expected, rel=1e-7, abs=1e-7)
        assert _lane(work, _lanes._BEFORE, lane) == start
    assert lowest == pytest.approx(min(1.0, work[LANES : 2 * LANES].min()))


@pytest.mark.parametrize("where", WHERE)
def test_lanes_land_and_run_out_as_the_plain_formulas(where: Conditions) -> None:
    launches = _drives(LANES)
    work = _work(launches)
    work[LANES : 2 * LANES] = np.linspace(0.05, 0.9, LANES)
    work[4 * LANES : 5 * LANES] = -np.linspace(10.0, 20.0, LANES)
    advance(work, where.medium, 0.1, 0.1)
    plain = work.copy()
    settle(work, where.medium, where.ground)
    for lane in range(LANES):
        before, after = _lane(plain, _lanes._BEFORE, lane), _lane(plain, 0, lane)
        axis = _lane(plain, _lanes._AXIS, lane, 3)
        landing, took = touch_down(before, after, 0.1, axis, where.medium)  # type: ignore[arg-type]
        run, impacts = run_out(*landing_speeds(landing, axis), where.ground)  # type: ignore[arg-type]
        assert _lane(work, 0, lane) == pytest.approx(landing, rel=1e-6, abs=1e-6)
        assert work[_lanes._TIME + lane] == pytest.approx(took, abs=1e-8)
        assert work[_lanes._RUN + lane] == pytest.approx(run, rel=1e-5, abs=1e-5)
        assert work[_lanes._IMPACTS + lane] == impacts


def test_an_endless_bouncer_rolls_on_in_lanes_too() -> None:
    trampoline = GroundLaw(base_tilt=0.0, restitution=0.999, friction=0.0, rolling_resistance=0.1)
    where = replace(conditions(), ground=trampoline)
    launches = _drives(LANES)
    found = _flown(fly_in_lanes, launches, where, 0.1)
    expected = _flown(fly_each, launches, where, 0.1)
    assert (found[:, 9] == MOST_IMPACTS).all()
    np.testing.assert_allclose(found, expected, rtol=1e-6, atol=1e-5)


@pytest.mark.parametrize("where", WHERE)
@pytest.mark.parametrize("count", [1, LANES, 3 * LANES + 5])
def test_balls_in_lanes_fly_as_in_the_plain_loop(where: Conditions, count: int) -> None:
    launches = _drives(count)
    found = _flown(fly_in_lanes, launches, where, 0.1)
    expected = _flown(fly_each, launches, where, 0.1)
    np.testing.assert_allclose(found, expected, rtol=1e-7, atol=1e-5)


def test_the_order_of_the_balls_does_not_matter() -> None:
    launches, where = _drives(100), conditions(tail=6.0, cross=-6.0)
    order = np.random.default_rng(3).permutation(100)
    mixed = _flown(fly_in_lanes, launches[order], where, 0.1)
    np.testing.assert_array_equal(mixed, _flown(fly_in_lanes, launches, where, 0.1)[order])


def test_compiled_lanes_are_their_uncompiled_selves() -> None:
    where, work = conditions(tail=7.0, cross=4.0), _work(_drives(LANES))
    work[_lanes._STATE + LANES : _lanes._STATE + 2 * LANES] = 0.4
    work[4 * LANES : 5 * LANES] = -12.0
    plain = work.copy()
    compiled_low = advance(work, where.medium, 0.1, 0.1)
    plain_low = advance.py_func(plain, where.medium, 0.1, 0.1)
    assert compiled_low == pytest.approx(plain_low, rel=1e-12)
    np.testing.assert_allclose(work, plain, rtol=1e-11, atol=1e-11)
    settle(work, where.medium, where.ground)
    settle.py_func(plain, where.medium, where.ground)
    np.testing.assert_allclose(work, plain, rtol=1e-9, atol=1e-9)


def test_compiled_flight_in_lanes_is_its_uncompiled_self() -> None:
    launches, where = _drives(LANES + 3), conditions(tail=7.0, cross=4.0)
    found = _flown(fly_in_lanes, launches, where, 0.2)
    expected = _flown(fly_in_lanes.py_func, launches, where, 0.2)
    np.testing.assert_allclose(found, expected, rtol=1e-9, atol=1e-9)


def test_a_ball_that_stays_up_is_missing_and_frees_its_lane() -> None:
    launches, vacuum = _drives(40), conditions(drag_scale=0.0, lift_scale=0.0)
    launches[::4, 0], launches[::4, 1] = 400.0, 80.0 * DEGREE
    missing = np.isnan(_flown(fly_in_lanes, launches, vacuum, 0.2)).all(axis=1)
    assert missing.tolist() == [index % 4 == 0 for index in range(40)]
