"""What a fitter without the model would pick: averages, trimmed averages, least squares."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls

PLAIN: Final = ("averages", "trimmed averages", "least squares")
"""The methods, in the order of `plain_means`."""

_TRIM: Final = 3.0
_OF_NORMAL: Final = 1.4826
_MILLIMETRES_TO_ONE: Final = 0.01
_MOSTLY: Final = 0.5


def plain_means(balls: Balls, outcome: FloatArray) -> list[FloatArray]:
    """Return each club's mean outcome by each plain method.

    Parameters
    ----------
    balls : Balls
    outcome : FloatArray, shape (n,)
        Of each ball flown again at home [m]; NaN where it has none.

    Returns
    -------
    list of FloatArray, shape (S,)
        In the order of `PLAIN`; minus infinity for a club without a ball.
    """
    return [method(balls, outcome) for method in (averages, trimmed_averages, adjusted_averages)]


def averages(balls: Balls, totals: FloatArray) -> FloatArray:
    """Return each club's plain mean total [m]; minus infinity without a ball."""
    return _means(balls, totals, np.isfinite(totals))


def trimmed_averages(balls: Balls, totals: FloatArray) -> FloatArray:
    """Return each club's mean without balls beyond three robust deviations of its median [m]."""
    kept = np.isfinite(totals)
    for club in range(len(balls.clubs)):
        member = np.flatnonzero(kept & (balls.club == club))
        away = np.abs(totals[member] - np.median(totals[member])) if member.size else member
        spread = _OF_NORMAL * float(np.median(away)) if member.size else 0.0
        if spread > 0.0:
            kept[member[away > _TRIM * spread]] = False
    return _means(balls, totals, kept)


def adjusted_averages(balls: Balls, totals: FloatArray) -> FloatArray:
    """Return each club's total at the mean swing and strike, by ordinary least squares [m].

    Parameters
    ----------
    balls : Balls
    totals : FloatArray, shape (n,)
        [m]; NaN without a total.

    Returns
    -------
    FloatArray, shape (S,)

    Notes
    -----
    Total is regressed on the clubs, on every delivery column that is mostly there and, with
    marks, on strike and its square. A missing reading stands at the column's mean. With too few
    balls for the columns the smallest solution is taken.
    """
    kept = np.isfinite(totals)
    clubs = np.eye(len(balls.clubs))[balls.club]
    covariates = [_filled(column) for column in balls.delivery.T if _mostly_there(column)]
    for column in balls.marks.T:
        if _mostly_there(column):
            strike = _filled(column / _MILLIMETRES_TO_ONE)
            covariates += [strike, strike**2]
    centred = [column - column[kept].mean() for column in covariates]
    scaled = [column / (column[kept].std() or 1.0) for column in centred]
    design = np.column_stack([clubs, *scaled])
    found = np.linalg.lstsq(design[kept], totals[kept], rcond=None)[0][: len(balls.clubs)]
    hit = clubs[kept].any(axis=0)
    return np.where(hit, found, -np.inf)


def _means(balls: Balls, totals: FloatArray, kept: FloatArray) -> FloatArray:
    found = np.full(len(balls.clubs), -np.inf)
    for club in range(len(balls.clubs)):
        member = kept & (balls.club == club)
        if member.any():
            found[club] = totals[member].mean()
    return found


def _mostly_there(column: FloatArray) -> bool:
    return bool(np.isfinite(column).mean() > _MOSTLY)


def _filled(column: FloatArray) -> FloatArray:
    return np.where(np.isfinite(column), column, np.nanmean(column))
