"""What an invented shop has learned, written down by hand."""

from datetime import date

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.spreads import JUDGED
from loftwright.shop.columns import RESPONSES
from loftwright.shop.learned import Leverage, Offset, ShopLearned
from loftwright.shop.levels import LEVELS, Effects
from loftwright.shop.physics import physics_at
from loftwright.shop.physics_start import USUAL_DELIVERY, physics_population
from loftwright.shop.population import Population

BELIEF = physics_population(USUAL_DELIVERY)
SWING = ("head_speed", "attack", "face_to_path", "face", "toe", "high")

Told = dict[tuple[str, str], tuple[tuple[float, ...], float, int]]
"""By level and name: means in the units of the sums, their standard deviation, fittings."""

HERON: Told = {
    ("family", "Heron"): ((0.1, 0.05, 0.1, 0.0, 0.0), 0.1, 24),
    ("generation", "Heron generation 1"): ((0.0, 0.0, -0.2, 0.0, 0.0), 0.1, 20),
    ("generation", "Heron generation 2"): ((0.0, 0.1, 0.1, 0.0, 0.0), 0.15, 9),
    ("model", "heron-60-1"): ((0.2, 0.3, -0.8, 0.1, 0.0), 0.2, 12),
    ("model", "heron-70-1"): ((-0.1, -0.1, 0.2, 0.0, 0.1), 0.2, 11),
    ("model", "heron-60-2"): ((0.0, 0.1, 0.1, 0.0, 0.0), 0.25, 9),
    ("piece", "heron-60-1-a"): ((0.0, 0.0, 0.0, 0.0, 0.0), 0.1, 10),
    ("piece", "heron-60-2-a"): ((0.0, 0.0, 0.0, 0.0, 0.0), 0.1, 9),
    ("piece", "heron-70-1-a"): ((0.0, 0.0, 0.0, 0.0, 0.0), 0.1, 11),
}


def effects_of(told: Told, responses: int = len(RESPONSES), differ: float = 0.04) -> Effects:
    """Return what is believed of things, each known apart from the others."""
    members = tuple(told)
    size = len(members)
    covariance = np.zeros((size, responses, size, responses))
    for place, (_, sd, _) in enumerate(told.values()):
        covariance[place, :, place, :] = sd**2 * np.eye(responses)
    return Effects(
        members=members,
        means=frozen_array(
            np.array([means for means, _, _ in told.values()]).reshape(size, responses)
        ),
        covariance=frozen_array(covariance),
        variances=frozen_array(np.full((len(LEVELS), responses), differ)),
        fittings={name: fittings for name, (_, _, fittings) in told.items()},
    )


def swing_population() -> Population:
    """Return a population of swings that was never learned."""
    features, responses = 3, len(SWING)
    return Population(
        slopes=frozen_array(np.zeros((features, responses))),
        spread=frozen_array(np.tile(np.eye(features), (responses, 1, 1))),
        clubs=frozen_array(0.04 * np.eye(responses)),
        left=frozen_array(np.eye(responses)),
    )


def a_bay_offset(name: str, spin: float, sd: float = 0.15, kind: str = "bay") -> Offset:
    """Return a bay or device that reads spin differently, in units of the sums."""
    mean: FloatArray = frozen_array([0.0, 0.0, spin, 0.0, 0.0])
    return Offset(kind=kind, name=name, fittings=60, mean=mean, sd=frozen_array(5 * [sd]))


def a_learned(
    told: Told | None = None,
    *,
    version: int = 3,
    fittings: int = 143,
    faster: float = 0.0,
    leverage: tuple[Leverage, ...] = (),
    offsets: tuple[Offset, ...] = (),
) -> ShopLearned:
    """Return what an invented shop learned of the rack in `racks.a_measured_rack`.

    With every model golfers swing so much `faster` [mph].
    """
    known = HERON if told is None else told
    swings: Told = {
        name: ((faster if name[0] == "model" else 0.0, *5 * (0.0,)), 1e-4, count)
        for name, (_, _, count) in known.items()
    }
    return ShopLearned(
        version=version,
        program="0.1.0",
        made=date(2026, 11, 20),
        fittings=fittings,
        golfers=96,
        balls=5720,
        launch=BELIEF,
        swing=swing_population(),
        heads=(),
        offsets=offsets,
        table=JUDGED,
        physics=physics_at(USUAL_DELIVERY).slopes,
        effects=effects_of(known),
        swing_effects=effects_of(swings, len(SWING), differ=1e-8),
        leverage=leverage,
    )
