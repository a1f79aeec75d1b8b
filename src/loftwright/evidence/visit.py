"""Both models fitted to one visit, and the figures that follow from them."""

from dataclasses import dataclass, field

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.before_balls import OfClubs, before_balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.columns import Columns, columns_of
from loftwright.evidence.design import Gated, gated_covariates, launch_rows, swing_rows
from loftwright.evidence.engine import fit
from loftwright.evidence.figures import Figure, as_swung, mean_row, same_swing, swing_shift
from loftwright.evidence.marks import (
    StrikeModel,
    candidates,
    on_the_face,
    strike_model,
    usual_error,
)
from loftwright.evidence.model import Fit, Observations, Prior, State
from loftwright.evidence.priors import (
    T_SHARE,
    UNLEARNED_DOUBT,
    effect_covariance,
    residual_scale,
)
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.shop_prior import ShopPrior, corrected
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import (
    ABILITY_FACTOR,
    JUDGED,
    Spreads,
    SpreadTable,
    spread_factor,
)
from loftwright.physics.heads import REFERENCE_HEAD, Head

BALL_ONLY = Columns(responses=(0, 1, 2, 3, 4), delivery=(), marks=False)

_SCATTER_PRIOR_BALLS = 10.0
_ABILITY_NUMBERS = 5.0
"""Launch numbers' worth of belief that an unstated ability is that of the spreads: squared
factors of abilities differ by six tenths of their mean, as those of so few numbers do."""


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
    table : SpreadTable
        How swings spread and what clubs may do.
    shop : ShopBeliefs, optional
        What the shop's record teaches; it then takes the place of `table` and `doubt`.
    """

    head: Head = field(default=REFERENCE_HEAD)
    doubt: float = UNLEARNED_DOUBT
    ability: str | None = None
    traits: tuple[ClubTraits, ...] = ()
    table: SpreadTable = JUDGED
    shop: ShopBeliefs | None = None

    @property
    def standing_table(self) -> SpreadTable:
        """The table that counts: the shop's own where there is one."""
        return self.table if self.shop is None else self.shop.table

    @property
    def standing_doubt(self) -> float:
        """The factor that counts: what a shop has learned is not doubted twice."""
        return self.doubt if self.shop is None else 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setup:
    """The rows of a fitting's visits and what is believed before them.

    Attributes
    ----------
    balls : Balls
        Those that count.
    aside : Balls
        Those that the fitter set aside.
    head : Head
        The kind of head that is hit, in the balls' signs.
    spreads : Spreads
        How this golfer's swings spread, and the table that says what clubs may do.
    mark_left : FloatArray, shape (m, 2)
        Variance of the true strike that is left given the mark of each row of the models [m^2].
    launch_rows, launch_prior
        The regression of launch on strike, delivery and club.
    swing_rows, swing_prior
        The regression of delivery and strike on the club; none with neither measured.
    ball_scatter : FloatArray, shape (5, 5)
        Expected covariance of single balls with one club, scaled.
    believed, believed_same : FloatArray, shape (5, 5)
        How clubs as swung, and from the same swing, are believed to differ, scaled.
    doubt : float
        Factor on the variance of what clubs do to a swing.
    shop : ShopPrior, optional
        What the shop's record says of the clubs.
    """

    balls: Balls
    aside: Balls
    head: Head
    columns: Columns
    slopes: Slopes
    spreads: Spreads
    strike: StrikeModel
    mark_left: FloatArray
    launch_rows: Observations
    launch_prior: Prior
    swing_rows: Observations | None
    swing_prior: Prior | None
    ball_scatter: FloatArray
    believed: FloatArray
    believed_same: FloatArray
    doubt: float
    gated: tuple[Gated, ...]
    sets_too_large: tuple[int, ...]
    shop: ShopPrior | None = None

    def believed_variances(self, way: FloatArray, contrast: FloatArray) -> FloatArray:
        """Return how much clubs as swung are believed to differ before a ball.

        Parameters
        ----------
        way : FloatArray, shape (5,)
            Direction in scaled launch along which they are compared.
        contrast : FloatArray, shape (n, S)
            Of the clubs, a row a difference.

        Returns
        -------
        FloatArray, shape (n,)
        """
        if self.shop is None:
            return np.asarray(float(way @ self.believed @ way) * (contrast**2).sum(axis=1))
        clubs = contrast.shape[1]
        joint = self.shop.swung.reshape(5, clubs, 5, clubs)
        along = np.einsum("r,rsqt,q->st", way, joint, way)
        return np.asarray(np.einsum("ns,st,nt->n", contrast, along, contrast))


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
    """

    setup: Setup
    launch: Fit
    swing: Fit | None
    same: Figure
    swung: Figure
    scatter: FloatArray

    @property
    def state(self) -> VisitState:
        """The start for the next update."""
        return VisitState(launch=self.launch.state, swing=self.swing.state if self.swing else None)


def set_up(balls: Balls, beliefs: Beliefs, slopes: Slopes | None = None) -> Setup:
    """Lay out a visit's rows and what is believed before them.

    Parameters
    ----------
    balls : Balls
        In their order of play, every one with at least one launch number. Those set aside
        enter neither model, as if they had not been read.
    beliefs : Beliefs
    slopes : Slopes, optional
        In place of the impact model's at the golfer's own mean delivery.

    Returns
    -------
    Setup
    """
    aside = balls.take(np.flatnonzero(balls.set_aside))
    balls = balls.that_count()
    columns = columns_of(balls)
    clubs = len(balls.clubs)
    slopes = slopes or slopes_at(operating_delivery(balls, beliefs.head), beliefs.head)
    slopes = slopes if beliefs.shop is None else corrected(slopes, beliefs.shop)
    doubt = beliefs.standing_doubt
    spreads = Spreads(
        factor=ABILITY_FACTOR[beliefs.ability]
        if beliefs.ability
        else spread_factor(balls.launch[:, 1], balls.cell),
        table=beliefs.standing_table,
        stated=beliefs.ability is not None,
    )
    delivery, gated = gated_covariates(balls, columns, slopes)
    usual = usual_error(balls)
    strike = strike_model(on_the_face(balls.marks), spreads.strike, balls.mark_error, usual)
    listed = candidates(balls)
    effects = doubt * effect_covariance(slopes, columns, spreads)
    known = OfClubs(
        count=clubs, traits=beliefs.traits, between=effects, doubt=doubt, shop=beliefs.shop
    )
    before = before_balls(known, slopes, spreads, columns, usual)
    return Setup(
        balls=balls,
        aside=aside,
        head=beliefs.head,
        columns=columns,
        slopes=slopes,
        spreads=spreads,
        strike=strike,
        mark_left=strike.left(listed.marks, listed.error),
        launch_rows=launch_rows(balls, columns, listed, delivery, strike, slopes, spreads),
        launch_prior=before.launch,
        swing_rows=swing_rows(balls, columns, listed, delivery, usual) if before.swing else None,
        swing_prior=before.swing,
        ball_scatter=residual_scale(slopes, spreads, BALL_ONLY) / T_SHARE,
        believed=doubt * effect_covariance(slopes, BALL_ONLY, spreads),
        believed_same=effects,
        doubt=doubt,
        gated=gated,
        sets_too_large=listed.too_large,
        shop=before.shop,
    )


def fit_visit(setup: Setup, start: VisitState | None = None) -> Visit:
    """Fit the launch model and, where the device allows, the swing model.

    Parameters
    ----------
    setup : Setup
    start : VisitState, optional
        From the same visit a ball earlier.

    Returns
    -------
    Visit
    """
    columns, clubs = setup.columns, len(setup.balls.clubs)
    launch = fit(setup.launch_rows, setup.launch_prior, start.launch if start else None)
    row = mean_row(setup.launch_rows, launch, columns)
    same = same_swing(launch, row, clubs, columns, setup.slopes)
    swing, swung = None, same
    if setup.swing_rows is not None and setup.swing_prior is not None:
        swing = fit(setup.swing_rows, setup.swing_prior, start.swing if start else None)
        shift = swing_shift(swing, clubs)
        swung = as_swung(launch, row, shift, setup.strike, columns, setup.slopes)
    return Visit(
        setup=setup,
        launch=launch,
        swing=swing,
        same=same,
        swung=swung,
        scatter=ball_scatter(setup, launch),
    )


def ball_scatter(setup: Setup, launch: Fit) -> FloatArray:
    """Return how single balls scatter about their club's mean, one pattern for all clubs.

    Parameters
    ----------
    setup : Setup
    launch : Fit
        Its weights keep mishits from widening the pattern.

    Returns
    -------
    FloatArray, shape (5, 5)
        Covariance in SI; zero for numbers the device does not give.

    Notes
    -----
    Pooled on purpose: with two to eight balls a club's own sd has a standard error of 25 to
    50 %. Ten balls' worth of the golfer's ability joins it; where that was not stated, it is
    judged anew from all launch numbers together. A club hit on several visits has a mean on each.
    """
    balls = setup.balls
    kept = list(setup.columns.responses)
    block = np.ix_(kept, kept)
    scaled = ((balls.launch - setup.slopes.origin) / LAUNCH_SCALE)[:, kept]
    whole = np.asarray(np.isfinite(scaled).all(axis=1))
    cells = len(balls.clubs) * len(balls.visits)
    member = np.eye(cells)[balls.cell[whole]]
    weights = launch.weights[whole]
    freedom = float(max(whole.sum() - member.any(axis=0).sum(), 0))
    pooled = np.zeros((len(kept), len(kept)))
    if freedom:
        total = member.T @ weights
        means = member.T @ (scaled[whole] * weights[:, None])
        means /= np.where(total > 0.0, total, 1.0)[:, None]
        deviation = scaled[whole] - member @ means
        pooled = (deviation.T * weights) @ deviation / weights.sum() * whole.sum() / freedom
    believed = setup.ball_scatter[block]
    if not setup.spreads.stated:
        believed = believed * _squared_factor(believed, pooled, freedom)
    mixed = _SCATTER_PRIOR_BALLS * believed + freedom * pooled
    scatter = np.zeros((5, 5))
    scatter[block] = mixed / (_SCATTER_PRIOR_BALLS + freedom)
    return scatter * np.outer(LAUNCH_SCALE, LAUNCH_SCALE)


def _squared_factor(believed: FloatArray, pooled: FloatArray, freedom: float) -> float:
    """Return by how much single balls scatter wider than believed, as a ratio of variances."""
    size = len(believed)
    seen = float(np.trace(np.linalg.solve(believed, pooled))) / size
    numbers = size * freedom
    return (_ABILITY_NUMBERS + numbers * seen) / (_ABILITY_NUMBERS + numbers)
