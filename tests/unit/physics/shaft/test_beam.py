"""The beam's matrices and what bodies on its end come to."""

import numpy as np
import pytest

from bench_shafts import beam_of, ones
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import (
    Beam,
    TipBody,
    assembled,
    at_gauss_points,
    curvatures,
    gauss_points,
    joined,
    mass_elements,
    shapes,
    slopes,
    stiffness_elements,
)
from loftwright.physics.shaft.vibration import Turning, modes, ritz_basis


def test_the_first_element_is_the_textbook_one() -> None:
    """Any text on finite elements: EI/h^3 [12, 6h, ...], m h/420 [156, 22h, ...]."""
    beam = beam_of(ones, elements=1, length=2.0)
    stiffness, mass = stiffness_elements(beam)[0], mass_elements(beam)[0]
    assert stiffness[0] * 8.0 == pytest.approx([12.0, 12.0, -12.0, 12.0])
    assert stiffness[1] * 8.0 == pytest.approx([12.0, 16.0, -12.0, 8.0])
    assert mass[0] * 210.0 == pytest.approx([156.0, 44.0, 54.0, -26.0])
    assert mass[1] * 210.0 == pytest.approx([44.0, 16.0, 26.0, -12.0])


def test_a_cubic_is_held_exactly() -> None:
    beam = beam_of(ones, elements=3)
    nodes, points = beam.nodes, gauss_points(beam.nodes)
    moved = np.column_stack([nodes**3, 3.0 * nodes**2]).ravel()[2:]
    assert at_gauss_points(beam, moved, shapes(beam.steps)) == pytest.approx(points**3)
    assert at_gauss_points(beam, moved, slopes(beam.steps)) == pytest.approx(3.0 * points**2)
    assert at_gauss_points(beam, moved, curvatures(beam.steps)) == pytest.approx(6.0 * points)


def test_matrices_are_symmetric_and_hold_the_mass() -> None:
    beam = beam_of(ones, lambda along: 1.0 + along)
    whole = np.zeros((82, 82))
    for number, element in enumerate(mass_elements(beam)):
        whole[2 * number : 2 * number + 4, 2 * number : 2 * number + 4] += element
    assert whole[::2, ::2].sum() == pytest.approx(1.5, rel=1e-12)
    clamped = assembled(mass_elements(beam), TipBody(mass=2.0, reach=0.1).matrix)
    assert clamped == pytest.approx(clamped.T)
    assert clamped[-2, -1] - whole[-2, -1] == pytest.approx(0.2)


def test_bodies_on_one_end_join_about_their_common_centre() -> None:
    pair = joined(TipBody(mass=1.0, reach=0.0), TipBody(mass=3.0, inertia=0.5, reach=0.4))
    assert (pair.mass, pair.reach) == pytest.approx((4.0, 0.3))
    assert pair.inertia == pytest.approx(0.5 + 0.3**2 + 3.0 * 0.1**2)
    separate = TipBody(mass=1.0).matrix + TipBody(mass=3.0, inertia=0.5, reach=0.4).matrix
    assert pair.matrix == pytest.approx(separate)
    assert joined(TipBody(inertia=0.2)).inertia == 0.2
    assert joined().mass == 0.0


def test_modes_are_of_mass_one_and_free_of_each_other() -> None:
    beam, tip = beam_of(ones), TipBody(mass=1.0, inertia=0.1, reach=0.2)
    mass = assembled(mass_elements(beam), tip.matrix)
    for found in (modes(beam, tip, 3), ritz_basis(beam, tip)):
        assert found.shapes.T @ mass @ found.shapes == pytest.approx(np.eye(3), abs=1e-9)
        assert (found.shapes[-2] >= 0.0).all()
        assert (np.diff(found.rates) > 0.0).all()


def test_the_bend_under_a_moment_is_in_the_basis() -> None:
    beam, tip = beam_of(ones), TipBody(mass=1.0, inertia=0.01, reach=0.1)
    along = beam.nodes[1:]
    bent = np.column_stack([along**2 / 2.0, along]).ravel()
    mass = assembled(mass_elements(beam), tip.matrix)
    basis = ritz_basis(beam, tip).shapes
    assert basis @ (basis.T @ mass @ bent) == pytest.approx(bent, rel=1e-6)


def test_a_turning_body_counts_its_reach_and_leaves_its_own_inertia_out() -> None:
    """A rigid link on a soft end: a long reach beyond the node stiffens as its pull does."""
    beam, near, far = beam_of(ones), TipBody(mass=1.0), TipBody(mass=1.0, reach=0.3)
    still = modes(beam, far).rates[0]
    assert still < modes(beam, near).rates[0]
    across = modes(beam, far, turning=Turning(rate=2.0, hub=0.5)).rates[0]
    within = modes(beam, far, turning=Turning(rate=2.0, hub=0.5, in_plane=True)).rates[0]
    assert within**2 == pytest.approx(across**2 - 4.0, rel=1e-9)
    assert across > still
    spread = TipBody(mass=1.0, inertia=0.4)
    still_spread = modes(beam, spread, turning=Turning(rate=2.0)).rates[0]
    flat = modes(beam, spread, turning=Turning(rate=2.0, in_plane=True)).rates[0]
    assert still_spread**2 - 4.0 < flat**2 < still_spread**2


def test_a_beam_that_nothing_holds_is_refused() -> None:
    with pytest.raises(InputError, match="nothing holds"):
        modes(beam_of(lambda along: -ones(along)))
    with pytest.raises(InputError, match="without mass"):
        modes(beam_of(ones, lambda along: 0.0 * along))
    with pytest.raises(InputError, match="has no 81 modes"):
        modes(beam_of(ones), count=81)


def test_figures_of_another_shape_are_refused() -> None:
    with pytest.raises(InputError, match="2 elements needs figures of shape"):
        Beam(
            nodes=np.array([0.0, 0.5, 1.0]), bending=np.ones((1, 4)), line_density=np.ones((2, 4))
        )
