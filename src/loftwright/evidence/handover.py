"""The club to hand over next, with the reason given to the fitter."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.decide import FEWEST_BALLS, expected_gain, next_club
from loftwright.evidence.result import NextClub
from loftwright.evidence.visits import Joined, joining_club


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ranking:
    """Where the clubs stand, as far as the next ball needs it.

    Attributes
    ----------
    value : FloatArray, shape (S,)
        [m]
    covariance : FloatArray, shape (S, S)
    one_ball : callable
        Variance of one ball of a club in the direction of value [m^2].
    counts : IntArray, shape (S,)
        Balls that can be compared.
    """

    names: tuple[str, ...]
    own: int | None
    value: FloatArray
    covariance: FloatArray
    one_ball: Callable[[int], float]
    counts: IntArray
    rankable: BoolArray
    joined: Joined


def hand_over(ranking: Ranking, last: int) -> NextClub:
    """Return the club to hand over: one that joins visits, one with too few balls, or the best.

    Parameters
    ----------
    ranking : Ranking
    last : int
        The club in hand.

    Returns
    -------
    NextClub
    """
    names, value, rankable = ranking.names, ranking.value, ranking.rankable
    missing = np.flatnonzero(ranking.counts == 0)
    joining = None if missing.size else joining_club(ranking.joined, ranking.own, last)
    if joining is not None:
        return NextClub(club=names[joining], why=joining_reason(ranking.joined, joining, names))
    club = next_club(value, ranking.counts, rankable, last)
    if not rankable[club]:
        lacking = FEWEST_BALLS - int(ranking.counts[club])
        more = "one more ball" if lacking == 1 else "two balls"
        return NextClub(
            club=names[club], why=f"{names[club]} needs {more} before it can be compared"
        )
    gain = expected_gain(club, value, ranking.covariance, ranking.one_ball(club))
    leader = int(np.argmax(np.where(rankable, value, -np.inf)))
    why = (
        f"{names[club]} leads; more balls with it settle most"
        if club == leader
        else f"{names[club]} can still beat {names[leader]}"
    )
    return NextClub(club=names[club], why=why, gain=gain)


def joining_reason(joined: Joined, club: int, names: tuple[str, ...]) -> str:
    """Return why a club is handed over that joins clubs of different visits."""
    if joined.inside[club]:
        return (
            f"{names[club]} was not hit on this visit; one ball with it lets today's clubs be "
            "compared with the others"
        )
    return (
        f"{names[club]} was not hit on a visit with the others; one ball today lets it be compared"
    )
