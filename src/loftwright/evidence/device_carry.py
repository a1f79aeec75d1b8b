"""What can be said when a device gives ball speed and its own carry, and no launch or spin.

The same regression compares both numbers as the device shows them. Nothing is flown again,
nothing is valued, and no advice on launch, loft or spin follows.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.errors import EvidenceError
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.claims import claims_ladder
from loftwright.evidence.columns import columns_of
from loftwright.evidence.decide import (
    FEWEST_BALLS,
    asks_for_more,
    next_club,
    probability_above,
    standing,
    state_of,
)
from loftwright.evidence.design import classes_of, membership, order_covariates
from loftwright.evidence.engine import fit
from loftwright.evidence.flight_map import CARRY, conditions_at, flight_map
from loftwright.evidence.handover import joining_reason
from loftwright.evidence.model import Fit, Observations, Prior
from loftwright.evidence.odd import ODD_BELOW, set_aside
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.priors import VISIT_SD, effect_covariance, residual_scale
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    NextClub,
    OddBall,
    Pair,
    RankedOn,
    State,
)
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.shop_prior import corrected, shop_prior, through
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import Spreads
from loftwright.evidence.visit import BALL_ONLY, Beliefs
from loftwright.evidence.visits import (
    Joined,
    apart_warnings,
    joined,
    joining_club,
    visit_columns,
)
from loftwright.evidence.worth import contrast_matrix, estimates, reference

CARRY_SCALE: Final = 6.0 * YARD
_OWN_SCATTER: Final = 1.5 * YARD
_INTERCEPT_SD: Final = 10.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Shown:
    """Ball speed and carry as the device shows them, scaled; NaN where missing."""

    values: FloatArray
    scale: FloatArray
    has_speed: bool


def can_compare_carry(balls: Balls) -> bool:
    """Return whether any ball that counts has the device's own carry."""
    return bool((np.isfinite(balls.carry) & ~balls.set_aside).any())


@one_thread()
def decide_on_carry(balls: Balls, beliefs: Beliefs, budget: Budget) -> Decision:
    """Compare clubs on what the device shows.

    Parameters
    ----------
    balls : Balls
        Those set aside count for nothing.
    beliefs : Beliefs
    budget : Budget

    Returns
    -------
    Decision
        Ranked on the device's carry, without value, home or parts.

    Raises
    ------
    EvidenceError
        If no ball has a carry.
    """
    if not can_compare_carry(balls):
        raise EvidenceError(
            "no ball has ball speed, launch and spin, and none has the device's own carry",
            place="columns",
            mend="Export spin and launch, or at least carry, and read the file again.",
        )
    aside = set_aside(balls.take(np.flatnonzero(balls.set_aside)))
    balls = balls.that_count()
    shown = _shown(balls)
    prior = _prior(balls, shown, beliefs)
    result = fit(_rows(balls, shown), prior)
    odd = _odd(balls, result, (prior.tail_df + len(shown.scale)) / prior.tail_df)
    found = _decision(balls, shown, result, budget)
    return replace(found, odd_balls=tuple(sorted((*odd, *aside), key=lambda one: one.row)))


def _shown(balls: Balls) -> _Shown:
    speed = balls.launch[:, 0]
    has_speed = bool(np.isfinite(speed).any())
    columns = [speed, balls.carry] if has_speed else [balls.carry]
    scale = np.array([LAUNCH_SCALE[0], CARRY_SCALE] if has_speed else [CARRY_SCALE])
    return _Shown(values=np.column_stack(columns) / scale, scale=scale, has_speed=has_speed)


def _rows(balls: Balls, shown: _Shown) -> Observations:
    common = [np.ones(len(balls)), order_covariates(balls), visit_columns(balls)]
    covariates = np.column_stack(common)
    classes, noise = classes_of(shown.values, covariates.shape[1])
    return Observations(
        responses=shown.values - _origin(shown),
        covariates=covariates,
        membership=membership(balls),
        ball=np.arange(len(balls)),
        noise=noise,
        classes=classes,
    )


def _origin(shown: _Shown) -> FloatArray:
    return np.asarray(np.nanmedian(shown.values, axis=0))


def _prior(balls: Balls, shown: _Shown, beliefs: Beliefs) -> Prior:
    """Carry ball-only widths through the flight of a nominal launch."""
    slopes = slopes_at(operating_delivery(balls, beliefs.head), beliefs.head)
    slopes = slopes if beliefs.shop is None else corrected(slopes, beliefs.shop)
    way = _ways(slopes, has_speed=shown.has_speed)
    spreads = Spreads(factor=1.0, table=beliefs.standing_table)
    size = len(way)
    own = np.diag((np.array([0.0, _OWN_SCATTER])[-size:] / shown.scale) ** 2)
    residual = way @ residual_scale(slopes, spreads, BALL_ONLY) @ way.T + own
    means, precision = _clubs(len(balls.clubs), beliefs, slopes, spreads, way)
    visits = visit_columns(balls).shape[1]
    sd = np.full((size, 3 + visits), 0.5)
    sd[:, 0], sd[:, 3:] = _INTERCEPT_SD, VISIT_SD
    return Prior(
        coefficients=np.zeros((size, 3 + visits)),
        coefficient_sd=sd,
        effects=means,
        effect_precisions=precision[None],
        residual=residual,
    )


def _clubs(
    clubs: int, beliefs: Beliefs, slopes: Slopes, spreads: Spreads, way: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return what is expected of the clubs' effects, and its precision."""
    if beliefs.shop is not None:
        shop = shop_prior(beliefs.shop, slopes, spreads, BALL_ONLY, clubs, beliefs.traits)
        joint = through(way, shop.covariance)
        joint = joint + 1e-3 * np.diag(np.diag(joint))
        return way @ shop.effects, np.asarray(np.linalg.inv(joint))
    effects = beliefs.doubt * way @ effect_covariance(slopes, BALL_ONLY, spreads) @ way.T
    effects = effects + 1e-3 * np.diag(np.diag(effects))
    return np.zeros((len(way), clubs)), np.kron(np.linalg.inv(effects), np.eye(clubs))


def _ways(slopes: Slopes, *, has_speed: bool) -> FloatArray:
    flights = flight_map(slopes.origin, [0, 1, 2, 3, 4], conditions_at(Home()))
    carry = flights.gradient[CARRY] * LAUNCH_SCALE / CARRY_SCALE
    return np.vstack([np.eye(5)[:1], carry]) if has_speed else carry[None, :]


def _decision(balls: Balls, shown: _Shown, result: Fit, budget: Budget) -> Decision:
    clubs = len(balls.clubs)
    size = len(shown.scale)
    width = result.theta.shape[1]
    first = width - clubs
    tensor = result.covariance.reshape(size, width, size, width)[:, first:, :, first:]
    effects = result.theta[:, first:] * shown.scale[:, None]
    carry = effects[-1]
    covariance = tensor[-1, :, -1, :] * shown.scale[-1] ** 2
    with_carry = np.isfinite(balls.carry)
    together = joined(balls, np.asarray(with_carry))
    rankable = np.asarray((together.counts >= FEWEST_BALLS) & together.inside)
    found = standing(carry, covariance, rankable)
    state = state_of(found)
    weights = reference(clubs, balls.own, rankable)
    contrast = contrast_matrix(weights)
    carries = estimates(contrast @ carry, contrast @ covariance @ contrast.T, result.df)
    speed_block = contrast @ tensor[0, :, 0, :] @ contrast.T * shown.scale[0] ** 2
    speeds = estimates(contrast @ effects[0], speed_block, result.df)
    order = sorted(range(clubs), key=lambda club: (not rankable[club], -carry[club]))
    hit = np.bincount(balls.club, minlength=clubs)
    told = together.inside & (found is not None)
    against_own = balls.own is not None and bool(rankable[balls.own])
    return Decision(
        state=state,
        ranked_on=RankedOn.DEVICE_CARRY,
        against=Against.OWN if against_own else Against.MEAN,
        own=balls.clubs[balls.own] if balls.own is not None else None,
        clubs=tuple(
            ClubResult(
                club=balls.clubs[club],
                balls=int(hit[club]),
                device_carry=carries[club] if told[club] else None,
                device_ball_speed=speeds[club] if told[club] and shown.has_speed else None,
            )
            for club in order
        ),
        pairs=tuple(_pairs(balls, order, carry, covariance, result.df, together)),
        odd_balls=(),
        next_club=_next(balls, carry, together, rankable, state, budget),
        regret=None,
        p_leader_near_best=None,
        home=Home(),
        pattern=None,
        claims=claims_ladder(balls, columns_of(balls), device_carry=True),
        warnings=apart_warnings(balls, together),
    )


def _pairs(
    balls: Balls,
    order: list[int],
    carry: FloatArray,
    covariance: FloatArray,
    df: float,
    together: Joined,
) -> list[Pair]:
    enough = together.counts >= FEWEST_BALLS
    found = []
    for place, a in enumerate(order):
        for b in order[place + 1 :]:
            better = probability_above(carry, covariance, df, a, b)
            may = enough[a] and enough[b] and together.together(a, b)
            found.append(
                Pair(
                    a=balls.clubs[a],
                    b=balls.clubs[b],
                    p_a_better=better if may else None,
                    raw_total=None,
                    parts=None,
                )
            )
    return found


def _odd(balls: Balls, result: Fit, ordinary: float) -> tuple[OddBall, ...]:
    return tuple(
        OddBall(
            row=int(balls.row[ball]),
            weight=float(result.weights[ball] / ordinary),
            why="ball speed or carry lies far from this club's others",
        )
        for ball in np.flatnonzero(result.weights < ODD_BELOW)
    )


def _next(
    balls: Balls,
    carry: FloatArray,
    together: Joined,
    rankable: np.ndarray,
    state: State,
    budget: Budget,
) -> NextClub | None:
    if not asks_for_more(state, len(carry), budget):
        return None
    last = int(balls.club[-1])
    joining = joining_club(together, balls.own, last)
    if joining is not None:
        why = joining_reason(together, joining, balls.clubs)
        return NextClub(club=balls.clubs[joining], why=why)
    club = next_club(carry, together.counts, rankable, last)
    return NextClub(
        club=balls.clubs[club], why="more balls with it settle most about this device's carry"
    )
