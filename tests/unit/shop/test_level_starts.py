"""How much levels differ before anything was learned."""

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.shop.level_starts import START, START_OF_KINDS, level_starts
from loftwright.shop.levels import KINDS, LEVELS
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond, swing_population

CLUBS = np.diag([1.0, 0.01, 0.0001])


def test_no_level_of_a_shaft_differs_more_than_clubs_do() -> None:
    found = level_starts(CLUBS, ("head", "model", "speed"), ("speed",), "head")
    assert found[0] == pytest.approx([START] * 3)
    assert found[1] == pytest.approx([START, 0.01, 0.0001])
    assert found[2] == pytest.approx([START_OF_KINDS, 0.0025, 0.000025])


@pytest.mark.parametrize("clubs", [nothing_beyond(USUAL_DELIVERY).clubs, swing_population().clubs])
def test_what_physics_believes_bounds_every_level_of_a_shaft(clubs: FloatArray) -> None:
    found = level_starts(clubs, LEVELS, KINDS, "head")
    shaft = [row for level, row in zip(LEVELS, found, strict=True) if level != "head"]
    assert (np.array(shaft) <= np.diag(clubs)).all()
    assert found.min() > 0.0
