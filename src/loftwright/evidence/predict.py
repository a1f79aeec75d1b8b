"""What the next ball will do, said before it is hit.

A ball is the mean of its club as the golfer swings it, plus one ball's scatter. Both are in doubt,
so that what is predicted is a scaled t distribution: launch y ~ t_nu(m, V + D), where V is the
doubt of the mean and D the scatter of single balls about their club's mean, pooled over clubs.
Carry and total are those of many such launches flown at home, as the ball's own launch will be.

References
----------
Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., section 14.2 (predictive t distribution).
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.domain.prediction import PROBABILITIES, Forecast, Rests
from loftwright.evidence.clubs import head_covariance
from loftwright.evidence.columns import ORDER_COLUMNS, STRIKE_COLUMNS
from loftwright.evidence.compare import Comparison
from loftwright.evidence.design import DRIFT_BALLS, WARM_UP_BALLS
from loftwright.evidence.figures import (
    Figure,
    SwingShift,
    as_swung,
    at_rows,
    same_swing,
    strike_slopes,
    swing_shift,
)
from loftwright.evidence.flight_map import CARRY, TOTAL, conditions_at, outcomes
from loftwright.evidence.model import Fit
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.positive import cholesky
from loftwright.evidence.priors import (
    INTERCEPT_SD,
    STRIKE_SWING_SCALE,
    T_SHARE,
    VISIT_SD,
    effect_covariance,
    residual_scale,
)
from loftwright.evidence.result import Estimate
from loftwright.evidence.scales import (
    DISTANCE,
    LAUNCH_NAMES,
    LAUNCH_SCALE,
    PART_UNIT,
    SPEED_UNIT,
    STRIKE_UNIT,
)
from loftwright.evidence.shop_prior import corrected
from loftwright.evidence.slopes import NOMINAL_ATTACK, NOMINAL_LOFT, slopes_at
from loftwright.evidence.spreads import ABILITY_FACTOR, Spreads
from loftwright.evidence.unhit_effects import KnownNext, Neighbour, fits_with
from loftwright.evidence.visit import BALL_ONLY, Beliefs, Visit

DRAWS: Final = 2048
"""Launches that are flown for the ranges of carry and total."""

STATED_ERROR: Final = 4.0 * MILE_PER_HOUR
"""Standard deviation of a head speed that was stated and not measured (judgement)."""

_SCATTER_BALLS: Final = 10.0
_SEED: Final = 1
_FEWEST_FLOWN: Final = 0.95


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NextBall:
    """Where the next ball of a fitting comes in.

    Attributes
    ----------
    club : str
        The set-up in hand, as the comparison calls it.
    order : float
        Place among all swings of its visit, from 0.
    visit : int
        Its visit, numbered as those of the balls; a visit of its own where there is none yet.
    shift : tuple of float
        What physics expects of this set-up against the mean of those that were hit, in the
        delivery: head speed [m/s], attack, path, face, dynamic loft [rad]. It serves while
        none of its balls was hit.
    known : KnownNext, optional
        What the shop's record says of it then; it takes the place of `shift`.
    """

    club: str
    order: float
    visit: int = 0
    shift: tuple[float, float, float, float, float] = (0.0, 0.0, 0.0, 0.0, 0.0)
    known: KnownNext | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Foreseen:
    """The next ball as it is predicted."""

    rests: Rests
    forecasts: tuple[Forecast, ...]


@one_thread()
def predict_ball(comparison: Comparison, ball: NextBall, home: Home) -> Foreseen:
    """Predict the next ball from the balls before it.

    Parameters
    ----------
    comparison : Comparison
        Of every ball before this one.
    ball : NextBall
    home : Home
        In whose air it is flown.

    Returns
    -------
    Foreseen
        The launch numbers that the device gives; carry and total where they suffice.

    Notes
    -----
    The ball is taken for an ordinary one: mishits and misreadings are the tails of the t.
    """
    visit = comparison.visit
    setup = visit.setup
    mean, doubt = _mean_of(visit, ball)
    scatter_df = _SCATTER_BALLS + _freedom(visit)
    foreseen = forecasts_of(mean, doubt + visit.scatter, scatter_df, setup.columns.responses, home)
    known = ball.club in setup.balls.clubs and bool(
        (setup.balls.club == setup.balls.clubs.index(ball.club)).any()
    )
    return Foreseen(rests=Rests.BALLS if known else Rests.OTHER_CLUBS, forecasts=foreseen)


@one_thread()
def predict_from_stated(head_speed: float, beliefs: Beliefs, home: Home) -> Foreseen:
    """Predict a golfer's first ball from what was stated of the golfer.

    Parameters
    ----------
    head_speed : float
        [m s^-1]
    beliefs : Beliefs
    home : Home

    Returns
    -------
    Foreseen
        Wide: a golfer's launch is all but unknown before the first ball.
    """
    operating = np.array([head_speed, NOMINAL_ATTACK, 0.0, 0.0, NOMINAL_LOFT])
    slopes = slopes_at(operating, beliefs.head)
    slopes = slopes if beliefs.shop is None else corrected(slopes, beliefs.shop)
    factor = ABILITY_FACTOR[beliefs.ability] if beliefs.ability else 1.0
    spreads = Spreads(factor=factor, table=beliefs.standing_table)
    speed = slopes.parts[:, 0] * (STATED_ERROR / SPEED_UNIT)
    scaled = (
        INTERCEPT_SD**2 * np.eye(5)
        + np.outer(speed, speed)
        + beliefs.standing_doubt * effect_covariance(slopes, BALL_ONLY, spreads)
        + head_covariance(slopes)
        + residual_scale(slopes, spreads, BALL_ONLY) / T_SHARE
    )
    covariance = scaled * np.outer(LAUNCH_SCALE, LAUNCH_SCALE)
    everything = tuple(range(len(LAUNCH_NAMES)))
    return Foreseen(
        rests=Rests.STATED,
        forecasts=forecasts_of(slopes.origin, covariance, _SCATTER_BALLS, everything, home),
    )


def forecasts_of(
    mean: FloatArray, scale: FloatArray, df: float, present: tuple[int, ...], home: Home
) -> tuple[Forecast, ...]:
    """Return the forecasts of a launch that follows a t distribution.

    Parameters
    ----------
    mean : FloatArray, shape (5,)
        SI; zero for numbers that the device does not give.
    scale : FloatArray, shape (5, 5)
        Scale matrix, SI.
    df : float
        Degrees of freedom.
    present : tuple of int
        Launch numbers that the device gives.
    home : Home
    """
    found = []
    for place in present:
        told = Estimate(mean=float(mean[place]), sd=float(np.sqrt(scale[place, place])), df=df)
        inner, middle, outer = (told.interval(probability) for probability in PROBABILITIES)
        found.append(
            Forecast(quantity=LAUNCH_NAMES[place], mean=told.mean, ranges=(inner, middle, outer))
        )
    if not set(present) >= DISTANCE:
        return tuple(found)
    flown = outcomes(_launches(mean, scale, df, present), conditions_at(home))
    return (*found, *_flown(flown[:, CARRY], "carry"), *_flown(flown[:, TOTAL], "total"))


def _flown(values: FloatArray, quantity: str) -> tuple[Forecast, ...]:
    """Return the forecast of a distance; none if too many of the launches never fly."""
    values = values[np.isfinite(values)]
    if len(values) < _FEWEST_FLOWN * DRAWS:
        return ()
    tails = [0.5 * (1.0 - probability) for probability in PROBABILITIES]
    lows = np.quantile(values, tails).tolist()
    highs = np.quantile(values, [1.0 - tail for tail in tails]).tolist()
    inner, middle, outer = zip(lows, highs, strict=True)
    return (Forecast(quantity=quantity, mean=float(values.mean()), ranges=(inner, middle, outer)),)


def _launches(
    mean: FloatArray, scale: FloatArray, df: float, present: tuple[int, ...]
) -> FloatArray:
    """Return launches that are spread as the t distribution says, each with its mirror image."""
    rng = np.random.default_rng(_SEED)
    kept = list(present)
    units = LAUNCH_SCALE[kept]
    factor = cholesky(scale[np.ix_(kept, kept)] / np.outer(units, units))
    spread = rng.standard_normal((DRAWS // 2, len(kept)))
    spread *= np.sqrt(df / rng.chisquare(df, DRAWS // 2))[:, None]
    away = (spread @ factor.T) * units
    launches = np.tile(mean, (DRAWS, 1))
    launches[:, kept] += np.vstack([away, -away])
    return launches


def _freedom(visit: Visit) -> float:
    """Return the degrees of freedom from which the scatter was judged."""
    balls = visit.setup.balls
    return float(max(len(balls) - len(np.unique(balls.cell)), 0))


def _mean_of(visit: Visit, ball: NextBall) -> tuple[FloatArray, FloatArray]:
    """Return the mean launch of the club in hand as the next ball finds it, and its doubt, SI."""
    setup = visit.setup
    here = setup.balls.visit == ball.visit
    new_visit = not here.any()
    row, doubt = _row(visit, np.ones_like(here) if new_visit else here, ball.order)
    if new_visit:
        doubt = doubt + _visit_doubt(visit)
    seen = np.ones_like(here) if new_visit else here
    if ball.club in setup.balls.clubs:
        place = setup.balls.clubs.index(ball.club)
        figure = _swung(visit, (visit.launch, visit.swing), row, seen, ball.order)
        return figure.launches[place], figure.covariance[place, :, place] + doubt
    if ball.known is not None:
        new = Neighbour(name=ball.club, traits=ball.known.traits)
        fits = fits_with(visit, ball.known.hit, (new,), ball.known.shop)
        figure = _swung(visit, fits, row, seen, ball.order)
        return figure.launches[-1], figure.covariance[-1, :, -1] + doubt
    alone = np.hstack([row, np.zeros(len(setup.balls.clubs))])[None]
    figure = at_rows(visit.launch, alone, setup.columns, setup.slopes)
    kept = np.isin(np.arange(5), setup.columns.responses)
    units = np.where(kept, LAUNCH_SCALE, 0.0)
    shift = setup.slopes.parts @ (np.array(ball.shift) / PART_UNIT)
    believed = visit.launch.scale * (setup.believed + head_covariance(setup.slopes))
    return (
        figure.launches[0] + shift * units,
        figure.covariance[0, :, 0] + believed * np.outer(units, units) + doubt,
    )


def _row(visit: Visit, here: FloatArray, order: float) -> tuple[FloatArray, FloatArray]:
    """Return the mean swing of a visit as a row of covariates, and what its doubt adds, SI.

    The mean of n swings is off by an n-th of their variance.
    """
    setup, fit = visit.setup, visit.launch
    data, columns = setup.launch_rows, setup.columns
    weights = fit.weights[data.ball] * fit.probability * here[data.ball]
    row = weights @ data.covariates / weights.sum()
    row[columns.index(*ORDER_COLUMNS)] = np.exp(-order / WARM_UP_BALLS), order / DRIFT_BALLS
    varied = columns.index(*STRIKE_COLUMNS, *columns.delivery)
    away = data.covariates[:, varied] - row[varied]
    square = (away.T * weights) @ away / weights.sum()
    count = float(here.sum())
    way = fit.theta[:, varied]
    return row, _as_launch(visit, way @ square @ way.T / count)


def _swung(
    visit: Visit, fits: tuple[Fit, Fit | None], row: FloatArray, here: FloatArray, order: float
) -> Figure:
    """Return every club as the golfer swings it on this visit by now, those not hit last."""
    setup, (launch, swing) = visit.setup, fits
    hit = len(setup.balls.clubs)
    clubs = launch.theta.shape[1] - len(row)
    if swing is None or setup.swing_rows is None:
        return same_swing(launch, row, clubs, setup.columns, setup.slopes)
    shift = swing_shift(swing, clubs, hit)
    data = setup.swing_rows
    weights = swing.weights[data.ball] * swing.probability * here[data.ball]
    shares = weights @ data.membership / weights.sum()
    mean_order = weights @ data.covariates[:, 1:3] / weights.sum()
    now = np.array([np.exp(-order / WARM_UP_BALLS), order / DRIFT_BALLS])
    since = swing.theta[:, 1:3] @ (now - mean_order)
    mean = shift.mean - shares @ shift.mean[:hit] + since
    moved = SwingShift(mean=mean, covariance=shift.covariance)
    return as_swung(launch, row, moved, setup.strike, setup.columns, setup.slopes)


def _visit_doubt(visit: Visit) -> FloatArray:
    """Return how a new visit differs from those before, as covariance of launch, SI."""
    setup, columns = visit.setup, visit.setup.columns
    ways = [
        np.eye(len(columns.responses)),
        visit.launch.theta[:, columns.index(*columns.delivery)],
    ]
    if columns.marks:
        ways.append(
            strike_slopes(visit.launch, setup.strike, columns) * STRIKE_SWING_SCALE / STRIKE_UNIT
        )
    way = np.hstack(ways)
    # One visit's own intercept is that of the visit; of several, the common one is known.
    differs = 1.0 if columns.visits > 1 else 2.0
    return _as_launch(visit, differs * VISIT_SD**2 * way @ way.T)


def _as_launch(visit: Visit, scaled: FloatArray) -> FloatArray:
    """Return a covariance of scaled responses as one of five launch numbers, SI."""
    kept = list(visit.setup.columns.responses)
    whole = np.zeros((5, 5))
    whole[np.ix_(kept, kept)] = scaled * np.outer(LAUNCH_SCALE[kept], LAUNCH_SCALE[kept])
    return whole
