"""What was learned from a shop, turned into what one fitting's comparison believes."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.shop_beliefs import (
    SLOPE_COLUMNS,
    SWING_EFFECTS,
    KnownClubs,
    ShopBeliefs,
)
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import Belongs, Effects

_SIDEWAYS: Final = frozenset({"axis", "direction", "face_to_path", "face", "toe"})
"""What changes its sign in a mirror."""
_SLOPES: Final = slice(FEATURES.index("toe"), FEATURES.index("face") + 1)


def _signs(names: Sequence[str]) -> FloatArray:
    return frozen_array([-1.0 if name in _SIDEWAYS else 1.0 for name in names])


_LAUNCH_SIGNS: Final = _signs([one.column for one in RESPONSES])
_SWING_SIGNS: Final = _signs(SWING_EFFECTS)
_COLUMN_SIGNS: Final = _signs(SLOPE_COLUMNS)


def beliefs_of(
    learned: ShopLearned, clubs: Sequence[Belongs], head: str, *, left_handed: bool
) -> ShopBeliefs:
    """Return what a shop believes of a fitting's clubs before its balls.

    Parameters
    ----------
    learned : ShopLearned
    clubs : sequence of Belongs
        Of the fitting, in the order of its balls' clubs.
    head : str
        The head model that is hit, for the slopes; empty where nobody knows.
    left_handed : bool
        Whose balls are in mirrored signs.

    Returns
    -------
    ShopBeliefs

    Notes
    -----
    A club may do what differs between clubs of the same parts besides what is in doubt of its
    parts; the former is its own, the latter is shared with clubs of the same parts. Where a
    head's own slopes are known, what is in doubt of them adds to how golfers differ.
    """
    slopes, borrowed = learned.slopes_with(head)
    variances = np.diagonal(learned.launch.spread, axis1=1, axis2=2).T
    own = next((one for one in learned.heads if one.head == head), None)
    if own is not None:
        variances = variances + own.sd**2
    launch, launch_covariance = _expected(learned.effects, learned.launch.clubs, clubs)
    swing, swing_covariance = _expected(learned.swing_effects, learned.swing.clubs, clubs)
    told = ShopBeliefs(
        version=learned.version,
        fittings=learned.fittings,
        table=learned.table,
        slopes=frozen_array(slopes[_SLOPES].T),
        slope_sd=frozen_array(np.sqrt(variances[_SLOPES].T)),
        borrowed=borrowed,
        clubs=KnownClubs(
            launch=launch,
            launch_covariance=launch_covariance,
            swing=swing,
            swing_covariance=swing_covariance,
            fittings=tuple(learned.effects.seen(one)[2] for one in clubs),
            own=learned.launch.clubs,
            swing_own=learned.swing.clubs,
        ),
    )
    return mirrored(told) if left_handed else told


def mirrored(beliefs: ShopBeliefs) -> ShopBeliefs:
    """Return what is believed of a golfer who plays the other way round.

    Parameters
    ----------
    beliefs : ShopBeliefs
        Axis, direction, face to path, face and toe change their signs; spreads do not.
    """
    known = beliefs.clubs
    count = known.launch.shape[1]
    launch, swing = np.repeat(_LAUNCH_SIGNS, count), np.repeat(_SWING_SIGNS, count)
    clubs = replace(
        known,
        launch=frozen_array(_LAUNCH_SIGNS[:, None] * known.launch),
        launch_covariance=frozen_array(np.outer(launch, launch) * known.launch_covariance),
        swing=frozen_array(_SWING_SIGNS[:, None] * known.swing),
        swing_covariance=frozen_array(np.outer(swing, swing) * known.swing_covariance),
        own=_turned(known.own, _LAUNCH_SIGNS),
        swing_own=_turned(known.swing_own, _SWING_SIGNS),
    )
    slopes = np.outer(_LAUNCH_SIGNS, _COLUMN_SIGNS) * beliefs.slopes
    return replace(beliefs, slopes=frozen_array(slopes), clubs=clubs)


def _turned(covariance: FloatArray | None, signs: FloatArray) -> FloatArray | None:
    return None if covariance is None else frozen_array(np.outer(signs, signs) * covariance)


def _expected(
    effects: Effects, between: FloatArray, clubs: Sequence[Belongs]
) -> tuple[FloatArray, FloatArray]:
    """Return means, response by club, and their covariance with the club running fastest."""
    means, doubt = effects.joint(clubs)
    count, responses = means.shape
    for club in range(count):
        doubt[club, :, club, :] += between
    flat = doubt.transpose(1, 0, 3, 2).reshape(responses * count, responses * count)
    return frozen_array(means.T), frozen_array(0.5 * (flat + flat.T))
