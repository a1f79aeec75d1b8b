"""Air at a place: ranges, directions of change, and the pressure altitude."""

from math import nan

import pytest

from loftwright.errors import InputError
from loftwright.physics.air import (
    Air,
    air,
    air_viscosity,
    moist_air_density,
    pressure_altitude,
    standard_pressure,
)

MILD = 290.0


def test_warm_air_is_thinner() -> None:
    assert air(300.0, 0.0, 0.5).density < air(MILD, 0.0, 0.5).density


def test_humid_air_is_thinner() -> None:
    assert air(300.0, 0.0, 1.0).density < air(300.0, 0.0, 0.0).density


def test_high_air_is_thinner_and_no_less_viscous() -> None:
    high, low = air(MILD, 1500.0, 0.5), air(MILD, 0.0, 0.5)
    assert high.density < low.density
    assert high.viscosity == low.viscosity


def test_density_of_dry_air_is_nearly_that_of_an_ideal_gas() -> None:
    molar_gas_constant_over_mass = 8.314462618 / 28.9655e-3
    ideal = 101_325.0 / (molar_gas_constant_over_mass * MILD)
    assert moist_air_density(MILD, 101_325.0, 0.0) == pytest.approx(ideal, rel=1e-3)


def test_viscosity_grows_with_temperature() -> None:
    assert air_viscosity(310.0) > air_viscosity(280.0)


def test_barometer_takes_the_place_of_the_altitude() -> None:
    read = air(MILD, 0.0, 0.5, pressure=standard_pressure(2000.0))
    assert read.density == pytest.approx(air(MILD, 2000.0, 0.5).density)
    assert read.pressure_altitude == pytest.approx(2000.0)


def test_pressure_altitude_is_the_inverse_of_the_standard_pressure() -> None:
    for altitude in (-400.0, 0.0, 1000.0, 3500.0):
        assert pressure_altitude(standard_pressure(altitude)) == pytest.approx(altitude, abs=1e-6)


@pytest.mark.parametrize(
    ("temperature", "altitude", "humidity", "pressure", "place"),
    [
        (263.0, 0.0, 0.5, None, "temperature"),
        (318.4, 0.0, 0.5, None, "temperature"),
        (nan, 0.0, 0.5, None, "temperature"),
        (MILD, -501.0, 0.5, None, "altitude"),
        (MILD, 4001.0, 0.5, None, "altitude"),
        (MILD, 0.0, 50.0, None, "humidity"),
        (MILD, 0.0, -0.1, None, "humidity"),
        (MILD, 0.0, 0.5, 29.92, "pressure"),
    ],
)
def test_air_outside_the_model_is_refused_by_name(
    temperature: float, altitude: float, humidity: float, pressure: float | None, place: str
) -> None:
    with pytest.raises(InputError) as refused:
        air(temperature, altitude, humidity, pressure)
    assert refused.value.place == place
    assert refused.value.mend.startswith("Give ")


@pytest.mark.parametrize("temperature", [263.15, 318.15])
def test_the_coldest_and_the_hottest_air_are_accepted(temperature: float) -> None:
    assert 0.9 < air(temperature, 0.0, 0.5).density < 1.4


def test_air_made_by_hand_must_be_air() -> None:
    with pytest.raises(InputError):
        Air(density=1000.0, viscosity=1.8e-5)
