"""Guards, doubts and edges of the flight."""

import numpy as np
import pytest

from loftwright.constants import BALL_RADIUS, DEGREE, FOOT, MILE_PER_HOUR, YARD
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.air import air
from loftwright.physics.flight import (
    Conditions,
    Launch,
    fly,
    fly_from_vectors,
    fly_many,
    fly_quickly,
    follow,
)
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import Delivery, strike, strike_many
from loftwright.physics.spin_axis import axis_from_tilt, tilt_from_axis
from shots import CALM, STANDARD_AIR, flown, shot, vectors_of


def said(launch: Launch, conditions: Conditions = CALM) -> str:
    return " ".join(fly_quickly(launch, conditions).warnings)


def test_an_ordinary_drive_raises_no_doubt() -> None:
    assert flown(160.0, 12.0, 2500.0).warnings == ()


@pytest.mark.parametrize("launch", [shot(120.0, -2.0, 2500.0), shot(120.0, 5.0, 400.0, 180.0)])
def test_a_topped_ball_has_no_total_and_says_why(launch: Launch) -> None:
    for fly_it in (fly, fly_quickly):
        flight = fly_it(launch, CALM)
        assert np.isnan(flight.total)
        assert "Topped" in " ".join(flight.warnings)


def test_a_level_launch_lands_only_on_the_way_down() -> None:
    flight = fly_quickly(shot(150.0, 0.0, 3500.0), CALM)
    assert flight.carry > 20.0
    assert fly(shot(150.0, 0.0, 3500.0), CALM).carry == pytest.approx(flight.carry, abs=0.05)


@pytest.mark.parametrize(
    ("launch", "words"),
    [
        (shot(170.0, 8.0, 800.0), "flatter than 25"),
        (shot(170.0, 12.0, 800.0), "below 1,000 rpm"),
        (shot(60.0, 65.0, 3000.0), "steeper than 60"),
        (shot(80.0, 40.0, 9500.0), "so much spin"),
        (shot(45.0, 12.0, 3000.0), "so slow a ball"),
        (shot(250.0, 10.0, 2500.0), "faster than the air forces"),
    ],
)
def test_doubts_are_said_in_words(launch: Launch, words: str) -> None:
    assert words in said(launch)


def test_strong_wind_and_thin_air_are_doubts() -> None:
    windy = Conditions(air=STANDARD_AIR, wind_along=-25.0 * MILE_PER_HOUR)
    thin = Conditions(air=air(289.0, 8000.0 * FOOT, 0.3))
    assert "above 20 mph" in said(shot(160.0, 12.0, 2500.0), windy)
    assert "6,000 ft" in said(shot(160.0, 12.0, 2500.0), thin)


def test_a_ball_that_drops_steeply_stops_where_it_lands() -> None:
    flight = flown(60.0, 65.0, 3000.0)
    assert flight.total == flight.carry


def test_a_lob_into_the_wind_may_end_behind_the_tee() -> None:
    wind = Conditions(air=STANDARD_AIR, wind_along=-30.0 * MILE_PER_HOUR)
    flight = fly_quickly(shot(70.0, 75.0, 9000.0), wind)
    assert "behind the tee" in " ".join(flight.warnings)
    assert flight.carry > 0.0


@pytest.mark.parametrize("fly_it", [fly, fly_quickly])
def test_a_ball_that_is_not_struck_goes_nowhere(fly_it: object) -> None:
    flight = fly_it(shot(0.0, 12.0, 0.0), CALM)  # type: ignore[operator]
    assert flight.carry == flight.total == flight.flight_time == 0.0


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_missing_number_is_refused(bad: float) -> None:
    with pytest.raises(InputError, match="missing"):
        fly_quickly(shot(bad, 12.0, 2500.0), CALM)
    with pytest.raises(InputError, match="missing"):
        fly_from_vectors(np.array([60.0, bad, 0.0]), np.zeros(3), CALM)


def test_negative_spin_is_refused_with_the_mend() -> None:
    with pytest.raises(InputError, match="topspin"):
        fly(shot(150.0, 12.0, -2500.0), CALM)


def test_more_wind_than_the_model_bears_is_refused() -> None:
    with pytest.raises(InputError, match="30 mph"):
        Conditions(air=STANDARD_AIR, wind_across=31.0 * MILE_PER_HOUR)


@pytest.mark.parametrize(
    "wrong", [{"roughness": -1.0}, {"drag_scale": 3.0}, {"lift_scale": float("nan")}]
)
def test_conditions_outside_the_model_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(InputError, match="cannot be used"):
        Conditions(air=STANDARD_AIR, **wrong)  # type: ignore[arg-type]


def test_a_silly_time_step_is_refused() -> None:
    with pytest.raises(InputError, match="time step"):
        fly_quickly(shot(150.0, 12.0, 2500.0), CALM, step=2.0)


def test_a_ball_that_never_lands_is_an_error_not_an_answer() -> None:
    airless = Conditions(air=STANDARD_AIR, drag_scale=0.0, lift_scale=0.0)
    for fly_it in (fly, fly_quickly):
        with pytest.raises(ConvergenceError, match="still in the air"):
            fly_it(shot(1500.0, 60.0, 2500.0), airless)


def test_a_table_flies_as_its_rows_do() -> None:
    launches = np.array([[60.0, 0.2, 270.0, 0.1, -0.02], [70.0, 0.18, 250.0, -0.05, 0.03]])
    table = fly_many(launches, CALM, step=0.05)
    for row, launch in enumerate(launches):
        one = fly_quickly(
            Launch(
                ball_speed=launch[0],
                launch=launch[1],
                spin=launch[2],
                axis=launch[3],
                direction=launch[4],
            ),
            CALM,
        )
        for name in ("carry", "total", "total_offline", "peak_height", "landing_angle"):
            assert getattr(table, name)[row] == pytest.approx(getattr(one, name), abs=1e-9)


def test_rows_that_cannot_be_flown_are_not_numbers_and_harm_no_other() -> None:
    launches = np.tile([60.0, 0.2, 270.0, 0.0, 0.0], (80, 1))
    launches[3, 2] = np.nan
    launches[5, 0] = -1.0
    launches[7, 0] = 0.0
    launches[9, 1] = -0.1
    table = fly_many(launches, CALM)
    assert np.isnan(table.carry[[3, 5]]).all()
    assert table.carry[7] == 0.0
    assert np.isnan(table.total[9])
    assert np.isfinite(np.delete(table.total, [3, 5, 9])).all()


def test_a_table_of_the_wrong_shape_is_refused() -> None:
    with pytest.raises(InputError, match="five columns"):
        fly_many(np.zeros((3, 4)), CALM)


def test_an_empty_table_flies_nothing() -> None:
    assert fly_many(np.zeros((0, 5)), CALM).carry.shape == (0,)


def test_a_path_ends_where_the_ball_lands() -> None:
    launch = shot(160.0, 12.0, 2500.0, 5.0, -2.0)
    path, flight = follow(launch, CALM), fly_quickly(launch, CALM)
    assert np.hypot(path.position[-1, 0], path.position[-1, 2]) == pytest.approx(flight.carry)
    assert path.time[-1] == pytest.approx(flight.flight_time)
    assert path.position[:, 1].max() == pytest.approx(flight.peak_height, abs=0.05)


def test_a_vector_spin_in_the_upright_plane_flies_as_its_tilt() -> None:
    launch = shot(160.0, 12.0, 2500.0, 8.0, 3.0)
    velocity, spin = vectors_of(launch)
    by_vector, by_tilt = fly_from_vectors(velocity, spin, CALM), fly_quickly(launch, CALM)
    assert by_vector.total_offline == pytest.approx(by_tilt.total_offline, abs=1e-9)
    assert by_vector.total == pytest.approx(by_tilt.total, abs=1e-9)


def test_a_ball_without_spin_may_be_given_as_a_vector() -> None:
    flight = fly_from_vectors(np.array([60.0, 12.0, 0.0]), np.zeros(3), CALM)
    assert flight.carry_offline == pytest.approx(0.0, abs=1e-12)


def test_an_impacts_axis_becomes_a_tilt_with_little_loss() -> None:
    """The spin about the line of flight is lost: 0.3 yd offline at an axis of 12 degrees."""
    delivery = Delivery(
        head_speed=50.0, attack=0.0, path=-3.0 * DEGREE, face=0.0, loft=13.0 * DEGREE
    )
    hit = strike(REFERENCE_HEAD, delivery)
    exact = fly_from_vectors(np.array(hit.velocity), np.array(hit.spin_vector), CALM)
    row = strike_many(
        REFERENCE_HEAD, np.array([[50.0, 0.0, -3.0 * DEGREE, 0.0, 13.0 * DEGREE, 0.0, 0.0]])
    )
    tilted = fly_many(row, CALM, step=0.05)
    assert hit.axis / DEGREE == pytest.approx(12.4, abs=0.1)
    assert tilted.carry_offline[0] == pytest.approx(exact.carry_offline, abs=0.35 * YARD)
    assert tilted.carry[0] == pytest.approx(exact.carry, abs=0.1 * YARD)


@pytest.mark.parametrize("tilt", np.linspace(-3.0, 3.0, 13))
def test_tilt_and_axis_are_each_others_inverse(tilt: float) -> None:
    assert tilt_from_axis(axis_from_tilt(tilt, 0.3), 0.3) == pytest.approx(tilt)


def test_backspin_surface_speed_is_radius_times_spin_at_first_contact() -> None:
    assert pytest.approx(21.335e-3) == BALL_RADIUS
