"""A called case in sentences."""

from dataclasses import dataclass

import numpy as np

from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.domain.names import OWN
from loftwright.evidence.result import State
from loftwright.report.numbers import LIKELY_RANGE, count, listed, percent
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.truth_picture import TruthLane
from loftwright.services.training_debrief import LookBack
from loftwright.training.debrief import TOO_CLOSE, Debrief, Moment, Without, strokes_a_round
from loftwright.training.golfer import HEAD_SPEED, SWING_UNITS, TOE

NO_COST = 0.05 * YARD
"""What a call may give up and still cost nothing as it is printed."""

UNEVEN = 0.5 * MILE_PER_HOUR
"""Less than this, a warm-up fell on all clubs alike."""

_SEEN = (np.array([0.05, 0.05, 0.05, 0.05, 0.05, 0.5, 0.5]) * SWING_UNITS).tolist()
_WAYS = (
    ("more head speed", "less head speed"),
    ("more upward attack", "more downward attack"),
    ("more in-to-out path", "more out-to-in path"),
    ("of a more open face", "of a more closed face"),
    ("more loft at impact", "less loft at impact"),
    ("nearer the toe", "nearer the heel"),
    ("higher on the face", "lower on the face"),
)
"""What a club does more or less of, in swing columns."""

_SURENESS = {
    State.STRONG: "sure enough to say so",
    State.GOOD_ENOUGH: "good enough to stop",
    State.TOO_CLOSE: "too close to call",
    State.TOO_FEW: "with too few balls to say anything",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class DebriefWords:
    """A called case in sentences.

    Attributes
    ----------
    sentence : str
        What was true and what the call cost.
    said : tuple of str
        What averages and the comparison said.
    decided : tuple of str
        Which balls moved it, and what went wrong.
    lesson : str
    """

    sentence: str
    said: tuple[str, ...]
    decided: tuple[str, ...]
    lesson: str


def debrief_words(back: LookBack, show: Show = TRADE) -> DebriefWords:
    """Return a called case in sentences, figures in the shop's units."""
    found = back.debrief
    return DebriefWords(
        sentence=_sentence(found, show),
        said=tuple(_said(back, show)),
        decided=(
            *_apart(found, show),
            *(_moment(one) for one in found.moments),
            *(_without(one, found, show) for one in found.without),
            *_dropped(back),
            *_cold(back, show),
        ),
        lesson=" ".join(back.case.lesson.split()),
    )


def debrief_lines(back: LookBack, show: Show = TRADE) -> list[str]:
    """Return a called case for a terminal: the answer, the table, what decided it, the lesson."""
    words, found = debrief_words(back, show), back.debrief
    unit = show.unit("distance")
    head = f"{'':<8}{'truly worth':>12}{'averaged':>10}  shaft"
    lanes, zero = truth_lanes(found)
    rows = [head]
    for lane, club in zip(lanes, found.clubs, strict=True):
        worth = show.signed(lane.truth / unit.scale)
        plain = "–" if lane.plain is None else show.signed(lane.plain / unit.scale)
        rows.append(f"{club.club:<8}{worth:>12}{plain:>10}  {club.shaft}")
    return [
        words.sentence,
        "",
        f"In {unit.name} against {zero}:",
        *rows,
        "",
        *words.said,
        *words.decided,
        "",
        words.lesson,
    ]


def _sentence(found: Debrief, show: Show) -> str:
    called = "that it is too close to call" if found.call == TOO_CLOSE else found.call
    if len(found.alike) == len(found.clubs):
        verdict = "There was nothing to find: all clubs are worth the same"
        if found.call == TOO_CLOSE:
            return f"{verdict}, and you called it so."
        return f"{verdict}, your call of {called} costs {_cost(found.cost, show)}."
    if found.kept == found.best:
        own = found.call == TOO_CLOSE
        how = "you kept it, too close to call" if own else "you called it"
        return f"{found.best} was best, and {how}."
    near = " by less than a yard" if found.kept in found.alike else ""
    return f"{found.best} was best{near}: your call, {called}, costs {_cost(found.cost, show)}."


def _cost(length: float, show: Show) -> str:
    if length < NO_COST:
        return "nothing"
    strokes = show.number(strokes_a_round(length), 2)
    figure = show.number(length / show.unit("distance").scale, 1)
    return f"{figure} {show.unit('distance').name}, {strokes} strokes a round"


def _said(back: LookBack, show: Show) -> list[str]:
    found, end = back.debrief, back.debrief.end
    spent = f"You spent {count(found.balls, 'ball')} of {back.case.balls}."
    if end is None or end.plain_pick is None or found.plain_cost is None:
        return [spent, "Nothing could be compared: every ball lacked a launch number."]
    lines = [
        f"At the same balls plain averages would have said {end.plain_pick}, which costs "
        f"{_cost(found.plain_cost, show)}."
    ]
    if end.pick is None or found.tool_cost is None:
        lines.append("The comparison had no leader yet: too few balls with two clubs.")
    else:
        lines.append(
            f"The comparison had {end.pick} in front, best with a chance of "
            f"{percent(end.chances[end.pick])}, {_SURENESS[end.state]}; that costs "
            f"{_cost(found.tool_cost, show)}."
        )
    return [*lines, spent]


def _apart(found: Debrief, show: Show) -> list[str]:
    """Return what the best club does that the own one, or the next best, does not."""
    best = found.clubs[0]
    other = next((one for one in found.clubs if one.club == OWN and one is not best), None)
    other = other or found.clubs[1]
    told = [
        _does(column, length, show)
        for column, length in enumerate(
            one - against for one, against in zip(best.does, other.does, strict=True)
        )
        if abs(length) > _SEEN[column]
    ]
    if not told:
        return [] if len(found.alike) < len(found.clubs) else ["Every club does the same."]
    return [f"What sets {best.club} apart from {other.club}: {listed(told)}."]


def _does(column: int, amount: float, show: Show) -> str:
    size = abs(amount)
    figure = (
        show.speed(size)
        if column == HEAD_SPEED
        else show.mark(size)
        if column >= TOE
        else show.angle(size)
    )
    return f"{figure} {_WAYS[column][0 if amount > 0.0 else 1]}"


def _cold(back: LookBack, show: Show) -> list[str]:
    """Return what a slow warm-up took from each club, where it took more from one than another."""
    if not back.cold or max(back.cold.values()) - min(back.cold.values()) < UNEVEN:
        return []
    by_club = [f"{show.speed(speed)} with {club}" for club, speed in back.cold.items()]
    return [
        f"The golfer was still warming up: on average head speed was short by {listed(by_club)}."
    ]


def _moment(one: Moment) -> str:
    after, before = one.snapshot, one.before
    balls = (
        f"Ball {after.first}"
        if after.first == after.last
        else f"Balls {after.first} to {after.last}"
    )
    was, became = before.chances[one.club], after.chances[one.club]
    way = "rose" if became > was else "fell"
    chance = f"the chance that {one.club} is best {way} from {percent(was)} to {percent(became)}"
    if before.pick != after.pick:
        lead = f"the lead went from {before.pick} to {after.pick}"
        return f"{balls} with {after.club}: {lead}; {chance}."
    return f"{balls} with {after.club}: {chance}, and {after.pick} stayed in front."


def _without(one: Without, found: Debrief, show: Show) -> str:
    moved = [
        f"{show.mark(abs(length))} {word}"
        for length, word in (
            (one.high, "higher" if one.high > 0.0 else "lower"),
            (one.toe, "nearer the toe" if one.toe > 0.0 else "nearer the heel"),
        )
        if length
    ]
    balls = listed([str(ball) for ball in one.balls])
    end = found.end
    plain = end.plain_pick if end else None
    pick = end.pick if end else None
    first = f"Balls {balls} with {one.club} were struck {listed(moved)} than usual."
    return (
        f"{first} Without them plain averages would {_still(plain, one.plain_pick)}, "
        f"and the comparison would {_still(pick, one.pick)}."
    )


def _still(before: str | None, after: str | None) -> str:
    if after is None:
        return "have said nothing"
    if before == after:
        return f"have said {after} all the same"
    return f"have said {after} instead of {before or 'nothing'}"


def _dropped(back: LookBack) -> list[str]:
    if not back.dropped:
        return []
    said = (
        "none was"
        if not back.noted
        else f"{back.noted} of them {'was' if back.noted == 1 else 'were'}"
    )
    waiting = (
        f" {count(back.waiting, 'mark')} still waited for a ball at the call."
        if back.waiting
        else ""
    )
    was = "was" if back.dropped == 1 else "were"
    return [
        f"{count(back.dropped, 'ball')} {was} hit and not read; {said} said to be so.{waiting}"
    ]


def truth_lanes(found: Debrief) -> tuple[tuple[TruthLane, ...], str]:
    """Return truth, averages and ranges against one zero, and what that is.

    Returns
    -------
    tuple of (tuple of TruthLane, str)
        Zero is the own club, or the mean of the clubs compared where the own one was not.
    """
    end = found.end
    said = end.said if end else {}
    own = end is None or end.against_own
    truth = {one.club: one.value for one in found.clubs}
    plain = dict(end.plain) if end else {}
    level = 0.0 if own or not said else sum(truth[club] for club in said) / len(said)
    zero = [club for club in ((OWN,) if own else tuple(said)) if club in plain]
    average = sum(plain[club] for club in zero) / len(zero) if zero else None
    lanes = []
    for one in found.clubs:
        ranked = one.club in said and not (own and one.club == OWN)
        interval = said[one.club].interval(LIKELY_RANGE) if ranked else (None, None)
        known = average is not None and one.club in plain
        lanes.append(
            TruthLane(
                club=one.club,
                truth=one.value - level,
                plain=plain[one.club] - (average or 0.0) if known else None,
                low=interval[0],
                high=interval[1],
            )
        )
    return tuple(lanes), "Own" if own else "the mean of the clubs"
