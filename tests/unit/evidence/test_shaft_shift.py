"""What is believed of a shaft, as the comparison of clubs takes it."""

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.evidence.clubs import ClubTraits, effect_means
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.shaft_prior import Belief, Effect, shaft_shift
from loftwright.evidence.slopes import slopes_at
from loftwright.evidence.visit import BALL_ONLY
from loftwright.physics.heads import REFERENCE_HEAD

DELIVERY = np.array([42.0, -0.5 * DEGREE, 0.0, 0.0, 14.5 * DEGREE])
BELIEFS = {
    effect: Belief(mean=mean, sd=1.0)
    for effect, mean in (
        (Effect.HEAD_SPEED, 0.3 * MILE_PER_HOUR),
        (Effect.ATTACK, 0.0),
        (Effect.PATH, 0.0),
        (Effect.FACE, 0.0),
        (Effect.DYNAMIC_LOFT, 0.4 * DEGREE),
        (Effect.LAUNCH, 9.0),
        (Effect.LIE, 9.0),
    )
}


def test_a_shaft_enters_as_speed_and_dynamic_loft_alone() -> None:
    expected = (0.3 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.4 * DEGREE)
    assert shaft_shift(BELIEFS) == expected


def test_effects_of_clubs_begin_where_the_shaft_is_believed_to_be() -> None:
    slopes = slopes_at(DELIVERY, REFERENCE_HEAD)
    traits = (
        ClubTraits(head="one", shaft="own"),
        ClubTraits(head="one", shaft="other", shift=shaft_shift(BELIEFS)),
    )
    means = effect_means(slopes, BALL_ONLY, 2, traits)
    assert (means[:, 0] == 0.0).all()
    by_parts = 0.3 * slopes.parts[:, 0] + 0.4 * slopes.parts[:, 4]
    assert means[:, 1] == pytest.approx(by_parts)
    launch = means[1, 1] * LAUNCH_SCALE[1] / DEGREE
    assert 0.25 < launch < 0.40
