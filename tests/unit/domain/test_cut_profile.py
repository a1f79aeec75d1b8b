"""A measured shaft that was cut is what is left of it."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.cut_profile import cut
from loftwright.domain.likeness import likeness
from loftwright.errors import InputError
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS

WHOLE = demo_profile(DEMO_SHAFTS[0], piece="s", day=date(2026, 3, 1), seed=1)
cuts = st.floats(0.0, 0.08)


def test_nothing_cut_is_the_same_shaft() -> None:
    assert cut(WHOLE) is WHOLE


@given(tip=cuts, butt=cuts)
def test_what_is_left_stands_at_its_place(tip: float, butt: float) -> None:
    left = cut(WHOLE, tip=tip, butt=butt)
    assert left.length == pytest.approx(WHOLE.length - tip - butt)
    expected = np.interp(left.station + butt, WHOLE.station, WHOLE.bending)
    np.testing.assert_allclose(left.bending, expected)
    assert left.mass is not None
    assert WHOLE.mass is not None
    assert left.mass <= WHOLE.mass + 1e-12


@given(butt=cuts)
def test_both_cuts_of_a_shaft_are_alike_when_they_are_alike(butt: float) -> None:
    apart = likeness(cut(WHOLE, butt=butt), cut(WHOLE, butt=butt))
    assert apart.distance == pytest.approx(0.0, abs=1e-12)


def test_two_cuts_one_after_the_other_are_one() -> None:
    twice = cut(cut(WHOLE, butt=0.03), tip=0.02)
    once = cut(WHOLE, butt=0.03, tip=0.02)
    places = np.linspace(0.0, once.length, 50)
    np.testing.assert_allclose(
        np.interp(places, twice.station, twice.bending),
        np.interp(places, once.station, once.bending),
    )
    assert twice.mass == pytest.approx(once.mass)
    assert twice.balance == pytest.approx(once.balance)


def test_a_cut_that_leaves_no_shaft_is_refused() -> None:
    with pytest.raises(InputError, match="leave"):
        cut(WHOLE, butt=0.9)
    with pytest.raises(InputError, match="tip trim"):
        cut(WHOLE, tip=-0.01)
