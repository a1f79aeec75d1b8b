"""What a comparison comes to for the golfer who has to choose: change, keep, or not yet.

The rule is on the safe side of the own club. With clubs that do not differ it must say *keep
your own* or *too close to call* nearly always, so a club is recommended over the own one only
when it is worth a yard more and better with a probability of `FIRM`.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import sqrt
from typing import Final

from loftwright.constants import YARD
from loftwright.evidence.power import chance_of_telling
from loftwright.evidence.result import ClubResult, Decision, Estimate, RankedOn, State

FIRM: Final = 0.90
"""Probability of being better than the own club from which a change is recommended."""
PROBABLY: Final = 0.65
"""Probability from which two clubs are no longer too close to call."""
NAMED: Final = 0.80
"""A rival that the leader beats with less than this is named beside it."""
WORTH: Final = 1.0 * YARD
"""A change must be expected to be worth this much; a judgement."""
MORE_BALLS: Final = 20
"""Balls spoken of in *more balls would tell*, half of them with each of two clubs."""


class Call(StrEnum):
    """The kinds of advice."""

    CHANGE = "change"
    """Leave the own club for the leader."""
    KEEP_OWN = "keep_own"
    """The own club leads, or what leads it does so by too little or not surely enough."""
    LEADER = "leader"
    """One club stands out, and there is no own club to compare with, or only a device's carry."""
    TOO_CLOSE = "too_close"
    TOO_FEW = "too_few"


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to do, and how sure of it.

    Attributes
    ----------
    leader : str, optional
        The club ranked first.
    other : str, optional
        The club it is set against: the own club, or the nearest rival when the own club leads
        or was not hit enough.
    p : float, optional
        Probability that the leader is better than the other.
    p_against_all : float, optional
        The smallest probability of the leader against any club.
    rivals : tuple of str
        Clubs besides the other that the leader may not be better than, nearest first.
    more_balls_tell : bool, optional
        Whether more balls with leader and other would, more likely than not, settle them.
    """

    call: Call
    leader: str | None = None
    other: str | None = None
    p: float | None = None
    p_against_all: float | None = None
    rivals: tuple[str, ...] = ()
    more_balls_tell: bool | None = None


def chance_above(estimate: Estimate, threshold: float = 0.0) -> float:
    """Return the probability that a figure lies above a threshold.

    Parameters
    ----------
    estimate : Estimate
    threshold : float
        In the unit of the estimate.

    Returns
    -------
    float
    """
    if estimate.sd <= 0.0:
        return float(estimate.mean > threshold)
    from scipy.special import stdtr  # noqa: PLC0415 - scipy is slow to import

    return float(stdtr(estimate.df, (estimate.mean - threshold) / estimate.sd))


def advise(decision: Decision) -> Advice:
    """Return what the comparison comes to.

    Parameters
    ----------
    decision : Decision

    Returns
    -------
    Advice
        Never *change* from a device's own carry, nor for a club that is not worth more.
    """
    ranked = [club for club in decision.clubs if _figure(decision, club) is not None]
    chances = _chances(decision, ranked)
    if decision.state is State.TOO_FEW or not chances:
        return Advice(call=Call.TOO_FEW)
    leader = ranked[0]
    own = decision.own if decision.own in chances else None
    nearest = min(chances, key=lambda club: chances[club])
    other = own or nearest
    return Advice(
        call=_call(decision, leader, own, chances[other]),
        leader=leader.club,
        other=other,
        p=chances[other],
        p_against_all=chances[nearest],
        rivals=tuple(
            club
            for club in sorted(chances, key=lambda club: chances[club])
            if club != other and chances[club] < NAMED
        ),
        more_balls_tell=_more_balls_tell(decision, leader.club, other),
    )


def _figure(decision: Decision, club: ClubResult) -> Estimate | None:
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return club.device_carry
    return club.value


def _chances(decision: Decision, ranked: list[ClubResult]) -> dict[str, float]:
    """Return how surely the first club beats each other one that was hit enough to say so."""
    names = [club.club for club in ranked]
    return {
        pair.b: pair.p_a_better
        for pair in decision.pairs
        if pair.a in names[:1] and pair.b in names and pair.p_a_better is not None
    }


def _call(decision: Decision, leader: ClubResult, own: str | None, p: float) -> Call:
    if decision.own == leader.club:
        return Call.KEEP_OWN
    if p < PROBABLY:
        return Call.TOO_CLOSE
    if own is None:
        return Call.LEADER
    if p < FIRM:
        return Call.KEEP_OWN
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return Call.LEADER
    return Call.CHANGE if _gain(decision, leader.club, own) >= WORTH else Call.KEEP_OWN


def _gain(decision: Decision, leader: str, other: str) -> float:
    means = {club.club: _figure(decision, club) for club in decision.clubs}
    best, rival = means[leader], means[other]
    return 0.0 if best is None or rival is None else best.mean - rival.mean


def _more_balls_tell(decision: Decision, leader: str, other: str) -> bool | None:
    clubs = {club.club: club for club in decision.clubs}
    first, second = _figure(decision, clubs[leader]), _figure(decision, clubs[other])
    if first is None or second is None or decision.pattern is None:
        return None
    # Against the own club its own figure is zero without a doubt, so the sum is exact there.
    doubt = sqrt(first.sd**2 + second.sd**2)
    chance = chance_of_telling(
        first.mean - second.mean,
        doubt,
        scatter=decision.pattern.total,
        balls_each=MORE_BALLS // 2,
        probability=FIRM,
    )
    return chance >= 0.5
