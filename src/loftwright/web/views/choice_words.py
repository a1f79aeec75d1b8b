"""Which one, in sentences: what decides, why not the dearer one, and what 40 balls cannot show."""

from collections.abc import Sequence
from typing import Final

from loftwright.domain.names import OWN
from loftwright.evidence.advice import Call, advise
from loftwright.evidence.claims import SHAPE_SHOWN
from loftwright.evidence.result import Decision, RankedOn
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import hedge, objection, sentence
from loftwright.services.choice import Choice, ChoiceRow, Group, Way

NOTHING_YET: Final = "Nothing to choose from yet: two clubs with two balls each are enough."
MARGIN: Final = "What the shop earns on a club is in no order on this page."
_UNSEEN_BALLS: Final = "Balls come in on the bay’s page."


def choice_sentence(choice: Choice, decision: Decision | None, show: Show) -> str:
    """Return the answer of the page.

    Parameters
    ----------
    choice : Choice
    decision : Decision, optional
    show : Show
    """
    first = first_group(choice)
    if decision is None or first is None:
        return NOTHING_YET if decision is None else sentence(decision, show)
    close = advise(decision).call in {Call.TOO_CLOSE, Call.CHANGE, Call.LEADER} and first.close
    if not close or any(row.club == OWN for row in first.rows):
        return sentence(decision, show)
    names = listed([row.label for row in first.rows])
    return f"{names} are too close to call today; {what_decides(first)}."


def choice_objection(decision: Decision | None, show: Show) -> str:
    """Return the one thing that a careful fitter would object."""
    return _UNSEEN_BALLS if decision is None else objection(decision, show)


def first_group(choice: Choice) -> Group | None:
    """Return the best ranked group."""
    return next((group for group in choice.groups if group.ranked), None)


def pick(choice: Choice, decision: Decision | None) -> ChoiceRow | None:
    """Return the row that is held against dearer ones: the own club in a tie, and to keep."""
    first = first_group(choice)
    if decision is None or first is None:
        return None
    rows = [row for group in choice.groups if group.ranked for row in group.rows]
    call = advise(decision).call
    own = next((row for row in rows if row.club == OWN), None)
    tied = own in first.rows and call is Call.TOO_CLOSE
    if own is not None and (call is Call.KEEP_OWN or tied):
        return own
    return first.rows[0] if call in {Call.CHANGE, Call.LEADER} or first.close else None


def what_decides(group: Group) -> str:
    """Return what parts the first of a close group from the next, in words."""
    lead, second = group.rows[0], group.rows[1]
    if lead.feel is not None and lead.feel != second.feel:
        return f"feel decides for {lead.label}"
    if lead.price is not None and lead.price != second.price:
        return f"price decides for {lead.label}"
    return "neither feel nor price parts them yet"


def group_heading(group: Group, number: int, *, device: bool = False) -> str:
    """Return what stands over a group.

    Parameters
    ----------
    group : Group
    number : int
        Of the ranked groups before it.
    device : bool
        Whether clubs are ranked on the device's own carry.
    """
    if group.ranked:
        own = any(row.club == OWN for row in group.rows)
        if group.close:
            against = " with Own, which ends its group" if own else ""
            return f"Too close to call{against}: feel first, then price"
        by = "carry on the device" if device else "score"
        return f"The best by {by}" if number == 0 else f"Behind it by {by}"
    if all(row.way is Way.OUTSIDE for row in group.rows):
        return "Not drivers: never ranked"
    if all(row.way is Way.OUT for row in group.rows):
        return "Not in the running"
    return "Not hit, or too few balls: never ranked"


def why_not_dearer(choice: Choice, decision: Decision | None, show: Show, currency: str) -> str:
    """Return in one line why the dearest ranked club is not the pick.

    Parameters
    ----------
    choice : Choice
    decision : Decision, optional
    show : Show
    currency : str
    """
    chosen = pick(choice, decision)
    if decision is None or chosen is None:
        return ""
    rows = [row for group in choice.groups if group.ranked for row in group.rows]
    paid = 0 if chosen.club == OWN else chosen.price
    if paid is None:
        return f"{chosen.label} has no price yet, so nothing is called dearer."
    dearer = [row for row in rows if row.price is not None and row.price > paid]
    if not dearer:
        return f"No club that was hit is dearer than {chosen.label}."
    worst = max(dearer, key=lambda row: row.price or 0)
    more = show.money((worst.price or 0) - paid, currency)
    return f"{worst.label} costs {more} more, and {_no_better(decision, chosen, worst)}."


def straighter(balls: int, decision: Decision) -> str:
    """Return what no evening can show, and what it shows instead where sides were given."""
    told = f"{count(balls, 'ball')} cannot show which is straighter"
    if not any(claim.may for claim in decision.claims if claim.say == SHAPE_SHOWN):
        return f"{told}, nor where each starts and curves."
    verb = "it shows" if balls == 1 else "they show"
    return f"{told}; {verb} where each starts and curves."


def _no_better(decision: Decision, chosen: ChoiceRow, other: ChoiceRow) -> str:
    does = "scores better"
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        does = "carries further on the device"
    p = _better(decision, chosen.label, other.label)
    words = None if p is None else hedge(p)
    if words is not None:
        return f"{chosen.label} {words}{does}"
    p = _better(decision, other.label, chosen.label)
    words = None if p is None else hedge(p)
    if words is not None:
        return f"though it {words}{does}, it is not sure enough to pay for"
    return f"whether it {does} is too close to call"


def _better(decision: Decision, a: str, b: str) -> float | None:
    for pair in decision.pairs:
        if pair.p_a_better is None:
            continue
        if (pair.a, pair.b) == (a, b):
            return pair.p_a_better
        if (pair.a, pair.b) == (b, a):
            return 1.0 - pair.p_a_better
    return None


def not_hit_note(rows: Sequence[ChoiceRow]) -> str:
    """Return what is asked for before anything that was not hit is ordered."""
    unhit = {Way.TURN_SLEEVE, Way.NEW_SHAFT, Way.OWN_NOT_HIT, Way.NOT_HIT}
    if not any(row.way in unhit for row in rows):
        return ""
    return (
        "A row marked not hit stands on physics and on the clubs that share its head or its "
        "shaft: five confirming balls before an order."
    )
