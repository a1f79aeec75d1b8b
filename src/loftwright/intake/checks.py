"""Tells whether a column was calculated from others, to the last digit."""

from collections.abc import Sequence
from typing import Final

import numpy as np

_SPARE: Final = 6
_ROUNDING: Final = 1.3
_UNCHANGED: Final = 8

Values = Sequence[float | None]


def is_combination(
    column: Values, of: Sequence[Values], step: float, of_steps: Sequence[float]
) -> bool:
    """Return whether a column is a sum of multiples of others, to the digits given.

    Parameters
    ----------
    column : sequence of float or None
        The column that may have been calculated.
    of : sequence of sequence of float or None
        The columns it may have been calculated from.
    step, of_steps : float, sequence of float
        The last digit of each, in its unit.

    Notes
    -----
    What is left after the best fit must be no more than the rounding of the digits, and the
    column must vary by far more than its own.
    """
    places = [
        place
        for place in range(len(column))
        if column[place] is not None and all(other[place] is not None for other in of)
    ]
    if len(places) < len(of) + _SPARE:
        return False
    response = np.array([column[place] or 0.0 for place in places])
    covariates = np.array([[1.0, *(other[place] or 0.0 for other in of)] for place in places])
    if np.linalg.matrix_rank(covariates) < covariates.shape[1]:
        return False
    slopes, *_ = np.linalg.lstsq(covariates, response, rcond=None)
    left = float(np.std(response - covariates @ slopes))
    steps = np.array([step, *(slope * s for slope, s in zip(slopes[1:], of_steps, strict=True))])
    rounding = float(np.sqrt(np.sum(steps**2) / 12.0))
    return left <= _ROUNDING * rounding + 1e-12 and float(np.std(response)) > 5.0 * rounding


def never_changes(column: Values) -> bool:
    """Return whether a column has one value over more balls than chance allows.

    Parameters
    ----------
    column : sequence of float or None
        A column that differs from ball to ball when it is measured.
    """
    held = [value for value in column if value is not None]
    return len(held) >= _UNCHANGED and max(held) == min(held) != 0.0
