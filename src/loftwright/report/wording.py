"""The sentence that answers a fitting, its certainty in the verb.

The certainty follows the probability that the claim is true. A claim about distance rests on the
probability of the distance, the advice on that of the score.
"""

import re
from typing import Final

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
    RankedOn,
)
from loftwright.report.numbers import LIKELY_RANGE, fixed, listed
from loftwright.report.objections import objection
from loftwright.report.screen_numbers import TRADE, Show

__all__ = [
    "asks_for_balls",
    "by_count",
    "hedge",
    "objection",
    "reference",
    "sentence",
    "which_figure",
]

LADDER: Final = ((0.95, ""), (0.80, "very likely "), (PROBABLY, "probably "))
"""Probability that a claim is true, and the words before its verb; below: too close to call."""
LONGEST: Final = 90
"""Characters of a sentence, where the names of the clubs allow it."""


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


def sentence(decision: Decision, show: Show = TRADE) -> str:
    """Return the answer of a fitting in one sentence.

    Parameters
    ----------
    decision : Decision
    show : Show
        The units and the decimal mark that distances are told in.

    Returns
    -------
    str
        90 characters at most, unless the clubs' own names are long.
    """
    advice = advise(decision)
    if advice.call is Call.TOO_FEW:
        return _too_few(decision)
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return _device_carry(decision, advice, show)
    if advice.call is Call.CHANGE:
        return _change(decision, advice, show)
    if advice.call is Call.KEEP_OWN:
        return _keep_own(decision, advice, show)
    return (_leader if advice.call is Call.LEADER else _too_close)(decision, advice)


def asks_for_balls(decision: Decision) -> bool:
    """Return whether more balls are asked for, rather than named in case any are hit."""
    advice = advise(decision)
    return advice.call is not Call.TOO_CLOSE or advice.more_balls_tell is not False


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


def by_count(text: str, counts: str) -> str:
    """Return words of the comparison about rows as the reader of a fitting counts: in balls."""
    return text if counts == "row" else re.sub(r"\b([Rr]ow)(s?)\b", _ball_for_row, text)


def _ball_for_row(found: re.Match[str]) -> str:
    return ("Ball" if found[1] == "Row" else "ball") + found[2]


def _club(decision: Decision, name: str | None) -> ClubResult:
    return next(club for club in decision.clubs if club.club == name)


def _further(estimate: Estimate, show: Show) -> str:
    """Return `1 to 10 yd`, or `up to 10 yd` when the lower end is nothing."""
    unit = show.unit("distance")
    low, high = (round(end / unit.scale) for end in estimate.interval(LIKELY_RANGE))
    most = f"{fixed(high)} {unit.name}"
    if low >= 1:
        return most if low == high else f"{fixed(low)} to {most}"
    return f"up to {most}"


def _too_few(decision: Decision) -> str:
    enough = [club.club for club in decision.clubs if club.balls >= 2]
    if len(decision.clubs) == 1:
        return f"Only {decision.clubs[0].club} was hit: a second club is needed to compare."
    if len(enough) == 1:
        return f"Too few balls to compare: only {enough[0]} was hit twice."
    if not enough:
        return "Too few balls to compare: no club was hit twice."
    return "Too few balls to say anything of these clubs."


def _device_carry(decision: Decision, advice: Advice, show: Show) -> str:
    shown = "Carry as this device shows it"
    words = hedge(advice.p or 0.0)
    if advice.call is Call.KEEP_OWN and advice.leader != decision.own:
        leads = f"{advice.leader} {words}leads {decision.own}"
        return f"{shown}: {leads}, not surely enough to leave it."
    if words is None:
        return f"{shown}: {advice.leader} and {advice.other} are too close to call."
    carry = _club(decision, advice.leader).device_carry
    by = ""
    if carry is not None and decision.against is Against.OWN and advice.other == decision.own:
        by = f"{_further(carry, show)} "
    return f"{shown}: {advice.leader} {words}goes {by}further than {advice.other}."


def _claim(decision: Decision, advice: Advice, show: Show) -> str:
    """Return what the leader does against the own club, in distance where that holds."""
    leader = _club(decision, advice.leader)
    total = leader.as_you_swing_it.total if leader.as_you_swing_it else None
    if total is not None:
        words = hedge(chance_above(total))
        if words is not None:
            by = _further(total, show)
            return f"{advice.leader} {words}goes {by} further than {advice.other}"
    words = hedge(advice.p or 0.0) or ""
    return f"{advice.leader} {words}scores better at home than {advice.other}"


def _change(decision: Decision, advice: Advice, show: Show) -> str:
    claim = f"As you swing it, {_claim(decision, advice, show)}"
    if not advice.rivals:
        return f"{claim}."
    named = f"{claim}; {listed(advice.rivals)} may be as good."
    if len(named) <= LONGEST or len(advice.rivals) == 1:
        return named
    return f"{claim}; {len(advice.rivals)} more may match it."


def _keep_own(decision: Decision, advice: Advice, show: Show) -> str:
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
        # The threshold is a yard, which is less than a metre too.
        gain_words = f"{advice.leader} should gain less than {show.one_length}"
        return f"Keep {own}: as you swing it, {gain_words}."
    words = hedge(advice.p or 0.0) or ""
    return (
        f"Keep {own} for now: as you swing it, {advice.leader} is {words}better, "
        "but not surely enough."
    )


def _leader(decision: Decision, advice: Advice) -> str:
    words = hedge(advice.p_against_all or 0.0) or ""
    number = sum(club.p_best is not None for club in decision.clubs)
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
