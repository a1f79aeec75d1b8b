"""Whether one club plays as another: the built one against the one that was tested.

Three answers, with a guard. *Not*: some number differs beyond doubt, by more than the tolerances
of the build explain. *Consistent*: the range that holds each difference nine times in ten lies
within its margin. Else nobody can tell yet, and the balls that would tell are counted.
"""

from dataclasses import dataclass, replace
from math import sqrt
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.check_acts import Against
from loftwright.evidence.build_limits import NUMBERS, BuildLimits
from loftwright.evidence.compare import Comparison
from loftwright.evidence.flight_map import TOTAL
from loftwright.evidence.result import Estimate
from loftwright.evidence.scales import LAUNCH_SCALE

RANGE: Final = 0.90
"""Every difference's range must lie within its margin: two tests at 5 % each."""
FALSE_NOT: Final = 0.05
"""Chance of *not* between clubs that do not differ, over all numbers together."""
EARLY_NOT: Final = 0.005
"""The same before a day's planned balls were hit: who looks after every ball would else find it
too often."""
MOST_BELIEF: Final = 0.5
"""Share of a difference's variance that may rest on what was believed of clubs before the first
ball; where more does, *consistent* would be said by belief."""
ALL_BELIEF: Final = 0.95
"""Above this share balls say nothing of a number."""
FEWEST_BUILT, FEWEST_TESTED = 4, 3
"""Balls of a day before anything is said: the first two sets of a rotation."""
PLANNED_BUILT, PLANNED_TESTED = 8, 6
"""Balls of a day by the plan, from which *not* is tested at its full level."""
MOST_MORE: Final = 12
"""Further balls with each of the two clubs that a day may still ask for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberApart:
    """One number of the built club against the tested one.

    Attributes
    ----------
    name : str
        One of `NUMBERS`.
    built, tested : float
        Means as the golfer swings them, SI.
    apart : Estimate
        Built less tested.
    explained, margin : float
        What the build explains, and from where a difference is worth a name, to either side.
    belief : float
        Share of the difference's variance that rests on belief, 0 to 1.
    differs : bool
        Beyond doubt not nothing, and by more than the build explains.
    within : bool
        Its range lies within the margin, and balls say so.
    """

    name: str
    built: float
    tested: float
    apart: Estimate
    explained: float
    margin: float
    belief: float
    differs: bool
    within: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SameClub:
    """What the balls say of two clubs.

    Attributes
    ----------
    against : Against or None
        None while there are too few balls.
    numbers : tuple of NumberApart
        What the device gives; empty where nothing may be said.
    built, tested : int
        Balls that count, over all visits.
    had, needed : int
        Balls of the newest visit towards the fewest that are needed.
    joined : bool
        Whether anything ties the two clubs together, if they were hit on different days.
    more : int or None
        Further balls with each that would tell if the averages stay where they are; None where
        `MOST_MORE` would not, or an answer stands.
    """

    against: Against | None
    numbers: tuple[NumberApart, ...]
    built: int
    tested: int
    had: int
    needed: int
    joined: bool
    more: int | None = None

    @property
    def differing(self) -> tuple[NumberApart, ...]:
        """The numbers that differ beyond doubt."""
        return tuple(one for one in self.numbers if one.differs)


def same_club(
    comparison: Comparison,
    limits: BuildLimits,
    built: str,
    tested: str,
    *,
    rotation: bool = True,
) -> SameClub:
    """Return whether a built club plays as a tested one.

    Parameters
    ----------
    comparison : Comparison
        With both clubs, over any number of visits, made with the usual beliefs.
    limits : BuildLimits
        From `loftwright.evidence.build_limits.build_limits`.
    built, tested : str
        Names of two clubs of the comparison.
    rotation : bool
        Whether the tested club is hit in rotation with the built one; else its balls of earlier
        days must do, through clubs that were hit on both.

    Returns
    -------
    SameClub

    Notes
    -----
    *Not* is tested in every number at `FALSE_NOT` over their count (Bonferroni), so that clubs
    that do not differ are called different 5 times in 100 at most, whatever the correlation of
    the numbers. It is tested on what balls alone say: belief, which holds a figure back, would
    hide a difference. *Consistent* asks all numbers at once: of tests that must all reject none
    needs a smaller level (Berger 1982). A number that differs beyond doubt goes first.

    Somebody looks after every ball. Before the planned ones were hit *not* is tested at
    `EARLY_NOT`, so that the looks cost next to nothing and the last one keeps its level
    (Haybittle 1971, Peto et al. 1976).

    What was believed is that the two differ as any two clubs do, not that they are alike: two
    samples of one model have a spread of their own, and a strange shaft may be in one of them.

    References
    ----------
    Schuirmann 1987, A comparison of the two one-sided tests procedure and the power approach for
    assessing the equivalence of average bioavailability, J. Pharmacokinet. Biopharm. 15:657 (from
    memory).
    Berger 1982, Multiparameter hypothesis testing and acceptance sampling, Technometrics 24:295
    (from memory).
    Haybittle 1971, Repeated assessment of results in clinical trials of cancer treatment, Br. J.
    Radiol. 44:793; Peto et al. 1976, Br. J. Cancer 34:585 (both from memory).
    JCGM 106:2012, The role of measurement uncertainty in conformity assessment: guard bands (from
    memory).
    """
    names = comparison.visit.setup.balls.clubs
    a, b = names.index(built), names.index(tested)
    counts, joined = comparison.counts, comparison.joined.together(a, b)
    day = _of_the_day(comparison, a, b if rotation else None)
    found = SameClub(
        against=None,
        numbers=(),
        built=int(counts[a]),
        tested=int(counts[b]),
        had=day.had,
        needed=FEWEST_BUILT + (FEWEST_TESTED if rotation else 0),
        joined=joined,
    )
    if not joined or found.had < found.needed or found.tested < FEWEST_TESTED:
        return found
    numbers = _numbers(comparison, limits, a, b, day.level())
    against = _verdict(numbers)
    more = _more(numbers, found, day) if against is Against.CANNOT_TELL else None
    return replace(found, against=against, numbers=numbers, more=more)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Day:
    """The newest visit's balls that count; of the tested club None where it is not hit again."""

    built: int
    tested: int | None

    @property
    def had(self) -> int:
        """Those towards the fewest."""
        return min(self.built, FEWEST_BUILT) + min(self.tested or 0, FEWEST_TESTED)

    def level(self, more: int = 0) -> float:
        """Return the chance of a false *not* that is allowed after further balls with each."""
        enough = self.tested is None or self.tested + more >= PLANNED_TESTED
        return FALSE_NOT if enough and self.built + more >= PLANNED_BUILT else EARLY_NOT


def _of_the_day(comparison: Comparison, built: int, tested: int | None) -> _Day:
    balls = comparison.visit.setup.balls
    day = comparison.counted & (balls.visit == balls.visit.max())
    return _Day(
        built=int((day & (balls.club == built)).sum()),
        tested=None if tested is None else int((day & (balls.club == tested)).sum()),
    )


def _numbers(
    comparison: Comparison, limits: BuildLimits, built: int, tested: int, level: float
) -> tuple[NumberApart, ...]:
    mean, variance = _apart(comparison, built, tested)
    before = _believed(comparison, built, tested)
    flown = comparison.swung.outcomes[:, TOTAL]
    launches = comparison.swung.figure.launches
    given = np.flatnonzero(np.isfinite(limits.margin))
    found = []
    for place in given.tolist():
        apart = Estimate(
            mean=float(mean[place]), sd=sqrt(max(variance[place], 0.0)), df=comparison.df
        )
        belief = float(np.clip(variance[place] / before[place], 0.0, 1.0))
        levels = flown if place == len(NUMBERS) - 1 else launches[:, place]
        found.append(
            NumberApart(
                name=NUMBERS[place],
                built=float(levels[built]),
                tested=float(levels[tested]),
                apart=apart,
                explained=float(limits.explained[place]),
                margin=float(limits.margin[place]),
                belief=belief,
                differs=_differs(
                    apart, belief, float(limits.explained[place]), level / len(given)
                ),
                within=_within(apart, float(limits.margin[place])) and belief <= MOST_BELIEF,
            )
        )
    return tuple(found)


def _apart(comparison: Comparison, built: int, tested: int) -> tuple[FloatArray, FloatArray]:
    """Return mean and variance of built less tested, as swung, in the order of `NUMBERS`."""
    figure, ways = comparison.swung.figure, comparison.swung.gradients[:, TOTAL]
    covariance = figure.covariance
    pair = [built, tested]
    block = covariance[np.ix_(pair, range(5), pair, range(5))]
    signs = np.array([1.0, -1.0])
    launch = np.einsum("s,sltm,t->lm", signs, block, signs)
    along = signs[:, None] * ways[pair]
    total = float(np.einsum("sl,sltm,tm->", along, block, along))
    outcomes = comparison.swung.outcomes[:, TOTAL]
    mean = figure.launches[built] - figure.launches[tested]
    return (
        np.append(mean, outcomes[built] - outcomes[tested]),
        np.append(np.diag(launch), total),
    )


def _believed(comparison: Comparison, built: int, tested: int) -> FloatArray:
    """Return the variance of a difference before the first ball, in the order of `NUMBERS`.

    What the two clubs are believed to do from the same swing, heads and shafts they share left
    out, and what they do to what is measured of the swing.
    """
    setup = comparison.visit.setup
    kept = list(setup.columns.responses)
    size, clubs = len(kept), len(setup.balls.clubs)
    signs = np.zeros(clubs)
    signs[built], signs[tested] = 1.0, -1.0
    if setup.shop is None:
        joint = np.linalg.inv(setup.launch_prior.effect_precisions[-1])
        joint = joint.reshape(size, clubs, size, clubs)
        scaled = 2.0 * (setup.believed - setup.believed_same)
        scaled[np.ix_(kept, kept)] += np.einsum("s,rsqt,t->rq", signs, joint, signs)
    else:
        joint = setup.shop.swung.reshape(5, clubs, 5, clubs)
        scaled = np.einsum("s,rsqt,t->rq", signs, joint, signs)
    launch = np.outer(LAUNCH_SCALE, LAUNCH_SCALE) * scaled
    way = comparison.total_gradient
    return np.append(np.diag(launch), way @ launch @ way)


def _differs(apart: Estimate, belief: float, explained: float, level: float) -> bool:
    """Return whether balls alone leave no doubt, and the build does not explain the size.

    With what was believed taken out again, mean and variance grow alike by ``1 / (1 - belief)``:
    the balls' own ratio of mean to doubt is larger than the figure's by the root of that.
    """
    if belief >= ALL_BELIEF:
        return False
    balls_alone = replace(apart, sd=apart.sd * sqrt(1.0 - belief))
    low, high = balls_alone.interval(1.0 - level)
    return (low > 0.0 or high < 0.0) and abs(apart.mean) > explained


def _within(apart: Estimate, margin: float) -> bool:
    low, high = apart.interval(RANGE)
    return -margin <= low and high <= margin


def _verdict(numbers: tuple[NumberApart, ...]) -> Against:
    if any(one.differs for one in numbers):
        return Against.NOT
    if numbers and all(one.within for one in numbers):
        return Against.CONSISTENT
    return Against.CANNOT_TELL


def _more(numbers: tuple[NumberApart, ...], found: SameClub, day: _Day) -> int | None:
    """Return the fewest further balls with each club that would tell, the averages staying.

    The doubt that balls bring shrinks as one over the count of each club; what is believed stays.
    """
    now = 1.0 / found.built + 1.0 / found.tested
    for more in range(1, MOST_MORE + 1):
        then = 1.0 / (found.built + more) + 1.0 / (found.tested + more)
        level = day.level(more) / len(numbers)
        after = tuple(_after(one, then / now, level) for one in numbers)
        if _verdict(after) is not Against.CANNOT_TELL:
            return more
    return None


def _after(one: NumberApart, shrunk: float, level: float) -> NumberApart:
    """Return a number as it would stand with its doubt from balls shrunk."""
    # Variance of belief and balls together: 1/v = 1/before + 1/balls, and belief = v / before.
    free = max(1.0 - one.belief, 1e-6)
    factor = 1.0 / (one.belief + free / shrunk)
    apart = replace(one.apart, sd=one.apart.sd * sqrt(factor))
    belief = one.belief * factor
    return replace(
        one,
        apart=apart,
        belief=belief,
        differs=_differs(apart, belief, one.explained, level),
        within=_within(apart, one.margin) and belief <= MOST_BELIEF,
    )
