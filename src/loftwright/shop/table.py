"""The table of spreads that follows from what a shop learned, for a mid golfer."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.learning import loft_variance, shared_out
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.spreads import (
    JUDGED,
    LAUNCH_SCATTER_OF_MID,
    Spreads,
    SpreadTable,
)
from loftwright.shop.columns import SWING_RESPONSES
from loftwright.shop.physics import COLUMNS
from loftwright.shop.physics_start import SWING_ERROR
from loftwright.shop.population import Population

_PRIOR_BALLS: Final = 10.0
_NARROWEST, _WIDEST = 0.45, 1.6
_SHARES: Final = 200
"""Passes of sharing out: far more than the two variances of a response need."""
_LEAST_SHARE: Final = 0.1
"""No spread is learned to be below this share of the judged one."""
_LOFT: Final = 4
_SPEED, _ATTACK, _FACE_TO_PATH, _FACE = (
    [one.column for one in SWING_RESPONSES].index(name)
    for name in ("head_speed", "attack", "face_to_path", "face")
)


def squared_factor(variance: float, freedom: int) -> float:
    """Return how much wider than a mid golfer's swings one golfer's are, as a ratio of variances.

    Parameters
    ----------
    variance : float
        Of launch within clubs [rad^2].
    freedom : int

    Notes
    -----
    As in a comparison, ten balls' worth of the mid golfer join the golfer's own.
    """
    mid = LAUNCH_SCATTER_OF_MID**2
    ratio = (_PRIOR_BALLS * mid + freedom * variance) / (_PRIOR_BALLS + freedom) / mid
    return float(np.clip(ratio, _NARROWEST**2, _WIDEST**2))


def table_of(
    launch: Population, swing: Population, slopes: Slopes, factors: tuple[float, float]
) -> SpreadTable:
    """Return how a mid golfer's swings spread, and what clubs of which nothing is known may do.

    Parameters
    ----------
    launch, swing : Population
        The latter of swings counted by the inverse of each golfer's squared factor.
    slopes : Slopes
        Of physics at the shop's mean delivery.
    factors : tuple of float
        Means over balls of golfers' squared factors, and of their inverses.

    Notes
    -----
    What clubs do to launch from the same swing is shared out between dynamic loft and a floor by
    the slopes of physics; the loft's spread is what the residual of launch has over along the way
    in which loft moves it.
    """
    size = len(COLUMNS.delivery)
    parts, club_parts = np.zeros(5), np.zeros(5)
    error = SWING_ERROR**2 * factors[1]
    parts[:_LOFT] = _parts(swing.left[:size, :size] - np.diag(error[:size]))
    club_parts[:_LOFT] = _parts(swing.clubs[:size, :size])
    strike = np.diag(swing.left)[size:] - error[size:]
    club_loft, floor = _loft_and_floor(launch.clubs, slopes)
    club_parts[_LOFT] = club_loft
    table = SpreadTable(
        parts=_sd(np.array([*parts[:_LOFT], JUDGED.parts[_LOFT] ** 2]), JUDGED.parts),
        strike=_sd(strike * STRIKE_UNIT**2, JUDGED.strike),
        club_parts=_sd(club_parts, JUDGED.club_parts),
        club_strike=_sd(np.diag(swing.clubs)[size:] * STRIKE_UNIT**2, JUDGED.club_strike),
        club_floor=_sd(floor, JUDGED.club_floor),
    )
    spreads = Spreads(factor=float(np.sqrt(factors[0])), table=table)
    loft = loft_variance(launch.left, slopes, spreads, COLUMNS, MARK_ERROR)
    parts = np.array([*table.parts[:_LOFT] ** 2, loft])
    return SpreadTable(
        parts=_sd(parts, JUDGED.parts),
        strike=table.strike,
        club_parts=table.club_parts,
        club_strike=table.club_strike,
        club_floor=table.club_floor,
    )


def _parts(covariance: FloatArray) -> FloatArray:
    """Return variances of head speed, attack, path and face; path is face less face to path."""
    path = (
        covariance[_FACE, _FACE]
        + covariance[_FACE_TO_PATH, _FACE_TO_PATH]
        - 2.0 * covariance[_FACE, _FACE_TO_PATH]
    )
    return np.array(
        [covariance[_SPEED, _SPEED], covariance[_ATTACK, _ATTACK], path, covariance[_FACE, _FACE]]
    )


def _loft_and_floor(clubs: FloatArray, slopes: Slopes) -> tuple[float, FloatArray]:
    """Return variances of clubs' dynamic loft [deg^2] and of the floor."""
    way = slopes.parts[:, _LOFT : _LOFT + 1]
    loft, floor = JUDGED.club_parts[_LOFT] ** 2, JUDGED.club_floor**2
    for _ in range(_SHARES):
        whole = loft * way @ way.T + np.diag(floor)
        shared = shared_out(clubs, np.hstack([way, np.eye(5)]), np.array([loft, *floor]), whole)
        loft, floor = float(shared[0]), shared[1:]
    return loft, floor


def _sd(variances: FloatArray, judged: FloatArray) -> FloatArray:
    least = (_LEAST_SHARE * judged) ** 2
    return np.asarray(np.sqrt(np.maximum(variances, least)))
