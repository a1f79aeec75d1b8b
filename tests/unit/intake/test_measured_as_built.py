"""What was put into a club and its grip's lower size, as a file of measurements tells them."""

import pytest

from builds import BUILD_TOML
from loftwright.constants import GRAM, INCH
from loftwright.domain.build_sheet import Mind
from loftwright.domain.built import Checked
from loftwright.errors import InputError
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.services.build_check import check_sheet

WEIGHED = "[mass_g]\nvalue = 323\nu95 = 0.5\n"


def test_what_was_put_in_is_read_and_the_other_is_nothing() -> None:
    found = read_measured_text("[built]\nhead_added_g = 4.5\n")
    assert found.head_added == pytest.approx(4.5 * GRAM)
    assert found.butt_added == 0.0
    bare = read_measured_text(WEIGHED)
    assert (bare.head_added, bare.butt_added) == (None, None)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("[built]\nhead_added_g = -1\n", "final check, built, head_added_g"),
        ("[built]\nbutt_added_g = 101\n", "final check, built, butt_added_g"),
        ("[built]\nhead = 1\n", "final check, built"),
        ('[built]\nhead_added_g = "much"\n', "final check, built, head_added_g"),
    ],
)
def test_what_cannot_have_been_put_in_is_refused_with_its_key(text: str, place: str) -> None:
    with pytest.raises(InputError) as caught:
        read_measured_text(text)
    assert caught.value.place == place


def test_the_lower_hand_is_read_and_held_against_nothing() -> None:
    text = "[grip_low_inch]\nvalue = 0.88\nu95 = 0.003\n"
    checked = check_sheet(read_build_text(BUILD_TOML), read_measured_text(text))
    assert checked.measured.grip_low is not None
    assert checked.measured.grip_low.value == pytest.approx(0.88 * INCH)
    assert checked.targets == ()
    assert checked.limits == ()


def test_parts_that_cannot_be_solved_are_foreseen_by_what_was_put_in() -> None:
    heavy = read_build_text(BUILD_TOML.replace("mass_g = 195", "mass_g = 215"))
    solved = check_sheet(heavy, read_measured_text(WEIGHED))
    assert Mind.NOT_BUILDABLE in solved.minds
    assert solved.predicted == {}
    told = check_sheet(heavy, read_measured_text(f"{WEIGHED}\n[built]\nhead_added_g = 0\n"))
    assert Mind.NOT_BUILDABLE not in told.minds
    # 325 g with 6.8655 g and 3.2465 g put in, worked by hand; here neither, and 20 g more head.
    assert told.predicted[Checked.MASS].value / GRAM == pytest.approx(334.888, abs=0.001)


def test_a_shaft_that_is_too_short_foresees_nothing() -> None:
    short = read_build_text(BUILD_TOML.replace("raw_length_inch = 46", "raw_length_inch = 42"))
    told = check_sheet(short, read_measured_text(f"{WEIGHED}\n[built]\nhead_added_g = 0\n"))
    assert told.predicted == {}
    assert Mind.NOT_BUILDABLE in told.minds
