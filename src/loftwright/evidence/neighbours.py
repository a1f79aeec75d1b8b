"""Clubs that were not hit, told from those that were: what they share, and what physics says.

The effects u of all clubs are believed to vary together: clubs of one head share its part, clubs
of one shaft half of the rest, a club that is only set, cut or weighed otherwise most of it, and
what is left is each club's own. Balls teach the effects u_t of
the clubs that were hit. Of a club without balls they say nothing more, so that its effect

    u_n = m_n + G (u_t - m_t) + e,    G = C_nt C_tt^-1,    e ~ N(0, kappa (C_nn - G C_tn) + D)

where C is the belief of all clubs together, m what physics expects of each, and D the doubt of
that physics. It is what a fit with that club among the others, without a ball, comes to. What a
club does to the swing follows in the same way. The covariance of tested and untested clubs is
thus whole, and differences between them have their own doubt.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.advice import WORTH
from loftwright.evidence.clubs import (
    ClubTraits,
    effect_means,
    head_covariance,
    joint_covariance,
    shares,
)
from loftwright.evidence.columns import Columns
from loftwright.evidence.compare import Comparison
from loftwright.evidence.decide import chance_none_is_better, probability_above
from loftwright.evidence.figures import Figure, as_swung, mean_row, same_swing, swing_shift
from loftwright.evidence.flight_map import conditions_at, flight_map
from loftwright.evidence.model import Fit
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.priors import STRIKE_SWING_SCALE, club_ways, swing_covariances
from loftwright.evidence.result import ClubResult
from loftwright.evidence.scales import PART_UNIT
from loftwright.evidence.visit import Setup
from loftwright.evidence.worth import (
    at_home,
    contrast_matrix,
    estimates,
    figures,
    levels,
    reference,
    values,
)

CONFIRMING_BALLS: Final = 5
"""Balls with a club that was not hit, before anybody orders it (judgement)."""

NO_DOUBT: Final = (0.0,) * 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """A club that was not hit, but shares a head or a shaft with one that was.

    Attributes
    ----------
    name : str
    traits : ClubTraits
        Its shift stands against the same mean as those of the clubs that were hit.
    base : str
        The club that was hit, of this head and shaft, from which it is made; empty where it is
        put together anew.
    doubt : tuple of float
        Standard deviations of what physics expects: head speed [m/s], attack, path, face, dynamic
        loft [rad], strike heel-toe and low-high [m].
    """

    name: str
    traits: ClubTraits
    base: str = ""
    doubt: tuple[float, float, float, float, float, float, float] = NO_DOUBT


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Neighbourhood:
    """The clubs of a comparison and those beside them, at the golfer's home.

    Attributes
    ----------
    names : tuple of str
        Those that were hit, in the order of the comparison, then the others.
    hit : int
        How many of them were.
    value : FloatArray, shape (S + K,)
        As the golfer swings it [m].
    value_covariance : FloatArray, shape (S + K, S + K)
    results : tuple of ClubResult
        One a club that was not hit, against what the comparison's are taken against.
    """

    comparison: Comparison
    names: tuple[str, ...]
    hit: int
    same: Figure
    swung: Figure
    value: FloatArray
    value_covariance: FloatArray
    results: tuple[ClubResult, ...]

    def p_above(self, first: str, second: str) -> float:
        """Return the probability that one club is worth more than another."""
        return probability_above(
            self.value,
            self.value_covariance,
            self.comparison.df,
            self.names.index(first),
            self.names.index(second),
        )

    def p_none_better(self, club: str, by: float) -> float:
        """Return the probability that none, hit or not, is worth so much more [m] than a club."""
        able = np.ones(len(self.names), dtype=np.bool_)
        able[: self.hit] = self.comparison.rankable
        return chance_none_is_better(
            self.value, self.value_covariance, self.names.index(club), able, by
        )


def p_keep(comparison: Comparison) -> float | None:
    """Return the probability that keeping the own club is right.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    float, optional
        That no ranked club is worth a yard more, which is what a change must be worth; None
        where the own club is not ranked, or nothing else is.
    """
    own = comparison.visit.setup.balls.own
    if own is None or comparison.standing is None or not comparison.rankable[own]:
        return None
    return chance_none_is_better(
        comparison.value, comparison.value_covariance, own, comparison.rankable, WORTH
    )


@one_thread()
def beside(
    comparison: Comparison, traits: tuple[ClubTraits, ...], neighbours: tuple[Neighbour, ...]
) -> Neighbourhood:
    """Tell clubs that were not hit from those of a comparison.

    Parameters
    ----------
    comparison : Comparison
        Made with these traits.
    traits : tuple of ClubTraits
        One a club of the comparison.
    neighbours : tuple of Neighbour
        Each of a head that was hit.

    Returns
    -------
    Neighbourhood
    """
    visit, hit = comparison.visit, len(traits)
    setup = visit.setup
    made_from = {one.base for one in neighbours}
    traits = tuple(
        replace(one, build=name if name in made_from else "")
        for name, one in zip(setup.balls.clubs, traits, strict=True)
    )
    neighbours = tuple(
        replace(one, traits=replace(one.traits, build=one.base)) for one in neighbours
    )
    columns, clubs = setup.columns, hit + len(neighbours)
    launch = with_unhit(visit.launch, *_launch_step(setup, visit.launch, traits, neighbours))
    row = mean_row(setup.launch_rows, visit.launch, columns)
    same = same_swing(launch, row, clubs, columns, setup.slopes)
    swung = same
    if visit.swing is not None:
        swing = with_unhit(visit.swing, *_swing_step(setup, visit.swing, traits, neighbours))
        shift = swing_shift(swing, clubs, hit)
        swung = as_swung(launch, row, shift, setup.strike, columns, setup.slopes)
    names = (*setup.balls.clubs, *(one.name for one in neighbours))
    return _at_home(comparison, names, same, swung)


def with_unhit(fit: Fit, ways: FloatArray, mean: FloatArray, doubt: FloatArray) -> Fit:
    """Return a fit with the effects of clubs that have no balls after the others.

    Parameters
    ----------
    fit : Fit
    ways : FloatArray, shape (R K, R S)
        How the effects of the K clubs follow those of the S that were hit; in both the club runs
        fastest.
    mean : FloatArray, shape (R, K)
        What is added to that.
    doubt : FloatArray, shape (R K, R K)
        Covariance of what does not follow.

    Returns
    -------
    Fit
        Every moment of the clubs that were hit as before.
    """
    responses, width = fit.theta.shape
    more = mean.shape[1]
    tested = ways.shape[1] // responses
    before = np.arange(responses * width).reshape(responses, width)
    after = np.arange(responses * (width + more)).reshape(responses, width + more)
    kept, new = after[:, :width].ravel(), after[:, width:].ravel()
    stretch = np.zeros((after.size, before.size))
    stretch[kept, np.arange(before.size)] = 1.0
    stretch[np.ix_(new, before[:, width - tested :].ravel())] = ways
    theta = (stretch @ fit.theta.ravel()).reshape(responses, width + more)
    theta[:, width:] += mean
    covariance = stretch @ fit.covariance @ stretch.T
    covariance[np.ix_(new, new)] += doubt
    return replace(fit, theta=theta, covariance=covariance)


def _launch_step(
    setup: Setup, fit: Fit, traits: tuple[ClubTraits, ...], neighbours: tuple[Neighbour, ...]
) -> tuple[FloatArray, FloatArray, FloatArray]:
    columns, slopes = setup.columns, setup.slopes
    everyone = (*traits, *(one.traits for one in neighbours))
    kept = np.ix_(columns.responses, columns.responses)
    own, head = setup.believed_same[kept], head_covariance(slopes)[kept]
    joint = joint_covariance(own, head, everyone)
    ways, left = _follow(joint, len(kept[0]), len(traits))
    expected = effect_means(slopes, columns, len(everyone), everyone)
    tested, untested = expected[:, : len(traits)], expected[:, len(traits) :]
    mean = untested - (ways @ tested.ravel()).reshape(untested.shape)
    doubts = [_hidden_doubt(setup, one)[kept] for one in neighbours]
    return ways, mean, fit.mean_scale * left + _each_its_own(doubts)


def _swing_step(
    setup: Setup, fit: Fit, traits: tuple[ClubTraits, ...], neighbours: tuple[Neighbour, ...]
) -> tuple[FloatArray, FloatArray, FloatArray]:
    columns = setup.columns
    everyone = (*traits, *(one.traits for one in neighbours))
    _, between = swing_covariances(setup.spreads, columns)
    joint = np.asarray(np.kron(setup.doubt * between, shares(everyone)), dtype=np.float64)
    ways, left = _follow(joint, len(between), len(traits))
    expected = np.array([_swing_of(one.shift, columns) for one in everyone]).T
    tested, untested = expected[:, : len(traits)], expected[:, len(traits) :]
    mean = untested - (ways @ tested.ravel()).reshape(untested.shape)
    doubts = [_swing_doubt(one, columns) for one in neighbours]
    return ways, mean, fit.mean_scale * left + _each_its_own(doubts)


def _follow(joint: FloatArray, responses: int, tested: int) -> tuple[FloatArray, FloatArray]:
    """Return how untested clubs follow tested ones, and the covariance that is left."""
    index = np.arange(len(joint)).reshape(responses, -1)
    t, n = index[:, :tested].ravel(), index[:, tested:].ravel()
    ways = np.asarray(
        np.linalg.solve(joint[np.ix_(t, t)], joint[np.ix_(t, n)]).T, dtype=np.float64
    )
    left = joint[np.ix_(n, n)] - ways @ joint[np.ix_(t, n)]
    return ways, np.asarray(0.5 * (left + left.T), dtype=np.float64)


def _hidden_doubt(setup: Setup, neighbour: Neighbour) -> FloatArray:
    """Return what the doubt of unmeasured parts does to launch, scaled units, shape (5, 5)."""
    parts = np.array(neighbour.doubt[:5]) / PART_UNIT
    table = replace(
        setup.spreads.table, club_parts=parts, club_strike=np.array(neighbour.doubt[5:])
    )
    spreads = replace(setup.spreads, table=table)
    ways, variances = club_ways(setup.slopes, setup.columns, spreads)
    return np.asarray((ways * variances) @ ways.T)


def _swing_of(shift: tuple[float, ...], columns: Columns) -> FloatArray:
    """Return what a shift of the delivery is in the swing model's units."""
    parts = columns.functionals @ (np.array(shift) / PART_UNIT)
    return np.concatenate([parts, np.zeros(2 * columns.marks)])


def _swing_doubt(neighbour: Neighbour, columns: Columns) -> FloatArray:
    functionals = columns.functionals
    size = len(functionals)
    covariance = np.zeros((size + 2 * columns.marks,) * 2)
    variances = (np.array(neighbour.doubt[:5]) / PART_UNIT) ** 2
    covariance[:size, :size] = (functionals * variances) @ functionals.T
    if columns.marks:
        covariance[size:, size:] = np.diag(
            (np.array(neighbour.doubt[5:]) / STRIKE_SWING_SCALE) ** 2
        )
    return covariance


def _each_its_own(doubts: list[FloatArray]) -> FloatArray:
    """Return doubts of one club each as one matrix in which the club runs fastest."""
    if not doubts:
        return np.zeros((0, 0))
    responses, clubs = len(doubts[0]), len(doubts)
    whole = np.zeros((responses, clubs, responses, clubs))
    for club, doubt in enumerate(doubts):
        whole[:, club, :, club] = doubt
    return whole.reshape(responses * clubs, responses * clubs)


def _at_home(
    comparison: Comparison, names: tuple[str, ...], same: Figure, swung: Figure
) -> Neighbourhood:
    visit = comparison.visit
    balls, present = visit.setup.balls, visit.setup.columns.responses
    hit, conditions = len(balls.clubs), conditions_at(comparison.home)
    flights = flight_map(visit.same.launches.mean(axis=0), list(present), conditions)
    flown = at_home(swung, flights, visit.scatter)
    held = at_home(same, flights, visit.scatter) if visit.swing is not None else None
    value, covariance = values(comparison.home, flown)
    weights = np.zeros(len(names))
    weights[:hit] = reference(hit, balls.own, comparison.rankable)
    contrast, df = contrast_matrix(weights), comparison.df
    worth = estimates(contrast @ value, contrast @ covariance @ contrast.T, df)
    as_swung_, as_held = (
        figures(one, contrast, present, df) if one is not None else [None] * len(names)
        for one in (flown, held)
    )
    level = levels(comparison.home, flown, conditions, present)
    return Neighbourhood(
        comparison=comparison,
        names=names,
        hit=hit,
        same=same,
        swung=swung,
        value=value,
        value_covariance=covariance,
        results=tuple(
            ClubResult(
                club=names[club],
                balls=0,
                value=worth[club],
                as_you_swing_it=as_swung_[club],
                from_the_same_swing=as_held[club],
                level=level[club],
            )
            for club in range(hit, len(names))
        ),
    )
