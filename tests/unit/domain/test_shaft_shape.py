"""A measured shaft as physics takes it: nothing is assumed without a word."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_shape import TWIST, WEIGHT, WEIGHT_ALONG, shape_of
from loftwright.errors import InputError

STATION = np.array([0.0, 400.0, 800.0, 1168.0]) * MILLIMETRE
BENDING = np.array([80.0, 60.0, 36.0, 22.0])


def measured(**more: object) -> MeasuredProfile:
    bare = MeasuredProfile(
        id="p",
        piece="s",
        day=date(2026, 3, 1),
        bench="b",
        conditions="bare",
        station=STATION,
        bending=BENDING,
        bending_error=0.02 * BENDING,
    )
    return replace(bare, **more)  # type: ignore[arg-type]


def test_what_was_measured_comes_through_unchanged() -> None:
    twisting = np.array([38.0, 28.0, 16.0, 10.0])
    density = np.array([60.0, 48.0, 45.0, 60.0]) * GRAM
    found = shape_of(
        measured(
            twisting=twisting,
            twisting_error=0.1 * twisting,
            density=density,
            density_error=0.1 * density,
        )
    )
    assert found.assumed == ()
    np.testing.assert_array_equal(found.profile.bending, BENDING)
    np.testing.assert_array_equal(found.profile.torsion, twisting)
    np.testing.assert_array_equal(found.profile.line_density, density)


def test_what_nobody_measured_is_named() -> None:
    assert shape_of(measured()).assumed == (TWIST, WEIGHT)
    assert shape_of(measured(), weighed=61.0 * GRAM).assumed == (TWIST, WEIGHT_ALONG)
    both = measured(mass=0.06, mass_error=1e-4, balance=0.57, balance_error=1e-3)
    assert shape_of(both).assumed == (TWIST,)


@given(mass=st.floats(0.045, 0.085), balance=st.floats(0.50, 0.66))
def test_weight_and_balance_point_are_those_that_were_measured(
    mass: float, balance: float
) -> None:
    found = shape_of(
        measured(mass=mass, mass_error=1e-4, balance=balance, balance_error=1e-3)
    ).profile
    assert found.mass == pytest.approx(mass, rel=1e-12)
    assert found.balance == pytest.approx(balance, rel=1e-12)


def test_a_balance_point_that_leaves_an_end_without_weight_is_refused() -> None:
    with pytest.raises(InputError, match="next to nothing"):
        shape_of(measured(mass=0.06, mass_error=1e-4, balance=0.85, balance_error=1e-3))
