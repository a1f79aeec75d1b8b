"""Both regressions of the comparison laid out for sampling, from rows written anew."""

import numpy as np

from loftwright.evidence.balls import Balls
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.visit import Beliefs
from oracle_rows import (
    CLUB_SD,
    CLUB_STRIKE_SD,
    LAUNCH_SCALES,
    NOISE,
    READ_ERROR,
    SWING_SCALES,
    UNIT,
    Flags,
    Floats,
    Layout,
    Stage,
    Strike,
    Unknown,
    ability_factor,
    candidate_marks,
    club_precisions,
    delivery_of,
    distinct,
    left_by,
    measured,
    order_columns,
    strike_of,
    swing_covariance,
    usual_of,
)


def layout_of(balls: Balls, slopes: Slopes, beliefs: Beliefs, *, latent: bool) -> Layout:
    """Lay out a fitting.

    Parameters
    ----------
    balls : Balls
    slopes : Slopes
        Of the impact model at the golfer's own mean delivery.
    beliefs : Beliefs
        Without a stated ability and with the judged table.
    latent : bool
        The strikes of the balls are unknowns; otherwise a strike is its expectation given the
        mark, and what is not known of it widens the noise.
    """
    names, parts = measured(balls)
    factor = ability_factor(balls)
    strike = strike_of(balls, factor)
    delivery = delivery_of(balls, names, parts, slopes.delivery)
    launch = launch_stage(balls, slopes, beliefs, strike, delivery, latent=latent)
    swing = swing_stage(balls, beliefs, strike, delivery) if names or strike else None
    return Layout(
        launch=launch, swing=swing, delivery=names, strike=strike, offset=5 if strike else 1
    )


def regression(slopes: Slopes, balls: Balls) -> tuple[Floats, Floats]:
    """Launch on the measured delivery, and the launch covariance of what that leaves."""
    _, parts = measured(balls)
    whole = swing_covariance(ability_factor(balls))
    cross = whole @ parts.T
    gain = cross @ np.linalg.pinv(parts @ cross)
    left = slopes.parts @ (whole - gain @ cross.T) @ slopes.parts.T
    return slopes.parts @ gain, left


def strike_scatter(slopes: Slopes, factor: float, strike: Strike | None) -> Floats:
    """Launch covariance of what a usual mark, or none at all, leaves unknown of the strike."""
    total = np.zeros((5, 5))
    for axis, sd in enumerate(factor * np.array([1.1, 0.75])):
        line, bend = slopes.strike[:, axis], slopes.curvature[:, axis]
        off = ((0.75, 0.67)[axis] * sd) ** 2
        if strike is None:
            left, about = sd**2, off
        else:
            left = 1.0 / (1.0 / sd**2 + 100.0 / strike.error**2)
            about = sd**2 + off
        total += left * np.outer(line, line)
        total += (4.0 * about * left + 2.0 * left**2) * np.outer(bend, bend)
    return total


def launch_stage(
    balls: Balls,
    slopes: Slopes,
    beliefs: Beliefs,
    strike: Strike | None,
    delivery: Floats,
    *,
    latent: bool,
) -> Stage:
    """Lay out launch on strike, delivery, order and club."""
    names, parts = measured(balls)
    factor = ability_factor(balls)
    gain, left = regression(slopes, balls)
    read = (gain * np.array([READ_ERROR[name] for name in names]) ** 2) @ gain.T
    residual = np.diag(NOISE**2) + left + read
    if strike is None or not latent:
        residual = residual + strike_scatter(slopes, factor, strike)
    ball, marks, error, orders = candidate_marks(balls)
    rows = len(ball)
    marked = np.asarray(np.isfinite(marks).all(axis=1))
    missing = ~np.isfinite(delivery)
    filled = (
        np.column_stack(
            [
                np.where(gap, usual_of(column, balls), column)
                for gap, column in zip(missing.T, delivery.T, strict=True)
            ]
        )
        if names
        else delivery
    )
    own_variance = np.diag(parts @ swing_covariance(factor) @ parts.T)
    pieces = [np.ones((rows, 1))]
    means = [np.zeros((5, 1))]
    if strike is not None:
        expected = np.where(
            marked[:, None],
            strike.mean
            + (strike.variance / (strike.variance + error[:, None] ** 2)) * (marks - strike.mean),
            strike.mean,
        )
        rest = left_by(strike.variance, error, marked)
        pieces += [expected / 10.0, (expected**2 + rest) / 100.0]
        means += [slopes.strike, slopes.curvature]
    later = order_columns(balls)
    pieces += [filled[ball], later[ball]]
    means += [gain, np.zeros((5, later.shape[1]))]
    mean = np.hstack(means)
    sd = 0.4 * np.abs(mean) + 0.15
    sd[:, 0] = 5.0
    sd[:, mean.shape[1] - (later.shape[1] - 2) :] = 3.0
    covariates = np.hstack(pieces)
    first = 5 if strike is not None else 1
    gaps = tuple(
        (row, first + column, float(own_variance[column]))
        for row in range(rows)
        for column in np.flatnonzero(missing[ball[row]]).tolist()
    )
    directions, variances = np.zeros((rows, 0, covariates.shape[1])), np.zeros((rows, 0))
    unknown = None
    if latent:
        unknown = _unknown(balls, strike, gaps, (marks, error, marked))
    else:
        directions, variances = _widened(strike, error, marked, gaps, covariates.shape[1])
    responses = ((balls.launch - slopes.origin) / UNIT)[ball]
    seen = np.isfinite(responses)
    which, kind = distinct(seen, directions, variances)
    clubs = len(balls.clubs)
    effects = np.zeros((5, clubs))
    for club, traits in enumerate(beliefs.traits):
        hidden = [0.0 if parts[:, part].any() else traits.shift[part] for part in range(5)]
        units = np.array([0.44704, *4 * (np.pi / 180.0,)])
        effects[:, club] = slopes.parts @ (np.array(hidden) / units)
    return Stage(
        responses=np.where(seen, responses, 0.0),
        covariates=covariates,
        club=balls.club[ball],
        ball=ball,
        kind=kind,
        seen=seen[which],
        directions=directions[which],
        variances=variances[which],
        extra=np.zeros((len(which), 5)),
        orders=orders,
        mean=mean,
        sd=sd,
        effects=effects,
        effect_precisions=club_precisions(
            slopes, beliefs, parts, factor, strike is not None, clubs
        ),
        residual=0.8 * residual,
        scales=LAUNCH_SCALES,
        unknown=unknown,
    )


def _unknown(
    balls: Balls,
    strike: Strike | None,
    gaps: tuple[tuple[int, int, float], ...],
    rows: tuple[Floats, Floats, Flags],
) -> Unknown:
    """Return the unknowns of the rows' covariates."""
    marks, error, marked = rows
    own = np.isfinite(balls.marks).all(axis=1)
    none = np.zeros((len(marks), 0))
    if strike is None:
        return Unknown(
            expected=none,
            left=none,
            linear=(),
            square=(),
            gaps=gaps,
            row_error=error,
            row_mark=none,
            marks=np.zeros((0, 2)),
            errors=np.zeros(0),
            pattern_sd=np.ones(2),
        )
    wide = np.where(marked, error, np.inf)
    filled = np.where(marked[:, None], marks, strike.mean)
    pull = strike.variance / (strike.variance + wide[:, None] ** 2)
    return Unknown(
        expected=(strike.mean + pull * (filled - strike.mean)) / 10.0,
        left=left_by(strike.variance, error, marked) / 100.0,
        linear=(1, 2),
        square=(3, 4),
        gaps=gaps,
        row_error=wide / 10.0,
        row_mark=filled / 10.0,
        marks=np.clip(balls.marks[own] * 1e3, [-35.0, -24.0], [35.0, 24.0]) / 10.0,
        errors=balls.mark_error[own] * 1e2,
        pattern_sd=strike.pattern_sd / 10.0,
    )


def _widened(
    strike: Strike | None,
    error: Floats,
    marked: Flags,
    gaps: tuple[tuple[int, int, float], ...],
    width: int,
) -> tuple[Floats, Floats]:
    """Return, for every row, along which covariates its noise is wider and by how much."""
    rows = len(error)
    delivery = max((column for _, column, _ in gaps), default=4) - 4
    slots = 4 + max(delivery, 0)
    directions, variances = np.zeros((rows, slots, width)), np.zeros((rows, slots))
    if strike is not None:
        usual = left_by(strike.variance, np.full(rows, strike.error), np.ones(rows, dtype=bool))
        left = left_by(strike.variance, error, marked)
        for row in range(rows):
            if marked[row] and error[row] <= strike.error + 1e-9:
                continue
            for axis in range(2):
                whole = strike.variance[axis]
                now, before = left[row, axis], usual[row, axis]
                along = directions[row, 2 * axis]
                along[1 + axis], along[3 + axis] = 1.0, 2.0 * strike.mean[axis] / 10.0
                variances[row, 2 * axis] = (now - before) / 100.0
                directions[row, 2 * axis + 1, 3 + axis] = 1.0
                bend = 2.0 * (now**2 - before**2)
                if marked[row]:
                    bend += 4.0 * ((whole - now) * now - (whole - before) * before)
                variances[row, 2 * axis + 1] = max(bend, 0.0) / 1e4
    for row, column, variance in gaps:
        slot = 4 + column - (5 if strike is not None else 1)
        directions[row, slot, column] = 1.0
        variances[row, slot] = variance
    return directions, variances


def swing_stage(balls: Balls, beliefs: Beliefs, strike: Strike | None, delivery: Floats) -> Stage:
    """Lay out delivery and strike on order and club."""
    names, parts = measured(balls)
    factor = ability_factor(balls)
    ball, marks, error, orders = candidate_marks(balls)
    size = len(names) + (2 if strike is not None else 0)
    between, residual, extra = (
        np.zeros((size, size)),
        np.zeros((size, size)),
        np.zeros((len(ball), size)),
    )
    inner = slice(0, len(names))
    read = np.array([READ_ERROR[name] for name in names])
    residual[inner, inner] = 0.8 * parts @ swing_covariance(factor) @ parts.T + np.diag(read**2)
    between[inner, inner] = parts @ np.diag(CLUB_SD**2) @ parts.T
    responses = delivery[ball]
    if strike is not None:
        for axis in range(2):
            place = len(names) + axis
            residual[place, place] = (0.8 * strike.pattern_sd[axis] ** 2 + strike.error**2) / 25.0
            between[place, place] = (CLUB_STRIKE_SD / 5.0) ** 2
        responses = np.hstack([responses, marks / 5.0])
        coarser = np.maximum(error**2 - strike.error**2, 0.0) / 25.0
        extra[:, len(names) :] = coarser[:, None]
    seen = np.isfinite(responses)
    extra = np.where(seen, extra, 0.0)
    which, kind = distinct(seen, extra)
    clubs = len(balls.clubs)
    covariates = np.column_stack([np.ones(len(balls)), order_columns(balls)])[ball]
    sd = np.full((size, covariates.shape[1]), 3.0)
    sd[:, 0], sd[:, 1:3] = 5.0, 0.5
    if "speed" in names:
        sd[names.index("speed"), 1] = 1.5
    return Stage(
        responses=np.where(seen, responses, 0.0),
        covariates=covariates,
        club=balls.club[ball],
        ball=ball,
        kind=kind,
        seen=seen[which],
        directions=np.zeros((len(which), 0, covariates.shape[1])),
        variances=np.zeros((len(which), 0)),
        extra=extra[which],
        orders=orders,
        mean=np.zeros((size, covariates.shape[1])),
        sd=sd,
        effects=np.zeros((size, clubs)),
        effect_precisions=np.linalg.inv(np.kron(beliefs.doubt * between, np.eye(clubs)))[None],
        residual=residual,
        scales=SWING_SCALES,
    )
