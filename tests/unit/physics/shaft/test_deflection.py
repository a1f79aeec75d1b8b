"""Deflections on the bench, against beams in closed form and against finite elements."""

from dataclasses import replace

import numpy as np
import pytest

from bench_shafts import FIVE_INCHES, REFERENCE, SECTIONS, WEIGHT, even_shaft, section_firmer
from loftwright.constants import DEGREE, FOOT_POUND, GRAM, GRAVITY, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import TipBody, gauss_points
from loftwright.physics.shaft.deflection import (
    bend,
    cantilever,
    droop,
    sag,
    three_point,
    tip_slope,
    twist,
)
from loftwright.physics.shaft.mount import End, Mount, mounted
from loftwright.physics.shaft.profile import Profile, stiffened, uniform_mass_profile

LONG = Mount(clamp=0.2)


def test_a_clamped_even_shaft_bends_by_the_textbook() -> None:
    free, force = 0.8, 10.0
    found = cantilever(even_shaft(45.0), LONG, force, 1.0, 1.0)
    assert found == pytest.approx(force * free**3 / (3.0 * 45.0), rel=1e-12)
    inside = cantilever(even_shaft(45.0), LONG, force, 1.0, 0.6)
    at = 0.4
    assert inside == pytest.approx(force * at**2 * (3.0 * free - at) / (6.0 * 45.0), rel=1e-12)


@pytest.mark.parametrize("held", End)
def test_load_and_gauge_may_change_places(held: End) -> None:
    """Maxwell: the deflection here for a force there is that there for a force here."""
    mount = Mount(clamp=0.15, held=held)
    there = cantilever(REFERENCE, mount, 5.0, 0.9, 0.4)
    assert cantilever(REFERENCE, mount, 5.0, 0.4, 0.9) == pytest.approx(there, rel=1e-12)


@pytest.mark.parametrize("held", End)
def test_integral_and_elements_bend_a_shaft_alike(held: End) -> None:
    """Corners of EI lie inside elements, which costs the elements a millionth or two."""
    mount = replace(FIVE_INCHES, held=held)
    end = REFERENCE.length if held is End.BUTT else 0.0
    by_elements = bend(mounted(REFERENCE, mount).beam, force=8.0).deflection
    assert cantilever(REFERENCE, mount, 8.0, end, end) == pytest.approx(by_elements, rel=1e-5)


def test_a_short_lever_held_by_the_tip_sees_the_tip_alone() -> None:
    mount = Mount(clamp=30.0 * MILLIMETRE, held=End.TIP)
    at = REFERENCE.length - 0.2
    base = cantilever(REFERENCE, mount, 10.0, at, at)
    for section in SECTIONS:
        firmer = cantilever(section_firmer(REFERENCE, section), mount, 10.0, at, at)
        expected = 1.0 / 1.1 if section == "tip" else 1.0
        assert firmer / base == pytest.approx(expected, abs=2e-3)


@pytest.mark.parametrize(
    ("section", "change"),
    [("butt", -0.015), ("upper middle", -0.022), ("lower middle", -0.026), ("tip", -0.029)],
)
def test_a_moment_on_the_tip_sees_the_tip_most(section: str, change: float) -> None:
    """Self-consistent: computed with an independent program for the same invented profile."""
    firmer = tip_slope(section_firmer(REFERENCE, section), FIVE_INCHES)
    found = firmer / tip_slope(REFERENCE, FIVE_INCHES) - 1.0
    assert found == pytest.approx(change, abs=1e-3)


def test_the_local_formula_for_three_supports_errs_as_much_as_known() -> None:
    """A straight taper from 70 to 20, supports 0.30 m apart: up to 0.6 % too soft at the tip."""
    taper = uniform_mass_profile((0.0, 1.143), (70.0, 20.0), (30.0, 9.0), 62.0 * GRAM)
    biases = []
    for station in np.linspace(0.15, 0.993, 20):
        read = 50.0 * 0.3**3 / (48.0 * three_point(taper, station, 0.3, 50.0))
        biases.append(read / np.interp(station, taper.stations, taper.bending) - 1.0)
    assert (np.diff(biases) < 0.0).all()
    assert biases[0] < 0.0
    assert biases[-1] == pytest.approx(-0.006, abs=5e-4)


def test_the_local_formula_errs_little_on_a_smooth_shaft_and_much_where_ei_turns() -> None:
    """Self-consistent: 0.2 to 0.6 % too soft at eleven stations of a smooth taper, 3 in apart.

    Where EI falls by 15 % within 0.18 m, the station at the corner errs by 1.8 %.
    """
    stations = 0.15 + 0.0762 * np.arange(11)
    along = np.union1d(np.linspace(0.0, REFERENCE.length, 1601), REFERENCE.stations)
    factor = np.interp(along, [0.30, 0.48, 0.62, 0.74], [1.0, 0.85, 0.85, 1.0])
    bending = np.interp(along, REFERENCE.stations, REFERENCE.bending) * factor
    turned = uniform_mass_profile(along, bending, 0.42 * bending, 62.0 * GRAM)
    biases = {}
    for name, shaft in (("smooth", REFERENCE), ("turned", turned)):
        local = [50.0 * 0.3**3 / (48.0 * three_point(shaft, at, 0.3, 50.0)) for at in stations]
        biases[name] = local / np.interp(stations, shaft.stations, shaft.bending) - 1.0
    assert biases["smooth"].max() == pytest.approx(-0.002, abs=5e-4)
    assert biases["smooth"].min() == pytest.approx(-0.006, abs=5e-4)
    assert np.abs(biases["turned"]).max() == pytest.approx(0.018, abs=5e-4)


def test_twice_as_stiff_bends_and_twists_half_as_much() -> None:
    double = Profile(
        stations=REFERENCE.stations,
        bending=REFERENCE.bending * 2.0,
        torsion=REFERENCE.torsion * 2.0,
        line_density=REFERENCE.line_density,
    )
    assert three_point(double, 0.5, 0.3, 50.0) == pytest.approx(
        0.5 * three_point(REFERENCE, 0.5, 0.3, 50.0), rel=1e-12
    )
    whole = (0.127, REFERENCE.length, FOOT_POUND)
    assert twist(double, *whole) == pytest.approx(0.5 * twist(REFERENCE, *whole), rel=1e-12)


def test_twists_of_two_lengths_add_up() -> None:
    parts = twist(REFERENCE, 0.1, 0.7, 1.0) + twist(REFERENCE, 0.7, 1.1, 1.0)
    assert twist(REFERENCE, 0.1, 1.1, 1.0) == pytest.approx(parts, rel=1e-12)
    assert 3.0 < twist(REFERENCE, 0.127, 1.1176, FOOT_POUND) / DEGREE < 8.0


def test_a_pulled_shaft_is_firmer_and_a_head_below_it_droops() -> None:
    beam = mounted(REFERENCE, FIVE_INCHES).beam
    assert bend(beam, force=5.0, pull=400.0).deflection < bend(beam, force=5.0).deflection
    hung = droop(beam, TipBody(mass=0.2, reach=0.04), 36.0 * MILLIMETRE, 400.0)
    assert hung.deflection < 0.0
    assert hung.slope < 0.0
    assert (
        bend(beam, force=5.0, pull=400.0, tip=TipBody(mass=0.2, reach=0.04)).slope
        < bend(beam, force=5.0, pull=400.0).slope
    )


def test_an_even_shaft_sags_by_its_own_weight_as_the_textbook_says() -> None:
    even = even_shaft(45.0)
    free, line = 0.8, 0.06 * GRAVITY
    found = sag(even, LONG)
    assert found.deflection == pytest.approx(line * free**4 / (8.0 * 45.0), rel=1e-6)
    weight = TipBody(mass=0.2, reach=0.03)
    more = sag(even, LONG, weight).deflection - found.deflection
    by_weight = 0.2 * GRAVITY * (free**3 / 3.0 + 0.03 * free**2 / 2.0) / 45.0
    assert more == pytest.approx(by_weight, rel=1e-6)


def test_bent_nodes_begin_in_the_clamp() -> None:
    held = mounted(REFERENCE, FIVE_INCHES, WEIGHT)
    bent = bend(held.beam, force=1.0)
    assert (bent.deflections[0], bent.slopes[0]) == (0.0, 0.0)
    assert (np.diff(bent.deflections) > 0.0).all()
    assert gauss_points(held.beam.nodes).shape == (40, 4)


@pytest.mark.parametrize(
    ("station", "span"), [(0.1, 0.3), (1.05, 0.3), (0.5, 0.0), (0.5, -0.1), (500.0, 0.3)]
)
def test_supports_beyond_the_shaft_are_refused(station: float, span: float) -> None:
    with pytest.raises(InputError, match="span"):
        three_point(REFERENCE, station, span, 50.0)


@pytest.mark.parametrize(
    ("force_at", "read_at", "place"), [(0.1, 0.5, "load"), (0.5, 1.2, "gauge")]
)
def test_loads_in_the_clamp_and_gauges_in_the_air_are_refused(
    force_at: float, read_at: float, place: str
) -> None:
    with pytest.raises(InputError, match=f"the {place} at"):
        cantilever(REFERENCE, LONG, 5.0, force_at, read_at)


def test_a_twist_needs_a_length() -> None:
    with pytest.raises(InputError, match="does not twist"):
        twist(REFERENCE, 0.5, 0.4, 1.0)
    with pytest.raises(InputError, match="clamp"):
        twist(REFERENCE, -0.1, 0.4, 1.0)


def test_a_stiffer_shaft_gives_way_less_everywhere() -> None:
    firm = stiffened(REFERENCE, 1.2)
    assert cantilever(firm, LONG, 5.0, 1.1, 0.8) < cantilever(REFERENCE, LONG, 5.0, 1.1, 0.8)
    assert tip_slope(firm, LONG) == pytest.approx(tip_slope(REFERENCE, LONG) / 1.2, rel=1e-12)
