"""Clubs that were not hit, told at the golfer's home beside those that were.

Their effects follow those of the clubs that share a head or a shaft with them. The covariance of
tested and untested clubs is whole, so that every difference between them has its own doubt.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.advice import PROBABLY, WORTH
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import Comparison
from loftwright.evidence.decide import chance_none_is_better, probability_above
from loftwright.evidence.figures import Figure, as_swung, mean_row, same_swing, swing_shift
from loftwright.evidence.flight_map import conditions_at, flight_map
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.result import ClubResult, Estimate
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.unhit_effects import Neighbour, fits_with
from loftwright.evidence.worth import (
    at_home,
    contrast_matrix,
    estimates,
    figures,
    levels,
    reference,
    values,
)

__all__ = ["CONFIRMING_BALLS", "Neighbour", "Neighbourhood", "beside", "p_keep"]

CONFIRMING_BALLS: Final = 5
"""Balls with a club that was not hit, before anybody orders it (judgement)."""


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

    def difference(self, first: str, second: str) -> Estimate:
        """Return what one club is worth more than another [m]."""
        a, b = self.names.index(first), self.names.index(second)
        covariance = self.value_covariance
        variance = covariance[a, a] + covariance[b, b] - 2.0 * covariance[a, b]
        return Estimate(
            mean=float(self.value[a] - self.value[b]),
            sd=float(np.sqrt(max(variance, 0.0))),
            df=self.comparison.df,
        )

    @property
    def leader(self) -> str | None:
        """The club that leads those that were hit."""
        standing = self.comparison.standing
        return None if standing is None else self.names[standing.leader]

    @property
    def put_forward(self) -> str | None:
        """The most valued of the clubs not hit that probably beat the leader, by a yard.

        It leads nothing: it asks for balls.
        """
        leader = self.leader
        if leader is None:
            return None
        able = [
            name
            for name in self.names[self.hit :]
            if self.p_above(name, leader) >= PROBABLY
            and self.difference(name, leader).mean >= WORTH
        ]
        return max(able, key=lambda name: self.value[self.names.index(name)], default=None)


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
    comparison: Comparison,
    traits: tuple[ClubTraits, ...],
    neighbours: tuple[Neighbour, ...],
    shop: ShopBeliefs | None = None,
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
    shop : ShopBeliefs, optional
        What the shop's record says of all of them, those hit first; of the version with which
        the clubs were compared.

    Returns
    -------
    Neighbourhood

    Raises
    ------
    InputError
        If the clubs that were hit were compared by the shop's record and these are not, or the
        other way round.
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
    launch, swing = fits_with(visit, traits, neighbours, shop)
    row = mean_row(setup.launch_rows, visit.launch, columns)
    same = same_swing(launch, row, clubs, columns, setup.slopes)
    swung = same
    if swing is not None:
        shift = swing_shift(swing, clubs, hit)
        swung = as_swung(launch, row, shift, setup.strike, columns, setup.slopes)
    names = (*setup.balls.clubs, *(one.name for one in neighbours))
    return _at_home(comparison, names, same, swung)


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
