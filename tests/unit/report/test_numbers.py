"""Figures as the trade says them."""

import pytest

from loftwright.constants import REVOLUTION_PER_MINUTE
from loftwright.report.numbers import count, fixed, listed, percent, signed, spin


def test_minus_is_a_true_minus_sign() -> None:
    assert fixed(-3.2, 1) == "−3.2"
    assert signed(-3.2) == "−3.2"


def test_differences_always_have_a_sign_but_nothing_has_none() -> None:
    assert signed(3.25) == "+3.2"
    assert signed(0.04) == "0.0"
    assert signed(-0.04) == "0.0"
    assert fixed(-0.4) == "0"


def test_spin_is_given_to_ten_turns() -> None:
    assert spin(2654.0 * REVOLUTION_PER_MINUTE) == "2650 rpm"


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.5, "50 %"), (0.999, "99 %"), (0.001, "1 %"), (0.0, "0 %"), (1.0, "100 %")],
)
def test_a_doubt_is_never_written_as_certainty(share: float, words: str) -> None:
    assert percent(share) == words


def test_counts_and_lists_read_as_words() -> None:
    assert count(1, "ball") == "1 ball"
    assert count(3, "ball") == "3 balls"
    assert count(2, "fairway", "fairways") == "2 fairways"
    assert listed([]) == ""
    assert listed(["Ash"]) == "Ash"
    assert listed(["Ash", "Birch", "Cedar"]) == "Ash, Birch and Cedar"
