"""Both figures of every club: as you swing it, and from the same swing.

From the same swing a club is B x0 + u: common strike and delivery, and the club's own part. As
you swing it, what the club does to speed, delivery and strike (shrunk by the swing model) is
added through the slopes. Given the covariates the two models share no unknowns, so their doubts
add.
"""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.columns import ORDER_COLUMNS, Columns
from loftwright.evidence.marks import StrikeModel
from loftwright.evidence.model import Fit, Observations
from loftwright.evidence.priors import STRIKE_SWING_SCALE
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figure:
    """Launch of every club under one of the two readings.

    Attributes
    ----------
    launches : FloatArray, shape (S, 5)
        SI; zero for numbers that the device does not give.
    covariance : FloatArray, shape (S, 5, S, 5)
        Of `launches`, SI.
    """

    launches: FloatArray
    covariance: FloatArray


def mean_row(data: Observations, fit: Fit, columns: Columns) -> FloatArray:
    """Return the weighted mean covariates, fresh and undrifted, shape (P,)."""
    weights = fit.weights[data.ball] * fit.probability
    row = weights @ data.covariates / weights.sum()
    row[columns.index(*ORDER_COLUMNS)] = 0.0
    return np.asarray(row)


def _spread_out(scaled: FloatArray, columns: Columns, origin: FloatArray) -> FloatArray:
    """Return scaled responses as five launch numbers in SI."""
    launches = np.zeros((len(scaled), 5))
    kept = list(columns.responses)
    launches[:, kept] = origin[kept] + scaled * LAUNCH_SCALE[kept]
    return launches


def _spread_covariance(scaled: FloatArray, columns: Columns) -> FloatArray:
    clubs = scaled.shape[0]
    kept = list(columns.responses)
    scale = LAUNCH_SCALE[kept]
    whole = np.zeros((clubs, 5, clubs, 5))
    index = np.ix_(range(clubs), kept, range(clubs), kept)
    whole[index] = scaled * scale[None, :, None, None] * scale[None, None, None, :]
    return whole


def _linear(
    fit: Fit, rows: FloatArray, columns: Columns, origin: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return means and scaled covariance of club rows of the launch model."""
    responses, width = fit.theta.shape
    scaled = rows @ fit.theta.T
    tensor = fit.covariance.reshape(responses, width, responses, width)
    half = np.tensordot(rows, tensor, axes=(1, 1))
    covariance = np.tensordot(half, rows, axes=(3, 1))
    return _spread_out(scaled, columns, origin), covariance.transpose(0, 1, 3, 2)


def at_rows(fit: Fit, rows: FloatArray, columns: Columns, slopes: Slopes) -> Figure:
    """Return what the launch model says of rows of covariates and effects.

    Parameters
    ----------
    fit : Fit
        Of the launch model.
    rows : FloatArray, shape (S, P + clubs)
        Covariates, then how much of each club's effect.
    columns : Columns
    slopes : Slopes
    """
    launches, covariance = _linear(fit, rows, columns, slopes.origin)
    return Figure(launches=launches, covariance=_spread_covariance(covariance, columns))


def same_swing(fit: Fit, row: FloatArray, clubs: int, columns: Columns, slopes: Slopes) -> Figure:
    """Return every club from the golfer's mean swing.

    Parameters
    ----------
    fit : Fit
        Of the launch model.
    row : FloatArray, shape (P,)
        The mean swing as a row of covariates.
    clubs : int
    columns : Columns
    slopes : Slopes
    """
    rows = np.hstack([np.tile(row, (clubs, 1)), np.eye(clubs)])
    return at_rows(fit, rows, columns, slopes)


def strike_slopes(fit: Fit, strike: StrikeModel, columns: Columns) -> FloatArray:
    """Return launch per strike unit, heel-toe and low-high, at the golfer's mean strike.

    Parameters
    ----------
    fit : Fit
        Of the launch model.
    strike : StrikeModel
    columns : Columns
        With marks.

    Returns
    -------
    FloatArray, shape (R, 2)
    """
    linear, square = columns.index("toe", "high"), columns.index("toe_squared", "high_squared")
    mean = strike.mean / STRIKE_UNIT
    return fit.theta[:, linear] + 2.0 * mean * fit.theta[:, square]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SwingShift:
    """What each club does to the swing, about the mean of the clubs that were hit.

    Attributes
    ----------
    mean : FloatArray, shape (S, Z)
        In the swing model's units.
    covariance : FloatArray, shape (S, Z, S, Z)
    """

    mean: FloatArray
    covariance: FloatArray


def swing_shift(fit: Fit, clubs: int, hit: int | None = None) -> SwingShift:
    """Return the clubs' effects on the swing, centred.

    Parameters
    ----------
    fit : Fit
        Of the swing model.
    clubs : int
    hit : int, optional
        How many of them, the first, were hit; all without it.
    """
    size, width = fit.theta.shape
    first = width - clubs
    hit = clubs if hit is None else hit
    centring = np.eye(clubs)
    centring[:, :hit] -= 1.0 / hit
    tensor = fit.covariance.reshape(size, width, size, width)[:, first:, :, first:]
    covariance = np.einsum("sa,zayb,tb->szty", centring, tensor, centring)
    return SwingShift(mean=centring @ fit.theta[:, first:].T, covariance=covariance)


def as_swung(
    fit: Fit,
    row: FloatArray,
    shift: SwingShift,
    strike: StrikeModel,
    columns: Columns,
    slopes: Slopes,
) -> Figure:
    """Return every club as the golfer swings it.

    Parameters
    ----------
    fit : Fit
        Of the launch model.
    row : FloatArray, shape (P,)
    shift : SwingShift
    strike : StrikeModel
    columns : Columns
    slopes : Slopes
    """
    clubs = len(shift.mean)
    rows = np.hstack([np.tile(row, (clubs, 1)), np.eye(clubs)])
    delivery = columns.index(*columns.delivery)
    rows[:, delivery] += shift.mean[:, : len(delivery)]
    ways = [fit.theta[:, delivery]]
    if columns.marks:
        to_units = STRIKE_SWING_SCALE / STRIKE_UNIT
        moved = shift.mean[:, len(delivery) :] * to_units
        rows[:, columns.index("toe", "high")] += moved
        rows[:, columns.index("toe_squared", "high_squared")] += (
            2.0 * strike.mean / STRIKE_UNIT * moved + moved**2
        )
        ways.append(strike_slopes(fit, strike, columns) * to_units)
    launches, covariance = _linear(fit, rows, columns, slopes.origin)
    way = np.hstack(ways)
    through = np.einsum("rz,szty,qy->srtq", way, shift.covariance, way)
    return Figure(launches=launches, covariance=_spread_covariance(covariance + through, columns))
