"""Both models fitted to one visit, and the figures that follow from them."""

from dataclasses import dataclass, field

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits, effect_means, effect_precisions
from loftwright.evidence.columns import Columns, columns_of
from loftwright.evidence.design import Gated, gated_covariates, launch_rows, swing_rows
from loftwright.evidence.engine import fit
from loftwright.evidence.figures import Figure, as_swung, mean_row, same_swing, swing_shift
from loftwright.evidence.marks import StrikeModel, candidates, on_the_face, strike_model
from loftwright.evidence.model import Fit, Observations, State
from loftwright.evidence.priors import (
    T_SHARE,
    UNLEARNED_DOUBT,
    effect_covariance,
    launch_prior,
    residual_scale,
    swing_prior,
)
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import ABILITY_FACTOR, Spreads, spread_factor
from loftwright.physics.heads import REFERENCE_HEAD, Head

BALL_ONLY = Columns(responses=(0, 1, 2, 3, 4), delivery=(), marks=False)

_SCATTER_PRIOR_BALLS = 10.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beliefs:
    """What is believed of golfer and clubs before the visit.

    Attributes
    ----------
    head : Head
        The kind of head that is hit; mirrored for a left-hander.
    doubt : float
        Factor on the variance of what clubs do.
    ability : str, optional
        A stated ability; else it is judged from the scatter of launch.
    traits : tuple of ClubTraits
        One a club, or empty.
    """

    head: Head = field(default=REFERENCE_HEAD)
    doubt: float = UNLEARNED_DOUBT
    ability: str | None = None
    traits: tuple[ClubTraits, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VisitState:
    """Where the update after the next ball starts."""

    launch: State
    swing: State | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Visit:
    """One visit as the model sees it.

    Attributes
    ----------
    same : Figure
        Every club from the same swing. With neither delivery nor marks it holds everything a
        club does and is the same as `swung`.
    swung : Figure
        Every club as the golfer swings it.
    scatter : FloatArray, shape (5, 5)
        Covariance of single balls about their club's mean, SI.
    believed : FloatArray, shape (5, 5)
        How clubs as swung were believed to differ before the first ball, SI.
    """

    balls: Balls
    columns: Columns
    slopes: Slopes
    spreads: Spreads
    strike: StrikeModel
    rows: Observations
    launch: Fit
    swing: Fit | None
    same: Figure
    swung: Figure
    scatter: FloatArray
    believed: FloatArray
    gated: tuple[Gated, ...]
    sets_too_large: tuple[int, ...]

    @property
    def state(self) -> VisitState:
        """The start for the next update."""
        return VisitState(launch=self.launch.state, swing=self.swing.state if self.swing else None)


def fit_visit(balls: Balls, beliefs: Beliefs, start: VisitState | None = None) -> Visit:
    """Fit the launch model and, where the device allows, the swing model.

    Parameters
    ----------
    balls : Balls
        In their order of play, every one with at least one launch number.
    beliefs : Beliefs
    start : VisitState, optional
        From the same visit a ball earlier.

    Returns
    -------
    Visit
    """
    columns = columns_of(balls)
    clubs = len(balls.clubs)
    slopes = slopes_at(operating_delivery(balls, beliefs.head), beliefs.head)
    spreads = Spreads(
        factor=ABILITY_FACTOR[beliefs.ability]
        if beliefs.ability
        else spread_factor(balls.launch[:, 1], balls.club)
    )
    delivery, gated = gated_covariates(balls, columns, slopes)
    strike = strike_model(on_the_face(balls.marks), spreads.strike)
    listed = candidates(balls)
    effects = beliefs.doubt * effect_covariance(slopes, columns)
    rows = launch_rows(balls, columns, listed, delivery, strike, slopes, spreads)
    launch = fit(
        rows,
        launch_prior(
            slopes,
            spreads,
            columns,
            effect_precisions(effects, columns, clubs, beliefs.traits),
            effect_means(slopes, columns, clubs, beliefs.traits),
        ),
        start.launch if start else None,
    )
    row = mean_row(rows, launch, columns)
    same = same_swing(launch, row, clubs, columns, slopes)
    swing, swung = None, same
    if columns.delivery or columns.marks:
        swing = fit(
            swing_rows(balls, columns, listed, delivery),
            swing_prior(spreads, columns, clubs, beliefs.doubt),
            start.swing if start else None,
        )
        shift = swing_shift(swing, clubs)
        swung = as_swung(launch, row, shift, strike, columns, slopes)
    return Visit(
        balls=balls,
        columns=columns,
        slopes=slopes,
        spreads=spreads,
        strike=strike,
        rows=rows,
        launch=launch,
        swing=swing,
        same=same,
        swung=swung,
        scatter=ball_scatter(balls, launch, slopes, spreads, columns),
        believed=_to_si(beliefs.doubt * effect_covariance(slopes, BALL_ONLY)),
        gated=gated,
        sets_too_large=listed.too_large,
    )


def _to_si(scaled: FloatArray) -> FloatArray:
    return scaled * np.outer(LAUNCH_SCALE, LAUNCH_SCALE)


def ball_scatter(
    balls: Balls, launch: Fit, slopes: Slopes, spreads: Spreads, columns: Columns
) -> FloatArray:
    """Return how single balls scatter about their club's mean, one pattern for all clubs.

    Parameters
    ----------
    balls : Balls
    launch : Fit
        Its weights keep mishits from widening the pattern.
    slopes : Slopes
    spreads : Spreads
    columns : Columns

    Returns
    -------
    FloatArray, shape (5, 5)
        Covariance in SI; zero for numbers the device does not give.

    Notes
    -----
    Pooled on purpose: with two to eight balls a club's own sd has a standard error of 25 to
    50 %. Ten balls' worth of the golfer's ability joins it.
    """
    kept = list(columns.responses)
    block = np.ix_(kept, kept)
    expected = residual_scale(slopes, spreads, BALL_ONLY)[block] / T_SHARE
    scaled = ((balls.launch - slopes.origin) / LAUNCH_SCALE)[:, kept]
    whole = np.isfinite(scaled).all(axis=1)
    member = np.eye(len(balls.clubs))[balls.club[whole]]
    weights = launch.weights[whole]
    freedom = float(whole.sum() - member.any(axis=0).sum())
    pooled = np.zeros_like(expected)
    if freedom > 0.0:
        values = scaled[whole]
        total = member.T @ weights
        means = (member.T @ (values * weights[:, None])) / np.where(total > 0.0, total, 1.0)[
            :, None
        ]
        deviation = values - member @ means
        pooled = (deviation.T * weights) @ deviation / weights.sum()
        pooled *= whole.sum() / freedom
    freedom = max(freedom, 0.0)
    mixed = (_SCATTER_PRIOR_BALLS * expected + freedom * pooled) / (_SCATTER_PRIOR_BALLS + freedom)
    scatter = np.zeros((5, 5))
    scatter[block] = mixed
    return _to_si(scatter)
