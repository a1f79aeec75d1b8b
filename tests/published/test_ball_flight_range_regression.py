"""Coefficients measured on a governing body's indoor range.

Source: Lieberman, Smits, Quintavalla, Thomas and Winfield 2001, US 6,186,002 B1: the condition
means of an example ball, and the regression of its range data (printed fit R2 0.985 for drag and
0.995 for lift). Status: read second-hand, from a stored extraction of the patent's text.
"""

import pytest

from loftwright.physics.aero import drag_coefficient, lift_coefficient

# Reynolds number in 1e5, spin ratio, drag and lift coefficient, as printed.
CONDITION_MEANS = [
    (0.81, 0.097, 0.223, 0.146),
    (0.81, 0.218, 0.305, 0.278),
    (1.23, 0.153, 0.256, 0.214),
    (1.25, 0.088, 0.226, 0.146),
    (1.61, 0.090, 0.234, 0.151),
    (2.0, 0.092, 0.241, 0.153),
    (1.98, 0.044, 0.231, 0.115),
]


@pytest.mark.parametrize(("reynolds", "spin_ratio", "drag", "lift"), CONDITION_MEANS)
def test_the_regression_gives_back_the_means_it_was_made_from(
    reynolds: float, spin_ratio: float, drag: float, lift: float
) -> None:
    assert drag_coefficient(reynolds * 1e5, spin_ratio) == pytest.approx(drag, abs=0.003)
    assert lift_coefficient(reynolds * 1e5, spin_ratio) == pytest.approx(lift, abs=0.003)


def test_spin_raises_drag_and_lift_as_measured() -> None:
    (reynolds, low, low_drag, low_lift), (_, high, high_drag, high_lift) = CONDITION_MEANS[:2]
    more_drag = drag_coefficient(reynolds * 1e5, high) - drag_coefficient(reynolds * 1e5, low)
    more_lift = lift_coefficient(reynolds * 1e5, high) - lift_coefficient(reynolds * 1e5, low)
    assert more_drag == pytest.approx(high_drag - low_drag, abs=0.004)
    assert more_lift == pytest.approx(high_lift - low_lift, abs=0.004)
