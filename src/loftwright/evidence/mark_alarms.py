"""Doubts about strike marks: a face picture the wrong way round, and marks of another ball."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.leftover import Leftover, centred

FEWEST_MARKS: Final = 8
MIRRORED_BELOW: Final = -2.0
"""Standard errors by which the toe effect must point the wrong way."""
FEWEST_SHIFTED: Final = 4
SHIFTED_ABOVE: Final = 6.0
"""Log likelihood ratio, settled on simulated golfers: right marks hardly ever come to 5."""
_ROUNDS: Final = 3


def mirrored_marks(left: Leftover) -> Alarm | None:
    """Doubt the marks if toe marks go with what heel strikes do to start and axis.

    Parameters
    ----------
    left : Leftover

    Returns
    -------
    Alarm, optional
        With the marked balls.
    """
    marked = left.marked
    if marked.sum() < FEWEST_MARKS:
        return None
    t = mirror_score(left)
    if t >= MIRRORED_BELOW:
        return None
    return Alarm(
        kind="mirrored_marks",
        say="The marks look mirrored: toe marks go with starts to the heel side. Was the picture "
        "turned?",
        rows=tuple(left.row[marked].tolist()),
    )


def mirror_score(left: Leftover) -> float:
    """Return by how many standard errors toe marks go with starts and axis as they should.

    Parameters
    ----------
    left : Leftover

    Returns
    -------
    float
        Negative where they go the other way.
    """
    marked = left.marked
    precision = left.precision(left.kind)[marked]
    weights, share = np.ones(len(marked)), 1.0
    t = 0.0
    for _ in range(_ROUNDS):
        toe = centred(left, left.toe, weights * marked)[marked]
        bare = centred(left, left.residual + left.toe, weights * marked)[marked]
        pull = weights[marked] @ np.einsum("ni,nij,nj->n", toe, precision, bare)
        held = weights[marked] @ np.einsum("ni,nij,nj->n", toe, precision, toe)
        share, t = pull / max(held, 1e-9), pull / np.sqrt(max(held, 1e-9))
        weights[marked] = _weights(left, bare - share * toe, precision)
    return float(t)


def _weights(left: Leftover, residual: FloatArray, precision: FloatArray) -> FloatArray:
    distance = np.einsum("ni,nij,nj->n", residual, precision, residual)
    tail = left.tail_df + left.seen[left.marked].sum(axis=1)
    return np.asarray(tail / (left.tail_df + distance))


def shifted_marks(left: Leftover) -> Alarm | None:
    """Doubt that every mark from some ball on belongs to the ball before or after.

    Parameters
    ----------
    left : Leftover

    Returns
    -------
    Alarm, optional
        With the balls from the first one in doubt to the last of its visit.

    Notes
    -----
    A ball that was hit and not read leaves its mark on the next ball's row, and so on from
    there; a mark left out draws the later ones forward. Either is told by the log likelihood
    ratio of launch given the neighbour's mark and its own, summed from a ball to the last of
    its visit, at the ball where the sum is greatest.
    """
    best = _best_shift(left)
    if best is None or best[0] < SHIFTED_ABOVE:
        return None
    _, first, last, later = best
    rows = left.row[first : last + 1]
    says = (
        f"From ball {rows[0]} on the marks seem one ball late: each fits the ball before better "
        "than its own. Was a ball hit and not read?"
        if later
        else f"From ball {rows[0]} on the marks seem one ball early: each fits the ball after "
        "better than its own. Was a mark left out?"
    )
    return Alarm(kind="shifted_marks", say=says, rows=tuple(rows.tolist()))


def _best_shift(left: Leftover) -> tuple[float, int, int, bool] | None:
    """Return the greatest sum, its first and last ball, and whether marks came too late."""
    if left.marked.sum() < FEWEST_MARKS:
        return None
    gains = shift_gains(left)
    best: tuple[float, int, int, bool] | None = None
    for visit in np.unique(left.visit):
        member = np.flatnonzero(left.visit == visit)
        for later, gain in ((True, gains[0]), (False, gains[1])):
            told = np.cumsum(gain[member][::-1])[::-1]
            marks = np.cumsum(left.marked[member][::-1])[::-1]
            told = np.where(marks >= FEWEST_SHIFTED, told, -np.inf)
            place = int(np.argmax(told))
            if best is None or told[place] > best[0]:
                best = (float(told[place]), int(member[place]), int(member[-1]), later)
    return best


def shift_gains(left: Leftover) -> FloatArray:
    """Return the log likelihood that each ball gains with its neighbour's mark, shape (2, n).

    Parameters
    ----------
    left : Leftover

    Returns
    -------
    FloatArray, shape (2, n)
        With the next ball's mark, as where marks came a ball too late, and with that of the
        ball before. At the ends of a visit a ball has no mark.
    """
    own = left.precision(left.kind)
    weights = left.weights(centred(left, left.residual, np.ones(len(left.row))), own)
    residual = centred(left, left.residual, weights)
    before = left.log_density(residual, own)
    found = np.empty((2, len(left.row)))
    for place, step in enumerate((1, -1)):
        other = np.arange(len(left.row)) + step
        inside = (other >= 0) & (other < len(left.row))
        other = np.where(inside, other, 0)
        inside &= left.visit[other] == left.visit
        kind = np.where(inside, left.kind[other], len(left.unknown) - 1)
        strike = np.where(inside[:, None], left.strike[other], left.usual)
        changed = residual + np.where(left.seen, left.strike - strike, 0.0)
        found[place] = left.log_density(changed, left.precision(kind)) - before
    return found
