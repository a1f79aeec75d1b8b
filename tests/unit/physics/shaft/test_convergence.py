"""The elements converge at the order that theory gives cubic ones, and not only on even beams.

Theory, from memory: Strang and Fix 1973, An analysis of the finite element method, chapter 6. With
polynomials up to the third degree and an energy of second derivatives, frequencies and deflections
at the end err by the fourth power of the element's length, and frequencies from above.
"""

from collections.abc import Callable
from math import cosh, pi, sqrt, tanh

import numpy as np
import pytest

from bench_shafts import FIVE_INCHES, REFERENCE, WEIGHT, beam_of, ones
from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE
from loftwright.physics.shaft.beam import NOTHING, Beam, TipBody
from loftwright.physics.shaft.deflection import bend, droop
from loftwright.physics.shaft.mount import mounted
from loftwright.physics.shaft.vibration import Turning, modes

ORDER = 4.0
ELEMENTS = np.array([8, 12, 16, 24])
# Roots of 1 + cos cosh = 0, to the last digit of a double.
ROOTS = (1.875104068711961, 4.694091132974175, 7.854757438237613)


def wedge(elements: int) -> Beam:
    return beam_of(
        lambda along: (1.0 - 0.5 * along) ** 3, lambda along: 1.0 - 0.5 * along, 1.0, elements
    )


def even(elements: int) -> Beam:
    return beam_of(ones, elements=elements)


def order(errors: list[float], elements: FloatArray = ELEMENTS) -> float:
    """Return the power of the element's length with which errors shrink."""
    return float(-np.polyfit(np.log(elements), np.log(errors), 1)[0])


@pytest.mark.parametrize("mode", [0, 1, 2])
def test_frequencies_of_an_even_beam_converge_with_the_fourth_power(mode: int) -> None:
    errors = [modes(even(n), count=3).rates[mode] / ROOTS[mode] ** 2 - 1.0 for n in ELEMENTS]
    assert min(errors) > 0.0
    assert order(errors) == pytest.approx(ORDER, abs=0.1)


@pytest.mark.parametrize("mode", [0, 1, 2])
@pytest.mark.parametrize(
    "tip", [NOTHING, TipBody(mass=1.0, inertia=0.05, reach=0.1)], ids=["bare", "with a head"]
)
def test_frequencies_of_a_tapered_beam_converge_with_the_fourth_power(
    mode: int, tip: TipBody
) -> None:
    exact = modes(wedge(160), tip, 3).rates[mode]
    errors = [modes(wedge(n), tip, 3).rates[mode] / exact - 1.0 for n in ELEMENTS]
    assert min(errors) > 0.0
    assert order(errors) == pytest.approx(ORDER, abs=0.2)


def test_frequencies_of_a_turning_beam_converge_with_the_fourth_power() -> None:
    turning, tip, elements = (
        Turning(rate=2.0, hub=0.3),
        TipBody(mass=0.5, reach=0.1),
        [4, 6, 8, 12],
    )
    for mode in (0, 1):
        exact = modes(even(160), tip, 2, turning).rates[mode]
        errors = [modes(even(n), tip, 2, turning).rates[mode] / exact - 1.0 for n in elements]
        assert order(errors, np.array(elements)) == pytest.approx(ORDER, abs=0.1)


def test_an_even_beam_under_an_end_load_is_exact_with_one_element() -> None:
    bent = bend(even(1), force=1.0)
    assert (bent.deflection, bent.slope) == pytest.approx((1.0 / 3.0, 0.5), rel=1e-12)


K = sqrt(400.0 / 45.0)
DROOPS: dict[str, tuple[Callable[[Beam], float], float]] = {
    "deflection": (
        lambda beam: droop(beam, NOTHING, 0.035, 400.0).deflection,
        -0.035 * (1.0 - 1.0 / cosh(K)),
    ),
    "slope": (lambda beam: droop(beam, NOTHING, 0.035, 400.0).slope, -0.035 * K * tanh(K)),
}


@pytest.mark.parametrize("what", DROOPS)
def test_droop_under_a_pull_converges_with_the_fourth_power(what: str) -> None:
    of, exact = DROOPS[what]
    found = [of(beam_of(lambda along: 45.0 * ones(along), elements=int(n))) for n in ELEMENTS]
    assert order([abs(one / exact - 1.0) for one in found]) == pytest.approx(ORDER, abs=0.1)


def test_a_cone_under_an_end_load_converges_with_the_fourth_power() -> None:
    errors = [
        abs(
            1.5
            * bend(
                beam_of(lambda along: (1.0 - 0.5 * along) ** 4, elements=int(n)), force=1.0
            ).deflection
            - 1.0
        )
        for n in ELEMENTS
    ]
    assert order(errors) == pytest.approx(ORDER, abs=0.15)


def test_forty_elements_are_enough_where_stations_lie_within_them() -> None:
    """Corners of EI inside elements lower the order, not the use: a thousandth of a cycle."""

    def cycles(elements: int) -> float:
        held = mounted(REFERENCE, FIVE_INCHES, WEIGHT, elements)
        rate = float(modes(held.beam, held.body).rates[0])
        return rate / (2.0 * pi) / CYCLE_PER_MINUTE

    assert [cycles(n) for n in (20, 40)] == pytest.approx([cycles(160)] * 2, abs=1e-3)
