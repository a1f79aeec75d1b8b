"""Flying balls: guards, warnings, spin as a vector, tables of many."""

from dataclasses import fields, replace
from math import cos, inf, isnan, nan, sin

import numpy as np
import pytest

from drives import conditions, drive
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.flight import (
    Flight,
    FlightTable,
    Launch,
    fly,
    fly_from_vectors,
    fly_many,
    fly_quickly,
    follow,
)

HOME = conditions()
METHODS = [fly, fly_quickly]


def _row(launch: Launch) -> list[float]:
    return [launch.ball_speed, launch.launch, launch.spin, launch.axis, launch.direction]


def _says(flight: Flight, words: str) -> bool:
    return any(words in warning for warning in flight.warnings)


def test_an_ordinary_drive_has_no_warnings() -> None:
    assert fly(drive(155.0, 13.0, 2600.0), HOME).warnings == ()


@pytest.mark.parametrize("method", METHODS)
def test_a_ball_that_is_not_struck_stays_on_the_tee(method: object) -> None:
    assert callable(method)
    flight = method(drive(0.0, 12.0, 2500.0), HOME)
    assert [getattr(flight, field.name) for field in fields(flight)] == [0.0] * 9 + [0, ()]


@pytest.mark.parametrize("name", ["ball_speed", "launch", "spin", "axis", "direction"])
@pytest.mark.parametrize("value", [nan, inf, -inf])
@pytest.mark.parametrize("method", METHODS)
def test_a_missing_launch_number_is_refused(method: object, name: str, value: float) -> None:
    assert callable(method)
    with pytest.raises(InputError, match="missing or infinite"):
        method(replace(drive(150.0, 12.0, 2500.0), **{name: value}), HOME)


@pytest.mark.parametrize("name", ["ball_speed", "spin"])
def test_negative_speeds_are_refused_with_the_way_to_give_topspin(name: str) -> None:
    with pytest.raises(InputError, match="cannot be negative") as refused:
        fly_quickly(replace(drive(150.0, 12.0, 2500.0), **{name: -1.0}), HOME)
    assert "topspin" in refused.value.mend


@pytest.mark.parametrize("step", [0.0, -0.1, 1.0, nan])
def test_a_step_that_cannot_be_is_refused(step: float) -> None:
    with pytest.raises(InputError, match="time step"):
        fly_quickly(drive(150.0, 12.0, 2500.0), HOME, step)


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("launch", [drive(120.0, -2.0, 2500.0), drive(120.0, 0.0, 0.0)])
def test_a_ball_struck_downwards_lands_at_the_tee_and_has_no_total(
    method: object, launch: Launch
) -> None:
    assert callable(method)
    flight = method(launch, HOME)
    assert flight.carry == flight.flight_time == flight.peak_height == 0.0
    assert flight.landing_speed == pytest.approx(launch.ball_speed)
    assert isnan(flight.total)
    assert _says(flight, "Topped")


@pytest.mark.parametrize("method", METHODS)
def test_topspin_has_a_carry_and_no_total(method: object) -> None:
    assert callable(method)
    flight = method(drive(120.0, 5.0, 2500.0, axis=180.0), HOME)
    assert 20.0 < flight.carry / YARD < 40.0
    assert isnan(flight.total)
    assert isnan(flight.total_offline)
    assert _says(flight, "topspin")


@pytest.mark.parametrize("method", METHODS)
def test_a_level_ball_that_lift_carries_off_the_tee_flies(method: object) -> None:
    assert callable(method)
    flight = method(drive(170.0, 0.0, 6000.0), HOME)
    assert flight.carry / YARD > 100.0
    assert flight.peak_height > 1.0
    assert isnan(flight.total)


def test_a_flat_landing_is_marked() -> None:
    flight = fly(drive(170.0, 11.5, 0.0), HOME)
    assert flight.landing_angle < 25.0 * DEGREE
    assert _says(flight, "flatter than 25°")
    assert _says(flight, "below 1,000 rpm")
    assert flight.total > flight.carry


def test_a_steep_landing_has_no_run() -> None:
    flight = fly(drive(80.0, 50.0, 8000.0), HOME)
    assert flight.landing_angle > 60.0 * DEGREE
    assert flight.total == flight.carry
    assert _says(flight, "steeper than 60°")


def test_a_ball_that_ends_behind_the_tee_is_marked() -> None:
    flight = fly(drive(60.0, 80.0, 9000.0), conditions(tail=-30.0))
    assert _says(flight, "behind the tee")
    assert flight.total > 0.0


def test_an_iron_is_outside_driver_range() -> None:
    assert _says(fly(drive(100.0, 30.0, 9500.0), HOME), "so much spin")


def test_a_chip_is_outside_driver_range() -> None:
    assert _says(fly(drive(40.0, 20.0, 2500.0), HOME), "so slow")


def test_a_ball_faster_than_any_measured_is_marked() -> None:
    assert _says(fly(drive(215.0, 10.0, 2500.0), HOME), "faster than")


def test_strong_wind_is_marked_and_a_gale_refused() -> None:
    assert not fly(drive(155.0, 13.0, 2600.0), conditions(tail=20.0)).warnings
    assert _says(fly(drive(155.0, 13.0, 2600.0), conditions(tail=-21.0)), "above 20 mph")
    assert conditions(tail=18.0, cross=-24.0).wind_along > 0.0
    with pytest.raises(InputError, match="31 mph") as refused:
        conditions(cross=31.0)
    assert refused.value.place == "wind"


def test_thin_air_is_marked() -> None:
    assert not _says(fly(drive(155.0, 13.0, 2600.0), conditions(altitude=5900.0)), "thin")
    assert _says(fly(drive(155.0, 13.0, 2600.0), conditions(altitude=6100.0)), "thin")


def test_a_ball_that_does_not_come_down_is_an_error_for_one_and_nan_for_many() -> None:
    vacuum = conditions(drag_scale=0.0, lift_scale=0.0)
    rocket = Launch(ball_speed=400.0, launch=80.0 * DEGREE, spin=200.0)
    for method in METHODS:
        with pytest.raises(ConvergenceError, match="still in the air"):
            method(rocket, vacuum)
    table = fly_many(np.array([_row(rocket), _row(drive(150.0, 12.0, 2500.0))] * 40), vacuum)
    assert np.isnan(table.carry[::2]).all()
    assert np.isfinite(table.carry[1::2]).all()


def _vectors(launch: Launch) -> tuple[np.ndarray, np.ndarray]:
    """Velocity and spin vectors as an impact gives them: X target, Y up, Z right."""
    rise, turn, tilt = launch.launch, launch.direction, launch.axis
    velocity = launch.ball_speed * np.array(
        [cos(rise) * cos(turn), sin(rise), cos(rise) * sin(turn)]
    )
    axis = np.array([-cos(tilt) * sin(turn), -sin(tilt), cos(tilt) * cos(turn)])
    return velocity, launch.spin * axis


def test_a_spin_vector_flies_as_the_tilt_it_stands_for() -> None:
    launch = drive(150.0, 13.0, 2600.0, axis=8.0, direction=-3.0)
    windy = conditions(tail=-5.0, cross=7.0)
    found, expected = fly_from_vectors(*_vectors(launch), windy), fly_quickly(launch, windy)
    for field in fields(found):
        assert getattr(found, field.name) == pytest.approx(getattr(expected, field.name))


def test_spin_about_the_line_of_flight_counts_once_the_ball_falls() -> None:
    velocity, spin = _vectors(drive(165.0, 12.0, 2700.0))
    rifle = spin + 200.0 * velocity / np.linalg.norm(velocity)
    plain, rifled = (fly_from_vectors(velocity, each, HOME) for each in (spin, rifle))
    assert plain.carry_offline == 0.0
    assert abs(rifled.carry_offline) / YARD > 5.0


def test_the_tilt_used_across_the_launch_direction_costs_what_was_computed() -> None:
    """Self-consistent: 165 mph, 12 degrees, 2700 rpm, axis 10 degrees: 0.2 and 0.1 yd."""
    launch = drive(165.0, 12.0, 2700.0, axis=10.0)
    velocity, _ = _vectors(launch)
    rise, tilt = launch.launch, launch.axis
    spin = launch.spin * np.array([sin(tilt) * sin(rise), -sin(tilt) * cos(rise), cos(tilt)])
    exact, reused = fly_from_vectors(velocity, spin, HOME), fly_quickly(launch, HOME)
    assert abs(exact.carry_offline - reused.carry_offline) / YARD == pytest.approx(0.2, abs=0.051)
    assert abs(exact.carry - reused.carry) / YARD == pytest.approx(0.1, abs=0.051)


def test_a_spin_vector_of_nothing_flies_straight() -> None:
    velocity, _ = _vectors(drive(150.0, 13.0, 2600.0))
    assert fly_from_vectors(velocity, np.zeros(3), HOME).carry_offline == 0.0


@pytest.mark.parametrize("bad", [np.array([1.0, nan, 0.0]), np.array([inf, 0.0, 0.0])])
def test_vectors_with_missing_numbers_are_refused(bad: np.ndarray) -> None:
    good = np.array([60.0, 10.0, 0.0])
    with pytest.raises(InputError):
        fly_from_vectors(bad, good, HOME)
    with pytest.raises(InputError):
        fly_from_vectors(good, bad, HOME)


def _drives(count: int) -> np.ndarray:
    rng = np.random.default_rng(7)
    return np.column_stack(
        [
            rng.uniform(100.0, 183.0, count) * MILE_PER_HOUR,
            rng.uniform(6.0, 18.0, count) * DEGREE,
            rng.uniform(1500.0, 4000.0, count) * REVOLUTION_PER_MINUTE,
            rng.normal(0.0, 8.0, count) * DEGREE,
            rng.normal(0.0, 3.0, count) * DEGREE,
        ]
    )


@pytest.mark.parametrize("count", [5, 100])
def test_many_balls_fly_as_each_of_them_alone(count: int) -> None:
    launches, windy = _drives(count), conditions(tail=-6.0, cross=5.0)
    table = fly_many(launches, windy, 0.05)
    for index, (speed, rise, spin, axis, turn) in enumerate(launches[:5].tolist()):
        launch = Launch(ball_speed=speed, launch=rise, spin=spin, axis=axis, direction=turn)
        flight = fly_quickly(launch, windy, 0.05)
        for field in fields(table):
            found = getattr(table, field.name)[index]
            assert found == pytest.approx(getattr(flight, field.name), abs=1e-5), field.name


@pytest.mark.parametrize("count", [10, 100])
@pytest.mark.parametrize("column", range(5))
def test_a_row_with_a_missing_number_is_missing_and_spoils_no_other(
    count: int, column: int
) -> None:
    launches = _drives(count)
    launches[3, column] = nan
    table, whole = fly_many(launches, HOME), fly_many(_drives(count), HOME)
    others = np.arange(count) != 3
    for field in fields(table):
        found, expected = getattr(table, field.name), getattr(whole, field.name)
        assert isnan(found[3])
        np.testing.assert_allclose(found[others], expected[others], rtol=1e-12, atol=1e-12)


@pytest.mark.parametrize("column", [0, 2])
def test_a_row_with_a_negative_speed_is_missing(column: int) -> None:
    launches = _drives(4)
    launches[1, column] *= -1.0
    assert np.isnan(fly_many(launches, HOME).carry).tolist() == [False, True, False, False]


@pytest.mark.parametrize("count", [6, 100])
def test_tables_hold_the_same_guards_as_single_flights(count: int) -> None:
    launches = _drives(count)
    launches[0, 1] = -2.0 * DEGREE
    launches[1, 1] = 0.0
    launches[2, 3] = 180.0 * DEGREE
    launches[3, 0] = 0.0
    launches[4] = _row(drive(80.0, 50.0, 8000.0))
    table = fly_many(launches, HOME)
    assert np.isnan(table.total[:3]).all()
    assert np.isfinite(table.carry[:3]).all()
    assert table.carry[3] == table.total[3] == table.flight_time[3] == 0.0
    assert table.total[4] == table.carry[4]
    assert table.landing_angle[4] > 60.0 * DEGREE
    assert np.isfinite(table.total[4:]).all()


def test_an_empty_table_flies_to_an_empty_table() -> None:
    assert fly_many(np.empty((0, 5)), HOME).carry.shape == (0,)


@pytest.mark.parametrize("shape", [(5,), (3, 4), (2, 5, 1)])
def test_a_table_of_another_shape_is_refused(shape: tuple[int, ...]) -> None:
    with pytest.raises(InputError, match="five columns"):
        fly_many(np.ones(shape), HOME)


def test_flight_tables_cannot_be_written_to() -> None:
    table = fly_many(_drives(3), HOME)
    assert isinstance(table, FlightTable)
    with pytest.raises(ValueError, match="read-only"):
        table.carry[0] = 1.0


def test_whole_numbers_fly_as_floating_ones() -> None:
    whole = Launch(ball_speed=70, launch=0, spin=300, axis=0, direction=0)
    floating = Launch(ball_speed=70.0, launch=0.0, spin=300.0)
    assert fly_quickly(whole, HOME).carry == fly_quickly(floating, HOME).carry


def test_a_path_ends_where_the_ball_lands() -> None:
    launch, windy = drive(150.0, 13.0, 2600.0, axis=5.0), conditions(tail=3.0, cross=6.0)
    path, flight = follow(launch, windy, 0.01), fly(launch, windy)
    assert path.time[-1] == pytest.approx(flight.flight_time, abs=1e-3)
    assert path.position[-1, 1] == 0.0
    assert path.position[-1, 2] == pytest.approx(flight.carry_offline, abs=0.05)
    assert path.position[:, 1].max() == pytest.approx(flight.peak_height, abs=1e-2)
    assert path.spin[-1] == pytest.approx(flight.landing_spin, rel=1e-4)
    assert np.linalg.norm(path.velocity[-1]) == pytest.approx(flight.landing_speed, rel=1e-3)


def test_a_path_of_a_topped_ball_is_its_tee() -> None:
    assert follow(drive(120.0, -2.0, 2500.0), HOME).position.tolist() == [[0.0, 0.0, 0.0]]
