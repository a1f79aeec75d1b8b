"""What stands for a golfer's name on paper that hangs in the workshop."""

import pytest

from loftwright.domain.golfer import Identity


@pytest.mark.parametrize(
    ("name", "initials"),
    [
        ("Sabine Bright", "S.B."),
        ("Sabine Bright (invented)", "S.B."),
        ("élodie van der Meer", "É.V.D.M."),
        ("S.", "S."),
        ("(?)", "(."),
    ],
)
def test_initials_are_of_the_words_of_a_name(name: str, initials: str) -> None:
    assert Identity(name=name).initials == initials
