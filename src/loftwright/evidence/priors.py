"""What is believed before the first ball, built from slopes and one table of spreads.

The launch model's residual, the clubs' effects and the swing model's widths all follow from the
impact model's slopes at the golfer's own mean delivery, the table of spreads and which columns
the device gives. Effects of clubs are believed `doubt` times as variable as the table says until
a shop has learned its own table.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.columns import STRIKE_COLUMNS, Columns
from loftwright.evidence.model import Prior
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.spreads import (
    DELIVERY_ERROR,
    Spreads,
)

UNLEARNED_DOUBT: Final = 2.0
"""Factor on the variance of what clubs do, until a shop has learned its own."""

_SLOPE_SHARE: Final = 0.4
_SLOPE_FLOOR: Final = 0.15
INTERCEPT_SD: Final = 5.0
"""Of the common intercept, in working units: nothing is known of a golfer before the balls."""
VISIT_SD: Final = 3.0
"""Of a visit's own intercept about the common one, in working units: 3 mph, 2.4 degrees of
launch, 600 rpm, 6 degrees of axis, 3 degrees of direction; likewise 3 mph, 3 degrees and 15 mm of
the swing. A judgement, wide on purpose: two days differ by device, ball and form, and were it
narrow, clubs of two visits would be compared by belief instead of through clubs hit on both."""
T_SHARE: Final = 0.8
"""Scale of a t distribution with 6 degrees of freedom for a part of given variance."""
_MEAN_STRIKE_SHARE: Final = (0.75, 0.67)

_DEVICE_NOISE: Final = (
    np.array(
        [
            0.45 * MILE_PER_HOUR,
            0.25 * DEGREE,
            60.0 * REVOLUTION_PER_MINUTE,
            1.1 * DEGREE,
            0.25 * DEGREE,
        ]
    )
    / LAUNCH_SCALE
)
EFFECT_GRID: Final = (0.35, 0.6, 1.0, 1.7, 2.9, 8.0, 25.0)
"""Scales of what clubs do. The last two are all but ruled out beforehand: they let a club that
is of another kind stand apart instead of passing for noise."""

SWING_GRID: Final = (0.03, 0.12, 0.4, 1.0, 2.5)
STRIKE_SWING_SCALE: Final = 5e-3
"""The swing model counts strike in units of five millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Regression:
    """How launch follows the measured columns when the unmeasured parts follow them.

    Attributes
    ----------
    coefficients : FloatArray, shape (5, k)
        Scaled launch per mph or degree of each delivery covariate.
    left : FloatArray, shape (5, 5)
        Covariance of launch from the parts that the columns do not show.
    """

    coefficients: FloatArray
    left: FloatArray


def regress_delivery(slopes: Slopes, spreads: Spreads, columns: Columns) -> Regression:
    """Regress launch on the measured delivery columns.

    With attack measured, dynamic loft follows it; with one of face and path measured, the other
    follows.
    """
    parts = spreads.parts
    if not columns.delivery:
        return Regression(
            coefficients=np.zeros((5, 0)), left=slopes.parts @ parts @ slopes.parts.T
        )
    gain = delivery_gain(spreads, columns)
    left = parts - gain @ (parts @ columns.functionals.T).T
    return Regression(coefficients=slopes.parts @ gain, left=slopes.parts @ left @ slopes.parts.T)


def delivery_gain(spreads: Spreads, columns: Columns) -> FloatArray:
    """Return how the parts of a delivery follow the measured columns, shape (5, k).

    Parameters
    ----------
    spreads : Spreads
    columns : Columns
    """
    if not columns.delivery:
        return np.zeros((5, 0))
    functionals = columns.functionals
    joint = spreads.parts @ functionals.T
    return np.asarray(np.linalg.solve(functionals @ joint, joint.T).T)


def residual_scale(
    slopes: Slopes, spreads: Spreads, columns: Columns, mark_error: float = MARK_ERROR
) -> FloatArray:
    """Return the prior scale matrix of the launch residual, scaled units, shape (5, 5).

    Parameters
    ----------
    slopes : Slopes
    spreads : Spreads
    columns : Columns
    mark_error : float
        Of most marks [m].
    """
    regression = regress_delivery(slopes, spreads, columns)
    errors = np.array([DELIVERY_ERROR[name] for name in columns.delivery])
    read = (regression.coefficients * errors**2) @ regression.coefficients.T
    total = np.diag(_DEVICE_NOISE**2) + regression.left + read
    for axis in range(2):
        total += _strike_scatter(slopes, spreads, axis, mark_error if columns.marks else None)
    return T_SHARE * total


def _strike_scatter(
    slopes: Slopes, spreads: Spreads, axis: int, mark_error: float | None
) -> FloatArray:
    """Launch covariance from what is not known of the strike along one axis."""
    variance = (spreads.strike[axis] / STRIKE_UNIT) ** 2
    mean_square = _MEAN_STRIKE_SHARE[axis] ** 2 * variance
    linear = np.outer(slopes.strike[:, axis], slopes.strike[:, axis])
    bend = np.outer(slopes.curvature[:, axis], slopes.curvature[:, axis])
    if mark_error is not None:
        error = (mark_error / STRIKE_UNIT) ** 2
        unknown = variance * error / (variance + error)
        about = variance + mean_square
    else:
        unknown = variance
        about = mean_square
    return linear * unknown + bend * (4.0 * about * unknown + 2.0 * unknown**2)


def club_ways(slopes: Slopes, columns: Columns, spreads: Spreads) -> tuple[FloatArray, FloatArray]:
    """Return the ways in which a club changes launch without any column showing it.

    Parameters
    ----------
    slopes : Slopes
    columns : Columns
    spreads : Spreads

    Returns
    -------
    ways : FloatArray, shape (5, 9)
        Scaled launch per mph, degree or ten millimetres of each part, of the strike at the
        middle of the face, and of the strike's bend where the golfer usually strikes.
    variances : FloatArray, shape (9,)
        Between clubs, in the same units; zero for what is measured.

    Notes
    -----
    Without marks nobody knows where the golfer usually strikes, so the bend stands at the root
    mean square of golfers: a club that moves the strike of one who strikes off the middle
    changes ball speed, which it would not do for one who strikes the middle.
    """
    table = spreads.table
    usual = np.array(_MEAN_STRIKE_SHARE) * spreads.strike / STRIKE_UNIT
    strike = table.club_strike / STRIKE_UNIT
    hidden = np.array([*columns.unmeasured, *4 * (not columns.marks,)])
    sd = np.concatenate([table.club_parts, strike, strike])
    ways = np.hstack([slopes.parts, slopes.strike, 2.0 * usual * slopes.curvature])
    return ways, np.where(hidden, sd**2, 0.0)


def effect_covariance(slopes: Slopes, columns: Columns, spreads: Spreads) -> FloatArray:
    """Return how clubs differ from the same swing, scaled units, shape (5, 5).

    What a club does to measured parts is no part of it; what it does to unmeasured ones is.

    Parameters
    ----------
    slopes : Slopes
    columns : Columns
    spreads : Spreads
    """
    ways, variances = club_ways(slopes, columns, spreads)
    return (ways * variances) @ ways.T + np.diag(spreads.table.club_floor**2)


def launch_prior(
    slopes: Slopes,
    spreads: Spreads,
    columns: Columns,
    effect_precisions: FloatArray,
    effects: FloatArray,
    mark_error: float = MARK_ERROR,
    slope_sd: FloatArray | None = None,
) -> Prior:
    """Return the prior of the launch model.

    Parameters
    ----------
    slopes : Slopes
    spreads : Spreads
    columns : Columns
    effect_precisions : FloatArray, shape (M, R S, R S)
        Of the clubs' effects on the responses that the device gives, under each view.
    effects : FloatArray, shape (R, S)
        Their mean from physics.
    mark_error : float
        Of most marks [m].
    slope_sd : FloatArray, shape (5, k), optional
        How golfers differ in the slopes of strike, where there are marks, and delivery; a share
        of each slope without it.

    Returns
    -------
    Prior
    """
    kept = list(columns.responses)
    names = columns.names
    mean = np.zeros((5, len(names)))
    if columns.marks:
        mean[:, columns.index(*STRIKE_COLUMNS)] = np.hstack([slopes.strike, slopes.curvature])
    mean[:, columns.index(*columns.delivery)] = regress_delivery(
        slopes, spreads, columns
    ).coefficients
    sd = _SLOPE_SHARE * np.abs(mean) + _SLOPE_FLOOR
    sd[:, 0] = INTERCEPT_SD
    sd[:, columns.index(*columns.visit_names)] = VISIT_SD
    if slope_sd is not None:
        sd[:, columns.index(*STRIKE_COLUMNS, *columns.delivery)] = slope_sd
    residual = residual_scale(slopes, spreads, columns, mark_error)
    return Prior(
        coefficients=mean[kept],
        coefficient_sd=sd[kept],
        effects=effects,
        effect_precisions=effect_precisions,
        residual=residual[np.ix_(kept, kept)],
        scale_grid=np.array(EFFECT_GRID),
    )


def swing_covariances(
    spreads: Spreads, columns: Columns, mark_error: float = MARK_ERROR
) -> tuple[FloatArray, FloatArray]:
    """Return residual and club covariance of the swing model, in its scaled units.

    Parameters
    ----------
    spreads : Spreads
    columns : Columns
    mark_error : float
        Of most marks [m].

    Returns
    -------
    residual, clubs : FloatArray, shape (Z, Z)
        Delivery covariates in mph and degrees, then strike in five millimetres if marked.
    """
    functionals = columns.functionals
    errors = np.array([DELIVERY_ERROR[name] for name in columns.delivery])
    residual = T_SHARE * functionals @ spreads.parts @ functionals.T + np.diag(errors**2)
    clubs = (functionals * spreads.table.club_parts**2) @ functionals.T
    if not columns.marks:
        return residual, clubs
    strike_residual = T_SHARE * spreads.strike**2 + mark_error**2
    size = len(columns.delivery)
    whole_residual = np.zeros((size + 2, size + 2))
    whole_residual[:size, :size] = residual
    whole_residual[size:, size:] = np.diag(strike_residual / STRIKE_SWING_SCALE**2)
    whole_clubs = np.zeros((size + 2, size + 2))
    whole_clubs[:size, :size] = clubs
    whole_clubs[size:, size:] = np.diag((spreads.table.club_strike / STRIKE_SWING_SCALE) ** 2)
    return whole_residual, whole_clubs


def swing_prior(
    spreads: Spreads,
    columns: Columns,
    clubs: int,
    doubt: float,
    mark_error: float = MARK_ERROR,
) -> Prior:
    """Return the prior of the swing model: what each club does to delivery and strike.

    Parameters
    ----------
    spreads : Spreads
    columns : Columns
    clubs : int
    doubt : float
        Factor on the variance of what clubs do.
    mark_error : float
        Of most marks [m].
    """
    residual, between = swing_covariances(spreads, columns, mark_error)
    size, width = len(residual), 3 + len(columns.visit_names)
    sd = np.full((size, width), VISIT_SD)
    sd[:, 0] = 5.0
    sd[:, 1] = 0.5
    if "head_speed" in columns.delivery:
        sd[columns.delivery.index("head_speed"), 1] = 1.5
    sd[:, 2] = 0.5
    return Prior(
        coefficients=np.zeros((size, width)),
        coefficient_sd=sd,
        effects=np.zeros((size, clubs)),
        effect_precisions=np.kron(np.linalg.inv(doubt * between), np.eye(clubs))[None],
        residual=residual,
        scale_grid=np.array(SWING_GRID),
    )
