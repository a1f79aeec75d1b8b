"""Which club leads, how sure that is, what choosing now gives up, and which club to hand over."""

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from scipy.special import stdtr

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.constants import YARD
from loftwright.evidence.budget import Budget, enough_left
from loftwright.evidence.result import State

GOOD_ENOUGH_REGRET: Final = 0.5 * YARD
STRONG_PROBABILITY: Final = 0.9
NEAR_BEST: Final = 1.0 * YARD
FEWEST_BALLS: Final = 2
BALLS_AHEAD: Final = 6

_DRAWS: Final = 512
_SOBOL_SEED: Final = 20210
_SMALLEST_GAP: Final = 0.2 * YARD


@cache
def _normal_draws(dimension: int) -> FloatArray:
    """Return fixed scrambled Sobol points as standard normals, shape (512, dimension)."""
    from scipy.special import ndtri  # noqa: PLC0415 - scipy is slow to import
    from scipy.stats import qmc  # noqa: PLC0415 - scipy is slow to import

    points = qmc.Sobol(dimension, scramble=True, rng=_SOBOL_SEED).random(_DRAWS)
    draws = np.asarray(ndtri(points))
    draws.flags.writeable = False
    return draws


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Standing:
    """Where the clubs stand.

    Attributes
    ----------
    leader : int
    p_best : FloatArray, shape (S,)
        NaN for a club with too few balls to be ranked.
    regret : float
        What choosing the leader is expected to give up against the best club [m].
    p_near_best : float
        Probability that the leader is within a yard of the best.
    """

    leader: int
    p_best: FloatArray
    regret: float
    p_near_best: float


def standing(value: FloatArray, covariance: FloatArray, rankable: BoolArray) -> Standing | None:
    """Return the clubs' standing, or nothing when fewer than two may be ranked.

    Parameters
    ----------
    value : FloatArray, shape (S,)
        [m]
    covariance : FloatArray, shape (S, S)
    rankable : BoolArray, shape (S,)
        Clubs with enough balls to lead or win.

    Notes
    -----
    512 fixed scrambled Sobol points, dealt to the clubs in order of value, so that names do not
    matter and two runs agree.
    """
    able = np.flatnonzero(rankable)
    if len(able) < 2:
        return None
    ranked = able[np.argsort(-value[able], kind="stable")]
    block = covariance[np.ix_(ranked, ranked)]
    draws = _draws_of(value[ranked], block)
    best = draws.max(axis=1)
    p_best = np.full(len(value), np.nan)
    p_best[ranked] = np.bincount(draws.argmax(axis=1), minlength=len(ranked)) / _DRAWS
    return Standing(
        leader=int(ranked[0]),
        p_best=p_best,
        regret=float(max(best.mean() - value[ranked[0]], 0.0)),
        p_near_best=float((draws[:, 0] >= best - NEAR_BEST).mean()),
    )


def _draws_of(value: FloatArray, covariance: FloatArray) -> FloatArray:
    values, vectors = np.linalg.eigh(0.5 * (covariance + covariance.T))
    root = (vectors * np.sqrt(np.maximum(values, 0.0))) @ vectors.T
    return np.asarray(value + _normal_draws(len(value)) @ root)


def chance_none_is_better(
    value: FloatArray, covariance: FloatArray, club: int, others: BoolArray, by: float
) -> float:
    """Return the probability that no other club is worth so much more than one club.

    Parameters
    ----------
    value : FloatArray, shape (S,)
        [m]
    covariance : FloatArray, shape (S, S)
    club : int
    others : BoolArray, shape (S,)
        Which clubs to set it against; itself does not count.
    by : float
        What another must be worth more [m].

    Returns
    -------
    float
        1 where there is no other.
    """
    against = np.flatnonzero(others & (np.arange(len(value)) != club))
    if not against.size:
        return 1.0
    ranked = np.array([*against[np.argsort(-value[against], kind="stable")], club])
    draws = _draws_of(value[ranked], covariance[np.ix_(ranked, ranked)])
    return float((draws[:, :-1].max(axis=1) < draws[:, -1] + by).mean())


def state_of(found: Standing | None) -> State:
    """Return how far the evidence carries; never far before every club has two balls."""
    if found is None:
        return State.TOO_FEW
    if np.isnan(found.p_best).any():
        return State.TOO_CLOSE
    if found.p_near_best >= STRONG_PROBABILITY:
        return State.STRONG
    if found.regret < GOOD_ENOUGH_REGRET:
        return State.GOOD_ENOUGH
    return State.TOO_CLOSE


def probability_above(
    value: FloatArray, covariance: FloatArray, df: float, a: int, b: int
) -> float:
    """Return the probability that one club's value is above another's.

    Parameters
    ----------
    value : FloatArray, shape (S,)
    covariance : FloatArray, shape (S, S)
    df : float
        Degrees of freedom.
    a, b : int
    """
    variance = covariance[a, a] + covariance[b, b] - 2.0 * covariance[a, b]
    return float(stdtr(df, (value[a] - value[b]) / np.sqrt(max(variance, 1e-18))))


def asks_for_more(state: State, clubs: int, budget: Budget) -> bool:
    """Return whether another ball is wanted: no stop rule holds and one still fits."""
    settled = state in {State.STRONG, State.GOOD_ENOUGH} or clubs < 2
    return not settled and enough_left(budget)


def next_club(value: FloatArray, counts: IntArray, rankable: BoolArray, last: int | None) -> int:
    """Return the club whose next ball is expected to settle most.

    Parameters
    ----------
    value : FloatArray, shape (S,)
    counts : IntArray, shape (S,)
        Balls hit with each club.
    rankable : BoolArray, shape (S,)
    last : int, optional
        The club in hand; of clubs wanted alike another one is preferred.

    Returns
    -------
    int

    Notes
    -----
    Every club first gets two balls, the fewest first. Then optimal computing budget allocation
    on the posterior: shares go with the inverse square of the gap to the leader.

    References
    ----------
    Chen, Lin, Yucesan & Chick 2000, Simulation budget allocation for further enhancing the
    efficiency of ordinal optimization, Discrete Event Dynamic Systems 10:251 (from memory).
    """
    if not rankable.all():
        wanting = np.flatnonzero(~rankable)
        return int(wanting[np.argmin(counts[wanting])])
    leader = int(np.argmax(value))
    gap = np.maximum(value[leader] - value, _SMALLEST_GAP)
    share = gap**-2.0
    share[leader] = 0.0
    share[leader] = np.sqrt((share**2).sum())
    share /= share.sum()
    wanted = share * (counts.sum() + 1.0) - counts
    best = np.flatnonzero(wanted >= wanted.max() - 1e-12)
    others = best[best != last] if last is not None else best
    return int(others[0]) if others.size else int(best[0])


def expected_gain(club: int, value: FloatArray, covariance: FloatArray, one_ball: float) -> float:
    """Return what six more balls with a club are expected to add to the choice [m].

    Parameters
    ----------
    club : int
    value : FloatArray, shape (S,)
    covariance : FloatArray, shape (S, S)
    one_ball : float
        Variance of one ball in the direction of value [m^2].

    References
    ----------
    Frazier, Powell & Dayanik 2009, The knowledge-gradient policy for correlated normal beliefs,
    INFORMS Journal on Computing 21(4):599.
    """
    nodes, weights = np.polynomial.hermite_e.hermegauss(15)
    weights = weights / weights.sum()
    step = covariance[:, club] / np.sqrt(covariance[club, club] + one_ball / BALLS_AHEAD)
    best = (value[:, None] + step[:, None] * nodes).max(axis=0)
    return float(max(weights @ best - value.max(), 0.0))
