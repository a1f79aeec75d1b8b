"""An answer to what a table leaves open is taken or settles nothing, and is never a defect."""

import pytest

from loftwright.errors import InputError
from loftwright.intake.answers import all_answered, answered
from loftwright.intake.options import ReadOptions


def test_a_line_that_is_not_ours_is_taken_by_its_number() -> None:
    told = answered("--not-ours 3", ReadOptions(not_ours=(2,)))
    assert told is not None
    assert told.not_ours == (2, 3)


@pytest.mark.parametrize("number", ["²", "9" * 5000, "-1", "3.5", ""])
def test_a_number_that_no_line_can_have_settles_nothing(number: str) -> None:
    assert answered(f"--not-ours {number}", ReadOptions()) is None


def test_an_answer_longer_than_any_settles_nothing_and_says_the_mend() -> None:
    with pytest.raises(InputError) as told:
        all_answered([f'--column "{"x" * 10_000}"'], ReadOptions())
    assert told.value.mend
    assert len(str(told.value)) < 7_000
