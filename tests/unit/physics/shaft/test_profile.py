"""Profiles: what they refuse, and what trimming leaves."""

from dataclasses import FrozenInstanceError

import numpy as np
import pytest

from bench_shafts import BENDING, REFERENCE, STATIONS, TORSION
from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import DEFLECTION, FREQUENCY, within
from loftwright.physics.shaft.mount import Dressing, End, Mount, mounted
from loftwright.physics.shaft.profile import (
    Profile,
    mass_between,
    trimmed,
    uniform_mass_profile,
)


def tapered(**changed: object) -> Profile:
    figures: dict[str, object] = {
        "stations": np.array(STATIONS),
        "bending": np.array(BENDING),
        "torsion": np.array(TORSION),
        "line_density": np.linspace(65.0, 45.0, len(STATIONS)) * GRAM,
    }
    return Profile(**(figures | changed))  # type: ignore[arg-type]


def with_one(values: tuple[float, ...], at: int, value: float) -> FloatArray:
    found = np.array(values)
    found[at] = value
    return found


@pytest.mark.parametrize(
    ("stations", "said"),
    [
        ((0.0,), "at least two stations"),
        (with_one(STATIONS, 3, 0.2), "strictly increasing"),
        (with_one(STATIONS, 3, np.nan), "strictly increasing"),
        (np.array(STATIONS) + 0.01, "first station"),
        (np.array(STATIONS) * 1e3, "mm or inches instead of m"),
        (np.array(STATIONS) * 0.4, "outside 0.5 to 1.4 m"),
    ],
)
def test_stations_run_from_butt_to_tip(stations: object, said: str) -> None:
    with pytest.raises(InputError, match=said):
        tapered(stations=stations)


@pytest.mark.parametrize("value", [4.9, 201.0, 0.0, -30.0, np.nan, np.inf])
def test_a_stiffness_no_shaft_has_is_refused_with_its_station(value: float) -> None:
    with pytest.raises(InputError, match="EI at 300 mm from the butt") as caught:
        tapered(bending=with_one(BENDING, 3, value))
    assert "unit" in caught.value.mend


@pytest.mark.parametrize(
    ("name", "values", "said"),
    [
        ("torsion", with_one(TORSION, 12, 2.9), "GJ at 1143 mm"),
        ("torsion", with_one(TORSION, 0, 81.0), "GJ at 0 mm"),
        ("line_density", np.full(13, 19.0) * GRAM, "g/in or g/mm instead of g/m"),
        ("line_density", np.full(13, 201.0) * GRAM, "outside 20 to 200 g/m"),
        ("bending", np.full(12, 40.0), "13 stations have 12 figures of EI"),
    ],
)
def test_figures_no_shaft_has_are_refused(name: str, values: FloatArray, said: str) -> None:
    with pytest.raises(InputError, match=said):
        tapered(**{name: values})


@pytest.mark.parametrize(
    "value", [99.0 * CYCLE_PER_MINUTE, 2501.0 * CYCLE_PER_MINUTE, 258.0, np.nan]
)
def test_a_frequency_no_shaft_has_is_a_slip_of_units(value: float) -> None:
    with pytest.raises(InputError, match="Hz instead of cycles a minute"):
        within(value, FREQUENCY)


@pytest.mark.parametrize("value", [0.04 * MILLIMETRE, 10.1 * MILLIMETRE, 1.0])
def test_a_deflection_no_shaft_has_is_a_slip_of_units(value: float) -> None:
    with pytest.raises(InputError, match="inches or m instead of mm"):
        within(value, DEFLECTION)


def test_a_profile_keeps_its_figures() -> None:
    shaft = tapered()
    with pytest.raises(FrozenInstanceError):
        shaft.bending = shaft.torsion  # type: ignore[misc]
    with pytest.raises(ValueError, match="read-only"):
        shaft.bending[0] = 1.0


def test_mass_and_balance_are_those_of_the_line() -> None:
    assert pytest.approx(62.0 * GRAM, rel=1e-12) == REFERENCE.mass
    assert pytest.approx(1.143 / 2.0, rel=1e-12) == REFERENCE.balance
    linear = Profile(
        stations=np.array([0.0, 1.0]),
        bending=np.full(2, 45.0),
        torsion=np.full(2, 20.0),
        line_density=np.array([60.0, 30.0]) * GRAM,
    )
    assert linear.mass == pytest.approx(45.0 * GRAM, rel=1e-12)
    assert linear.balance == pytest.approx(4.0 / 9.0, rel=1e-12)
    assert mass_between(linear.stations, linear.line_density, 0.0, 1.0) == pytest.approx(
        (linear.mass, linear.balance)
    )
    assert mass_between(linear.stations, linear.line_density, 0.4, 0.4) == (0.0, 0.4)


def test_what_is_cut_off_and_what_is_left_make_the_shaft() -> None:
    shaft = tapered()
    cut = trimmed(shaft, tip=1.0 * INCH, butt=2.0 * INCH)
    off_tip, _ = mass_between(
        shaft.stations, shaft.line_density, shaft.length - 1.0 * INCH, shaft.length
    )
    off_butt, _ = mass_between(shaft.stations, shaft.line_density, 0.0, 2.0 * INCH)
    assert cut.length == pytest.approx(shaft.length - 3.0 * INCH)
    assert cut.mass + off_tip + off_butt == pytest.approx(shaft.mass, rel=1e-12)
    assert cut.bending[0] == pytest.approx(
        np.interp(2.0 * INCH, shaft.stations, shaft.bending), rel=1e-12
    )


def test_a_cut_at_a_station_keeps_it_once() -> None:
    cut = trimmed(REFERENCE, butt=0.1, tip=0.063)
    assert cut.stations == pytest.approx(np.array(STATIONS[1:-1]) - 0.1)


@pytest.mark.parametrize(("tip", "butt"), [(-0.01, 0.0), (0.0, -0.01), (np.nan, 0.0)])
def test_a_trim_below_nothing_is_refused(tip: float, butt: float) -> None:
    with pytest.raises(InputError, match="nothing or more"):
        trimmed(REFERENCE, tip=tip, butt=butt)


def test_trims_that_leave_no_shaft_are_refused() -> None:
    with pytest.raises(InputError, match="500 mm must stay"):
        trimmed(REFERENCE, tip=0.4, butt=0.3)


@pytest.mark.parametrize("held", End)
def test_clamp_and_trims_leave_enough_to_bend(held: End) -> None:
    cut = trimmed(REFERENCE, tip=0.3, butt=0.2)
    mounted(cut, Mount(clamp=0.34, held=held))
    with pytest.raises(InputError, match="more than 300 mm must be free"):
        mounted(cut, Mount(clamp=0.35, held=held))
    with pytest.raises(InputError, match="nothing or more"):
        Mount(clamp=-0.01)


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        ({"grip_mass": 0.05}, "no length"),
        ({"grip_mass": 0.05, "grip_length": 270.0}, "mm or inches instead of m"),
        ({"sleeve_length": 0.2}, "more than 0.1 m"),
        ({"sleeve_mass": -0.1}, "nothing or more"),
        ({"grip_mass": -0.1}, "nothing or more"),
        ({"sleeve_balance": 19.0}, "cannot balance"),
    ],
)
def test_a_dressing_that_cannot_be_is_refused(figures: dict[str, float], said: str) -> None:
    with pytest.raises(InputError, match=said):
        Dressing(**figures)


def test_an_even_mass_is_spread_over_the_length() -> None:
    shaft = uniform_mass_profile(STATIONS, BENDING, TORSION, 62.0 * GRAM)
    assert shaft.line_density == pytest.approx(62.0 * GRAM / 1.143)
