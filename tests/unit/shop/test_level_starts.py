"""How much levels differ before anything was learned."""

import numpy as np
import pytest

from loftwright.shop.level_starts import SHARE_OF_CLUBS, START, START_OF_KINDS, level_starts
from loftwright.shop.levels import KINDS, LEVELS
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond, swing_population

CLUBS = np.diag([1.0, 0.1, 0.0001])


def test_no_level_of_a_shaft_differs_more_than_clubs_allow() -> None:
    found = level_starts(CLUBS, ("head", "model", "speed"), ("speed",), "head")
    assert found[1] == pytest.approx([START, SHARE_OF_CLUBS * 0.1, SHARE_OF_CLUBS * 0.0001])
    assert found[2] == pytest.approx([START_OF_KINDS, 0.25 * found[1, 1], 0.25 * found[1, 2]])
    assert found[0] == pytest.approx([START] * 3)


@pytest.mark.parametrize("clubs", [nothing_beyond(USUAL_DELIVERY).clubs, swing_population().clubs])
def test_all_levels_of_a_shaft_together_differ_no_more_than_clubs(clubs: np.ndarray) -> None:
    found = level_starts(clubs, LEVELS, KINDS, "head")
    shaft = [row for level, row in zip(LEVELS, found, strict=True) if level != "head"]
    assert (np.sum(shaft, axis=0) <= np.diag(clubs) + 1e-12).all()
    assert found.min() > 0.0
