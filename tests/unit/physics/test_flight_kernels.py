"""The compiled loop against the same loop uncompiled and against the reference method.

A difference here right after a formula has changed means stale machine code: the compiler's cache
looks only at the file of the loop. Remove the *.nbi and *.nbc files beside it.
"""

import numpy as np
import pytest

from drives import conditions, drive
from loftwright.constants import YARD
from loftwright.physics._kernels import fly_each, fly_one
from loftwright.physics.conditions import Conditions
from loftwright.physics.flight import Launch, fly
from loftwright.physics.landing import Outcome
from loftwright.physics.motion import State, Triple
from loftwright.physics.tee import has_no_run, spin_axis, start_state

SHOTS = [
    pytest.param(drive(155.0, 12.0, 2600.0, axis=4.0), conditions(), id="calm"),
    pytest.param(
        drive(165.0, 11.0, 2700.0, axis=-6.0, direction=3.0),
        conditions(tail=-15.0, cross=10.0),
        id="windy",
    ),
    pytest.param(
        drive(100.0, 30.0, 9500.0), conditions(tail=8.0, roughness=0.0, ground="soft"), id="iron"
    ),
    pytest.param(drive(120.0, -2.0, 2500.0), conditions(), id="topped"),
]


def _teed(launch: Launch) -> tuple[State, Triple, bool]:
    start = start_state(launch.ball_speed, launch.launch, launch.spin, launch.direction)
    axis = spin_axis(launch.axis, launch.direction)
    return start, axis, has_no_run(start, axis)


@pytest.mark.parametrize(("launch", "where"), SHOTS)
def test_compiled_loop_is_its_uncompiled_self(launch: Launch, where: Conditions) -> None:
    start, axis, refused = _teed(launch)
    arguments = (start, axis, where.medium, where.ground, 0.00625, 0.1, refused)
    found, expected = fly_one(*arguments), fly_one.py_func(*arguments)
    np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-12)


def test_compiled_table_is_its_uncompiled_self() -> None:
    where = conditions(tail=5.0)
    launches = np.array([[70.0, 0.2, 250.0, 0.05, 0.01], [60.0, 0.3, 300.0, 3.1, 0.0]])
    found, expected = np.empty((2, 2, len(Outcome._fields)))
    fly_each(launches, where.medium, where.ground, 0.00625, 0.1, found)
    fly_each.py_func(launches, where.medium, where.ground, 0.00625, 0.1, expected)
    np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-12)


@pytest.mark.parametrize(("launch", "where"), SHOTS)
@pytest.mark.parametrize(("step", "carry", "total"), [(0.05, 0.016, 0.025), (0.1, 0.053, 0.057)])
def test_compiled_loop_is_the_reference_within_the_error_of_its_step(
    launch: Launch, where: Conditions, step: float, carry: float, total: float
) -> None:
    start, axis, refused = _teed(launch)
    found = fly_one(start, axis, where.medium, where.ground, step / 16.0, step, refused)
    expected = fly(launch, where)
    assert found.carry / YARD == pytest.approx(expected.carry / YARD, abs=carry)
    assert found.total / YARD == pytest.approx(expected.total / YARD, abs=total, nan_ok=True)
    assert found.bounces == expected.bounces


def test_the_loop_is_of_the_fourth_order() -> None:
    launch, where = drive(150.0, 14.0, 2400.0), conditions()
    start, axis, _ = _teed(launch)
    exact = fly(launch, where).flight_time
    steps = np.array([0.4, 0.2, 0.1])
    errors = [
        abs(fly_one(start, axis, where.medium, where.ground, h, h, False).flight_time - exact)
        for h in steps
    ]
    order = np.polyfit(np.log(steps), np.log(errors), 1)[0]
    assert order > 3.5
