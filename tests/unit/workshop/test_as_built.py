"""A club as built: predicted without solving anew, beside the target, with its mend."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds import DRIVER
from loftwright.constants import GRAM, INCH
from loftwright.errors import InputError
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.solve import Quantity, Target, solve
from loftwright.physics.build.swingweight import index_of
from loftwright.workshop.as_built import as_built, made_of

TARGET = Target(length=45.0 * INCH, swingweight=index_of("D3"), mass=325.0 * GRAM)


def with_head(grams: float) -> BuildParts:
    return replace(DRIVER, head=replace(DRIVER.head, mass=grams * GRAM))


def test_a_head_three_grams_light_takes_one_point_eight_points() -> None:
    """Worked out by hand: 0.612 points a gram on this driver (self-consistent)."""
    made = made_of(solve(DRIVER, TARGET))
    found = as_built(with_head(192.0), TARGET, made)
    assert found.apart[Quantity.SWINGWEIGHT] == pytest.approx(-1.8, abs=0.05)
    assert found.apart[Quantity.MASS] == pytest.approx(-3.0 * GRAM, abs=1e-9)
    assert found.length_apart == pytest.approx(0.0, abs=1e-9)


def test_the_mend_puts_the_three_grams_back_into_the_head() -> None:
    first = solve(DRIVER, TARGET)
    mended = made_of(as_built(with_head(192.0), TARGET, made_of(first)).mend)
    assert mended.head_added - made_of(first).head_added == pytest.approx(3.0 * GRAM, abs=1e-9)
    assert mended.butt_added == pytest.approx(made_of(first).butt_added, abs=1e-9)
    assert as_built(with_head(192.0), TARGET, mended).apart[Quantity.SWINGWEIGHT] == (
        pytest.approx(0.0, abs=1e-9)
    )


def test_a_head_too_heavy_has_no_mend_and_keeps_its_target() -> None:
    found = as_built(with_head(210.0), TARGET, made_of(solve(DRIVER, TARGET)))
    assert not found.mend.feasible
    assert found.mend.target == TARGET


def test_after_the_butt_cut_a_mend_keeps_the_length_that_is_there() -> None:
    made = replace(made_of(solve(DRIVER, TARGET)), kept=43.0 * INCH)
    found = as_built(DRIVER, TARGET, made, cut=True)
    assert found.length_apart == pytest.approx(-0.125 * INCH, abs=1e-9)
    assert found.mend.club is not None
    assert found.mend.club.length == pytest.approx(44.875 * INCH, abs=1e-9)


def test_a_cut_that_the_shaft_does_not_give_is_refused() -> None:
    made = replace(made_of(solve(DRIVER, TARGET)), kept=47.0 * INCH)
    with pytest.raises(InputError, match="too short"):
        as_built(DRIVER, TARGET, made)


@given(st.floats(min_value=185.0, max_value=200.0))
def test_a_mend_that_can_be_built_always_meets_the_target(grams: float) -> None:
    made = made_of(solve(DRIVER, TARGET))
    found = as_built(with_head(grams), TARGET, made)
    if found.mend.feasible:
        again = as_built(with_head(grams), TARGET, made_of(found.mend))
        assert all(abs(one) < 1e-6 for one in again.apart.values())
    assert found.mend.target == TARGET
