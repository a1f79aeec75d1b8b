"""What an invented shop learned: shafts F0 to F1, M0 to M3, P0 to P3 and a head H, hit often."""

from datetime import date

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.spreads import JUDGED
from loftwright.shop.columns import FEATURES
from loftwright.shop.learned import HeadSlopes, ShopLearned
from loftwright.shop.levels import LEVELS, Belongs, Effects
from loftwright.shop.population import Population

CLUBS = tuple(
    Belongs(head="H", family=f"F{one % 2}", model=f"M{one}", piece=f"P{one}") for one in range(4)
)
STRANGER = Belongs(head="H", family="F9", model="M9", piece="P9")


def whole(rng: np.random.Generator, size: int) -> FloatArray:
    """Return a covariance that can be inverted."""
    root = rng.standard_normal((size, size))
    return np.asarray(root @ root.T + 0.1 * np.eye(size))


def some_effects(rng: np.random.Generator, responses: int) -> Effects:
    """Return effects of everything that the clubs belong to."""
    members = tuple(dict.fromkeys(one for club in CLUBS for one in club.members))
    size = len(members) * responses
    shape = (len(members), responses, len(members), responses)
    return Effects(
        members=members,
        means=frozen_array(rng.standard_normal((len(members), responses))),
        covariance=frozen_array((whole(rng, size) / size).reshape(shape)),
        variances=frozen_array(rng.uniform(0.1, 1.0, (len(LEVELS), responses))),
        fittings={member: number + 1 for number, member in enumerate(members)},
    )


def some_population(rng: np.random.Generator, features: int, responses: int) -> Population:
    """Return a population that can be anything."""
    return Population(
        slopes=frozen_array(rng.standard_normal((features, responses))),
        spread=frozen_array([whole(rng, features) for _ in range(responses)]),
        clubs=frozen_array(whole(rng, responses)),
        left=frozen_array(whole(rng, responses)),
    )


def learned(seed: int) -> ShopLearned:
    """Return what an invented shop learned."""
    rng = np.random.default_rng(seed)
    shape = (len(FEATURES), 5)
    return ShopLearned(
        version=3,
        program="1",
        made=date(2031, 5, 2),
        fittings=60,
        golfers=50,
        balls=2400,
        launch=some_population(rng, len(FEATURES), 5),
        swing=some_population(rng, 3, 6),
        heads=(
            HeadSlopes(
                head="H",
                fittings=40,
                slopes=frozen_array(rng.standard_normal(shape)),
                sd=frozen_array(rng.uniform(0.1, 1.0, shape)),
            ),
        ),
        offsets=(),
        table=JUDGED,
        effects=some_effects(rng, 5),
        swing_effects=some_effects(rng, 6),
    )
