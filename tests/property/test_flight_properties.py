"""What holds of every flight."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.constants import BALL_RADIUS, GRAVITY, MILE_PER_HOUR, YARD
from loftwright.physics.flight import (
    Conditions,
    Launch,
    fly,
    fly_from_vectors,
    fly_many,
    fly_quickly,
    follow,
)
from shots import CALM, STANDARD_AIR, shot, vectors_of

launches = st.builds(
    shot,
    ball_speed=st.floats(110.0, 185.0),
    launch=st.floats(5.0, 20.0),
    spin=st.floats(1200.0, 4500.0),
    axis=st.floats(-30.0, 30.0),
    direction=st.floats(-8.0, 8.0),
)
winds = st.floats(-9.0, 9.0)


@given(launches)
def test_without_air_forces_the_path_is_a_parabola(launch: Launch) -> None:
    bare = Conditions(air=STANDARD_AIR, drag_scale=0.0, lift_scale=0.0)
    flight = fly_quickly(launch, bare)
    speed, rise = launch.ball_speed, launch.launch
    assert flight.carry == pytest.approx(speed**2 * np.sin(2.0 * rise) / GRAVITY, rel=1e-7)
    assert flight.peak_height == pytest.approx(
        (speed * np.sin(rise)) ** 2 / (2.0 * GRAVITY), rel=1e-7
    )
    assert flight.landing_angle == pytest.approx(rise, abs=1e-7)


@given(launches)
def test_a_mirrored_launch_flies_the_mirror_image(launch: Launch) -> None:
    mirrored = replace(launch, axis=-launch.axis, direction=-launch.direction)
    one, other = fly_quickly(launch, CALM), fly_quickly(mirrored, CALM)
    assert other.carry_offline == pytest.approx(-one.carry_offline, abs=1e-9)
    assert other.total_offline == pytest.approx(-one.total_offline, abs=1e-9)
    assert other.total == pytest.approx(one.total, abs=1e-9)


@given(launches, winds, winds)
def test_a_uniform_wind_is_still_air_in_a_moving_frame(
    launch: Launch, along: float, across: float
) -> None:
    windy = Conditions(air=STANDARD_AIR, wind_along=along, wind_across=across, roughness=0.0)
    velocity, spin = vectors_of(launch)
    wind = np.array([along, 0.0, across])
    blown = fly_from_vectors(velocity, spin, windy)
    still = fly_from_vectors(velocity - wind, spin, CALM)
    ahead = np.sqrt(max(still.carry**2 - still.carry_offline**2, 0.0)) + along * still.flight_time
    aside = still.carry_offline + across * still.flight_time
    assert blown.flight_time == pytest.approx(still.flight_time, abs=1e-6)
    assert blown.carry_offline == pytest.approx(aside, abs=1e-4)
    assert blown.carry == pytest.approx(np.hypot(ahead, aside), abs=1e-4)


@given(launches)
def test_spin_decays_with_the_air_that_is_passed(launch: Launch) -> None:
    path = follow(launch, CALM, step=0.01)
    steps = np.diff(path.time)
    speeds = np.linalg.norm(path.velocity, axis=1)
    passed = float((steps * (speeds[:-1] + speeds[1:]) / 2.0).sum())
    rate = 2.0e-5 * CALM.air.density / (1.20 * BALL_RADIUS)
    assert path.spin[-1] == pytest.approx(launch.spin * np.exp(-rate * passed), rel=1e-4)


@given(launches)
def test_a_ball_without_spin_does_not_curve(launch: Launch) -> None:
    straight = replace(launch, spin=0.0)
    flight = fly_quickly(straight, CALM)
    assert flight.carry_offline == pytest.approx(flight.carry * np.sin(launch.direction), abs=1e-7)


@settings(max_examples=15)
@given(launches, winds, winds)
def test_the_compiled_loop_agrees_with_the_reference(
    launch: Launch, along: float, across: float
) -> None:
    windy = Conditions(air=STANDARD_AIR, wind_along=along, wind_across=across)
    quick, exact = fly_quickly(launch, windy), fly(launch, windy)
    assert quick.carry == pytest.approx(exact.carry, abs=0.03 * YARD)
    assert quick.total == pytest.approx(exact.total, abs=0.06 * YARD)


@pytest.mark.parametrize(
    ("launch", "spin"),
    [
        (2.0, 2500.0),
        (8.0, 3000.0),
        (11.0, 2200.0),
        (13.0, 2600.0),
        (15.0, 1800.0),
        (16.3, 7000.0),
        (22.0, 5000.0),
        (30.0, 9500.0),
    ],
)
def test_a_faster_ball_goes_further_whatever_its_launch(launch: float, spin: float) -> None:
    """Measured property, 10 to 230 mph; the eight pairs span 2 to 30 degrees, 1800 to 9500 rpm."""
    speeds = np.linspace(10.0, 230.0, 111)
    template = shot(1.0, launch, spin)
    table = np.zeros((len(speeds), 5))
    table[:, 0] = speeds * MILE_PER_HOUR
    table[:, 1] = template.launch
    table[:, 2] = template.spin
    flights = fly_many(table, CALM)
    assert (np.diff(flights.carry) > 0.0).all()
    assert (np.diff(flights.total) > 0.0).all()
