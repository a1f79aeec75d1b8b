"""The comparison of clubs, from balls to a decision."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.claims import claims_ladder
from loftwright.evidence.decide import (
    FEWEST_BALLS,
    Standing,
    asks_for_more,
    probability_above,
    standing,
    state_of,
)
from loftwright.evidence.doubts import visit_warnings
from loftwright.evidence.flight_map import TOTAL, conditions_at, flight_map, outcomes
from loftwright.evidence.handover import Ranking, hand_over
from loftwright.evidence.odd import odd_balls
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.parts import ClubMeans, club_means, parts_between, with_aside
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    NextClub,
    Pair,
    Pattern,
    RankedOn,
    State,
)
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.value import value_gradient, with_holes
from loftwright.evidence.visit import Beliefs, Visit, VisitState, fit_visit, set_up
from loftwright.evidence.visits import Joined, apart_warnings, joined
from loftwright.evidence.worth import (
    AtHome,
    at_home,
    contrast_matrix,
    estimates,
    figures,
    levels,
    reference,
    values,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Comparison:
    """A visit at home: what every page and key is drawn from.

    Attributes
    ----------
    value : FloatArray, shape (S,)
        As the golfer swings it [m].
    value_covariance : FloatArray, shape (S, S)
    counted : BoolArray, shape (n,)
        Balls with a total.
    totals, aside_totals : FloatArray, shape (n,), (k,)
        Each ball flown again at home from its own launch numbers [m]: those that count, and
        those set aside.
    joined : Joined
        Which clubs the visits they share make comparable.
    rankable : BoolArray, shape (S,)
        Clubs of the ranked group with enough balls to lead or win.
    """

    visit: Visit
    home: Home
    standard_hole: bool
    swung: AtHome
    same: AtHome | None
    value: FloatArray
    value_covariance: FloatArray
    counted: BoolArray
    totals: FloatArray
    aside_totals: FloatArray
    joined: Joined
    rankable: BoolArray
    standing: Standing | None
    total_gradient: FloatArray

    @property
    def df(self) -> float:
        """Degrees of freedom of every range."""
        return self.visit.launch.df

    @property
    def counts(self) -> IntArray:
        """Balls with a total, per club."""
        return self.joined.counts


def can_be_valued(balls: Balls) -> bool:
    """Return whether any ball that counts has the three numbers that a total needs."""
    return bool((np.isfinite(balls.launch[:, :3]).all(axis=1) & ~balls.set_aside).any())


@one_thread()
def compare(
    balls: Balls, home: Home, beliefs: Beliefs, start: VisitState | None = None
) -> Comparison:
    """Fit a visit and fly its clubs at home.

    Parameters
    ----------
    balls : Balls
        In their order of play, at least one of which has a total.
    home : Home
    beliefs : Beliefs
    start : VisitState, optional
        From the same visit a ball earlier.

    Returns
    -------
    Comparison
    """
    return fly_home(fit_visit(set_up(balls, beliefs), start), home)


def fly_home(visit: Visit, home: Home) -> Comparison:
    """Fly a fitted visit's clubs at home."""
    balls, present = visit.setup.balls, visit.setup.columns.responses
    conditions = conditions_at(home)
    centre = visit.same.launches.mean(axis=0)
    flights = flight_map(centre, list(present), conditions)
    swung = at_home(visit.swung, flights, visit.scatter)
    same = at_home(visit.same, flights, visit.scatter) if visit.swing is not None else None
    totals = outcomes(balls.launch, conditions)[:, TOTAL]
    counted = np.asarray(np.isfinite(totals))
    found = joined(balls, counted)
    rankable = np.asarray((found.counts >= FEWEST_BALLS) & found.inside)
    aside = visit.setup.aside.launch
    usual = swung.outcomes[slice(None) if balls.own is None else balls.own, TOTAL].mean()
    filled = with_holes(home, float(usual))
    level, covariance = values(filled, swung)
    return Comparison(
        visit=visit,
        home=filled,
        standard_hole=not home.holes,
        swung=swung,
        same=same,
        value=level,
        value_covariance=covariance,
        counted=counted,
        totals=totals,
        aside_totals=outcomes(aside, conditions)[:, TOTAL] if len(aside) else np.zeros(0),
        joined=found,
        rankable=rankable,
        standing=standing(level, covariance, rankable),
        total_gradient=flights.gradient[TOTAL],
    )


@one_thread()
def decide(comparison: Comparison, budget: Budget) -> Decision:
    """Return everything that may be said of a comparison.

    Parameters
    ----------
    comparison : Comparison
    budget : Budget
        Balls and minutes left.

    Returns
    -------
    Decision
    """
    visit, setup = comparison.visit, comparison.visit.setup
    balls = setup.balls
    found = comparison.standing
    weights = reference(len(balls.clubs), balls.own, comparison.rankable)
    state = state_of(found)
    order = _ranked(comparison)
    against_own = balls.own is not None and bool(comparison.rankable[balls.own])
    return Decision(
        state=state,
        ranked_on=RankedOn.AS_YOU_SWING_IT,
        against=Against.OWN if against_own else Against.MEAN,
        own=balls.clubs[balls.own] if balls.own is not None else None,
        clubs=tuple(_club_results(comparison, weights, order)),
        pairs=tuple(_pairs(comparison, order)),
        odd_balls=odd_balls(setup, visit.launch),
        next_club=_next(comparison, state, budget),
        regret=found.regret if found else None,
        p_leader_near_best=found.p_near_best if found else None,
        home=comparison.home,
        pattern=Pattern(
            total=float(comparison.swung.spread[1]), offline=float(comparison.swung.spread[2])
        ),
        claims=claims_ladder(
            balls,
            setup.columns,
            device_carry=False,
            standard_hole=comparison.home.holes[0].length if comparison.standard_hole else None,
        ),
        warnings=(*visit_warnings(setup), *apart_warnings(balls, comparison.joined)),
    )


def _ranked(comparison: Comparison) -> list[int]:
    """Clubs by value, those with too few balls or joined to none of the others last."""
    return sorted(
        range(len(comparison.value)),
        key=lambda club: (not comparison.rankable[club], -comparison.value[club]),
    )


def _club_results(
    comparison: Comparison, weights: FloatArray, order: list[int]
) -> list[ClubResult]:
    setup = comparison.visit.setup
    balls = setup.balls
    contrast = contrast_matrix(weights)
    df = comparison.df
    present = setup.columns.responses
    value = estimates(
        contrast @ comparison.value, contrast @ comparison.value_covariance @ contrast.T, df
    )
    swung = figures(comparison.swung, contrast, present, df)
    same = figures(comparison.same, contrast, present, df) if comparison.same else None
    level = levels(comparison.home, comparison.swung, conditions_at(comparison.home), present)
    share = physics_share(comparison, contrast)
    # Before two clubs may be ranked no difference is said, whatever is believed of one.
    found = []
    for club in order:
        told = comparison.standing is not None and bool(comparison.joined.inside[club])
        p_best = comparison.standing.p_best[club] if comparison.standing else np.nan
        found.append(
            ClubResult(
                club=balls.clubs[club],
                balls=int((balls.club == club).sum()),
                value=value[club] if told else None,
                p_best=float(p_best) if np.isfinite(p_best) else None,
                as_you_swing_it=swung[club] if told else None,
                from_the_same_swing=same[club] if same and told else None,
                level=None if comparison.joined.outside[club] else level[club],
                physics_share=float(share[club]),
                plain_total=_plain_total(comparison, club),
            )
        )
    return found


def _plain_total(comparison: Comparison, club: int) -> float | None:
    """Return the plain mean of a club's totals, those of balls set aside among them."""
    setup = comparison.visit.setup
    totals = comparison.totals[comparison.counted & (setup.balls.club == club)]
    if not totals.size:
        return None
    beside = comparison.aside_totals[setup.aside.club == club]
    return float(np.concatenate([totals, beside[np.isfinite(beside)]]).mean())


def physics_share(comparison: Comparison, contrast: FloatArray) -> FloatArray:
    """Return how much of each difference in total rests on belief rather than balls.

    The variance left of the difference over the variance believed before the first ball; the
    reference itself rests on nothing else.
    """
    way = comparison.total_gradient
    before = comparison.visit.setup.believed_variances(way * LAUNCH_SCALE, contrast)
    ways = comparison.swung.gradients[:, TOTAL]
    covariance = np.einsum("sl,sltm,tm->st", ways, comparison.swung.figure.covariance, ways)
    left = np.diag(contrast @ covariance @ contrast.T)
    return np.clip(left / np.where(before > 0.0, before, np.inf), 0.0, 1.0)


def _means(comparison: Comparison) -> ClubMeans:
    visit, setup = comparison.visit, comparison.visit.setup
    means = club_means(
        setup.balls,
        setup.launch_rows,
        visit.launch,
        setup.columns,
        setup.strike,
        comparison.counted,
        comparison.totals,
        setup.mark_left,
    )
    if not len(setup.aside):
        return means
    scaled = (setup.aside.launch - setup.slopes.origin) / LAUNCH_SCALE
    launch = scaled[:, list(setup.columns.responses)]
    return with_aside(means, comparison.counts, setup.aside.club, launch, comparison.aside_totals)


def _pairs(comparison: Comparison, order: list[int]) -> list[Pair]:
    setup = comparison.visit.setup
    balls = setup.balls
    kept = list(setup.columns.responses)
    means = _means(comparison)
    gradient = comparison.total_gradient[kept] * LAUNCH_SCALE[kept]
    line = comparison.same or comparison.swung
    counts, joined_clubs = comparison.counts, comparison.joined
    found = []
    for place, a in enumerate(order):
        for b in order[place + 1 :]:
            both = bool(counts[a] and counts[b]) and joined_clubs.together(a, b)
            told = both and comparison.standing is not None
            parts = parts_between(a, b, means, gradient, line.outcomes[:, TOTAL]) if told else None
            raw = float(means.plain_total[a] - means.plain_total[b]) if both else None
            found.append(
                Pair(
                    a=balls.clubs[a],
                    b=balls.clubs[b],
                    p_a_better=p_better(comparison, a, b),
                    raw_total=raw,
                    parts=parts,
                )
            )
    return found


def p_better(comparison: Comparison, a: int, b: int) -> float | None:
    """Return the probability that one club is worth more than another, if both can be compared."""
    counts = comparison.counts
    if min(counts[a], counts[b]) < FEWEST_BALLS or not comparison.joined.together(a, b):
        return None
    return probability_above(comparison.value, comparison.value_covariance, comparison.df, a, b)


def _next(comparison: Comparison, state: State, budget: Budget) -> NextClub | None:
    """Choose the next club; none once a stop rule holds or the budget is spent."""
    balls = comparison.visit.setup.balls
    if not asks_for_more(state, len(balls.clubs), budget):
        return None

    def one_ball(club: int) -> float:
        slope = value_gradient(comparison.home, comparison.swung.drives(club))
        way = slope @ comparison.swung.gradients[club, 1:]
        return float(way @ comparison.visit.scatter @ way)

    ranking = Ranking(
        names=balls.clubs,
        own=balls.own,
        value=comparison.value,
        covariance=comparison.value_covariance,
        one_ball=one_ball,
        counts=comparison.counts,
        rankable=comparison.rankable,
        joined=comparison.joined,
    )
    return hand_over(ranking, int(balls.club[-1]))
