"""What a shop believes before it learned anything is what one fitting believes."""

import numpy as np

from loftwright.arrays import frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.evidence.columns import Columns
from loftwright.evidence.scales import LAUNCH_NAMES, LAUNCH_SCALE
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.physics import COLUMNS
from loftwright.shop.physics_start import physics_population

DELIVERY = frozen_array(
    [101.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE],
)


def test_sums_and_comparison_count_in_the_same_units_and_order() -> None:
    assert tuple(one.column for one in RESPONSES) == LAUNCH_NAMES
    assert np.allclose([one.unit for one in RESPONSES], LAUNCH_SCALE)
    names = tuple("one" if name == "intercept" else name for name in COLUMNS.names)
    assert names == FEATURES
    assert isinstance(COLUMNS, Columns)


def test_physics_believes_what_is_known_of_impact() -> None:
    belief = physics_population(DELIVERY)
    speed, spin, axis = (LAUNCH_NAMES.index(name) for name in ("ball_speed", "spin", "axis"))
    assert belief.slopes[FEATURES.index("head_speed"), speed] > 1.3
    assert belief.slopes[FEATURES.index("high"), spin] < 0.0
    assert belief.slopes[FEATURES.index("toe"), axis] < 0.0
    assert belief.slopes[FEATURES.index("face_to_path"), axis] > 0.0


def test_every_covariance_can_be_inverted() -> None:
    belief = physics_population(DELIVERY)
    for one in (*belief.spread, belief.clubs, belief.left):
        assert np.linalg.eigvalsh(one).min() > 0.0
