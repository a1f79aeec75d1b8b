"""Diameter, wall and tape. Self-consistent: the sizes quoted in the trade, computed."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.tube import diameter_over_tape, second_moment, wall_of_equal_area

USUAL, LARGE, WALL = 0.600 * INCH, 0.620 * INCH, 1.1 * MILLIMETRE


def test_a_larger_butt_is_firmer_by_what_the_tube_says() -> None:
    base = second_moment(USUAL, WALL)
    assert second_moment(LARGE, WALL) / base - 1.0 == pytest.approx(0.11, abs=5e-3)
    thinner = wall_of_equal_area(USUAL, WALL, LARGE)
    assert second_moment(LARGE, thinner) / base - 1.0 == pytest.approx(0.08, abs=5e-3)


@pytest.mark.parametrize(("tape", "added"), [(0.10, 0.0079), (0.13, 0.0102), (0.17, 0.0134)])
def test_one_wrap_of_tape_adds_twice_its_thickness(tape: float, added: float) -> None:
    found = diameter_over_tape(USUAL, tape * MILLIMETRE, 1) - USUAL
    assert found / INCH == pytest.approx(added, abs=5e-5)


def test_a_solid_rod_is_a_tube_without_a_hole() -> None:
    assert second_moment(0.01, 0.005) == pytest.approx(pi * 0.01**4 / 64.0, rel=1e-12)


@given(st.floats(0.008, 0.016), st.floats(0.05, 0.5), st.floats(1.0, 1.5))
def test_equal_area_is_kept_and_more_diameter_is_firmer(
    diameter: float, share: float, larger: float
) -> None:
    wall, other = share * diameter, larger * diameter
    thin = wall_of_equal_area(diameter, wall, other)
    area, same = wall * (diameter - wall), thin * (other - thin)
    assert same == pytest.approx(area, rel=1e-9)
    assert second_moment(other, thin) >= second_moment(diameter, wall) * (1.0 - 1e-9)


def test_tubes_that_cannot_be_are_refused() -> None:
    with pytest.raises(InputError, match="does not fit"):
        second_moment(0.01, 0.006)
    with pytest.raises(InputError, match="cannot hold the section"):
        wall_of_equal_area(0.015, 0.0075, 0.01)
    with pytest.raises(InputError, match="less than none"):
        diameter_over_tape(0.015, 0.0001, -1)
