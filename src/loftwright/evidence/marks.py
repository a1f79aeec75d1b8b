"""Strike marks: what they say of the true strike, and sets whose order is unknown."""

from dataclasses import dataclass
from itertools import permutations
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH, MARK_ERROR

LARGEST_SET: Final = 5
"""A set of more balls or marks has too many orders; its balls count as unmarked."""

_MEAN_PRIOR_BALLS: Final = 4.0
_VARIANCE_PRIOR_BALLS: Final = 8.0
_SMALLEST_VARIANCE: Final = 4e-6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrikeModel:
    """Where this golfer strikes the face, heel-toe and low-high.

    Attributes
    ----------
    mean, variance : FloatArray, shape (2,)
        Of the true strike [m], [m^2].
    marked_variance : FloatArray, shape (2,)
        Of the true strike given its mark [m^2].
    """

    mean: FloatArray
    variance: FloatArray
    marked_variance: FloatArray

    def expected(self, marks: FloatArray) -> FloatArray:
        """Return the expected true strike given a mark, or the mean where there is none."""
        pull = self.variance / (self.variance + MARK_ERROR**2)
        expected = self.mean + pull * (marks - self.mean)
        return np.where(np.isfinite(marks).all(axis=1, keepdims=True), expected, self.mean)


def on_the_face(marks: FloatArray) -> FloatArray:
    """Return marks moved to the face's edge where they lie beyond it."""
    edge = np.array([FACE_HALF_WIDTH, FACE_HALF_HEIGHT])
    return np.clip(marks, -edge, edge)


def strike_model(marks: FloatArray, spread: FloatArray) -> StrikeModel:
    """Estimate the golfer's strike from marks read with a known error.

    Parameters
    ----------
    marks : FloatArray, shape (n, 2)
        [m]; NaN rows are left out.
    spread : FloatArray, shape (2,)
        The golfer's strike sd by ability [m].

    Returns
    -------
    StrikeModel

    References
    ----------
    Carroll, Ruppert, Stefanski & Crainiceanu 2006, Measurement Error in Nonlinear Models,
    regression calibration.
    """
    seen = marks[np.isfinite(marks).all(axis=1)]
    count = float(len(seen))
    mean = seen.sum(axis=0) / (count + _MEAN_PRIOR_BALLS) if count else np.zeros(2)
    centre = np.median(seen, axis=0) if count else np.zeros(2)
    scale = 1.4826 * np.median(np.abs(seen - centre), axis=0) if count else np.zeros(2)
    own = np.maximum(scale**2 - MARK_ERROR**2, _SMALLEST_VARIANCE)
    variance = (count * own + _VARIANCE_PRIOR_BALLS * spread**2) / (count + _VARIANCE_PRIOR_BALLS)
    marked = variance * MARK_ERROR**2 / (variance + MARK_ERROR**2)
    return StrikeModel(mean=mean, variance=variance, marked_variance=marked)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidates:
    """Every mark that a ball may have, ordinary balls having one.

    Attributes
    ----------
    ball : IntArray, shape (m,)
        Index of the ball.
    marks : FloatArray, shape (m, 2)
        [m]; NaN for no mark.
    orders : tuple of IntArray
        For each set, the candidates that each possible order of its marks selects.
    too_large : tuple of int
        Sets with too many orders to be kept apart.
    """

    ball: IntArray
    marks: FloatArray
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
    orders = []
    too_large = []
    used = len(single)
    for name in np.unique(balls.mark_set[in_set]).tolist():
        members = np.flatnonzero(balls.mark_set == name)
        listed = _listed(balls, marks, members, name)
        if max(len(listed), len(members)) > LARGEST_SET or not len(listed):
            too_large += [name] if len(listed) else []
            ball.append(members)
            mark.append(np.full((len(members), 2), np.nan))
            used += len(members)
            continue
        short = len(members) > len(listed)
        tokens = np.vstack([listed, np.full((int(short), 2), np.nan)])
        ball.append(np.repeat(members, len(tokens)))
        mark.append(np.tile(tokens, (len(members), 1)))
        orders.append(used + _orders(len(listed), len(members), len(tokens)))
        used += len(members) * len(tokens)
    return Candidates(
        ball=np.concatenate(ball).astype(np.int64),
        marks=np.concatenate(mark),
        orders=tuple(orders),
        too_large=tuple(too_large),
    )


def _listed(balls: Balls, marks: FloatArray, members: IntArray, name: int) -> FloatArray:
    """Return the marks of a set in an order that does not tell whose they are."""
    own = marks[members]
    spare = [[mark.toe, mark.high] for mark in balls.spare_marks if mark.mark_set == name]
    listed = np.vstack([own[np.isfinite(own).all(axis=1)], np.reshape(spare, (-1, 2))])
    return on_the_face(listed[np.lexsort((listed[:, 1], listed[:, 0]))])


def _orders(marks: int, members: int, tokens: int) -> IntArray:
    """Return every distinct assignment of marks, or of none, to members as candidate offsets."""
    slots = range(max(marks, members))
    choices = {
        tuple(min(slot, marks) for slot in choice) for choice in permutations(slots, members)
    }
    return np.array(sorted(choices), dtype=np.int64) + tokens * np.arange(members)
