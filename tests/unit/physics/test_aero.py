"""Drag and lift coefficients: joints, limits and directions."""

import pytest

from loftwright.physics.aero import clamp, drag_coefficient, lift_coefficient

JOINTS = (0.044, 0.22, 0.30, 0.80, 1.0)


@pytest.mark.parametrize("spin_ratio", JOINTS)
@pytest.mark.parametrize("reynolds", [0.6e5, 1.5e5, 2.5e5])
def test_coefficients_have_no_step_where_their_pieces_join(
    reynolds: float, spin_ratio: float
) -> None:
    for coefficient in (drag_coefficient, lift_coefficient):
        below = coefficient(reynolds, spin_ratio - 1e-9)
        above = coefficient(reynolds, spin_ratio + 1e-9)
        assert above == pytest.approx(below, abs=1e-7)


@pytest.mark.parametrize(("inside", "beyond"), [(0.6e5, 0.3e5), (2.5e5, 4.0e5)])
def test_coefficients_are_held_beyond_the_reynolds_numbers_of_the_fit(
    inside: float, beyond: float
) -> None:
    assert drag_coefficient(beyond, 0.1) == drag_coefficient(inside, 0.1)
    assert lift_coefficient(beyond, 0.1) == lift_coefficient(inside, 0.1)


def test_a_ball_without_spin_has_drag_and_no_lift() -> None:
    assert lift_coefficient(1.5e5, 0.0) == 0.0
    assert drag_coefficient(1.5e5, 0.0) == pytest.approx(0.2028 + 0.0165 * 1.5)


def test_lift_grows_with_spin_to_the_end_of_the_measurements() -> None:
    lifts = [lift_coefficient(1.5e5, 0.01 * k) for k in range(81)]
    assert lifts == sorted(lifts)
    assert lift_coefficient(1.5e5, 2.0) == lift_coefficient(1.5e5, 0.8)


def test_drag_is_held_beyond_a_spin_ratio_of_one() -> None:
    assert drag_coefficient(1.5e5, 3.0) == drag_coefficient(1.5e5, 1.0)


def test_clamp_keeps_what_lies_between() -> None:
    assert [clamp(x, 0.0, 1.0) for x in (-1.0, 0.5, 2.0)] == [0.0, 0.5, 1.0]
