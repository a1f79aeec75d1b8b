"""The bench's beam against beams of which the answer is known.

Published and seen: the roots of the even cantilever (1.8751, 4.6941, 7.8548, 10.99557, any table
of beam formulas) and of one with a tip mass as heavy as itself (Mathematical Problems in
Engineering 2017, article 1568019, Table 1: 1.557298, 16.25009, 50.89584, 105.1983, 179.2320).
From memory: the truncated wedge (Mabie and Rogers, Downs), the complete wedge and cone (Kirchhoff;
Naguleswaran 1994), the turning beam (Wright, Smith, Thresher and Wang 1982, Journal of Applied
Mechanics 49:197). The further digits, and the rows without a name, are roots of the frequency
equation or shooting (self-consistent), or derived in closed form. Frequencies in units of
sqrt(EI / (m L^4)).
"""

from math import cosh, log, sqrt, tanh

import numpy as np
import pytest

from bench_shafts import Field, beam_of, even_shaft, ones
from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, FOOT_POUND, MILLIMETRE
from loftwright.physics.shaft.beam import NOTHING, TipBody
from loftwright.physics.shaft.deflection import bend, droop, three_point, twist
from loftwright.physics.shaft.profile import uniform_mass_profile
from loftwright.physics.shaft.vibration import Turning, modes

EVEN = beam_of(ones)


def power(ratio: float, exponent: int) -> Field:
    """Return the thickness left at a place, to a power."""

    def thickness(along: FloatArray) -> FloatArray:
        found: FloatArray = (1.0 - (1.0 - ratio) * along) ** exponent
        return found

    return thickness


def test_an_even_cantilever_has_its_textbook_roots() -> None:
    roots = np.sqrt(modes(EVEN, count=4).rates)
    assert roots == pytest.approx([1.8751, 4.6941, 7.8548, 10.99557], abs=5e-5)
    assert roots == pytest.approx([1.8751041, 4.6940911, 7.8547574, 10.9955407], rel=2e-6)


def test_a_tip_mass_as_heavy_as_the_beam_gives_the_published_frequencies() -> None:
    rates = modes(EVEN, TipBody(mass=1.0), 3).rates
    assert rates == pytest.approx([1.557298, 16.25009, 50.89584], abs=5e-5)
    assert rates == pytest.approx([1.557298, 16.250085, 50.895843], abs=4e-5)


def test_its_higher_frequencies_need_more_elements_to_their_printed_digits() -> None:
    """Forty are 3 and 9 millionths high there; what is measured is the lowest."""
    rates = modes(beam_of(ones, elements=100), TipBody(mass=1.0), 5).rates
    assert rates[3:] == pytest.approx([105.1983, 179.2320], abs=6e-5)


@pytest.mark.parametrize(("ratio", "rate"), [(0.2, 2.612748), (3.2, 0.934378), (5.0, 0.756937)])
def test_other_tip_masses_give_the_roots_of_their_equation(ratio: float, rate: float) -> None:
    assert modes(EVEN, TipBody(mass=ratio)).rates[0] == pytest.approx(rate, abs=5e-7)


def test_a_tip_mass_with_inertia_gives_the_roots_of_its_equation() -> None:
    rates = modes(EVEN, TipBody(mass=1.0, inertia=0.1), 3).rates
    assert rates == pytest.approx([1.429626, 6.275326, 24.751604], abs=5e-6)


def test_a_truncated_wedge_has_its_frequencies() -> None:
    wedge = beam_of(power(0.5, 3), power(0.5, 1), elements=60)
    rates = modes(wedge, count=3).rates
    assert rates == pytest.approx([3.8238, 18.3173, 47.2648], abs=5e-5)
    assert rates == pytest.approx([3.82378, 18.31726, 47.26483], abs=1e-5)


@pytest.mark.parametrize(
    ("ratio", "expected"),
    [(0.2, (6.19639, 18.38547, 39.83363)), (0.75, (3.95671, 20.80694, 55.33037))],
)
def test_a_truncated_cone_has_its_frequencies(
    ratio: float, expected: tuple[float, float, float]
) -> None:
    rates = modes(beam_of(power(ratio, 4), power(ratio, 2)), count=3).rates
    assert rates == pytest.approx(expected, rel=2e-6)


@pytest.mark.parametrize(
    ("exponents", "printed", "digits"),
    [
        ((3, 1), (5.315, 15.207, 30.020), (5.31510, 15.20717, 30.01987)),
        ((4, 2), (8.719, 21.146, 38.45), (8.71926, 21.14567, 38.45388)),
    ],
    ids=["wedge", "cone"],
)
def test_a_complete_wedge_and_cone_have_their_frequencies(
    exponents: tuple[int, int],
    printed: tuple[float, float, float],
    digits: tuple[float, float, float],
) -> None:
    thick, light = exponents
    rates = modes(beam_of(power(1e-9, thick), power(1e-9, light)), count=3).rates
    assert rates[:2] == pytest.approx(printed[:2], abs=5e-4)
    assert rates[2] == pytest.approx(printed[2], abs=5e-3)
    assert rates == pytest.approx(digits, abs=6e-6)


TURNING = {
    1.0: ((3.6817, 22.1810), (3.68165, 22.18101), 3.54324),
    2.0: ((4.1373, 22.6149), (4.13732, 22.61492), 3.62180),
    3.0: ((4.7973, 23.3203), (4.79728, 23.32027), 3.74351),
}


@pytest.mark.parametrize("rate", TURNING)
def test_a_turning_beam_is_stiffened_as_published(rate: float) -> None:
    """To a unit of the last digit printed: the first, 3.6817, is 3.68165 to one digit more."""
    printed, digits, in_plane = TURNING[rate]
    across = modes(EVEN, count=2, turning=Turning(rate=rate)).rates
    within = modes(EVEN, turning=Turning(rate=rate, in_plane=True)).rates
    assert across == pytest.approx(printed, abs=1e-4)
    assert across == pytest.approx(digits, abs=6e-6)
    assert within[0] == pytest.approx(in_plane, abs=6e-6)
    assert within[0] ** 2 == pytest.approx(across[0] ** 2 - rate**2, rel=1e-9)


def test_a_head_beside_the_shaft_pulls_the_tip_down_by_the_closed_form() -> None:
    stiffness, pull, offset = 45.0, 400.0, 35.0 * MILLIMETRE
    found = droop(beam_of(lambda along: 45.0 * ones(along)), NOTHING, offset, pull)
    k = sqrt(pull / stiffness)
    assert found.deflection == pytest.approx(-offset * (1.0 - 1.0 / cosh(k)), rel=1e-7)
    assert found.slope == pytest.approx(-offset * k * tanh(k), rel=1e-7)
    assert found.deflection == pytest.approx(-31.45867 * MILLIMETRE, abs=5e-9)
    assert found.slope == pytest.approx(-0.1038143, abs=5e-8)


def test_a_cone_under_a_tip_load_bends_by_its_closed_form() -> None:
    cone = beam_of(power(0.5, 4))
    assert bend(cone, force=1.0).deflection == pytest.approx(1.0 / (3.0 * 0.5), rel=1e-6)


def test_three_point_and_torque_of_simple_shafts_are_their_closed_forms() -> None:
    even = three_point(even_shaft(45.0), 0.5, 300.0 * MILLIMETRE, 50.0)
    assert even == pytest.approx(0.625 * MILLIMETRE, rel=1e-12)
    tapered = uniform_mass_profile((0.0, 1.0), (45.0, 45.0), (30.0, 12.0), 0.06)
    found = twist(tapered, 0.0, 1.0, FOOT_POUND)
    assert found == pytest.approx(FOOT_POUND * log(30.0 / 12.0) / 18.0, rel=1e-12)
    assert found / DEGREE == pytest.approx(3.954438, abs=5e-7)
