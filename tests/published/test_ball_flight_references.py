"""Sixteen reference flights, and single evaluations of every formula.

Status: self-consistent. The rows were computed by a separate program from the equations that the
modules under `loftwright.physics` cite, with DOP853 at a tolerance of 1e-12; no table of carry,
height and time for stated launch numbers was found in print. They guard the program, not the
physics: the published checks stand in the other files named `test_ball_flight_*`.
"""

from typing import Final, NamedTuple

import pytest

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics.aero import drag_coefficient, lift_coefficient
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Flight, Launch, fly, fly_quickly
from loftwright.physics.turf import GROUNDS, bounce, run_out


class Row(NamedTuple):
    """Inputs and outputs in trade units; wind at 10 m in mph, distances in yards."""

    ball_speed: float
    launch: float
    spin: float
    axis: float
    direction: float
    tail: float
    cross: float
    fahrenheit: float
    altitude_feet: float
    humidity: float
    roughness: float
    drag_scale: float
    lift_scale: float
    ground: str
    density: float
    carry: float
    carry_offline: float
    total: float
    total_offline: float
    peak: float
    time: float
    landing_angle: float
    landing_speed: float
    landing_spin: float
    impacts: int

    @property
    def shot(self) -> tuple[Launch, Conditions]:
        """The launch and its conditions, in SI."""
        launch = Launch(
            ball_speed=self.ball_speed * MILE_PER_HOUR,
            launch=self.launch * DEGREE,
            direction=self.direction * DEGREE,
            spin=self.spin * REVOLUTION_PER_MINUTE,
            axis=self.axis * DEGREE,
        )
        kelvin = (self.fahrenheit - 32.0) / 1.8 + 273.15
        conditions = Conditions(
            air=air(kelvin, self.altitude_feet * FOOT, self.humidity),
            wind_along=self.tail * MILE_PER_HOUR,
            wind_across=self.cross * MILE_PER_HOUR,
            roughness=self.roughness,
            ground=GROUNDS[self.ground],
            drag_scale=self.drag_scale,
            lift_scale=self.lift_scale,
        )
        return launch, conditions


# fmt: off
ROWS: Final = {
    "R00": Row(
        175.7, 10, 2520, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1, "normal",
        1.18218, 280.417, 0.000, 312.012, 0.000, 30.245, 6.4923, 34.622, 67.177, 1973.6, 12,
    ),
    "R01": Row(
        175.7, 10, 2520, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 290.444, 0.000, 317.243, 0.000, 34.652, 7.0139, 37.419, 66.472, 1953.0, 11,
    ),
    "R02": Row(
        183, 11, 2220, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 302.569, 0.000, 330.359, 0.000, 38.355, 7.1562, 38.706, 68.956, 1700.4, 11,
    ),
    "R03": Row(
        170, 11.5, 2200, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 279.919, 0.000, 310.348, 0.000, 33.595, 6.7051, 36.546, 68.045, 1720.9, 12,
    ),
    "R04": Row(
        155, 8, 3600, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 250.267, 0.000, 267.105, 0.000, 29.001, 6.8294, 38.040, 58.388, 2890.8, 10,
    ),
    "R05": Row(
        152, 14, 2200, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 251.657, 0.000, 280.580, 0.000, 32.026, 6.4045, 36.651, 66.808, 1762.7, 12,
    ),
    "R06": Row(
        150, 14, 2600, 8, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 250.484, 15.137, 273.596, 17.890, 33.743, 6.6876, 38.555, 64.496, 2082.8, 11,
    ),
    "R07": Row(
        140, 13, 2400, -5, -3, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 225.158, -19.017, 255.451, -22.551, 25.187, 5.8247, 32.988, 64.402, 1971.8, 12,
    ),
    "R08": Row(
        170, 11.5, 2200, 0, 0, -15, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 249.638, 0.000, 257.809, 0.000, 37.872, 7.1802, 49.190, 57.324, 1677.9, 9,
    ),
    "R09": Row(
        170, 11.5, 2200, 3, 0, 15, 8, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 300.741, 15.722, 358.891, 21.911, 29.791, 6.2329, 27.970, 80.770, 1764.5, 13,
    ),
    "R10": Row(
        165, 11, 2700, 0, 0, 0, 0, 90, 5280, 0.2, 0.03, 1, 1.1, "normal",
        0.94780, 294.232, 0.000, 335.406, 0.000, 29.701, 6.4710, 31.256, 73.077, 2200.1, 12,
    ),
    "R11": Row(
        130, 15, 3000, 0, 0, 0, 0, 40, 0, 0.8, 0.03, 1, 1.1, "soft",
        1.26910, 206.260, 0.000, 216.018, 0.000, 30.062, 6.3958, 40.308, 57.450, 2462.6, 8,
    ),
    "R12": Row(
        120, 16.3, 7000, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 162.984, 0.000, 164.054, 0.000, 34.737, 6.4811, 49.972, 52.158, 6007.1, 3,
    ),
    "R13": Row(
        170, 12, 2300, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 0.97, 1, "firm",
        1.18218, 279.564, 0.000, 321.383, 0.000, 32.793, 6.5556, 35.682, 69.075, 1800.5, 14,
    ),
    "R14": Row(
        100, 30, 9500, 0, 0, 0, 0, 75, 0, 0.5, 0.03, 1, 1.1, "normal",
        1.18218, 112.744, 0.000, 111.084, 0.000, 37.387, 6.0677, 56.600, 49.983, 8446.7, 5,
    ),
    "R15": Row(
        160, 12, 2500, 0, 0, -10, 5, 75, 0, 0.5, 0, 1, 1.1, "normal",
        1.18218, 248.748, 8.105, 261.720, 9.181, 35.649, 7.0094, 44.181, 58.977, 1948.4, 10,
    ),
}
# fmt: on

# Greatest differences [yd]: tolerances of the rows, and the stated error of the loop at 0.05 s.
REFERENCE_ERROR: Final = {"carry": 0.1, "total": 0.2, "offline": 0.1, "peak": 0.05}
FAST_ERROR: Final = {"carry": 0.016, "total": 0.025, "offline": 0.025, "peak": 0.016}


def _agrees(flight: Flight, row: Row, error: dict[str, float], rounding: float) -> None:
    yards = {
        "carry": (flight.carry, row.carry, error["carry"]),
        "total": (flight.total, row.total, error["total"]),
        "carry offline": (flight.carry_offline, row.carry_offline, error["offline"]),
        "total offline": (flight.total_offline, row.total_offline, error["offline"]),
        "peak": (flight.peak_height, row.peak, error["peak"]),
    }
    for name, (found, printed, tolerance) in yards.items():
        assert found / YARD == pytest.approx(printed, abs=tolerance + rounding), name
    assert flight.flight_time == pytest.approx(row.time, abs=0.005)
    assert flight.landing_angle / DEGREE == pytest.approx(row.landing_angle, abs=0.05)
    assert flight.landing_speed / MILE_PER_HOUR == pytest.approx(row.landing_speed, abs=0.01)
    assert flight.landing_spin / REVOLUTION_PER_MINUTE == pytest.approx(row.landing_spin, abs=0.1)
    assert flight.bounces == row.impacts


@pytest.mark.parametrize("name", ROWS)
def test_air_density_is_that_of_the_reference(name: str) -> None:
    _, conditions = ROWS[name].shot
    assert conditions.air.density == pytest.approx(ROWS[name].density, abs=6e-6)


@pytest.mark.parametrize("name", ROWS)
def test_reference_method_flies_as_the_reference(name: str) -> None:
    _agrees(fly(*ROWS[name].shot), ROWS[name], REFERENCE_ERROR, rounding=0.0)


@pytest.mark.parametrize("name", ROWS)
def test_compiled_loop_flies_as_the_reference_within_its_stated_error(name: str) -> None:
    _agrees(fly_quickly(*ROWS[name].shot), ROWS[name], FAST_ERROR, rounding=0.0005)


@pytest.mark.parametrize(
    ("reynolds", "spin_ratio", "drag", "lift"),
    [
        (2.0e5, 0.092, 0.24003, 0.15493),
        (1.23e5, 0.153, 0.25670, 0.21144),
        (0.81e5, 0.218, 0.30438, 0.27858),
        (1.98e5, 0.044, 0.23148, 0.11419),
        (1e5, 0.02, 0.21612, 0.04777),
        (1e5, 0.26, 0.32478, 0.30956),
        (0.5e5, 0.6, 0.44738, 0.38488),
        (0.9e5, 0.9, 0.56633, 0.45370),
    ],
)
def test_coefficients_of_the_example_ball(
    reynolds: float, spin_ratio: float, drag: float, lift: float
) -> None:
    assert drag_coefficient(reynolds, spin_ratio) == pytest.approx(drag, abs=5.1e-6)
    assert lift_coefficient(reynolds, spin_ratio) == pytest.approx(lift, abs=5.1e-6)


@pytest.mark.parametrize(
    ("fahrenheit", "feet", "humidity", "density"),
    [(75, 0, 0.5, 1.1821832), (59, 0, 0.0, 1.2255213), (90, 5280, 0.2, 0.9477967)],
)
def test_density_of_moist_air(
    fahrenheit: float, feet: float, humidity: float, density: float
) -> None:
    medium = air((fahrenheit - 32.0) / 1.8 + 273.15, feet * FOOT, humidity)
    assert medium.density == pytest.approx(density, abs=5.1e-8)


def test_viscosity_at_75_fahrenheit() -> None:
    assert air(297.0388889, 0.0, 0.5).viscosity == pytest.approx(1.8319559e-5, abs=5.1e-13)


@pytest.mark.parametrize(
    ("ground", "before", "after"),
    [
        ("normal", (24.0, 17.0, 4.5), (9.47794, 6.82550, -11.14785)),
        ("firm", (28.0, 10.0, 3.0), (13.07285, 8.96825, -15.38334)),
        ("normal", (12.0, 16.0, 18.0), (-1.46571, 2.45123, 0.61705)),
    ],
)
def test_single_impacts_on_the_ground(
    ground: str, before: tuple[float, float, float], after: tuple[float, float, float]
) -> None:
    assert bounce(*before, GROUNDS[ground]) == pytest.approx(after, abs=5.1e-6)


def test_whole_runs() -> None:
    run, impacts = run_out(24.0, 17.0, 4.5, GROUNDS["normal"])
    assert run == pytest.approx(26.69149, abs=5.1e-6)
    assert impacts == 12
    assert run_out(12.0, 16.0, 18.0, GROUNDS["normal"])[0] == pytest.approx(-0.81330, abs=5.1e-6)
