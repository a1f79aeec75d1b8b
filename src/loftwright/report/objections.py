"""The one thing a careful fitter would object to the sentence of a fitting."""

from math import isfinite

from loftwright.constants import YARD
from loftwright.evidence.result import Against, Decision, RankedOn, State
from loftwright.report.differences import largest_part, plainly_ahead
from loftwright.report.numbers import count, fixed
from loftwright.report.screen_numbers import TRADE, Show


def objection(decision: Decision, show: Show = TRADE) -> str:
    """Return the one thing a careful fitter would object to the sentence.

    Parameters
    ----------
    decision : Decision
    show : Show
        The units that distances are told in.

    Returns
    -------
    str
        The weightiest that holds; what no evening can show, when there is no other.
    """
    found = (
        _objects_too_few(decision)
        or _objects_device(decision)
        or _objects_own_not_hit(decision)
        or _objects_shorter(decision, show)
        or _objects_plain_averages(decision, show)
        or _objects_physics(decision)
        or _objects_ball_only(decision)
        or _objects_no_side(decision)
        or _objects_odd_balls(decision)
    )
    if found:
        return found
    balls = count(_balls(decision), "ball")
    verb = "show" if _balls(decision) != 1 else "shows"
    return f"{balls} cannot show which is straighter, but {verb} where each starts and curves."


def _objects_too_few(decision: Decision) -> str | None:
    if decision.state is not State.TOO_FEW:
        return None
    return "Two balls with each of two clubs are the least; some eight with each show something."


def _objects_no_side(decision: Decision) -> str | None:
    levels = [club.level for club in decision.clubs if club.level is not None]
    if not levels or any(isfinite(level.start_offline) for level in levels):
        return None
    return "Start direction or spin axis is missing, so nothing is said of left and right."


def _objects_device(decision: Decision) -> str | None:
    if decision.ranked_on is not RankedOn.DEVICE_CARRY:
        return None
    return "Launch and spin are not both given, so no reason and nothing about home is in it."


def _objects_own_not_hit(decision: Decision) -> str | None:
    if decision.against is Against.OWN:
        return None
    if decision.own is None:
        return "No own club is named, so nothing is said about keeping it."
    return f"{decision.own} has fewer than two balls: nothing is said to beat it."


def _objects_shorter(decision: Decision, show: Show) -> str | None:
    leader = decision.clubs[0]
    total = leader.as_you_swing_it.total if leader.as_you_swing_it else None
    if total is None or decision.own is None or total.mean > -YARD:
        return None
    by = f"{leader.club} is {show.yards(-total.mean)} shorter than {decision.own}"
    return f"{by}: it leads by where it finishes, not by how far."


def _objects_plain_averages(decision: Decision, show: Show) -> str | None:
    pair, ahead = plainly_ahead(decision)
    if pair is None or pair.raw_total is None:
        return None
    unit = show.unit("distance")
    by = f"by {fixed(max(1.0, round(ahead / unit.scale)))} {unit.name} over {pair.a}"
    listed = bool(decision.odd_balls)
    part = None if pair.parts is None else largest_part(pair.parts, -1.0, listed=listed)
    why = f": {part} most of it" if part else ""
    return f"The plain averages put {pair.b} first, {by}{why}."


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
    aside = sum(ball.weight == 0.0 for ball in decision.odd_balls)
    rest = f"{aside} of them set aside by the fitter" if aside else "none is left out"
    return f"{odd} of {_balls(decision)} balls {verb} for less; {rest}."


def _balls(decision: Decision) -> int:
    return sum(club.balls for club in decision.clubs)
