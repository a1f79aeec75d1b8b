"""Everything that a shop's sums teach, in one go.

References
----------
Dempster, Laird & Rubin 1977, Maximum likelihood from incomplete data via the EM algorithm,
JRSS-B 39:1.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final, TypeVar

import numpy as np

from loftwright import __version__
from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.clubs import head_covariance
from loftwright.shop.alike import Alike
from loftwright.shop.cells import FittingSums, fittings_of, scaled
from loftwright.shop.columns import RESPONSES
from loftwright.shop.grams import Gram, launch_gram, swing_gram
from loftwright.shop.heads import head_slopes
from loftwright.shop.learned import HeadSlopes, Leverage, ShopLearned
from loftwright.shop.levels import Belongs, Effects, known_effects
from loftwright.shop.leverage import Who, leverage_of
from loftwright.shop.offsets import levels_of, offsets_of
from loftwright.shop.physics import Physics, golfers_delivery, physics_at
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond, swing_population
from loftwright.shop.population import Foreseen, Population, learn, of_any_level
from loftwright.shop.starts import HEADS_TO_SWINGS, starts
from loftwright.shop.table import squared_factor, table_of

OUTER: Final = 2
"""Rounds between what clubs' parts do and how clubs differ beyond them."""
_MORE_ROUNDS: Final = 6
MOST: Final = 2000
"""Fittings that teach what is common, evenly spread over the record: more change no digit that
counts. What parts do is learned from all."""
_SHAFT_LEVELS: Final = frozenset({"family", "generation", "model", "piece"})

One = TypeVar("One")

BelongsTo = Mapping[tuple[str, str], Belongs]
"""What every club of every fitting belongs to, by fitting and club."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What clubs of many fittings are made of, and who hit them.

    Attributes
    ----------
    belongs : mapping of (fitting, club) to Belongs
    golfers : mapping of str to str
        By fitting.
    alike : mapping
        How alike members of one level are.
    """

    belongs: BelongsTo
    golfers: Mapping[str, str]
    alike: Alike

    def effects(self, grams: Sequence[Gram], population: Population, start: FloatArray) -> Effects:
        """Return what everything does that clubs belong to, by contrasts within fittings alone."""
        return known_effects(
            grams,
            of_any_level(population),
            self.belongs,
            start=start,
            alike=self.alike,
            golfers=self.golfers,
        )


def learn_from(
    rows: Iterable[Mapping[str, Any]],
    belongs: BelongsTo,
    *,
    alike: Alike | None = None,
    version: int = 1,
    made: date = date.min,
) -> ShopLearned:
    """Return what a shop's sums teach.

    Parameters
    ----------
    rows : iterable of mappings
        As `sums_of` gives them.
    belongs : mapping of (fitting, club) to Belongs
        Of clubs that are not in it nothing is known.
    alike : mapping, optional
        How alike members of one level are: what was never hit is then known by what was.
    version : int
    made : date

    Notes
    -----
    Of no fitting at all, what is learned is physics. Clubs' parts and what clubs do beyond them
    are learned in turns, so that nothing is counted twice.
    """
    fittings = fittings_of(rows)
    physics = [physics_at(golfers_delivery(one.delivery)) for one in fittings]
    usual = _usual(physics)
    told = {
        (one.fitting, club): belongs.get((one.fitting, club), Belongs())
        for one in fittings
        for club in one.clubs
    }
    parts = Parts(
        belongs=told, golfers={one.fitting: one.golfer for one in fittings}, alike=alike or {}
    )
    launch, effects, heads, moved = _launch(fittings, physics, usual, parts)
    factors = [squared_factor(*one.launch_scatter) for one in fittings]
    swings = [
        swing_gram(scaled(one, 1.0 / factor), at)
        for one, at, factor in zip(fittings, physics, factors, strict=True)
    ]
    nothing = swing_population()
    usual_swing = np.diag(nothing.clubs)
    swing, swing_effects = in_turns(
        swings, nothing, parts, starts(usual_swing, HEADS_TO_SWINGS * usual_swing)
    )
    return ShopLearned(
        version=version,
        program=__version__,
        made=made,
        fittings=len(fittings),
        golfers=len({one.golfer for one in fittings}),
        balls=sum(one.balls for one in fittings),
        launch=launch,
        swing=swing,
        heads=heads,
        offsets=offsets_of(levels_of(thinned(fittings), launch, heads)),
        table=table_of(launch, swing, physics_at(usual).at, _weighted(fittings, factors)),
        effects=effects,
        swing_effects=swing_effects,
        leverage=moved,
        physics=_mean_slopes(physics, usual),
    )


def _launch(
    fittings: Sequence[FittingSums],
    physics: Sequence[Physics],
    usual: FloatArray,
    parts: Parts,
) -> tuple[Population, Effects, tuple[HeadSlopes, ...], tuple[Leverage, ...]]:
    """Return what is common to all, what clubs' parts do, heads' slopes, and who moves most."""
    nothing = nothing_beyond(usual)
    start = starts(np.diag(nothing.clubs), np.diag(head_covariance(physics_at(usual).at)))
    pairs = list(zip(fittings, physics, strict=True))
    grams = [launch_gram(one, at) for one, at in pairs]
    launch, effects = in_turns(grams, nothing, parts, start)
    ahead = foreseen(thinned(grams), effects, parts.belongs)
    heads = head_slopes(thinned(fittings), thinned(physics), launch, ahead)
    if heads:
        known = {one.head: one.slopes for one in heads}
        grams = [launch_gram(one, at, known) for one, at in pairs]
        some = thinned(grams)
        ahead = foreseen(some, effects, parts.belongs)
        launch = learn(some, nothing, ahead, start=launch, rounds=_MORE_ROUNDS)
        effects = parts.effects(grams, launch, start)
    names = [one.column for one in RESPONSES]
    moved = leverage_of(grams, of_any_level(launch), parts.belongs, effects, _who(fittings), names)
    return launch, effects, heads, moved


def _who(fittings: Sequence[FittingSums]) -> dict[str, Who]:
    return {
        one.fitting: Who(
            golfer=one.golfer,
            devices=tuple(sorted({cell.device for cell in one.cells})),
            bays=tuple(sorted({cell.bay for cell in one.cells})),
        )
        for one in fittings
    }


def in_turns(
    grams: Sequence[Gram],
    physics: Population,
    parts: Parts,
    start: FloatArray,
) -> tuple[Population, Effects]:
    """Return what is common to all golfers, and what clubs' parts do.

    Parameters
    ----------
    grams : sequence of Gram
    physics : Population
    parts : Parts
    start : FloatArray, shape (L, R)
        How much things of each level differ before anything was learned.
    """
    some = thinned(grams)
    population = learn(some, physics)
    effects = parts.effects(grams, population, start)
    for _ in range(OUTER if effects.members else 0):
        ahead = foreseen(some, effects, parts.belongs)
        population = learn(some, physics, ahead, start=population, rounds=_MORE_ROUNDS)
        effects = parts.effects(grams, population, start)
    return population, effects


def thinned(every: Sequence[One], most: int = MOST) -> Sequence[One]:
    """Return at most so many of them, evenly spread.

    Parameters
    ----------
    every : sequence
    most : int
    """
    return every[:: max(-(-len(every) // most), 1)]


def foreseen(grams: Sequence[Gram], effects: Effects, belongs: BelongsTo) -> dict[str, Foreseen]:
    """Return what is expected of the clubs of every fitting from what is known of their parts.

    Parameters
    ----------
    grams : sequence of Gram
    effects : Effects
    belongs : mapping of (fitting, club) to Belongs
    """
    place = {member: number for number, member in enumerate(effects.members)}
    any_shaft = any(level in _SHAFT_LEVELS for level, _ in effects.members)
    found = {}
    for gram in grams:
        chosen = np.zeros((len(gram.clubs), len(place)))
        known = np.ones(len(gram.clubs), dtype=bool)
        for row, club in enumerate(gram.clubs):
            members = belongs[gram.fitting, club].members
            chosen[row, [place[one] for one in members if one in place]] = 1.0
            if any_shaft:
                known[row] = any(level in _SHAFT_LEVELS for level, _ in members)
        used = np.flatnonzero(chosen.any(axis=0))
        ways = chosen[:, used]
        doubt = effects.covariance[used][:, :, used]
        found[gram.fitting] = Foreseen(
            means=frozen_array(ways @ effects.means[used]),
            doubt=frozen_array(np.einsum("sm,mrnq,tn->srtq", ways, doubt, ways, optimize=True)),
            known=known,
        )
    return found


def _usual(physics: Sequence[Physics]) -> FloatArray:
    """Return the mean delivery of golfers."""
    if not physics:
        return USUAL_DELIVERY
    return np.asarray(np.mean([one.at.delivery for one in physics], axis=0))


def _mean_slopes(physics: Sequence[Physics], usual: FloatArray) -> FloatArray:
    if not physics:
        return physics_at(usual).slopes
    return frozen_array(np.mean([one.slopes for one in physics], axis=0))


def _weighted(fittings: Sequence[FittingSums], factors: Sequence[float]) -> tuple[float, float]:
    """Return the means over balls of golfers' squared factors and of their inverses."""
    if not fittings:
        return 1.0, 1.0
    balls = np.array([one.balls for one in fittings], dtype=float)
    squared = np.array(factors)
    return (
        float(np.average(squared, weights=balls)),
        float(np.average(1.0 / squared, weights=balls)),
    )
