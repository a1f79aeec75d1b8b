"""What a club's drives are worth on the golfer's own holes."""

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.evidence.strokes import STROKES_PER_METRE, expected_strokes

DRIVES_PER_ROUND: Final = 14
_STANDARD_LENGTH: Final = 430.0 * YARD
SHORTER_BY: Final = 170.0 * YARD
_LENGTH_STEP: Final = 10.0 * YARD
_WIDEST_AIM: Final = 40.0 * YARD
_DIFFERENCE: Final = 1.0 * YARD

_NODES, _NODE_WEIGHTS = np.polynomial.hermite_e.hermegauss(7)
_NODE_WEIGHTS = _NODE_WEIGHTS / _NODE_WEIGHTS.sum()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drives:
    """How a club's drives finish: mean and sd along and across the target line [m].

    Attributes
    ----------
    offline : float
        Right positive.
    """

    total: float
    offline: float
    total_sd: float
    offline_sd: float


def with_holes(home: Home, own_total: float) -> Home:
    """Return the home with its holes filled in.

    Parameters
    ----------
    home : Home
    own_total : float
        The golfer's own average total [m].

    Returns
    -------
    Home
        Unchanged if it has holes. Otherwise one hole of 430 yd with a fairway of 32 yd and no
        trouble; for a golfer shorter than 260 yd the own total plus 170 yd, to the next 10 yd
        (assumption).
    """
    if home.holes:
        return home
    suited = own_total + SHORTER_BY
    length = min(_STANDARD_LENGTH, round(suited / _LENGTH_STEP) * _LENGTH_STEP)
    return replace(home, holes=(Hole(length=max(length, 100.0 * YARD)),))


def _beyond(distance: float, drives: Drives, side: float, aim: float) -> float:
    """Probability that a drive finishes further than a distance to one side of the middle."""
    from scipy.special import ndtr  # noqa: PLC0415 - scipy is slow to import

    return float(ndtr((side * aim - distance) / drives.offline_sd))


def lie_shares(hole: Hole, drives: Drives, aim: float) -> dict[Lie, float]:
    """Return how often drives that centre on `aim` finish in each lie.

    Parameters
    ----------
    hole : Hole
    drives : Drives
    aim : float
        Mean finish right of the middle [m].

    Returns
    -------
    dict of Lie to float
        Shares that sum to one.
    """
    half = hole.fairway / 2.0
    trouble = 0.0
    for side, sides in (
        (-1.0, (Trouble.LEFT, Trouble.BOTH)),
        (1.0, (Trouble.RIGHT, Trouble.BOTH)),
    ):
        if hole.trouble in sides:
            trouble += _beyond(hole.trouble_from, drives, side, aim)
    missed = _beyond(half, drives, -1.0, aim) + _beyond(half, drives, 1.0, aim)
    shares = {Lie.FAIRWAY: 1.0 - missed, Lie.ROUGH: missed - trouble}
    shares[hole.trouble_lie] = shares.get(hole.trouble_lie, 0.0) + trouble
    return shares


def _strokes(home: Home, drives: Drives, aim: float) -> float:
    """Mean strokes left after the drive over the home's holes."""
    totals = drives.total + drives.total_sd * _NODES
    left = 0.0
    for hole in home.holes:
        distances = np.abs(hole.length - totals)
        for lie, share in lie_shares(hole, drives, aim).items():
            left += share * float(_NODE_WEIGHTS @ expected_strokes(distances, lie))
    return left / len(home.holes)


def best_finish(home: Home, drives: Drives) -> float:
    """Return where drives should finish on average, right of the middle [m].

    One aim serves all holes. Without re-aiming it is where they finish now.
    """
    if not home.re_aim:
        return drives.offline
    return 0.0 if all(_symmetric(hole) for hole in home.holes) else _best_aim(home, drives)


@lru_cache(maxsize=512)
def _best_aim(home: Home, drives: Drives) -> float:
    """Return where drives should finish; a club's value, fairways, strokes and aim share it."""
    from scipy.optimize import minimize_scalar  # noqa: PLC0415 - scipy is slow to import

    best = minimize_scalar(
        lambda aim: _strokes(home, drives, aim),
        bounds=(-_WIDEST_AIM, _WIDEST_AIM),
        method="bounded",
        options={"xatol": 1e-6},
    )
    return float(best.x)


def _symmetric(hole: Hole) -> bool:
    return hole.trouble in {Trouble.NONE, Trouble.BOTH}


def value(home: Home, drives: Drives) -> float:
    """Return the expected score after the drive as a length, more being better [m].

    Parameters
    ----------
    home : Home
        With its holes filled in.
    drives : Drives

    Returns
    -------
    float
        Minus the mean strokes left, divided by 0.0045 strokes a yard.
    """
    return -_strokes(home, drives, best_finish(home, drives)) / STROKES_PER_METRE


def value_gradient(home: Home, drives: Drives) -> FloatArray:
    """Return d value / d (total, offline) by central differences of one yard.

    With re-aiming, offline drops out: at the best aim a small shift costs nothing.
    """
    ahead = value(home, replace(drives, total=drives.total + _DIFFERENCE))
    behind = value(home, replace(drives, total=drives.total - _DIFFERENCE))
    along = (ahead - behind) / (2.0 * _DIFFERENCE)
    if home.re_aim:
        return np.array([along, 0.0])
    right = value(home, replace(drives, offline=drives.offline + _DIFFERENCE))
    left = value(home, replace(drives, offline=drives.offline - _DIFFERENCE))
    return np.array([along, (right - left) / (2.0 * _DIFFERENCE)])


def fairways_in_14(home: Home, drives: Drives) -> float:
    """Return how many of fourteen drives finish on the fairway."""
    finish = best_finish(home, drives)
    shares = [lie_shares(hole, drives, finish)[Lie.FAIRWAY] for hole in home.holes]
    return DRIVES_PER_ROUND * float(np.mean(shares))


def strokes_per_round(home: Home, drives: Drives) -> float:
    """Return the strokes left after fourteen drives, by the table of elite players."""
    return DRIVES_PER_ROUND * _strokes(home, drives, best_finish(home, drives))
