"""Strike marks: what they say of the true strike, and sets whose order is unknown."""

from dataclasses import dataclass
from itertools import permutations
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import MILLIMETRE
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.balls import Balls
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH

LARGEST_SET: Final = 5
"""A set of more balls or marks has too many orders; its balls count as unmarked."""

_MEAN_PRIOR_BALLS: Final = 4.0
_VARIANCE_PRIOR_BALLS: Final = 8.0
_SMALLEST_VARIANCE: Final = 4e-6
_ERROR_STEP: Final = 0.25 * MILLIMETRE


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrikeModel:
    """Where this golfer strikes the face, heel-toe and low-high.

    Attributes
    ----------
    mean, variance : FloatArray, shape (2,)
        Of the true strike [m], [m^2].
    marked_variance : FloatArray, shape (2,)
        Of the true strike given a mark with the visit's usual error [m^2].
    error : float
        The usual error of a mark [m].
    """

    mean: FloatArray
    variance: FloatArray
    marked_variance: FloatArray
    error: float = MARK_ERROR

    def expected(self, marks: FloatArray, error: FloatArray | None = None) -> FloatArray:
        """Return the expected true strike given a mark, or the mean where there is none.

        Parameters
        ----------
        marks : FloatArray, shape (n, 2)
            [m]; NaN rows for no mark.
        error : FloatArray, shape (n,), optional
            Of each mark [m]; the usual one without.
        """
        pull = self.variance / (self.variance + self._squared(marks, error))
        expected = self.mean + pull * (marks - self.mean)
        return np.where(np.isfinite(marks).all(axis=1, keepdims=True), expected, self.mean)

    def left(self, marks: FloatArray, error: FloatArray | None = None) -> FloatArray:
        """Return the variance of the true strike that a mark, or none, leaves [m^2].

        Parameters
        ----------
        marks : FloatArray, shape (n, 2)
            [m]; NaN rows for no mark.
        error : FloatArray, shape (n,), optional
            Of each mark [m]; the usual one without.
        """
        square = self._squared(marks, error)
        left = self.variance * square / (self.variance + square)
        return np.where(np.isfinite(marks).all(axis=1, keepdims=True), left, self.variance)

    def _squared(self, marks: FloatArray, error: FloatArray | None) -> FloatArray:
        error = np.full(len(marks), self.error) if error is None else error
        return np.asarray(error[:, None] ** 2)


def on_the_face(marks: FloatArray) -> FloatArray:
    """Return marks moved to the face's edge where they lie beyond it."""
    edge = np.array([FACE_HALF_WIDTH, FACE_HALF_HEIGHT])
    return np.clip(marks, -edge, edge)


def usual_error(balls: Balls) -> float:
    """Return the error that most marks of a visit have, the smallest of several [m]."""
    marked = np.isfinite(balls.marks).all(axis=1)
    if not marked.any():
        return MARK_ERROR
    errors, counts = np.unique(balls.mark_error[marked], return_counts=True)
    return float(errors[np.argmax(counts)])


def error_level(error: FloatArray, usual: float) -> FloatArray:
    """Return marks' errors on a short ladder from the usual one up [m], shape (n,).

    Noise needs no finer steps, and each step costs time; a finer mark counts as usual there.

    Parameters
    ----------
    error : FloatArray, shape (n,)
        [m]; infinite for no mark.
    usual : float
        The error most marks have [m].
    """
    steps = np.round(np.maximum(error - usual, 0.0) / _ERROR_STEP)
    return np.asarray(usual + _ERROR_STEP * steps)


def strike_model(
    marks: FloatArray,
    spread: FloatArray,
    error: FloatArray | None = None,
    usual: float = MARK_ERROR,
) -> StrikeModel:
    """Estimate the golfer's strike from marks read with known errors.

    Parameters
    ----------
    marks : FloatArray, shape (n, 2)
        [m]; NaN rows are left out.
    spread : FloatArray, shape (2,)
        The golfer's strike sd by ability [m].
    error : FloatArray, shape (n,), optional
        Of each mark [m]; the usual one without.
    usual : float
        The error most marks have [m].

    Returns
    -------
    StrikeModel

    Notes
    -----
    A coarser mark counts for less in the mean, and for nothing in the variance: how far words
    such as "toe, high" lie apart says little of how far strikes do.

    References
    ----------
    Carroll, Ruppert, Stefanski & Crainiceanu 2006, Measurement Error in Nonlinear Models,
    regression calibration.
    """
    marked = np.isfinite(marks).all(axis=1)
    errors = np.full(len(marks), usual) if error is None else error
    share = (spread**2 + usual**2) / (spread**2 + errors[marked, None] ** 2)
    mean = (share * marks[marked]).sum(axis=0) / (share.sum(axis=0) + _MEAN_PRIOR_BALLS)
    fine = marks[marked & (errors <= usual)]
    count = float(len(fine))
    centre = np.median(fine, axis=0) if count else np.zeros(2)
    scale = 1.4826 * np.median(np.abs(fine - centre), axis=0) if count else np.zeros(2)
    own = np.maximum(scale**2 - usual**2, _SMALLEST_VARIANCE)
    variance = (count * own + _VARIANCE_PRIOR_BALLS * spread**2) / (count + _VARIANCE_PRIOR_BALLS)
    left = variance * usual**2 / (variance + usual**2)
    return StrikeModel(mean=mean, variance=variance, marked_variance=left, error=usual)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidates:
    """Every mark that a ball may have, ordinary balls having one.

    Attributes
    ----------
    ball : IntArray, shape (m,)
        Index of the ball.
    marks : FloatArray, shape (m, 2)
        [m]; NaN for no mark.
    error : FloatArray, shape (m,)
        Of each mark [m]: in a set it belongs to the mark, whosever that is.
    orders : tuple of IntArray
        For each set, the candidates that each possible order of its marks selects.
    too_large : tuple of int
        Sets with too many orders to be kept apart.
    """

    ball: IntArray
    marks: FloatArray
    error: FloatArray
    orders: tuple[IntArray, ...]
    too_large: tuple[int, ...]


def candidates(balls: Balls) -> Candidates:
    """List the marks each ball may have and the orders of every set.

    Parameters
    ----------
    balls : Balls

    Returns
    -------
    Candidates

    Notes
    -----
    A set with more marks than balls holds marks of balls that were not read; one with fewer
    leaves some of its balls unmarked. Both are orders like any other.
    """
    marks = on_the_face(balls.marks)
    in_set = balls.mark_set >= 0
    single = np.flatnonzero(~in_set)
    ball = [single]
    mark = [marks[single]]
    error = [balls.mark_error[single]]
    orders = []
    too_large = []
    used = len(single)
    for name in np.unique(balls.mark_set[in_set]).tolist():
        members = np.flatnonzero(balls.mark_set == name)
        listed, errors = _listed(balls, marks, members, name)
        if max(len(listed), len(members)) > LARGEST_SET or not len(listed):
            too_large += [name] if len(listed) else []
            ball.append(members)
            mark.append(np.full((len(members), 2), np.nan))
            error.append(balls.mark_error[members])
            used += len(members)
            continue
        short = len(members) > len(listed)
        tokens = np.vstack([listed, np.full((int(short), 2), np.nan)])
        ball.append(np.repeat(members, len(tokens)))
        mark.append(np.tile(tokens, (len(members), 1)))
        error.append(np.tile(np.append(errors, [MARK_ERROR] * short), len(members)))
        orders.append(used + _orders(len(listed), len(members), len(tokens)))
        used += len(members) * len(tokens)
    return Candidates(
        ball=np.concatenate(ball).astype(np.int64),
        marks=np.concatenate(mark),
        error=np.concatenate(error),
        orders=tuple(orders),
        too_large=tuple(too_large),
    )


def _listed(
    balls: Balls, marks: FloatArray, members: IntArray, name: int
) -> tuple[FloatArray, FloatArray]:
    """Return a set's marks, in an order that does not tell whose they are, and their errors."""
    own = members[np.isfinite(marks[members]).all(axis=1)]
    spare = [one for one in balls.spare_marks if one.mark_set == name]
    beside = np.reshape([[mark.toe, mark.high] for mark in spare], (-1, 2))
    listed = np.vstack([marks[own], beside])
    error = np.append(balls.mark_error[own], [mark.error for mark in spare])
    order = np.lexsort((error, listed[:, 1], listed[:, 0]))
    return on_the_face(listed[order]), error[order]


def _orders(marks: int, members: int, tokens: int) -> IntArray:
    """Return every distinct assignment of marks, or of none, to members as candidate offsets."""
    slots = range(max(marks, members))
    choices = {
        tuple(min(slot, marks) for slot in choice) for choice in permutations(slots, members)
    }
    return np.array(sorted(choices), dtype=np.int64) + tokens * np.arange(members)
