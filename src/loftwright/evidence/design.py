"""The rows of the two regressions: launch on strike and delivery, and the swing on the club."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.columns import Columns, delivery_covariates
from loftwright.evidence.marks import Candidates, StrikeModel, on_the_face
from loftwright.evidence.model import NoiseClass, Observations
from loftwright.evidence.priors import STRIKE_SWING_SCALE
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes, median_or
from loftwright.evidence.spreads import Spreads

WARM_UP_BALLS: Final = 8.0
DRIFT_BALLS: Final = 60.0
_GATE: Final = 5.0
_SMALLEST_DEVIATION: Final = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Gated:
    """A delivery reading so far from the others that it counts as not measured."""

    ball: int
    column: str


def gated_covariates(
    balls: Balls, columns: Columns, slopes: Slopes
) -> tuple[FloatArray, tuple[Gated, ...]]:
    """Return the delivery covariates, readings far outside the visit's own taken out.

    A t-distributed residual does not protect against a wrong covariate, so a reading beyond
    five robust deviations from the visit's median counts as missing.
    """
    values = delivery_covariates(balls, columns, slopes.delivery)
    gated = []
    for column, name in enumerate(columns.delivery):
        seen = values[np.isfinite(values[:, column]), column]
        if not seen.size:
            continue
        centre = np.median(seen)
        deviation = max(1.4826 * float(np.median(np.abs(seen - centre))), _SMALLEST_DEVIATION)
        wild = np.abs(values[:, column] - centre) > _GATE * deviation
        gated += [Gated(ball=int(ball), column=name) for ball in np.atleast_1d(wild).nonzero()[0]]
        values[wild, column] = np.nan
    return values, tuple(gated)


def order_covariates(balls: Balls) -> FloatArray:
    """Return warm-up and drift of every ball, shape (n, 2)."""
    return np.column_stack([np.exp(-balls.order / WARM_UP_BALLS), balls.order / DRIFT_BALLS])


def membership(balls: Balls) -> FloatArray:
    """Return which club each ball was hit with, shape (n, S)."""
    return np.eye(len(balls.clubs))[balls.club]


def launch_rows(
    balls: Balls,
    columns: Columns,
    candidates: Candidates,
    delivery: FloatArray,
    strike: StrikeModel,
    slopes: Slopes,
    spreads: Spreads,
) -> Observations:
    """Return the rows of the launch model.

    A missing delivery reading stands at the golfer's mean and its variance joins the noise; a
    missing mark stands at the golfer's mean strike likewise.

    Parameters
    ----------
    balls : Balls
    columns : Columns
    candidates : Candidates
        Every mark that a ball may have.
    delivery : FloatArray, shape (n, k)
        From `gated_covariates`, in mph and degrees; NaN where missing.
    strike : StrikeModel
    slopes : Slopes
    spreads : Spreads
    """
    ball = candidates.ball
    missing = ~np.isfinite(delivery)
    centre = np.array([median_or(column, 0.0) for column in delivery.T])
    filled = np.where(missing, centre, delivery)
    marked = np.asarray(np.isfinite(candidates.marks).all(axis=1))
    pieces = [np.ones((len(ball), 1))]
    if columns.marks:
        expected = strike.expected(candidates.marks)
        variance = np.where(marked[:, None], strike.marked_variance, strike.variance)
        squares = expected**2 + variance
        pieces += [expected / STRIKE_UNIT, squares / STRIKE_UNIT**2]
    pieces += [filled[ball], order_covariates(balls)[ball]]
    kept = list(columns.responses)
    responses = ((balls.launch - slopes.origin) / LAUNCH_SCALE)[:, kept]
    unmarked = ~marked if columns.marks else np.zeros(len(ball), dtype=np.bool_)
    patterns = np.column_stack([np.isfinite(responses)[ball], unmarked, missing[ball]])
    functionals = columns.functionals
    delivery_variance = np.diag(functionals @ spreads.parts @ functionals.T)
    distinct, noise = _distinct(patterns)
    classes = tuple(
        _launch_class(pattern, columns, strike, delivery_variance) for pattern in distinct
    )
    return Observations(
        responses=responses[ball],
        covariates=np.hstack(pieces),
        membership=membership(balls)[ball],
        ball=ball,
        noise=noise,
        classes=classes,
        orders=candidates.orders,
    )


def _distinct(patterns: BoolArray) -> tuple[BoolArray, IntArray]:
    """Return the distinct patterns and the number of each row's own."""
    distinct, inverse = np.unique(patterns, axis=0, return_inverse=True)
    return distinct, inverse.ravel().astype(np.int64)


def classes_of(responses: FloatArray, covariates: int) -> tuple[tuple[NoiseClass, ...], IntArray]:
    """Return a noise class for each pattern of missing responses, and each row's own.

    Parameters
    ----------
    responses : FloatArray, shape (n, R)
        NaN where missing.
    covariates : int
        How many there are, all of them known.
    """
    distinct, noise = _distinct(np.isfinite(responses))
    classes = tuple(
        NoiseClass(observed=pattern, directions=np.zeros((0, covariates)), variances=np.zeros(0))
        for pattern in distinct
    )
    return classes, noise


def _launch_class(
    pattern: BoolArray, columns: Columns, strike: StrikeModel, delivery_variance: FloatArray
) -> NoiseClass:
    responses = len(columns.responses)
    observed = pattern[:responses]
    unmarked = bool(pattern[responses])
    missing = pattern[responses + 1 :]
    width = len(columns.names)
    directions = []
    variances = []
    if unmarked:
        for axis, names in enumerate((("toe", "toe_squared"), ("high", "high_squared"))):
            linear, square = columns.index(*names)
            mean = strike.mean[axis] / STRIKE_UNIT
            whole = strike.variance[axis] / STRIKE_UNIT**2
            marked = strike.marked_variance[axis] / STRIKE_UNIT**2
            along = np.zeros(width)
            along[linear], along[square] = 1.0, 2.0 * mean
            bend = np.zeros(width)
            bend[square] = 1.0
            directions += [along, bend]
            variances += [whole - marked, 2.0 * (whole**2 - marked**2)]
    for column in np.flatnonzero(missing):
        along = np.zeros(width)
        along[columns.index(columns.delivery[column])] = 1.0
        directions.append(along)
        variances.append(float(delivery_variance[column]))
    return NoiseClass(
        observed=observed,
        directions=np.array(directions).reshape(len(directions), width),
        variances=np.array(variances, dtype=np.float64),
    )


def swing_rows(
    balls: Balls, columns: Columns, candidates: Candidates, delivery: FloatArray
) -> Observations:
    """Return the rows of the swing model: delivery and strike on club and order.

    Parameters
    ----------
    balls : Balls
    columns : Columns
    candidates : Candidates
        Every mark that a ball may have.
    delivery : FloatArray, shape (n, k)
        From `gated_covariates`, in mph and degrees; NaN where missing.
    """
    ball = candidates.ball
    pieces = [delivery[ball]]
    if columns.marks:
        pieces.append(on_the_face(candidates.marks) / STRIKE_SWING_SCALE)
    responses = np.hstack(pieces)
    covariates = np.column_stack([np.ones(len(balls)), order_covariates(balls)])[ball]
    classes, noise = classes_of(responses, covariates.shape[1])
    return Observations(
        responses=responses,
        covariates=covariates,
        membership=membership(balls)[ball],
        ball=ball,
        noise=noise,
        classes=classes,
        orders=candidates.orders,
    )
