"""Heads differ unseen, and the difference shows where physics says it should."""

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.physics.head_variation import VARIATIONS, heads_around, varied_head
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many

CENTRE = np.array([[100.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE, 0.0, 0.0]])
BASE = strike_many(REFERENCE_HEAD, CENTRE)[0]


def test_no_variation_is_the_head_itself() -> None:
    same = varied_head(REFERENCE_HEAD, np.zeros(len(VARIATIONS)))
    assert np.array_equal(strike_many(same, CENTRE)[0], BASE)


def test_two_heads_stand_around_for_each_thing_that_varies() -> None:
    assert len(heads_around(REFERENCE_HEAD)) == len(VARIATIONS)
    assert heads_around(REFERENCE_HEAD) is heads_around(REFERENCE_HEAD)


def test_a_centre_of_gravity_towards_the_toe_draws_a_centre_strike() -> None:
    """A strike on the heel side of the centre of gravity fades, and so the reverse draws.

    Gear effect, common practice, no source; the size, about 3 degrees of axis for 2 mm, is
    self-consistent.
    """
    toe = heads_around(REFERENCE_HEAD)[VARIATIONS.index("toe")][0]
    axis = strike_many(toe, CENTRE)[0, 3] - BASE[3]
    assert 1.5 * DEGREE < axis < 5.0 * DEGREE


def test_a_lower_centre_of_gravity_launches_with_less_spin() -> None:
    by = np.zeros(len(VARIATIONS))
    by[VARIATIONS.index("height")] = -1.0
    assert strike_many(varied_head(REFERENCE_HEAD, by), CENTRE)[0, 2] < BASE[2]


def test_a_hotter_face_is_faster() -> None:
    hot = heads_around(REFERENCE_HEAD)[VARIATIONS.index("restitution")][0]
    assert strike_many(hot, CENTRE)[0, 0] > BASE[0]


def test_the_centre_of_gravity_moves_as_told() -> None:
    deep = heads_around(REFERENCE_HEAD)[VARIATIONS.index("depth")][0]
    assert deep.cg - REFERENCE_HEAD.cg == pytest.approx([3.0 * MILLIMETRE, 0.0, 0.0])
