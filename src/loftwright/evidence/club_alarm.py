"""A doubt about which club is in hand, from balls that fit another one far better."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.leftover import Leftover
from loftwright.evidence.visit import Setup

FEWEST_BEFORE: Final = 3
OTHER_ABOVE: Final = 2.2
"""Log likelihood ratio, settled on simulated golfers: two right balls in a hundred come to it."""
_NEWEST: Final = (1, 2)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pattern:
    """Numbers of every ball in their order of play, and how they scatter and clubs differ.

    Attributes
    ----------
    values : FloatArray, shape (n, R)
        Beyond what is expected of the club in hand; zero where missing.
    seen : BoolArray, shape (n, R)
    scale : FloatArray, shape (n, R, R)
        Scale matrix of each ball's t errors.
    between : FloatArray, shape (R, R)
        Covariance of what clubs are believed to do beyond that.
    expected : FloatArray, shape (S, R)
        Of every club.
    club : IntArray, shape (n,)
        In hand, as was told.
    tail_df : float
    """

    values: FloatArray
    seen: BoolArray
    scale: FloatArray
    between: FloatArray
    expected: FloatArray
    club: IntArray
    tail_df: float


def patterns_of(setup: Setup, left: Leftover) -> tuple[Pattern, ...]:
    """Return launch from the same swing and, where it is measured, the swing itself.

    Parameters
    ----------
    setup : Setup
    left : Leftover
        Of the same set-up.
    """
    launch = Pattern(
        values=left.residual,
        seen=left.seen,
        scale=left.scale + left.unknown[left.kind],
        between=left.between,
        expected=setup.launch_prior.effects.T,
        club=left.club,
        tail_df=left.tail_df,
    )
    if setup.swing_rows is None or setup.swing_prior is None:
        return (launch,)
    balls, data, prior = setup.balls, setup.swing_rows, setup.swing_prior
    _, first = np.unique(data.ball, return_index=True)
    rows = first[np.lexsort((balls.order, balls.visit))]
    size, clubs = prior.effects.shape
    seen = np.isfinite(data.responses[rows])
    if setup.columns.marks:
        seen[:, -2:] &= left.marked[:, None]
    if setup.shop is None:
        precision = prior.effect_precisions[-1].reshape(size, clubs, size, clubs)[:, 0, :, 0]
        between = np.asarray(np.linalg.inv(precision))
    else:
        between = setup.shop.swing_between
    added = np.zeros((len(data.classes), size, size))
    for place, noise in enumerate(data.classes):
        if noise.response_variances is not None:
            added[place] = np.diag(noise.response_variances)
    swing = Pattern(
        values=np.where(seen, data.responses[rows] - prior.effects[:, left.club].T, 0.0),
        seen=seen,
        scale=prior.residual + added[data.noise[rows]],
        between=between,
        expected=prior.effects.T,
        club=left.club,
        tail_df=prior.tail_df,
    )
    return launch, swing


def still_this_club(
    left: Leftover, patterns: tuple[Pattern, ...], clubs: tuple[str, ...]
) -> Alarm | None:
    """Ask for the club in hand if the newest ball, or two, fit another club far better.

    Parameters
    ----------
    left : Leftover
    patterns : tuple of Pattern
        From `patterns_of`.
    clubs : tuple of str

    Returns
    -------
    Alarm, optional
        With the newest ball or two.
    """
    score, newest = max((club_score(left, patterns, newest), newest) for newest in _NEWEST)
    if score < OTHER_ABOVE:
        return None
    balls = "ball fits" if newest == 1 else "two balls fit"
    return Alarm(
        kind="still_this_club",
        say=f"Still {clubs[left.club[-1]]}? The last {balls} another club better.",
        rows=tuple(left.row[-newest:].tolist()),
    )


def club_score(left: Leftover, patterns: tuple[Pattern, ...], newest: int) -> float:
    """Return the log likelihood ratio of another club of the visit to the one in hand.

    Parameters
    ----------
    left : Leftover
    patterns : tuple of Pattern
    newest : int
        How many of the newest balls, all with the club in hand.

    Returns
    -------
    float
        The greatest of any club with three earlier balls; negative infinity where there is none
        or the club in hand has fewer.
    """
    count = len(left.row) - newest
    if count < FEWEST_BEFORE or len(set(left.cell[count:].tolist())) != 1:
        return -np.inf
    earlier = np.flatnonzero(left.visit[:count] == left.visit[-1])
    cells, sizes = np.unique(left.cell[earlier], return_counts=True)
    cells = cells[sizes >= FEWEST_BEFORE]
    hand = left.cell[-1]
    if hand not in cells or len(cells) < 2:
        return -np.inf
    told = sum(
        (_log_likelihoods(one, earlier, left.cell, cells, count) for one in patterns),
        start=np.zeros(len(cells)),
    )
    return float(told[cells != hand].max() - told[cells == hand][0])


def _log_likelihoods(
    pattern: Pattern, earlier: IntArray, cell: IntArray, cells: IntArray, count: int
) -> FloatArray:
    """Return how likely the newest balls are with each club, given its earlier ones."""
    seen, size = pattern.seen, pattern.seen.shape[1]
    overall = pattern.values[earlier].sum(axis=0) / np.maximum(seen[earlier].sum(axis=0), 1)
    away = np.where(seen, pattern.values - overall, 0.0)
    precision = _precision(pattern.scale, seen)
    distance = np.einsum("ni,nij,nj->n", away, precision, away)
    weights = (pattern.tail_df + seen.sum(axis=1)) / (pattern.tail_df + distance)
    pull = weights[:, None] * np.einsum("nij,nj->ni", precision, away)
    before = np.linalg.inv(pattern.between + 1e-6 * np.eye(size))
    newest = np.arange(count, len(cell))
    told = np.empty(len(cells))
    for place, one in enumerate(cells):
        member = earlier[cell[earlier] == one]
        doubt = np.linalg.inv(before + np.tensordot(weights[member], precision[member], axes=1))
        mean = doubt @ pull[member].sum(axis=0)
        # With another club in hand it is that one's expected effect that is in the balls.
        other = pattern.expected[pattern.club[newest]] - pattern.expected[pattern.club[member[0]]]
        told[place] = _log_density(pattern, newest, away[newest] + other - mean, doubt)
    return told


def _precision(scale: FloatArray, seen: BoolArray) -> FloatArray:
    both = seen[:, :, None] & seen[:, None, :]
    whole = np.where(both, scale, np.eye(seen.shape[1]))
    return np.where(both, np.linalg.inv(whole), 0.0)


def _log_density(pattern: Pattern, balls: IntArray, away: FloatArray, doubt: FloatArray) -> float:
    seen = pattern.seen[balls]
    away = np.where(seen, away, 0.0)
    both = seen[:, :, None] & seen[:, None, :]
    scale = np.where(both, pattern.scale[balls] + doubt, np.eye(seen.shape[1]))
    distance = np.einsum("ni,nij,nj->n", away, np.linalg.inv(scale), away)
    tail = pattern.tail_df + seen.sum(axis=1)
    density = -0.5 * np.linalg.slogdet(scale)[1] - 0.5 * tail * np.log1p(
        distance / pattern.tail_df
    )
    return float(density.sum())
