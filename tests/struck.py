"""Balls that were struck by a known delivery, in a bay's own numbers."""

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.numbers import ShotNumbers
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many
from loftwright.physics.impact_law import ImpactLaw

USUAL = np.array(
    [
        102.0 * MILE_PER_HOUR,
        1.0 * DEGREE,
        -1.0 * DEGREE,
        0.5 * DEGREE,
        14.0 * DEGREE,
        6.0 * MILLIMETRE,
        -2.0 * MILLIMETRE,
    ]
)
"""Head speed, attack, path, face, loft and strike of a swing, in the golfer's own signs."""

SPREAD = np.array(
    [
        1.0 * MILE_PER_HOUR,
        0.8 * DEGREE,
        1.2 * DEGREE,
        1.3 * DEGREE,
        1.0 * DEGREE,
        7.0 * MILLIMETRE,
        5.0 * MILLIMETRE,
    ]
)


def swings(count: int, seed: int = 1) -> FloatArray:
    """Return deliveries about the usual one, shape (count, 7)."""
    rng = np.random.default_rng(seed)
    return np.asarray(USUAL + SPREAD * rng.standard_normal((count, 7)))


def struck(
    delivery: FloatArray,
    *,
    law: ImpactLaw | None = None,
    left_handed: bool = False,
    off: float = 0.0,
    without: tuple[str, ...] = (),
) -> ShotNumbers:
    """Return what a device without error reads of one delivery.

    Parameters
    ----------
    delivery : FloatArray, shape (7,)
        In the golfer's own signs.
    law : ImpactLaw, optional
    left_handed : bool
        Turns direction and axis.
    off : float
        By which the face is read too open [rad].
    without : tuple of str
        Numbers that are not read.
    """
    side = -1.0 if left_handed else 1.0
    launch = strike_many(REFERENCE_HEAD, delivery[None], law or ImpactLaw())[0].tolist()
    told = {
        "ball_speed": launch[0],
        "launch": launch[1],
        "spin": launch[2],
        "axis": side * launch[3],
        "direction": side * launch[4],
        "head_speed": float(delivery[0]),
        "attack": float(delivery[1]),
        "path": float(delivery[2]),
        "face": float(delivery[3]) + off,
    }
    return ShotNumbers(**{name: value for name, value in told.items() if name not in without})
