"""What a bench would read of a measured shaft: exact where it must be, silent where none read."""

from dataclasses import replace
from math import hypot, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench_shafts import FIVE_INCHES, WEIGHT
from loftwright.constants import FOOT_POUND, GRAM, INCH
from loftwright.domain.bench_figures import USUAL, BenchFigures, SetUp, bench_figures
from loftwright.domain.sections import Section
from loftwright.domain.shaft_shape import shape_of
from loftwright.errors import InputError
from loftwright.physics.bench.piece import Estimate
from loftwright.physics.shaft.frequency import frequency
from shafts import STATION, a_profile, times


def told(found: Estimate | None) -> Estimate:
    assert found is not None
    return found


def test_figures_are_those_of_the_beam() -> None:
    shaft = a_profile()
    found = bench_figures(shaft)
    exact = frequency(shape_of(shaft).profile, FIVE_INCHES, WEIGHT)
    assert told(found.frequency).value == pytest.approx(exact, rel=1e-12)
    assert told(found.mass) == pytest.approx((60.0 * GRAM, 0.05 * GRAM))
    assert told(found.balance) == pytest.approx((0.577, 0.0005))
    assert found.length == 1.168


def test_torque_is_the_integral_of_one_over_twist_stiffness() -> None:
    """Self-consistent: GJ linear from butt to tip, T / slope ln(GJ1/GJ2)."""
    straight = np.linspace(36.0, 10.0, 2)
    shaft = replace(
        a_profile(),
        station=np.array([0.0, 1.168]),
        bending=2.2 * straight,
        bending_error=0.02 * straight,
        twisting=straight,
        twisting_error=0.01 * straight,
    )
    slope = (36.0 - 10.0) / 1.168
    start, end = 36.0 - slope * USUAL.clamp, 36.0 - slope * (1.168 - USUAL.reach)
    found = told(bench_figures(shaft).torque)
    assert found.value == pytest.approx(FOOT_POUND / slope * np.log(start / end), rel=1e-9)
    assert USUAL.gauge_length(1.168) == pytest.approx(1.168 - 6.0 * INCH)
    assert USUAL.free_length(1.168) == pytest.approx(1.168 - 5.0 * INCH)


@given(factor=st.floats(0.8, 1.25))
@settings(max_examples=15)
def test_stiffness_times_r_swings_with_its_root(factor: float) -> None:
    one, other = bench_figures(a_profile(times(factor))), bench_figures(a_profile())
    ratio = told(one.frequency).value / told(other.frequency).value
    assert ratio == pytest.approx(factor**0.5, rel=1e-9)
    for section in Section:
        assert one.bending[section].value == pytest.approx(
            factor * other.bending[section].value, rel=1e-12
        )


def test_a_common_scale_moves_a_frequency_by_half_of_it() -> None:
    sure = {"noise": 1e-9, "grams": 60.0}
    found = told(bench_figures(a_profile(**sure, scale=0.02)).frequency)  # type: ignore[arg-type]
    assert found.spread / found.value == pytest.approx(0.01, rel=0.02)
    twisted = told(bench_figures(a_profile(**sure, scale=0.02)).torque)  # type: ignore[arg-type]
    assert twisted.spread / twisted.value == pytest.approx(0.02, rel=0.02)


def test_errors_of_sections_add_as_independent_and_to_no_more_than_their_half() -> None:
    found = told(bench_figures(a_profile(noise=0.02)).frequency)
    assert 0.4 * 0.01 < found.spread / found.value < 0.01
    larger = told(bench_figures(a_profile(noise=0.04)).frequency)
    assert larger.spread == pytest.approx(2.0 * found.spread, rel=0.03)


def test_a_section_tells_its_own_error_and_the_scale() -> None:
    found = bench_figures(a_profile(noise=0.02, scale=0.01)).bending[Section.BUTT]
    assert found.spread / found.value == pytest.approx(hypot(0.02, 0.01), rel=0.02)


def test_what_nobody_read_has_no_figure() -> None:
    blind = bench_figures(a_profile(blind_from=0.95))
    assert set(blind.bending) == set(Section) - {Section.TIP}
    no_twist = bench_figures(a_profile(twist=False))
    assert no_twist.torque is None
    assert no_twist.frequency is not None
    weightless = bench_figures(replace(a_profile(), mass=None, mass_error=None))
    assert (weightless.frequency, weightless.mass, weightless.balance) == (None, None, None)
    assert weightless.torque is not None


def test_a_lost_balance_point_widens_the_frequency_a_little() -> None:
    """Self-consistent: the bench's belief of how weight leans, 20 g/m, is worth under 1 cpm."""
    known = bench_figures(a_profile())
    lost = bench_figures(replace(a_profile(), balance=None, balance_error=None))
    assert lost.balance is None
    wider = told(lost.frequency).spread ** 2 - told(known.frequency).spread ** 2
    assert 0.1 < 60.0 * wider**0.5 < 1.5


def test_a_line_density_that_was_measured_weighs_without_scales() -> None:
    along = np.full(STATION.shape, 52.0 * GRAM)
    bare = replace(a_profile(grams=None), balance=None, balance_error=None)
    shaft = replace(bare, density=along, density_error=0.01 * along)
    found: BenchFigures = bench_figures(shaft)
    assert told(found.mass) == pytest.approx((52.0 * GRAM * 1.168, 0.52 * GRAM * 1.168))
    assert told(found.balance).value == pytest.approx(0.584)


def test_set_ups_that_cannot_be_are_refused() -> None:
    for wrong in ({"clamp": -0.1}, {"weight": 205.0}, {"moment": 100.0}, {"reach": -1.0}):
        with pytest.raises(InputError):
            SetUp(**wrong)
    with pytest.raises(InputError, match="leaves too little"):
        bench_figures(a_profile(), SetUp(clamp=0.9))


def test_a_lighter_weight_swings_faster_and_the_moment_scales_the_twist() -> None:
    usual = bench_figures(a_profile())
    light = bench_figures(a_profile(), SetUp(weight=0.15, moment=2.0 * FOOT_POUND))
    assert told(light.frequency).value > told(usual.frequency).value
    assert told(light.torque).value == pytest.approx(2.0 * told(usual.torque).value, rel=1e-12)
    assert told(usual.torque).value < 10.0 * pi / 180.0
