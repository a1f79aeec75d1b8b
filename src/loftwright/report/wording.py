"""The sentence that answers the fitting, and the one thing a careful fitter would object.

The certainty is in the verb and follows the probability that the claim is true. A claim about
distance rests on the probability of the distance, the advice on that of the score.
"""

from typing import Final

from loftwright.constants import YARD
from loftwright.evidence.advice import (
    MORE_BALLS,
    PROBABLY,
    WORTH,
    Advice,
    Call,
    advise,
    chance_above,
)
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Pair,
    Parts,
    RankedOn,
)
from loftwright.report.numbers import LIKELY_RANGE, count, fixed, listed

LADDER: Final = ((0.95, ""), (0.80, "very likely "), (PROBABLY, "probably "))
"""Probability that a claim is true, and the words before its verb; below: too close to call."""
LONGEST: Final = 90
"""Characters of a sentence, where the names of the clubs allow it."""

_PART_WORDS: Final = {
    "odd_balls": "odd balls make",
    "strike": "the strike makes",
    "swing": "the swing makes",
    "warm_up": "warm-up makes",
    "club": "the club makes",
    "left_over": "chance makes",
}


def hedge(probability: float) -> str | None:
    """Return the words before the verb of a claim, or None when it may not be made.

    Parameters
    ----------
    probability : float
        That the claim is true.

    Returns
    -------
    str or None
        Empty from 0.95 up; ends in a space otherwise.
    """
    return next((words for least, words in LADDER if probability >= least), None)


def sentence(decision: Decision) -> str:
    """Return the answer of a fitting in one sentence.

    Parameters
    ----------
    decision : Decision

    Returns
    -------
    str
        90 characters at most, unless the clubs' own names are long.
    """
    advice = advise(decision)
    if advice.call is Call.TOO_FEW:
        return _too_few(decision)
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return _device_carry(advice)
    return {
        Call.CHANGE: _change,
        Call.KEEP_OWN: _keep_own,
        Call.LEADER: _leader,
        Call.TOO_CLOSE: _too_close,
    }[advice.call](decision, advice)


def objection(decision: Decision) -> str:
    """Return the one thing a careful fitter would object to the sentence.

    Parameters
    ----------
    decision : Decision

    Returns
    -------
    str
        The weightiest that holds; what no evening can show, when there is no other.
    """
    found = (
        _objects_device(decision)
        or _objects_own_not_hit(decision)
        or _objects_plain_averages(decision)
        or _objects_physics(decision)
        or _objects_ball_only(decision)
        or _objects_odd_balls(decision)
    )
    if found:
        return found
    balls = count(_balls(decision), "ball")
    verb = "show" if _balls(decision) != 1 else "shows"
    return f"{balls} cannot show which is straighter, but {verb} where each starts and curves."


def which_figure(decision: Decision) -> str:
    """Return the name of the figure that ranks the clubs."""
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return "carry as this device shows it"
    return "as you swing it"


def reference(decision: Decision) -> str:
    """Return what differences are taken against, in words."""
    if decision.against is Against.OWN and decision.own is not None:
        return decision.own
    return "the mean of the clubs"


def rests_on(physics_share: float) -> str:
    """Return what a club's figure rests on, in words."""
    if physics_share < 1.0 / 3.0:
        return "mostly balls"
    return "half physics" if physics_share < 2.0 / 3.0 else "mostly physics"


def largest_part(parts: Parts, direction: float) -> str | None:
    """Return in words the part that makes at least half of a difference of this sign."""
    sizes = {name: getattr(parts, name) * direction for name in _PART_WORDS}
    name = max(sizes, key=lambda part: sizes[part])
    half = 0.5 * parts.sum() * direction
    return _PART_WORDS[name] if sizes[name] > 0.0 and sizes[name] >= half else None


def _club(decision: Decision, name: str | None) -> ClubResult:
    return next(club for club in decision.clubs if club.club == name)


def _balls(decision: Decision) -> int:
    return sum(club.balls for club in decision.clubs)


def _yards_further(estimate: Estimate) -> str:
    """Return `1 to 10 yd`, or `up to 10 yd` when the lower end is nothing."""
    low, high = (round(end / YARD) for end in estimate.interval(LIKELY_RANGE))
    if low >= 1 and low == high:
        return f"{fixed(high)} yd"
    return f"{fixed(low)} to {fixed(high)} yd" if low >= 1 else f"up to {fixed(high)} yd"


def _too_few(decision: Decision) -> str:
    enough = [club.club for club in decision.clubs if club.balls >= 2]
    if len(decision.clubs) == 1:
        return f"Only {decision.clubs[0].club} was hit: a second club is needed to compare."
    if len(enough) == 1:
        return f"Too few balls to compare: only {enough[0]} was hit twice."
    if not enough:
        return "Too few balls to compare: no club was hit twice."
    return "Too few balls to say anything of these clubs."


def _device_carry(advice: Advice) -> str:
    p = 0.0 if advice.p is None else advice.p
    words = hedge(p)
    if words is None:
        return (
            f"Carry as this device shows it: {advice.leader} and {advice.other} are too close "
            "to call."
        )
    return (
        f"Carry as this device shows it: {advice.leader} {words}goes further than {advice.other}."
    )


def _claim(decision: Decision, advice: Advice) -> str:
    """Return what the leader does against the own club, in distance where that holds."""
    leader = _club(decision, advice.leader)
    total = leader.as_you_swing_it.total if leader.as_you_swing_it else None
    if total is not None:
        words = hedge(chance_above(total))
        if words is not None:
            return (
                f"{advice.leader} {words}goes {_yards_further(total)} further than {advice.other}"
            )
    words = hedge(advice.p or 0.0) or ""
    return f"{advice.leader} {words}scores better at home than {advice.other}"


def _change(decision: Decision, advice: Advice) -> str:
    claim = f"As you swing it, {_claim(decision, advice)}"
    if not advice.rivals:
        return f"{claim}."
    named = f"{claim}; {listed(advice.rivals)} may be as good."
    if len(named) <= LONGEST or len(advice.rivals) == 1:
        return named
    return f"{claim}; {len(advice.rivals)} others may be as good."


def _keep_own(decision: Decision, advice: Advice) -> str:
    own = decision.own
    if advice.leader == own:
        words = hedge(advice.p_against_all or 0.0)
        if words is None:
            return (
                f"Keep {own}: {advice.other} is too close to call, and a tie stays with your own."
            )
        if not words:
            return f"Keep {own}: as you swing it, no other club here scores better."
        return f"Keep {own}: as you swing it, it is {words}the best of these clubs."
    gain = _club(decision, advice.leader).value
    if gain is not None and gain.mean < WORTH:
        return f"Keep {own}: as you swing it, {advice.leader} gains less than a yard on it."
    words = hedge(advice.p or 0.0) or ""
    return (
        f"Keep {own} for now: as you swing it, {advice.leader} is {words}better, "
        "but not surely enough."
    )


def _leader(decision: Decision, advice: Advice) -> str:
    words = hedge(advice.p_against_all or 0.0) or ""
    number = len(decision.clubs)
    return f"As you swing it, {advice.leader} is {words}the best of {number} clubs."


def _too_close(decision: Decision, advice: Advice) -> str:
    names = f"{advice.leader} and {advice.other}"
    if decision.own == advice.other:
        names = f"{advice.other} and {advice.leader}"
    if advice.more_balls_tell is None:
        return f"{names} are too close to call today, as you swing them."
    verb = "would" if advice.more_balls_tell else "would not"
    return (
        f"{names} are too close to call today; {MORE_BALLS} more balls with these two {verb} tell."
    )


def _objects_device(decision: Decision) -> str | None:
    if decision.ranked_on is not RankedOn.DEVICE_CARRY:
        return None
    return "The device gives no launch or spin, so no reason and nothing about home is in it."


def _objects_own_not_hit(decision: Decision) -> str | None:
    if decision.against is Against.OWN:
        return None
    if decision.own is None:
        return "No own club is named, so nothing is said about keeping it."
    return f"{decision.own} has fewer than two balls: nothing is said to beat it."


def _objects_plain_averages(decision: Decision) -> str | None:
    pair, ahead = _plainly_ahead(decision)
    if pair is None or pair.raw_total is None:
        return None
    by = f"by {fixed(max(1.0, round(ahead / YARD)))} yd over {pair.a}"
    part = None if pair.parts is None else largest_part(pair.parts, -1.0)
    why = f": {part} most of it" if part else ""
    return f"The plain averages put {pair.b} first, {by}{why}."


def _plainly_ahead(decision: Decision) -> tuple[Pair | None, float]:
    """Return the pair whose second club the plain averages put furthest above the leader."""
    leader = decision.clubs[0].club
    beaten = [
        pair
        for pair in decision.pairs
        if pair.a == leader and pair.raw_total is not None and pair.raw_total < -0.5 * YARD
    ]
    if not beaten:
        return None, 0.0
    pair = min(beaten, key=lambda pair: pair.raw_total or 0.0)
    return pair, -(pair.raw_total or 0.0)


def _objects_physics(decision: Decision) -> str | None:
    leader = decision.clubs[0]
    if leader.value is None or leader.physics_share <= 0.5:
        return None
    return (
        f"The figure for {leader.club} leans more on what clubs usually do than on its "
        f"{count(leader.balls, 'ball')}."
    )


def _objects_ball_only(decision: Decision) -> str | None:
    if any(club.from_the_same_swing is not None for club in decision.clubs):
        return None
    return "Ball data alone: this is the club as you swing it, with no reason in it."


def _objects_odd_balls(decision: Decision) -> str | None:
    odd = len(decision.odd_balls)
    if odd == 0:
        return None
    verb = "is odd and counts" if odd == 1 else "are odd and count"
    return f"{odd} of {_balls(decision)} balls {verb} for less; none is left out."
