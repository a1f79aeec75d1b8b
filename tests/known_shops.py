"""What somebody would have learned who knew a simulated shop, but for an error of a known size."""

from dataclasses import replace

import numpy as np

from learned_samples import learned
from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.columns import FEATURES
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import LEVELS, Effects
from loftwright.training.shop_catalogue import SHAFT_LEVELS
from loftwright.training.shop_truth import same_swing_way, swing_way
from loftwright.training.shop_world import Shop

SD = 0.1
"""Said of every figure."""


def who_knows(drawn: Shop, error: float) -> ShopLearned:
    """Return what is so many said standard deviations off, all of it."""
    return replace(
        learned(1),
        effects=_effects(drawn, same_swing_way(drawn), error),
        swing_effects=_effects(drawn, swing_way(drawn), error),
        physics=frozen_array(np.zeros((len(FEATURES), 5))),
    )


def _effects(drawn: Shop, way: FloatArray, error: float) -> Effects:
    members = tuple(one for one in drawn.catalogue.does if one[0] in SHAFT_LEVELS)
    true = np.array([way @ drawn.catalogue.does[one] for one in members])
    count, responses = true.shape
    covariance = np.zeros((count, responses, count, responses))
    for place in range(count):
        covariance[place, :, place, :] = SD**2 * np.eye(responses)
    return Effects(
        members=members,
        means=frozen_array(true + error * SD),
        covariance=frozen_array(covariance),
        variances=frozen_array(np.zeros((len(LEVELS), responses))),
        fittings=dict.fromkeys(members, 1),
    )
