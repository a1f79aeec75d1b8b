"""Learn from many fittings how swings spread and what clubs do, instead of judging it.

Expectation-maximisation over fittings. Each fitting, fitted under the table as it stands, says
what it expects of the squares of its clubs' effects and of its residuals; the next table is what
these come to on average. What a club does to the swing is never seen by itself: an effect on
launch or on a measured column is shared out among the parts by the slopes that the golfer's own
impact gives them.

References
----------
Dempster, Laird & Rubin 1977, Maximum likelihood from incomplete data via the EM algorithm,
JRSS-B 39:1.
Louis 1982, Finding the observed information matrix when using the EM algorithm, JRSS-B 44:226
(section 5, from memory).
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import EvidenceError
from loftwright.evidence.columns import Columns
from loftwright.evidence.engine import fit
from loftwright.evidence.model import Fit, Prior
from loftwright.evidence.priors import (
    STRIKE_SWING_SCALE,
    T_SHARE,
    club_ways,
    residual_scale,
)
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.spreads import DELIVERY_ERROR, JUDGED, Spreads, SpreadTable
from loftwright.evidence.visit import Setup

FEWEST_FITTINGS: Final = 20
"""Below this the judged table is the better one (judgement)."""

_LEAST_SD: Final = 0.1
"""No pass shrinks a spread below this share of itself."""
_SLOWEST: Final = 0.995
"""Steps that shrink more slowly than this are followed as if they shrank so."""
_FARTHEST: Final = float(np.log(2.0))
"""No leap more than doubles or halves a spread."""
_LOFT: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Expected:
    """What one fitting expects of the spreads; not a number for what it cannot see.

    Attributes
    ----------
    clubs : FloatArray, shape (7,)
        Variances of what clubs do to the five parts [mph, deg] and to the strike [10 mm].
    floor : FloatArray, shape (5,)
        Of what they do to launch beyond that, in scaled units.
    parts : FloatArray, shape (5,)
        Variances of a mid golfer's swings [mph, deg].
    strike : FloatArray, shape (2,)
        The same of the strike [m].
    """

    clubs: FloatArray
    floor: FloatArray
    parts: FloatArray
    strike: FloatArray


def learn(
    expect: Callable[[SpreadTable], Sequence[Expected]],
    table: SpreadTable = JUDGED,
    rounds: int = 10,
) -> SpreadTable:
    """Return the table that fittings teach.

    Parameters
    ----------
    expect : callable
        Returns what every fitting expects under a table; the fittings are the caller's.
    table : SpreadTable
        To start from.
    rounds : int
        Of three passes over the fittings each.

    Returns
    -------
    SpreadTable

    Raises
    ------
    EvidenceError
        If there are too few fittings to learn from.

    Notes
    -----
    Plain expectation-maximisation creeps where a spread is small beside what hides it, so every
    round leaps to where the last two steps of each spread point (Aitken's process, which Louis
    proposes for EM) and then takes one more.
    Spreads are counted by their logarithms, so none becomes negative.
    """
    for _ in range(rounds):
        once = learned(expect(table), table)
        twice = learned(expect(once), once)
        far = _leap(_logs(table), _logs(once), _logs(twice))
        table = learned(expect(far), far)
    return table


def _logs(table: SpreadTable) -> FloatArray:
    spreads: list[FloatArray] = [getattr(table, one.name) for one in fields(table)]
    return np.asarray(np.log(np.concatenate(spreads)))


def _leap(start: FloatArray, once: FloatArray, twice: FloatArray) -> SpreadTable:
    """Return the table at which two steps of each spread would end."""
    step = once - start
    kept = np.divide(twice - once, step, out=np.zeros_like(step), where=step != 0.0)
    leap = (twice - once) / (1.0 - np.clip(kept, 0.0, _SLOWEST))
    far = np.exp(once + np.clip(leap, -_FARTHEST, _FARTHEST))
    parts = np.split(far, np.cumsum([getattr(JUDGED, one.name).size for one in fields(JUDGED)]))
    return SpreadTable(
        **{one.name: part for one, part in zip(fields(JUDGED), parts, strict=False)}
    )


def learned(told: Sequence[Expected], table: SpreadTable) -> SpreadTable:
    """Return the table that fittings teach, one pass closer to what they hold.

    Parameters
    ----------
    told : sequence of Expected
        One a fitting, under the table as it stands.
    table : SpreadTable

    Returns
    -------
    SpreadTable

    Raises
    ------
    EvidenceError
        If there are too few fittings to learn from.
    """
    if len(told) < FEWEST_FITTINGS:
        raise EvidenceError(
            f"{len(told)} fittings teach no table of spreads",
            place="fittings",
            mend=f"Keep the judged table until there are {FEWEST_FITTINGS}.",
        )
    clubs = np.concatenate([table.club_parts, table.club_strike / STRIKE_UNIT])
    clubs = _mean_sd([one.clubs for one in told], clubs)
    return SpreadTable(
        parts=_mean_sd([one.parts for one in told], table.parts),
        strike=_mean_sd([one.strike for one in told], table.strike),
        club_parts=clubs[:5],
        club_strike=clubs[5:] * STRIKE_UNIT,
        club_floor=_mean_sd([one.floor for one in told], table.club_floor),
    )


def expected(setup: Setup) -> Expected:
    """Return what one fitting expects of the spreads.

    Parameters
    ----------
    setup : Setup
        With what clubs do believed as its table says, not doubled.

    Notes
    -----
    The scale of what clubs do is held at one: with a scale free for each fitting the table and
    the scales could grow and shrink against each other.
    """
    launch = fit(setup.launch_rows, _at_scale_one(setup.launch_prior))
    hidden, floor = _hidden_effects(setup, launch)
    shown = np.full(7, np.nan)
    parts, strike = np.full(5, np.nan), np.full(2, np.nan)
    if setup.swing_rows is not None and setup.swing_prior is not None:
        swing = fit(setup.swing_rows, _at_scale_one(setup.swing_prior))
        shown = _shown_effects(setup, swing)
        parts, strike = _swing_spreads(setup, swing)
    parts[_LOFT] = _loft_spread(setup, launch)
    return Expected(
        clubs=np.where(np.isfinite(shown), shown, hidden), floor=floor, parts=parts, strike=strike
    )


def _at_scale_one(prior: Prior) -> Prior:
    return replace(prior, scale_grid=np.ones(1))


def _mean_sd(variances: list[FloatArray], before: FloatArray) -> FloatArray:
    """Return standard deviations of mean variances; what nobody saw stays as it was."""
    table = np.array(variances)
    seen = np.isfinite(table)
    count = seen.sum(axis=0)
    mean = np.where(seen, table, 0.0).sum(axis=0) / np.maximum(count, 1)
    least = (_LEAST_SD * before) ** 2
    return np.asarray(np.where(count > 0, np.sqrt(np.maximum(mean, least)), before))


def _effect_moment(fit: Fit, clubs: int) -> FloatArray | None:
    """Return the expected second moment of effects about the clubs' mean, in scaled units.

    What all clubs share cannot be told from the golfer, so only contrasts teach.
    """
    if clubs < 2:
        return None
    responses, width = fit.theta.shape
    first = width - clubs
    effects = fit.theta[:, first:]
    effects = effects - effects.mean(axis=1, keepdims=True)
    tensor = fit.covariance.reshape(responses, width, responses, width)[:, first:, :, first:]
    centring = np.eye(clubs) - 1.0 / clubs
    doubt = np.einsum("rasb,ab->rs", tensor, centring)
    return np.asarray((effects @ effects.T + doubt) / (clubs - 1))


def _hidden_effects(setup: Setup, fit: Fit) -> tuple[FloatArray, FloatArray]:
    """Return variances of what clubs do to what no column shows, and of the floor."""
    table = setup.spreads.table
    ways, variances = club_ways(setup.slopes, setup.columns, setup.spreads)
    clubs, floor = np.full(7, np.nan), np.full(5, np.nan)
    moment = _effect_moment(fit, len(setup.balls.clubs))
    if moment is None:
        return clubs, floor
    kept = list(setup.columns.responses)
    ways, square = ways[kept], table.club_floor[kept] ** 2
    whole = (ways * variances) @ ways.T + np.diag(square)
    clubs = shared_out(moment, ways, variances, whole)[:7]
    clubs[variances[:7] == 0.0] = np.nan
    floor[kept] = shared_out(moment, np.eye(len(kept)), square, whole)
    return clubs, floor


def _shown_effects(setup: Setup, fit: Fit) -> FloatArray:
    """Return variances of what clubs do to the parts that columns show."""
    table, columns = setup.spreads.table, setup.columns
    found = np.full(7, np.nan)
    moment = _effect_moment(fit, len(setup.balls.clubs))
    if moment is None:
        return found
    delivery = len(columns.delivery)
    ways = np.zeros((fit.theta.shape[0], 7))
    ways[:delivery, :5] = columns.functionals
    if columns.marks:
        ways[delivery:, 5:] = np.eye(2) * STRIKE_UNIT / STRIKE_SWING_SCALE
    variances = np.concatenate([table.club_parts, table.club_strike / STRIKE_UNIT]) ** 2
    seen = ways.any(axis=0)
    ways, variances = ways[:, seen], variances[seen]
    found[seen] = shared_out(moment, ways, variances, (ways * variances) @ ways.T)
    return found


def shared_out(
    moment: FloatArray, ways: FloatArray, variances: FloatArray, whole: FloatArray
) -> FloatArray:
    """Return the expected squares of what lies behind effects of a given second moment.

    Parameters
    ----------
    moment : FloatArray, shape (R, R)
        Of the effects.
    ways : FloatArray, shape (R, k)
        Effect per unit of each cause.
    variances : FloatArray, shape (k,)
        Of the causes, before.
    whole : FloatArray, shape (R, R)
        Covariance of the effects, before.
    """
    gain = np.linalg.solve(whole, ways * variances).T
    left = variances - np.einsum("kr,rk->k", gain, ways * variances)
    return np.asarray(np.einsum("kr,rs,ks->k", gain, moment, gain) + left)


def _swing_spreads(setup: Setup, fit: Fit) -> tuple[FloatArray, FloatArray]:
    """Return variances of a mid golfer's measured parts and strike behind the swing's residual."""
    columns, factor = setup.columns, setup.spreads.factor
    parts, strike = np.full(5, np.nan), np.full(2, np.nan)
    delivery = len(columns.delivery)
    errors = np.array([DELIVERY_ERROR[name] for name in columns.delivery])
    functionals = columns.functionals
    seen = np.flatnonzero(functionals.any(axis=0))
    if seen.size and seen.size == delivery:
        back = np.linalg.inv(functionals[:, seen])
        own = fit.residual[:delivery, :delivery] - np.diag(errors**2)
        parts[seen] = np.diag(back @ own @ back.T) / T_SHARE / factor**2
    if columns.marks:
        squares = np.diag(fit.residual)[delivery:] * STRIKE_SWING_SCALE**2
        strike = (squares - setup.strike.error**2) / T_SHARE / factor**2
    return parts, strike


def _loft_spread(setup: Setup, fit: Fit) -> float:
    """Return the variance of a mid golfer's dynamic loft, by what the launch residual has over."""
    return loft_variance(
        fit.residual, setup.slopes, setup.spreads, setup.columns, setup.strike.error
    )


def loft_variance(
    residual: FloatArray,
    slopes: Slopes,
    spreads: Spreads,
    columns: Columns,
    mark_error: float,
) -> float:
    """Return the variance of a mid golfer's dynamic loft [deg^2] that a launch residual asks for.

    Parameters
    ----------
    residual : FloatArray, shape (R, R)
        Scale matrix of what is left of the responses that there are.
    slopes : Slopes
    spreads : Spreads
        As believed.
    columns : Columns
    mark_error : float
        Of most marks [m].

    Notes
    -----
    The residual is compared along the direction in which loft moves launch, where it tells most
    of loft.
    """
    kept = np.ix_(columns.responses, columns.responses)
    table = spreads.table
    believed = residual_scale(slopes, spreads, columns, mark_error)[kept]
    wider = SpreadTable(
        parts=table.parts * np.array([1.0, 1.0, 1.0, 1.0, np.sqrt(2.0)]), strike=table.strike
    )
    wide = Spreads(factor=spreads.factor, table=wider)
    step = residual_scale(slopes, wide, columns, mark_error)[kept] - believed
    way = slopes.parts[list(columns.responses), _LOFT]
    along = np.linalg.solve(believed, way)
    over = float(along @ (residual - believed) @ along) / float(along @ step @ along)
    return float(table.parts[_LOFT] ** 2 * max(1.0 + over, 0.0))
