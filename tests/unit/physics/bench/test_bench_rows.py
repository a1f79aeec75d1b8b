"""What readings would be, and how they move with what is unknown."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench_readings import FORCE, LENGTH, PLAIN, SPAN, lever, swing, torque, weighed
from bench_shafts import WEIGHT
from loftwright.arrays import FloatArray
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import Beliefs, Unknowns, hats, unknowns
from loftwright.physics.bench.readings import Balance, Frequency, Mass, Reading, ThreePoint
from loftwright.physics.bench.rows import row_of
from loftwright.physics.shaft.deflection import cantilever, three_point, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Dressing, End, Mount
from loftwright.physics.shaft.profile import Profile

LAYOUT = unknowns(LENGTH, Beliefs())
DRESSED = Dressing(
    grip_mass=50.0 * GRAM,
    grip_length=270.0 * MILLIMETRE,
    sleeve_mass=6.0 * GRAM,
    sleeve_length=38.0 * MILLIMETRE,
    sleeve_balance=15.0 * MILLIMETRE,
)
READINGS: dict[str, Reading] = {
    "three-point": ThreePoint(station=0.5, span=SPAN, force=FORCE, value=6e-4),
    "by the butt": lever(PLAIN, 0.8, 0.127, End.BUTT),
    "by the tip": lever(PLAIN, 0.25),
    "frequency": swing(PLAIN),
    "tip frequency": swing(PLAIN, held=End.TIP),
    "dressed frequency": Frequency(
        mount=Mount(clamp=0.127, dressing=DRESSED), weight=WEIGHT, value=4.0
    ),
    "torque": torque(PLAIN),
    "mass": weighed(PLAIN)[0],
    "balance": weighed(PLAIN)[1],
    "dressed balance": Balance(value=0.45, dressing=DRESSED),
}


def draw(seed: int, layout: Unknowns = LAYOUT) -> FloatArray:
    """Return unknowns as the prior has them, with a line density that can be."""
    rng = np.random.default_rng(seed)
    found = rng.multivariate_normal(layout.mean, layout.covariance, method="cholesky")
    found[layout.density] = [rng.uniform(0.045, 0.07), rng.uniform(-0.02, 0.02)]
    return found


def as_profile(unknown: FloatArray) -> Profile:
    """Return the shaft of some unknowns, finely, as logarithms are linear and profiles not."""
    along = np.linspace(0.0, LENGTH, 1144)
    at = hats(along, LAYOUT.knots)
    level, change = unknown[LAYOUT.density]
    return Profile(
        stations=along,
        bending=np.exp(at @ unknown[LAYOUT.bending]),
        torsion=np.exp(at @ unknown[LAYOUT.torsion]),
        line_density=level + change * (along / LENGTH - 0.5),
    )


@pytest.mark.parametrize("name", READINGS)
@pytest.mark.parametrize("seed", [1, 2])
def test_slopes_are_those_of_the_reading(name: str, seed: int) -> None:
    """By differences, with steps wide enough to stand above the noise of frequencies."""
    row, unknown = row_of(READINGS[name], LAYOUT), draw(seed)
    said = row.says(unknown)
    for place in range(0, unknown.size, 3):
        step = np.zeros_like(unknown)
        step[place] = 1e-4 if place in range(*LAYOUT.density.indices(unknown.size)) else 1e-2
        rise = (row.says(unknown + step).value - row.says(unknown - step).value) / 2.0
        assert rise / step[place] == pytest.approx(said.slopes[place], rel=2e-3, abs=2e-6)


@settings(max_examples=25, deadline=None)
@given(
    st.integers(0, 10_000), st.sampled_from(["frequency", "tip frequency", "dressed frequency"])
)
def test_shares_of_a_frequency_add_up_to_one_half(seed: int, name: str) -> None:
    slopes = row_of(READINGS[name], LAYOUT).says(draw(seed)).slopes
    assert slopes[LAYOUT.bending].sum() == pytest.approx(0.5, abs=1e-12)
    assert (slopes[LAYOUT.bending] >= 0.0).all()


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from(["three-point", "by the butt", "by the tip"]))
def test_shares_of_a_deflection_add_up_to_minus_one(seed: int, name: str) -> None:
    slopes = row_of(READINGS[name], LAYOUT).says(draw(seed)).slopes
    assert slopes[LAYOUT.bending].sum() == pytest.approx(-1.0, abs=1e-12)
    assert slopes[LAYOUT.torsion] == pytest.approx(0.0)


@pytest.mark.parametrize("seed", [3, 4, 5])
def test_readings_are_those_of_the_same_shaft_on_the_bench(seed: int) -> None:
    unknown = draw(seed)
    unknown[2 * LAYOUT.knots.size + 2 :] = 0.0
    truth = as_profile(unknown)
    tip, butt = Mount(clamp=0.03, held=End.TIP), Mount(clamp=0.127)
    at = LENGTH - 0.03 - 0.25
    expected = {
        "three-point": three_point(truth, 0.5, SPAN, FORCE),
        "by the butt": cantilever(truth, butt, 10.0, 0.927, 0.927),
        "by the tip": cantilever(truth, tip, 10.0, at, at),
        "frequency": frequency(truth, butt, WEIGHT),
        "tip frequency": frequency(truth, replace(butt, held=End.TIP), WEIGHT),
        "dressed frequency": frequency(truth, replace(butt, dressing=DRESSED), WEIGHT),
        "torque": twist(truth, 0.127, 1.1, 1.0),
        "mass": truth.mass,
        "balance": truth.balance,
    }
    for name, value in expected.items():
        found = np.exp(row_of(READINGS[name], LAYOUT).says(unknown).value)
        assert found == pytest.approx(value, rel=2e-5), name


def test_what_is_on_the_shaft_is_weighed_with_it() -> None:
    unknown = draw(1)
    bare = np.exp(row_of(READINGS["mass"], LAYOUT).says(unknown).value)
    on = np.exp(row_of(Mass(value=0.118, dressing=DRESSED), LAYOUT).says(unknown).value)
    assert on - bare == pytest.approx(56.0 * GRAM)
    balance = np.exp(row_of(READINGS["balance"], LAYOUT).says(unknown).value)
    moment = bare * balance + 0.05 * 0.135 + 0.006 * (LENGTH - 0.015)
    both = np.exp(row_of(READINGS["dressed balance"], LAYOUT).says(unknown).value)
    assert both == pytest.approx(moment / on, rel=1e-12)


def test_a_balance_point_near_an_end_is_refused() -> None:
    with pytest.raises(InputError, match="does not balance 250 mm from its butt"):
        row_of(Balance(value=0.25), LAYOUT)


def test_a_shaft_that_nothing_holds_is_said() -> None:
    broken = draw(1)
    broken[LAYOUT.bending] = -800.0
    with pytest.raises(InputError, match="nothing holds"):
        row_of(READINGS["frequency"], LAYOUT).says(broken)
