"""The shaft's shapes for a swing: unit mass, exact shortening, and what is refused."""

from dataclasses import replace
from math import nan, pi

import numpy as np
import pytest

from loftwright.errors import InputError
from loftwright.physics.shaft_swing.basis import (
    HANDS,
    HOSEL,
    REFERENCE_SWUNG_HEAD,
    WRIST,
    BeamShapes,
    swing_basis,
)
from swung_shafts import LENGTH, SHAFT_MASS, beam_shapes, profile_of, shaft


def parabola(scale: float = 1.0, mass: float = 1.0) -> BeamShapes:
    """Return a beam of 0.8 m whose only shape is a parabola, which a cubic holds exactly."""
    nodes = np.linspace(0.2, 1.0, 9)
    along = nodes - 0.2
    return BeamShapes(
        nodes=nodes,
        deflections=scale * along[None, :] ** 2,
        slopes=scale * 2.0 * along[None, :],
        stiffness=np.array([[100.0 * mass]]),
        mass=np.array([[mass]]),
        density=np.full(9, 0.05),
    )


def test_a_parabola_is_shortened_by_four_thirds_of_the_cube() -> None:
    basis = swing_basis(parabola(), REFERENCE_SWUNG_HEAD, places=5)
    along = basis.places + WRIST - 0.2
    assert basis.shapes[:, 0] == pytest.approx(along**2)
    assert basis.shortening[:, 0, 0] == pytest.approx(4.0 / 3.0 * along**3)
    assert basis.end_shortening[0, 0] == pytest.approx(4.0 / 3.0 * 0.8**3)
    assert basis.end_slopes[0] == pytest.approx(1.6)
    assert basis.frequencies[0] == pytest.approx(10.0)
    assert basis.end == pytest.approx(1.0 - WRIST)


def test_a_shape_is_scaled_to_unit_mass() -> None:
    basis = swing_basis(parabola(mass=4.0), REFERENCE_SWUNG_HEAD)
    assert basis.end_shapes[0] == pytest.approx(0.64 / 2.0)
    assert basis.frequencies[0] == pytest.approx(10.0)


def test_the_shaft_between_hands_and_hosel_weighs_what_it_weighs() -> None:
    free = LENGTH - HANDS - HOSEL
    assert shaft().masses.sum() == pytest.approx(SHAFT_MASS * free / LENGTH)


def test_reference_frequencies_with_the_head_on() -> None:
    """Self-consistent: a separate prototype gave 4.594, 63.7 and 169.6 Hz."""
    found = shaft().frequencies / (2.0 * pi)
    assert found[0] == pytest.approx(4.594, abs=5e-4)
    assert found[1:] == pytest.approx([63.7, 169.6], abs=0.05)


def test_mixing_and_scaling_the_shapes_changes_nothing() -> None:
    beam = beam_shapes(profile_of("reference"))
    mix = np.array([[3.0, 0.2, 0.0], [-0.4, 0.5, 0.0], [0.1, 0.2, 50.0]])
    mixed = replace(
        beam,
        deflections=mix @ beam.deflections,
        slopes=mix @ beam.slopes,
        stiffness=mix @ beam.stiffness @ mix.T,
        mass=mix @ beam.mass @ mix.T,
    )
    expected, found = shaft(), swing_basis(mixed, REFERENCE_SWUNG_HEAD)
    assert found.frequencies == pytest.approx(expected.frequencies, rel=1e-7)
    assert abs(found.end_slopes) == pytest.approx(abs(expected.end_slopes), rel=1e-6)
    assert abs(found.end_shortening) == pytest.approx(abs(expected.end_shortening), rel=1e-6)


def test_its_arrays_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        shaft().places[0] = 0.0


def test_shapes_that_depend_on_each_other_are_refused() -> None:
    beam = parabola()
    twice = replace(
        beam,
        deflections=np.vstack([beam.deflections, 2.0 * beam.deflections]),
        slopes=np.vstack([beam.slopes, 2.0 * beam.slopes]),
        stiffness=np.array([[100.0, 200.0], [200.0, 400.0]]),
        mass=np.array([[1.0, 2.0], [2.0, 4.0]]),
    )
    with pytest.raises(InputError, match="not independent"):
        swing_basis(twice, REFERENCE_SWUNG_HEAD)


def test_nodes_that_do_not_rise_are_refused() -> None:
    beam = parabola()
    with pytest.raises(InputError, match="must rise"):
        replace(beam, nodes=beam.nodes[::-1])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"mass": 0.0}, "0.0 g cannot be"),
        ({"mass": 0.51}, "510.0 g cannot be"),
        ({"mass": 200.0}, "at most 500 g"),
        ({"inertia": 0.0}, "inertia of 0"),
        ({"toe": nan}, "missing or infinite"),
    ],
)
def test_a_head_that_cannot_be_is_refused(change: dict[str, float], words: str) -> None:
    with pytest.raises(InputError, match=words):
        replace(REFERENCE_SWUNG_HEAD, **change)


@pytest.mark.parametrize("damping", [0.0, -0.02, nan])
def test_a_shaft_without_damping_is_refused(damping: float) -> None:
    with pytest.raises(InputError, match="damping"):
        replace(shaft(), damping=damping)


def test_arrays_that_do_not_fit_are_refused() -> None:
    with pytest.raises(InputError, match=r"`shapes` must hold .* shape \(6, 3\)"):
        replace(shaft(), shapes=shaft().shapes[:, :2])
    broken = shaft().end_slopes.copy()
    broken[0] = nan
    with pytest.raises(InputError, match="`end_slopes` must hold finite"):
        replace(shaft(), end_slopes=broken)


def test_masses_below_zero_are_refused() -> None:
    with pytest.raises(InputError, match="above zero"):
        replace(shaft(), masses=-shaft().masses)
