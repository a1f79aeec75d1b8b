"""What is left of each ball's launch when its swing, strike and club are taken off.

Everything is taken off by belief alone: the impact model's slopes and the widths of the golfer's
ability. So it is there at once after every ball, for doubts about marks, settings and clubs.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.columns import STRIKE_COLUMNS
from loftwright.evidence.design import beyond_usual
from loftwright.evidence.marks import error_level
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.visit import Setup

_ROUNDS: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leftover:
    """Launch left over, scaled, of the balls in their order of play visit by visit.

    Attributes
    ----------
    row, club, cell, visit : IntArray, shape (n,)
        Line, club, club on its visit, and visit of each ball.
    bare : FloatArray, shape (n, R)
        Launch without what delivery, order of play and the club's build make of it; zero where
        a number is missing.
    seen : BoolArray, shape (n, R)
    strike : FloatArray, shape (n, R)
        What each ball's mark makes of it; the usual strike's where there is no mark.
    usual : FloatArray, shape (R,)
        What the golfer's usual strike makes of launch.
    marked : BoolArray, shape (n,)
    toe : FloatArray, shape (n, R)
        What the mark makes of launch by its side alone, straight and not bent.
    scale : FloatArray, shape (n, R, R)
        Scale matrix of the t errors of a ball whose mark has the usual error.
    kind : IntArray, shape (n,)
        Kind of each ball's mark, an index into `unknown`.
    unknown : FloatArray, shape (K, R, R)
        What each kind of mark, or none, adds to the scale.
    known : BoolArray, shape (n,)
        Balls of which everything is known: every number, the delivery, and a mark as good as
        most if any are marked.
    between : FloatArray, shape (R, R)
        How clubs are believed to differ.
    tail_df, residual_df : float
        Of the t errors, and what the belief in the scale weighs in balls.
    """

    row: IntArray
    club: IntArray
    cell: IntArray
    visit: IntArray
    bare: FloatArray
    seen: BoolArray
    strike: FloatArray
    usual: FloatArray
    marked: BoolArray
    toe: FloatArray
    scale: FloatArray
    kind: IntArray
    unknown: FloatArray
    known: BoolArray
    between: FloatArray
    tail_df: float
    residual_df: float

    @property
    def residual(self) -> FloatArray:
        """Launch without the strike too, shape (n, R)."""
        return np.where(self.seen, self.bare - self.strike, 0.0)

    def precision(self, kind: IntArray) -> FloatArray:
        """Return the precision of every ball were its mark of another kind, shape (n, R, R).

        Numbers that are missing have none.
        """
        both = self.seen[:, :, None] & self.seen[:, None, :]
        whole = np.where(both, self.scale + self.unknown[kind], np.eye(self.seen.shape[1]))
        return np.where(both, np.linalg.inv(whole), 0.0)

    def log_density(self, residual: FloatArray, precision: FloatArray) -> FloatArray:
        """Return the log density of every ball's t errors, up to a constant, shape (n,)."""
        distance = np.einsum("ni,nij,nj->n", residual, precision, residual)
        missing = ~self.seen[:, :, None] & np.eye(self.seen.shape[1], dtype=np.bool_)
        log_determinant = np.linalg.slogdet(precision + missing)[1]
        tail = self.tail_df + self.seen.sum(axis=1)
        return np.asarray(0.5 * log_determinant - 0.5 * tail * np.log1p(distance / self.tail_df))

    def weights(self, residual: FloatArray, precision: FloatArray) -> FloatArray:
        """Return the t weight of every ball, shape (n,)."""
        distance = np.einsum("ni,nij,nj->n", residual, precision, residual)
        tail = self.tail_df + self.seen.sum(axis=1)
        return np.asarray(tail / (self.tail_df + distance))


def leftover(setup: Setup) -> Leftover:
    """Return what is left of each ball's launch.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    Leftover
        A mark in a set of unknown order counts as none.
    """
    balls, data, columns = setup.balls, setup.launch_rows, setup.columns
    order = np.lexsort((balls.order, balls.visit))
    _, first = np.unique(data.ball, return_index=True)
    rows = first[order]
    coefficients = setup.launch_prior.coefficients
    strike = columns.index(*STRIKE_COLUMNS)
    covariates = data.covariates[rows]
    other = np.setdiff1d(np.arange(covariates.shape[1]), [0, *strike])
    club = balls.club[order]
    bare = data.responses[rows] - covariates[:, other] @ coefficients[:, other].T
    bare -= setup.launch_prior.effects[:, club].T
    seen = np.isfinite(bare)
    marked = np.isfinite(balls.marks).all(axis=1) & (balls.mark_set < 0) & columns.marks
    kind, unknown = _kinds(setup, np.where(marked, balls.mark_error, np.inf)[order])
    kept = np.ix_(columns.responses, columns.responses)
    usual, unread = _usual_strike(setup), _unread_delivery(setup, rows)
    effect = np.where(marked[order, None], covariates[:, strike], usual)
    return Leftover(
        row=balls.row[order],
        club=club,
        cell=balls.cell[order],
        visit=balls.visit[order],
        bare=np.where(seen, bare, 0.0),
        seen=seen,
        strike=effect @ coefficients[:, strike].T,
        usual=usual @ coefficients[:, strike].T,
        marked=marked[order],
        toe=effect[:, :1] @ coefficients[:, strike[:1]].T,
        scale=setup.launch_prior.residual + unread,
        kind=kind,
        unknown=unknown,
        known=seen.all(axis=1) & np.logical_not((unread + unknown[kind]).any(axis=(1, 2))),
        between=setup.believed_same[kept] if setup.shop is None else setup.shop.between,
        tail_df=setup.launch_prior.tail_df,
        residual_df=setup.launch_prior.residual_df,
    )


def centred(left: Leftover, values: FloatArray, weights: FloatArray) -> FloatArray:
    """Return values about the weighted mean of their club on their visit, shape (n, R).

    The mean of few balls is held back towards that of their visit, as far as clubs are believed
    alike.

    Parameters
    ----------
    left : Leftover
    values : FloatArray, shape (n, R)
        Zero where missing.
    weights : FloatArray, shape (n,)
    """
    share = left.seen * weights[:, None]
    total, count = _sums_of(left.visit, share * values, share)
    overall = total / np.maximum(count, 1e-9)
    away = np.where(left.seen, values - overall[left.visit], 0.0)
    total, count = _sums_of(left.cell, share * away, share)
    noise = np.einsum("nii->i", left.scale) / len(left.scale)
    held = noise / np.maximum(np.diag(left.between), 1e-9)
    mean = total / (count + held)
    return np.where(left.seen, away - mean[left.cell], 0.0)


def _sums_of(
    group: IntArray, values: FloatArray, share: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the sums of values and shares by group."""
    found = np.zeros((2, int(group.max(initial=-1)) + 1, values.shape[1]))
    np.add.at(found[0], group, values)
    np.add.at(found[1], group, share)
    return found[0], found[1]


def taught(left: Leftover) -> Leftover:
    """Return the same with the scale as the balls of which everything is known teach it.

    A doubt about the marks must not use it: wrong marks would teach it to expect them.

    Parameters
    ----------
    left : Leftover
        With the scale that is believed.
    """
    known = left.known
    freedom = float(known.sum()) - len(np.unique(left.cell[known]))
    if freedom <= 0.0:
        return left
    before = left.scale[known][0]
    now = left
    for _ in range(_ROUNDS):
        precision = now.precision(now.kind)
        weights = now.weights(centred(now, now.residual, np.ones(len(now.row))), precision)
        residual = centred(now, now.residual, weights)
        weights = now.weights(residual, precision)[known]
        seen = (residual[known].T * weights) @ residual[known] / known.sum()
        scale = (left.residual_df * before + freedom * seen) / (left.residual_df + freedom)
        now = replace(now, scale=left.scale + (scale - before))
    return now


def _usual_strike(setup: Setup) -> FloatArray:
    """Return the strike columns of a ball without a mark."""
    if not setup.columns.marks:
        return np.zeros(0)
    mean, variance = setup.strike.mean, setup.strike.variance
    return np.concatenate([mean / STRIKE_UNIT, (mean**2 + variance) / STRIKE_UNIT**2])


def _kinds(setup: Setup, error: FloatArray) -> tuple[IntArray, FloatArray]:
    """Return the kind of each mark by its error, infinite for none, and what each kind adds."""
    columns, coefficients = setup.columns, setup.launch_prior.coefficients
    size = len(coefficients)
    if not columns.marks:
        return np.zeros(len(error), dtype=np.int64), np.zeros((1, size, size))
    # The last kind is no mark, whether any ball is without one or not.
    errors = np.append(error_level(error, setup.strike.error), np.inf)
    distinct, kind = np.unique(errors, return_inverse=True)
    linear, square = columns.index("toe", "high"), columns.index("toe_squared", "high_squared")
    added = np.zeros((len(distinct), size, size))
    for place, one in enumerate(distinct):
        if one <= setup.strike.error:
            continue
        for axis in range(2):
            bend = coefficients[:, square[axis]]
            along = coefficients[:, linear[axis]]
            along = along + 2.0 * setup.strike.mean[axis] / STRIKE_UNIT * bend
            known = float(one) if np.isfinite(one) else None
            straight, bent = beyond_usual(setup.strike, axis, known)
            added[place] += straight * np.outer(along, along) + bent * np.outer(bend, bend)
    return kind[:-1].astype(np.int64), added


def _unread_delivery(setup: Setup, rows: IntArray) -> FloatArray:
    """Return what delivery that was not read adds to each row's scale, shape (n, R, R)."""
    data, coefficients = setup.launch_rows, setup.launch_prior.coefficients
    strike = setup.columns.index(*STRIKE_COLUMNS)
    added = np.zeros((len(data.classes), len(coefficients), len(coefficients)))
    for place, noise in enumerate(data.classes):
        unread = ~noise.directions[:, strike].any(axis=1)
        spread = coefficients @ noise.directions[unread].T
        added[place] = (spread * noise.variances[unread]) @ spread.T
    return np.asarray(added[data.noise[rows]])
