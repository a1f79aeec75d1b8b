"""Laws a flight must keep, whatever the shot."""

from dataclasses import fields, replace
from math import cos, exp, pi, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drives import conditions, drive
from loftwright.constants import BALL_RADIUS, DEGREE, GRAVITY, YARD
from loftwright.physics.flight import (
    Conditions,
    Flight,
    Launch,
    fly,
    fly_from_vectors,
    fly_many,
    fly_quickly,
    follow,
)

QUICK = settings(max_examples=40, deadline=None)
FEW = settings(max_examples=8, deadline=None)
MIRRORED = ("carry_offline", "total_offline")

launches = st.builds(
    Launch,
    ball_speed=st.floats(20.0, 85.0),
    launch=st.floats(0.05, 0.8),
    direction=st.floats(-0.2, 0.2),
    spin=st.floats(0.0, 900.0),
    axis=st.floats(-1.2, 1.2),
)
drives = st.builds(
    drive,
    ball_speed=st.floats(130.0, 183.0),
    launch=st.floats(8.0, 17.0),
    spin=st.floats(1700.0, 3500.0),
    axis=st.floats(-15.0, 15.0),
    direction=st.floats(-5.0, 5.0),
)
places = st.builds(
    conditions,
    fahrenheit=st.floats(20.0, 105.0),
    altitude=st.floats(0.0, 6000.0),
    humidity=st.floats(0.0, 1.0),
    tail=st.floats(-18.0, 18.0),
    cross=st.floats(-18.0, 18.0),
    roughness=st.sampled_from([0.0, 0.01, 0.03, 0.1]),
    ground=st.sampled_from(["normal", "firm", "soft"]),
)


def _still(where: Conditions) -> Conditions:
    return replace(where, wind_along=0.0, wind_across=0.0)


@QUICK
@given(launches)
def test_without_air_forces_a_ball_flies_a_parabola(launch: Launch) -> None:
    flight = fly_quickly(launch, conditions(drag_scale=0.0, lift_scale=0.0))
    rise = launch.ball_speed * sin(launch.launch)
    time = 2.0 * rise / GRAVITY
    carry = launch.ball_speed * cos(launch.launch) * time
    assert flight.flight_time == pytest.approx(time, rel=1e-9)
    assert flight.carry == pytest.approx(carry, rel=1e-9)
    assert flight.carry_offline == pytest.approx(carry * sin(launch.direction), rel=1e-9)
    assert flight.peak_height == pytest.approx(rise**2 / (2.0 * GRAVITY), rel=1e-9)
    assert flight.landing_angle == pytest.approx(launch.launch, rel=1e-9)
    assert flight.landing_speed == pytest.approx(launch.ball_speed, rel=1e-9)


@QUICK
@given(launches, places)
def test_a_mirrored_shot_in_mirrored_wind_is_the_mirror_image(
    launch: Launch, where: Conditions
) -> None:
    flight = fly_quickly(launch, where)
    mirror = fly_quickly(
        replace(launch, axis=-launch.axis, direction=-launch.direction),
        replace(where, wind_across=-where.wind_across),
    )
    for field in fields(Flight):
        found, expected = getattr(mirror, field.name), getattr(flight, field.name)
        assert found == (-expected if field.name in MIRRORED else expected), field.name


@QUICK
@given(launches, places)
def test_wind_that_is_the_same_everywhere_is_still_air_on_the_move(
    launch: Launch, where: Conditions
) -> None:
    windy = replace(where, roughness=0.0)
    wind = np.array([windy.wind_along, 0.0, windy.wind_across])
    level = launch.ball_speed * cos(launch.launch)
    velocity = np.array(
        [
            level * cos(launch.direction),
            launch.ball_speed * sin(launch.launch),
            level * sin(launch.direction),
        ]
    )
    spin = launch.spin * np.array([0.0, -sin(launch.axis), cos(launch.axis)])
    there = fly_from_vectors(velocity, spin, windy)
    still = fly_from_vectors(velocity - wind, spin, _still(windy))
    assert there.flight_time == pytest.approx(still.flight_time, rel=1e-9)
    assert there.peak_height == pytest.approx(still.peak_height, rel=1e-9)
    assert there.landing_spin == pytest.approx(still.landing_spin, rel=1e-9)
    drift = windy.wind_across * there.flight_time
    assert there.carry_offline == pytest.approx(still.carry_offline + drift, abs=1e-7)


@FEW
@given(drives, places)
def test_spin_decays_with_the_way_through_the_air(launch: Launch, where: Conditions) -> None:
    calm = _still(where)
    path = follow(launch, calm, 0.01)
    way = np.linalg.norm(np.diff(path.position, axis=0), axis=1).sum()
    lost = 2.0e-5 * calm.air.density / 1.20 * float(way) / BALL_RADIUS
    assert path.spin[-1] == pytest.approx(launch.spin * exp(-lost), rel=1e-5)


@QUICK
@given(launches)
def test_without_spin_nothing_moves_a_ball_sideways(launch: Launch) -> None:
    flight = fly_quickly(replace(launch, spin=0.0, direction=0.0), conditions(tail=5.0))
    assert flight.carry_offline == 0.0


@QUICK
@given(launches, places)
def test_no_ball_lands_with_more_speed_or_spin_than_it_started_with(
    launch: Launch, where: Conditions
) -> None:
    flight = fly_quickly(launch, _still(where))
    assert flight.landing_speed < launch.ball_speed
    assert flight.landing_spin <= launch.spin
    assert 0.0 < flight.landing_angle <= 0.5 * pi


@FEW
@given(drives, places)
def test_the_compiled_loop_follows_the_reference(launch: Launch, where: Conditions) -> None:
    found, expected = fly_quickly(launch, where), fly(launch, where)
    assert found.carry / YARD == pytest.approx(expected.carry / YARD, abs=0.016)
    assert found.peak_height / YARD == pytest.approx(expected.peak_height / YARD, abs=0.016)
    assert found.landing_angle == pytest.approx(expected.landing_angle, abs=0.02 * DEGREE)


@pytest.mark.parametrize(
    ("launch", "spin"),
    [
        (2.0, 3500.0),
        (5.0, 3000.0),
        (8.0, 3600.0),
        (11.5, 2200.0),
        (15.0, 1500.0),
        (15.0, 3000.0),
        (20.0, 6000.0),
        (30.0, 9500.0),
    ],
)
def test_more_speed_always_carries_and_goes_further(launch: float, spin: float) -> None:
    """A chip is let off: it may lose centimetres of total when it no longer hops a last time."""
    speeds = range(10, 231)
    rows = np.array([_row(drive(float(mph), launch, spin)) for mph in speeds])
    table = fly_many(rows, conditions())
    assert (np.diff(table.carry) > 0.0).all()
    assert (np.diff(table.total)[speeds.index(20) :] > 0.0).all()
    assert (np.diff(table.total) > -0.05).all()


def _row(launch: Launch) -> list[float]:
    return [launch.ball_speed, launch.launch, launch.spin, launch.axis, launch.direction]
