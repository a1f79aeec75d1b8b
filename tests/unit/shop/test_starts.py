import numpy as np
import pytest

from loftwright.shop.levels import LEVELS, LINE
from loftwright.shop.starts import starts


def test_half_of_what_clubs_do_goes_with_the_shaft_before_anything_was_learned() -> None:
    clubs, heads = np.array([1.0, 0.01]), np.array([4.0, 9.0])
    found = starts(clubs, heads)
    line = [LEVELS.index(one) for one in LINE]
    assert found[line].sum(axis=0) == pytest.approx(0.5 * clubs)


def test_heads_differ_by_what_heads_do_and_not_by_what_shafts_do() -> None:
    heads = np.array([4.0, 9.0])
    assert starts(np.array([1.0, 0.01]), heads)[LEVELS.index("head")] == pytest.approx(heads)
