"""Equations of motion: forces by hand, and the step of the integrator."""

from math import sqrt

import numpy as np
import pytest

from drives import conditions
from loftwright.constants import BALL_DIAMETER, BALL_MASS, BALL_RADIUS, GRAVITY
from loftwright.physics.aero import drag_coefficient, lift_coefficient
from loftwright.physics.motion import (
    air_flow,
    exact_inverse_root,
    rates,
    runge_kutta_step,
    square,
)

BACKSPIN = (0.0, 0.0, 1.0)


def test_forces_are_those_worked_out_by_hand() -> None:
    where = conditions(drag_scale=0.98, lift_scale=1.07)
    vx, vy, vz, spin = 60.0, 12.0, -3.0, 270.0
    axis = np.array([0.1, -0.2, sqrt(1.0 - 0.05)])
    velocity = np.array([vx, vy, vz])
    speed = float(np.linalg.norm(velocity))
    cross = np.cross(axis, velocity)
    across = float(np.linalg.norm(cross))
    reynolds = where.air.density * speed * BALL_DIAMETER / where.air.viscosity
    spin_ratio = BALL_RADIUS * spin * across / speed**2
    force = where.air.density * np.pi * BALL_RADIUS**2 / (2.0 * BALL_MASS)
    drag = 0.98 * drag_coefficient(reynolds, spin_ratio)
    lift = 1.07 * lift_coefficient(reynolds, spin_ratio)
    expected = force * (lift * speed**2 * cross / across - drag * speed * velocity)
    expected[1] -= GRAVITY
    slowing = -2.0e-5 * where.air.density / 1.20 * speed * spin / BALL_RADIUS
    state = (0.0, 5.0, 0.0, vx, vy, vz, spin)
    found = rates(state, tuple(axis.tolist()), where.medium)
    assert found == pytest.approx((vx, vy, vz, *expected, slowing), rel=1e-12)


def test_spin_along_the_flow_makes_no_lift() -> None:
    state = (0.0, 5.0, 0.0, 60.0, 0.0, 0.0, 270.0)
    found = rates(state, (1.0, 0.0, 0.0), conditions().medium)
    assert found[4] == pytest.approx(-GRAVITY)
    assert found[5] == 0.0


def test_a_ball_at_rest_in_the_air_only_falls() -> None:
    found = rates((0.0,) * 6 + (270.0,), BACKSPIN, conditions().medium)
    assert found == pytest.approx((0.0, 0.0, 0.0, 0.0, -GRAVITY, 0.0, 0.0), abs=1e-8)


def test_a_ball_carried_by_the_wind_feels_none() -> None:
    medium = conditions(tail=10.0, cross=5.0, roughness=0.0).medium
    velocity = (medium.wind_along, 0.0, medium.wind_across)
    flow, cross = air_flow(velocity, BACKSPIN, 1.0, medium)
    assert flow == cross == (0.0, 0.0, 0.0)


def test_below_the_ground_the_wind_is_that_on_the_ground() -> None:
    medium = conditions(tail=15.0).medium
    above, below = ((0.0, y, 0.0, 40.0, -20.0, 0.0, 200.0) for y in (0.0, -3.0))
    assert rates(below, BACKSPIN, medium) == rates(above, BACKSPIN, medium)


def test_the_square_of_nothing_can_divide() -> None:
    assert exact_inverse_root(square((0.0, 0.0, 0.0))) > 0.0
    assert square((1.0, 2.0, 2.0)) == 9.0


def test_a_step_in_a_vacuum_is_exact() -> None:
    medium = conditions(drag_scale=0.0, lift_scale=0.0).medium
    start = (1.0, 2.0, 3.0, 40.0, 20.0, -5.0, 0.0)
    found = runge_kutta_step(start, 0.5, BACKSPIN, medium)
    height = 2.0 + 20.0 * 0.5 - 0.5 * GRAVITY * 0.25
    expected = (21.0, height, 0.5, 40.0, 20.0 - 0.5 * GRAVITY, -5.0, 0.0)
    assert found == pytest.approx(expected, rel=1e-14)
