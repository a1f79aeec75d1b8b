"""Why two clubs' plain averages differ, in parts that sum exactly."""

from dataclasses import dataclass, replace

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.columns import ORDER_COLUMNS, STRIKE_COLUMNS, Columns
from loftwright.evidence.figures import strike_slopes
from loftwright.evidence.marks import StrikeModel
from loftwright.evidence.model import Fit, Observations
from loftwright.evidence.result import Parts
from loftwright.evidence.scales import STRIKE_UNIT


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClubMeans:
    """What one club's balls averaged to, in scaled launch numbers, shape (S, R) each.

    `plain` and `weighted` are means of the balls; the others are the weighted means of what the
    model makes of them: `weighted = strike + swing + warm_up + common + club + residual`, where
    what differs between visits goes with warm-up and drift.
    """

    plain: FloatArray
    weighted: FloatArray
    strike: FloatArray
    swing: FloatArray
    warm_up: FloatArray
    club: FloatArray
    residual: FloatArray
    plain_total: FloatArray


def strike_surprise(
    data: Observations, fit: Fit, strike: StrikeModel, columns: Columns, left: FloatArray
) -> FloatArray:
    """Return what launch says of each row's strike beyond its mark, as launch, shape (n, R).

    It fills missing marks: the expected strike error given the residual, through the slopes.

    Parameters
    ----------
    data : Observations
    fit : Fit
    strike : StrikeModel
    columns : Columns
    left : FloatArray, shape (n, 2)
        Variance of each row's true strike given its mark [m^2].
    """
    slope = strike_slopes(fit, strike, columns)
    marked = strike.marked_variance / STRIKE_UNIT**2
    bare = _floored(fit.residual - (slope * marked) @ slope.T)
    residuals = np.nan_to_num(data.responses - fit.fitted(data), nan=0.0)
    filled = np.zeros_like(residuals)
    for index, noise in enumerate(data.classes):
        rows = np.flatnonzero(data.noise == index)
        seen = np.flatnonzero(noise.observed)
        if not rows.size or not seen.size:
            continue
        variance = left[rows].max(axis=0) / STRIKE_UNIT**2
        part = slope[seen]
        total = bare[np.ix_(seen, seen)] + (part * variance) @ part.T
        gain = slope * variance @ part.T @ np.linalg.inv(total)
        filled[rows] = residuals[np.ix_(rows, seen)] @ gain.T
    return filled


def _floored(matrix: FloatArray) -> FloatArray:
    """Raise eigenvalues to a thousandth of the mean one, so that the matrix can be inverted."""
    values, vectors = np.linalg.eigh(0.5 * (matrix + matrix.T))
    floor = 1e-3 * np.trace(matrix) / len(matrix)
    return (vectors * np.maximum(values, floor)) @ vectors.T


def club_means(
    balls: Balls,
    data: Observations,
    fit: Fit,
    columns: Columns,
    strike: StrikeModel,
    counted: BoolArray,
    totals: FloatArray,
    left: FloatArray,
) -> ClubMeans:
    """Return each club's plain and weighted means and their parts.

    Parameters
    ----------
    balls : Balls
    data : Observations
    fit : Fit
    columns : Columns
    strike : StrikeModel
    counted : BoolArray, shape (n,)
        Balls that have a total; only they enter. A direction or axis that they lack stands at
        its fitted value.
    totals : FloatArray, shape (n,)
        Re-flown totals [m].
    left : FloatArray, shape (m, 2)
        Variance of the true strike given the mark of each row of the data [m^2].
    """
    fitted = fit.fitted(data)
    responses = np.where(np.isfinite(data.responses), data.responses, fitted)
    surprise = (
        strike_surprise(data, fit, strike, columns, left)
        if columns.marks
        else np.zeros_like(fitted)
    )
    pieces = np.stack(
        [
            responses,
            _share(data, fit, columns.index(*STRIKE_COLUMNS)) + surprise,
            _share(data, fit, columns.index(*columns.delivery)),
            _share(data, fit, columns.index(*ORDER_COLUMNS, *columns.visit_names)),
            data.membership @ fit.theta[:, data.covariates.shape[1] :].T,
            responses - fitted - surprise,
        ]
    )
    by_ball = np.zeros((len(pieces), len(balls), pieces.shape[2]))
    for piece, target in zip(pieces, by_ball, strict=True):
        np.add.at(target, data.ball, piece * fit.probability[:, None])
    member = (balls.club[:, None] == np.arange(len(balls.clubs))) & counted[:, None]
    plain_share = _shares(member.astype(np.float64))
    weighted_share = _shares(member * fit.weights[:, None])
    weighted = np.einsum("ns,pnr->psr", weighted_share, by_ball)
    return ClubMeans(
        plain=plain_share.T @ by_ball[0],
        weighted=weighted[0],
        strike=weighted[1],
        swing=weighted[2],
        warm_up=weighted[3],
        club=weighted[4],
        residual=weighted[5],
        plain_total=plain_share.T @ np.where(counted, totals, 0.0),
    )


def with_aside(
    means: ClubMeans, kept: IntArray, club: IntArray, responses: FloatArray, totals: FloatArray
) -> ClubMeans:
    """Return the means with balls that were set aside back in the plain ones.

    Parameters
    ----------
    means : ClubMeans
    kept : IntArray, shape (S,)
        Balls with a total that count, per club.
    club : IntArray, shape (k,)
        Of each ball set aside.
    responses : FloatArray, shape (k, R)
        Its launch numbers, scaled; what is missing stands at its club's mean.
    totals : FloatArray, shape (k,)
        Re-flown totals [m]; a ball without one stays out.
    """
    flown = np.isfinite(totals)
    club, totals = club[flown], totals[flown]
    filled = np.where(np.isfinite(responses[flown]), responses[flown], means.weighted[club])
    count = kept + np.bincount(club, minlength=len(kept))
    plain, plain_total = means.plain * kept[:, None], means.plain_total * kept
    np.add.at(plain, club, filled)
    np.add.at(plain_total, club, totals)
    whole = np.maximum(count, 1)
    return replace(means, plain=plain / whole[:, None], plain_total=plain_total / whole)


def _share(data: Observations, fit: Fit, columns: list[int]) -> FloatArray:
    return data.covariates[:, columns] @ fit.theta[:, columns].T


def _shares(weights: FloatArray) -> FloatArray:
    """Scale columns to sum one; a club without balls stays at zero."""
    total = weights.sum(axis=0)
    return weights / np.where(total > 0.0, total, 1.0)


def parts_between(
    a: int, b: int, means: ClubMeans, gradient: FloatArray, club_total: FloatArray
) -> Parts:
    """Return the parts of the difference of two plain averages of total [m].

    Parameters
    ----------
    a, b : int
        Clubs; every sign is a minus b.
    means : ClubMeans
    gradient : FloatArray, shape (R,)
        Total per scaled launch number at the mean launch [m].
    club_total : FloatArray, shape (S,)
        Mean total of each club from the same swing [m].

    Notes
    -----
    The launch parts sum exactly by algebra. What the flight's curvature adds to the plain
    averages and to the club's own part goes to what is left over.
    """

    def along(values: FloatArray) -> float:
        return float((values[a] - values[b]) @ gradient)

    club = float(club_total[a] - club_total[b])
    raw = float(means.plain_total[a] - means.plain_total[b])
    curvature = (raw - along(means.plain)) - (club - along(means.club))
    return Parts(
        odd_balls=along(means.plain) - along(means.weighted),
        strike=along(means.strike),
        swing=along(means.swing),
        warm_up=along(means.warm_up),
        club=club,
        left_over=along(means.residual) + curvature,
    )
