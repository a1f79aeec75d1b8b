"""A decision after a number of balls, set against what was true of its clubs."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, decide, p_better
from loftwright.evidence.decide import GOOD_ENOUGH_REGRET
from loftwright.evidence.result import Estimate
from loftwright.training.truth import ClubTruth, TrueFigures

DECLARED_AT = 0.95


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outcome:
    """One fitting decided after a number of balls, against its truth.

    Attributes
    ----------
    regret : float
        What the pick gives up [m].
    said_regret : float
        What the model said that its pick gives up [m].
    best : bool
        Whether the pick is the best club.
    p_best : float
        What the model said of its pick.
    value_80, value_95 : float
        Share of pairs whose difference of value lies in its range.
    swung_80, swung_95, same_80, same_95 : FloatArray, shape (5,)
        The same for each launch number; NaN where that figure does not exist.
    declared, wrong : int
        Pairs said at 0.95, and those with the wrong sign.
    stopped : bool
        Whether the expected regret is below the stopping rule's.
    width : float
        Mean width of the 80 % ranges of value [m].
    closure : float
        Greatest gap between the parts of a pair and the difference that they explain [m].
    pairs : int
    """

    balls: int
    regret: float
    said_regret: float
    best: bool
    p_best: float
    value_80: float
    value_95: float
    swung_80: FloatArray
    swung_95: FloatArray
    same_80: FloatArray
    same_95: FloatArray
    declared: int
    wrong: int
    stopped: bool
    width: float
    closure: float
    pairs: int


def judge(comparison: Comparison, truth: ClubTruth, worth: FloatArray) -> Outcome:
    """Compare one decision with what was true.

    Parameters
    ----------
    comparison : Comparison
    truth : ClubTruth
    worth : FloatArray, shape (S,)
        True values [m].

    Returns
    -------
    Outcome
    """
    clubs = len(worth)
    first, second = pairs_of(clubs)
    df = comparison.df
    difference = comparison.value[first] - comparison.value[second]
    variance = pair_variance(comparison.value_covariance, first, second)
    true_difference = worth[first] - worth[second]
    hits_80 = covered(difference, variance, true_difference, df, 0.80)
    hits_95 = covered(difference, variance, true_difference, df, 0.95)
    pick = comparison.standing.leader if comparison.standing else int(np.argmax(comparison.value))
    chance = [p_better(comparison, int(a), int(b)) for a, b in zip(first, second, strict=True)]
    said = np.array([np.nan if one is None else one for one in chance])
    up, down = said >= DECLARED_AT, said <= 1.0 - DECLARED_AT
    swung = launch_coverage(comparison, truth.as_you_swing_it, same=False)
    same = (
        launch_coverage(comparison, truth.from_the_same_swing, same=True)
        if truth.from_the_same_swing is not None
        else (np.full(5, np.nan), np.full(5, np.nan))
    )
    half = Estimate(mean=0.0, sd=1.0, df=df).interval(0.80)[1]
    found = comparison.standing
    return Outcome(
        balls=len(comparison.visit.setup.balls),
        regret=float(worth.max() - worth[pick]),
        said_regret=found.regret if found else np.nan,
        best=pick == int(np.argmax(worth)),
        p_best=float(found.p_best[pick]) if found else np.nan,
        value_80=float(hits_80.mean()),
        value_95=float(hits_95.mean()),
        swung_80=swung[0],
        swung_95=swung[1],
        same_80=same[0],
        same_95=same[1],
        declared=int(up.sum() + down.sum()),
        wrong=int((up & (true_difference < 0.0)).sum() + (down & (true_difference > 0.0)).sum()),
        stopped=bool(found and found.regret < GOOD_ENOUGH_REGRET),
        width=float(2.0 * half * np.sqrt(variance).mean()),
        closure=max(
            abs(pair.parts.sum() - pair.raw_total)
            for pair in decide(comparison, Budget()).pairs
            if pair.parts is not None and pair.raw_total is not None
        ),
        pairs=len(first),
    )


def pairs_of(clubs: int) -> tuple[IntArray, IntArray]:
    """Return first and second club of every pair."""
    first, second = np.triu_indices(clubs, 1)
    return first.astype(np.int64), second.astype(np.int64)


def pair_variance(covariance: FloatArray, first: IntArray, second: IntArray) -> FloatArray:
    """Return the variance of each difference of two entries."""
    diagonal = np.diag(covariance)
    return np.asarray(diagonal[first] + diagonal[second] - 2.0 * covariance[first, second])


def covered(
    mean: FloatArray, variance: FloatArray, true: FloatArray, df: float, probability: float
) -> FloatArray:
    """Return which central ranges hold the truth."""
    half = Estimate(mean=0.0, sd=1.0, df=df).interval(probability)[1]
    return np.asarray(np.abs(mean - true) <= half * np.sqrt(np.maximum(variance, 0.0)))


def launch_coverage(
    comparison: Comparison, true: TrueFigures, *, same: bool
) -> tuple[FloatArray, FloatArray]:
    """Return the share of pairs whose launch difference lies in its 80 and 95 % range."""
    figure = comparison.visit.same if same else comparison.visit.swung
    first, second = pairs_of(len(true.launch))
    share_80, share_95 = np.empty(5), np.empty(5)
    for place in range(5):
        block = figure.covariance[:, place, :, place]
        variance = pair_variance(block, first, second)
        mean = figure.launches[first, place] - figure.launches[second, place]
        truth = true.launch[first, place] - true.launch[second, place]
        share_80[place] = covered(mean, variance, truth, comparison.df, 0.80).mean()
        share_95[place] = covered(mean, variance, truth, comparison.df, 0.95).mean()
    return share_80, share_95
