"""The rows of the two regressions: launch on strike and delivery, and the swing on the club."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.balls import Balls
from loftwright.evidence.columns import Columns, delivery_covariates
from loftwright.evidence.marks import Candidates, StrikeModel, error_level, on_the_face
from loftwright.evidence.model import NoiseClass, Observations
from loftwright.evidence.priors import STRIKE_SWING_SCALE
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes, median_or
from loftwright.evidence.spreads import Spreads
from loftwright.evidence.visits import visit_columns

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
    five robust deviations from its visit's median counts as missing.
    """
    values = delivery_covariates(balls, columns, slopes.delivery)
    gated = []
    for column, name in enumerate(columns.delivery):
        away = np.abs(values[:, column] - _usual(values[:, column], balls))
        seen = away[np.isfinite(away)]
        if not seen.size:
            continue
        deviation = max(1.4826 * float(np.median(seen)), _SMALLEST_DEVIATION)
        wild = away > _GATE * deviation
        gated += [Gated(ball=int(ball), column=name) for ball in np.atleast_1d(wild).nonzero()[0]]
        values[wild, column] = np.nan
    return values, tuple(gated)


def _usual(values: FloatArray, balls: Balls) -> FloatArray:
    """Return the median of each ball's own visit, or of all where its visit has none."""
    overall = median_or(values, 0.0)
    usual = np.empty(len(values))
    for visit in balls.visits:
        member = balls.visit == visit
        usual[member] = median_or(values[member], overall)
    return usual


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
    filled = delivery.copy()
    for column in range(delivery.shape[1]):
        lost = missing[:, column]
        filled[lost, column] = _usual(delivery[:, column], balls)[lost]
    marked = np.asarray(np.isfinite(candidates.marks).all(axis=1))
    pieces = [np.ones((len(ball), 1))]
    if columns.marks:
        expected = strike.expected(candidates.marks, candidates.error)
        squares = expected**2 + strike.left(candidates.marks, candidates.error)
        pieces += [expected / STRIKE_UNIT, squares / STRIKE_UNIT**2]
    pieces += [filled[ball], order_covariates(balls)[ball], visit_columns(balls)[ball]]
    kept = list(columns.responses)
    responses = ((balls.launch - slopes.origin) / LAUNCH_SCALE)[:, kept]
    unmarked = ~marked if columns.marks else np.zeros(len(ball), dtype=np.bool_)
    error = np.where(marked & columns.marks, error_level(candidates.error, strike.error), 0.0)
    patterns = np.column_stack([np.isfinite(responses)[ball], unmarked, missing[ball], error])
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


def _distinct(patterns: FloatArray) -> tuple[FloatArray, IntArray]:
    """Return the distinct patterns and the number of each row's own."""
    distinct, inverse = np.unique(patterns, axis=0, return_inverse=True)
    return distinct, inverse.ravel().astype(np.int64)


def classes_of(
    responses: FloatArray, covariates: int, errors: FloatArray | None = None
) -> tuple[tuple[NoiseClass, ...], IntArray]:
    """Return a noise class for each pattern of missing responses, and each row's own.

    Parameters
    ----------
    responses : FloatArray, shape (n, R)
        NaN where missing.
    covariates : int
        How many there are, all of them known.
    errors : FloatArray, shape (n, R), optional
        Variance of further errors of the responses.
    """
    seen = np.isfinite(responses)
    errors = np.zeros(responses.shape) if errors is None else np.where(seen, errors, 0.0)
    distinct, noise = _distinct(np.hstack([seen, errors]))
    size = responses.shape[1]
    classes = tuple(
        NoiseClass(
            observed=pattern[:size] > 0.0,
            directions=np.zeros((0, covariates)),
            variances=np.zeros(0),
            response_variances=pattern[size:] if pattern[size:].any() else None,
        )
        for pattern in distinct
    )
    return classes, noise


def _launch_class(
    pattern: FloatArray, columns: Columns, strike: StrikeModel, delivery_variance: FloatArray
) -> NoiseClass:
    responses = len(columns.responses)
    observed = pattern[:responses] > 0.0
    unmarked, missing, error = pattern[responses] > 0.0, pattern[responses + 1 : -1], pattern[-1]
    width = len(columns.names)
    directions = []
    variances = []
    if unmarked or error > strike.error:
        for axis, names in enumerate((("toe", "toe_squared"), ("high", "high_squared"))):
            linear, square = columns.index(*names)
            along = np.zeros(width)
            along[linear], along[square] = 1.0, 2.0 * strike.mean[axis] / STRIKE_UNIT
            bend = np.zeros(width)
            bend[square] = 1.0
            directions += [along, bend]
            variances += beyond_usual(strike, axis, None if unmarked else float(error))
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


def beyond_usual(strike: StrikeModel, axis: int, error: float | None) -> list[float]:
    """Return what is not known of a strike beyond what a usual mark leaves: linear and bend.

    Parameters
    ----------
    strike : StrikeModel
    axis : int
        0 for heel-toe, 1 for low-high.
    error : float, optional
        Of the mark [m], no less than usual; none for no mark.

    Returns
    -------
    list of float
        Variance of the strike and of its bend, in ten millimetres; a usual mark's own is in the
        residual.
    """
    whole = strike.variance[axis] / STRIKE_UNIT**2
    marked = strike.marked_variance[axis] / STRIKE_UNIT**2
    if error is None:
        return [whole - marked, 2.0 * (whole**2 - marked**2)]
    square = (error / STRIKE_UNIT) ** 2
    left = whole * square / (whole + square)
    slope = 4.0 * ((whole - left) * left - (whole - marked) * marked)
    return [left - marked, max(slope + 2.0 * (left**2 - marked**2), 0.0)]


def swing_rows(
    balls: Balls,
    columns: Columns,
    candidates: Candidates,
    delivery: FloatArray,
    usual_error: float = MARK_ERROR,
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
    usual_error : float
        The error of most marks, which the residual holds [m].
    """
    ball = candidates.ball
    pieces = [delivery[ball]]
    errors = [np.zeros((len(ball), delivery.shape[1]))]
    if columns.marks:
        pieces.append(on_the_face(candidates.marks) / STRIKE_SWING_SCALE)
        level = error_level(candidates.error, usual_error)
        coarser = (level**2 - usual_error**2) / STRIKE_SWING_SCALE**2
        errors.append(np.repeat(coarser[:, None], 2, axis=1))
    responses = np.hstack(pieces)
    common = [np.ones(len(balls)), order_covariates(balls), visit_columns(balls)]
    covariates = np.column_stack(common)[ball]
    classes, noise = classes_of(responses, covariates.shape[1], np.hstack(errors))
    return Observations(
        responses=responses,
        covariates=covariates,
        membership=membership(balls)[ball],
        ball=ball,
        noise=noise,
        classes=classes,
        orders=candidates.orders,
    )
