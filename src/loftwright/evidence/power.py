"""How many balls show how small a difference, before they are hit."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, sqrt
from statistics import NormalDist
from types import MappingProxyType
from typing import Final

from loftwright.constants import YARD
from loftwright.errors import InputError

_NORMAL: Final = NormalDist()
TWO_SIDED: Final = 0.05
POWER: Final = 0.80
QUANTILES: Final = _NORMAL.inv_cdf(1.0 - TWO_SIDED / 2.0) + _NORMAL.inv_cdf(POWER)
"""1.96 + 0.84: a two-sided test at 5 % that finds the difference four times in five."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """Spread of a golfer's drives with one club: standard deviations at home [m]."""

    total: float
    offline: float


SCATTER: Final[Mapping[str, Scatter]] = MappingProxyType(
    {
        "tour": Scatter(total=5.0 * YARD, offline=15.0 * YARD),
        "low": Scatter(total=6.5 * YARD, offline=19.0 * YARD),
        "mid": Scatter(total=10.0 * YARD, offline=23.0 * YARD),
        "high": Scatter(total=13.5 * YARD, offline=24.0 * YARD),
        "senior": Scatter(total=9.5 * YARD, offline=14.0 * YARD),
    }
)
"""By ability, from simulation and so a judgement: medians over forty virtual golfers each, warm,
nothing mishit or misread, on normal turf in still air at sea level. Not adjusted for strike or
swing: what a club does through the swing cannot be told apart from how the golfer swung it."""


def balls_needed(difference: float, scatter: float) -> int:
    """Return how many balls each of two clubs needs to show a difference.

    Parameters
    ----------
    difference : float
        Between the two clubs' means [m].
    scatter : float
        Standard deviation of one ball [m].

    Returns
    -------
    int
        At least two.

    Raises
    ------
    InputError
        If the difference is not positive.

    Notes
    -----
    Two means of `n` independent balls each, known spread, two-sided 5 %, power 80 %:
    ``n = 2 (scatter / difference)^2 (1.96 + 0.84)^2``.
    """
    if not difference > 0.0:
        raise InputError(
            "a difference to be seen must be greater than nothing",
            place="difference",
            mend="Give a positive length.",
        )
    return max(2, ceil(2.0 * (scatter * QUANTILES / difference) ** 2))


def difference_seen(balls_each: int, scatter: float) -> float:
    """Return the smallest difference that so many balls with each of two clubs can show.

    Parameters
    ----------
    balls_each : int
    scatter : float
        Standard deviation of one ball [m].

    Returns
    -------
    float
        [m]; the inverse of `balls_needed`.
    """
    return difference_between(balls_each, balls_each, scatter)


def difference_between(balls: int, others: int, scatter: float) -> float:
    """Return the smallest difference of two clubs that so many balls with each can show.

    Parameters
    ----------
    balls, others : int
        With the one club and with the other, at least one each.
    scatter : float
        Standard deviation of one ball [m].

    Returns
    -------
    float
        [m]; four times in five such a difference is told at 5 %, by plain averages.
    """
    return scatter * QUANTILES * sqrt(1.0 / balls + 1.0 / others)


def chance_of_telling(
    mean: float, doubt: float, *, scatter: float, balls_each: int, probability: float
) -> float:
    """Return the chance that more balls would settle which of two clubs is better.

    Parameters
    ----------
    mean, doubt : float
        What is known of the difference now: centre and standard deviation [m].
    scatter : float
        Standard deviation of one ball [m].
    balls_each : int
        Further balls with each of the two clubs.
    probability : float
        From which the better club counts as known.

    Returns
    -------
    float
        0 to 1.

    Notes
    -----
    Normal knowledge updated by the difference of two means of independent balls: the later
    centre is spread by what the later doubt lost, and the pair is settled when that centre lies
    far enough from zero for the later doubt.
    """
    needed = _NORMAL.inv_cdf(probability)
    news = scatter * sqrt(2.0 / balls_each)
    if doubt <= 0.0 or news <= 0.0:
        return float(abs(mean) > needed * doubt)
    later = 1.0 / sqrt(1.0 / doubt**2 + 1.0 / news**2)
    swing = sqrt(doubt**2 - later**2)
    reach = needed * later
    return _NORMAL.cdf((mean - reach) / swing) + _NORMAL.cdf((-mean - reach) / swing)
