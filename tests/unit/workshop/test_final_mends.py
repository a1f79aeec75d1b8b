"""What a reading that is out asks for is what brings the club back to its sheet."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds import BUILD_TOML, DRIVER, points
from final_checks import BUILD, readings, without
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.intake.build_text import Value, read_build_text, read_measured_text
from loftwright.physics.build.club import assembled, kept_length
from loftwright.services.build_check import check_sheet
from loftwright.workshop.final_mends import mends

IN_HEAD = 6.8655
IN_BUTT = 3.2465
"""What the sheet solves to in grams, worked by hand from its equations (self-consistent)."""


def checked_of(measured: str, build: str = BUILD) -> CheckedBuild:
    return check_sheet(read_build_text(build), read_measured_text(measured))


def test_a_club_that_is_in_asks_for_nothing() -> None:
    assert mends(checked_of(readings())) == ()


@given(missing=st.floats(2.0, 6.5), butt=st.floats(0.0, 3.0))
def test_what_was_left_out_of_the_head_is_what_has_to_go_in(missing: float, butt: float) -> None:
    head = IN_HEAD - missing
    club = assembled(DRIVER, kept_length(DRIVER, 45.0 * INCH), head * GRAM, butt * GRAM)
    measured = readings(
        mass_g__value=club.mass / GRAM,
        balance_inch__value=club.balance / INCH,
        swingweight__value=points(club),
        built__head_added_g=head,
        built__butt_added_g=butt,
    )
    mend = next(one for one in mends(checked_of(measured)) if one.head is not None)
    assert mend.head == pytest.approx(missing * GRAM, abs=2e-6)
    assert mend.butt == pytest.approx((IN_BUTT - butt) * GRAM, abs=2e-6)


def test_a_light_head_is_mended_in_one_change() -> None:
    light = BUILD.replace("mass_g = 195", "mass_g = 192")
    measured = readings(mass_g__value=322.0, balance_inch__value=32.97, swingweight__value="D1.2")
    found = mends(checked_of(measured, light))
    assert [one.checked for one in found] == [Checked.SWINGWEIGHT]
    (mend,) = found
    assert mend.head is not None
    assert mend.head / GRAM == pytest.approx(3.0, abs=0.1)
    assert mend.possible


def test_a_head_that_would_have_to_be_lighter_than_it_is_cannot_be_mended_so() -> None:
    heavy = readings(
        mass_g__value=325.0,
        balance_inch__value=33.25,
        swingweight__value="D4.6",
        built__head_added_g=0.0,
        built__butt_added_g=0.0,
    )
    (mend, *_) = mends(checked_of(heavy, BUILD.replace("mass_g = 195", "mass_g = 205")))
    assert mend.head is not None
    assert mend.head < 0.0
    assert not mend.possible


def test_what_masses_do_not_mend_is_told_with_how_far_it_is_off() -> None:
    found = mends(checked_of(readings(length_inch__value=45.2, loft_deg__value=9.5)))
    assert [one.checked for one in found] == [Checked.LENGTH, Checked.LOFT]
    assert found[0].off == pytest.approx(0.2 * INCH)
    assert found[1].off == pytest.approx(-1.0 * DEGREE)
    assert found[0].head is None


def test_a_thin_grip_asks_for_turns_of_tape() -> None:
    made = BUILD + (
        "\n[build_up]\nbutt_inch = 0.6\ncore_inch = 0.6\nnominal_inch = 0.9\ntape_inch = 0.005\n"
    )
    (mend,) = mends(checked_of(readings(grip_inch__value=0.9), made))
    assert mend.turns is not None
    # Added: 0.020 in is two turns; with the rubber's volume kept, about half as many again.
    assert mend.turns[0] == pytest.approx(2.0)
    assert 2.8 < mend.turns[1] < 3.2


def test_a_target_that_was_not_read_counts_as_the_parts_come_to() -> None:
    low = readings(
        swingweight__value="D1.0",
        mass_g__value=None,
        mass_g__u95=None,
        built__head_added_g=IN_HEAD,
        built__butt_added_g=IN_BUTT,
    )
    (mend,) = mends(checked_of(low))
    assert mend.head is not None
    # Two points at the head's lever, as much taken from the butt: 2 × 49.61 / (43.85 - 0.875).
    assert mend.head / GRAM == pytest.approx(2.309, abs=0.001)
    assert mend.butt == pytest.approx(-mend.head, abs=1e-6)


def test_only_what_was_solved_for_is_mended_by_masses() -> None:
    one = BUILD_TOML.replace("mass_g = 325\n", "", 1)
    checked = checked_of(without("loft_deg", "frequency_cpm", "grip_inch", "built"), one)
    line = next(one for one in checked.targets if one.checked is Checked.MASS)
    assert not line.asked
    assert all(one.butt in {None, 0.0} for one in mends(checked))


def test_of_a_shaft_that_is_too_short_no_masses_are_told() -> None:
    short = BUILD.replace("raw_length_inch = 46", "raw_length_inch = 42")
    light: dict[str, Value] = {
        "mass_g__value": 322.0,
        "balance_inch__value": 32.97,
        "swingweight__value": "D1.2",
    }
    (mend, *_) = mends(checked_of(readings(**light), short))
    assert (mend.checked, mend.head, mend.asked) == (Checked.SWINGWEIGHT, None, True)
    measured = readings(**light, built__cut_length_inch=41.0)
    found = next(one for one in mends(checked_of(measured, short)) if one.head is not None)
    assert found.checked is Checked.SWINGWEIGHT
