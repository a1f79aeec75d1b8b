"""The sentences of the bay: what to do next and why, when to stop, and what an act is called."""

from dataclasses import dataclass
from math import ceil
from typing import Final

from loftwright.bay.next_set import NextSet, Step
from loftwright.bay.now import ClubNow, FittingNow, LastAct
from loftwright.bay.pace import Pace
from loftwright.domain.names import OWN
from loftwright.evidence.result import Decision, NextClub
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.wording import objection, sentence

_NUMBERS: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_ACTS: Final = {
    "WarmUpDone": "warm-up done",
    "ClubJoined": "new club",
    "ClubDropped": "dropped",
    "Vetoed": "veto",
    "Planned": "plan",
    "HandedOver": "hand-over",
    "SettingSeen": "sleeve seen",
    "StripChanged": "conditions",
    "NotRead": "not read",
    "Marked": "mark",
    "NoMark": "no mark",
    "SetMarked": "set of marks",
    "MarksJoined": "join",
    "MarksShifted": "moved marks",
    "MarkDropped": "dropped mark",
    "NotOurs": "not ours",
    "OddBall": "odd ball",
    "RunMoved": "moved run",
    "RunSet": "run's sleeve",
    "Felt": "feel",
    "Rested": "rest",
    "PainSaid": "pain",
    "Revealed": "reveal",
    "Closed": "closing",
}
_OF_A_CLUB: Final = frozenset({"ClubDropped", "Vetoed", "Felt", "HandedOver", "RunMoved"})
NEARLY: Final = 5
"""A rest is announced this many swings before it is due."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BayFacts:
    """What the sentence rests on.

    Attributes
    ----------
    proposed : NextClub, optional
        The evidence's own proposal.
    waits_for : str
        Name of the golfer whose turn it is, if that is the other one.
    """

    now: FittingNow
    next: NextSet
    pace: Pace
    proposed: NextClub | None = None
    decision: Decision | None = None
    waits_for: str = ""
    ask_club: bool = False
    show: Show = TRADE


@dataclass(frozen=True, slots=True, kw_only=True)
class BaySentence:
    """What the page says first.

    Attributes
    ----------
    say : str
    under : str
        What a careful fitter would add.
    """

    say: str
    under: str = ""


def bay_sentence(facts: BayFacts) -> BaySentence:
    """Return what to do now, with its reason.

    Parameters
    ----------
    facts : BayFacts
    """
    now = facts.now
    if now.closed:
        return BaySentence(
            say="This fitting is closed: it takes corrections, no balls.",
            under="Open it again if another ball is to be hit.",
        )
    if facts.waits_for:
        return BaySentence(
            say=f"{facts.waits_for} hits now.",
            under="Balls go into that golfer's record until you switch.",
        )
    if facts.ask_club and now.in_hand:
        return BaySentence(
            say=f"Still {now.in_hand}?",
            under="The ball came after a pause in which nobody named a club.",
        )
    return _STEPS[facts.next.step](facts)


def undo_words(last: LastAct | None) -> str:
    """Return what the button that cancels the last act is called: `Undo mark`."""
    return "" if last is None else f"Undo {_act_words(last)}"


def repeat_words(last: LastAct | None) -> str:
    """Return what the button that does an undone act again is called."""
    return "" if last is None else f"Do {_act_words(last)} again"


def setting_words(club: ClubNow, seen: str | None, *, in_hand: bool) -> tuple[str, str]:
    """Return how a club's sleeve stands, as a fact and its verdict.

    Parameters
    ----------
    club : ClubNow
    seen : str, optional
        What was seen since it was handed over.
    in_hand : bool
    """
    if not club.card.settings:
        return "Glued: no sleeve to look at.", ""
    planned = club.card.setting
    if not in_hand or seen is None:
        return f"Planned: {planned}.", "Not seen yet"
    if seen == planned:
        return f"Sleeve seen: {seen}.", "As planned"
    return f"Sleeve seen: {seen}; planned {planned}.", "Not as planned"


def care_words(facts: BayFacts, limits: str, held: str = "") -> str:
    """Return the one caution of the page.

    Parameters
    ----------
    facts : BayFacts
    limits : str
        What the golfer's body allows today.
    held : str
        Why the club in hand may not be hit.
    """
    now, pace = facts.now, facts.pace
    if now.pain:
        return "Pain was said. Nobody swings again today."
    if held:
        return f"Do not hit {now.in_hand}: {held}. Take another club."
    told = [f"Today: {limits}."] if limits else []
    if now.visit is not None and not now.closed:
        if pace.rest_in == 0:
            told.append("Rest now.")
        elif pace.rest_in <= NEARLY:
            told.append(f"Rest in {count(pace.rest_in, 'swing')}.")
    told.append("Pain stops the test.")
    return " ".join(told)


def minutes_left(pace: Pace) -> str:
    """Return whole minutes that are left; a dash where nobody counts."""
    return "–" if pace.seconds_left is None else f"{ceil(pace.seconds_left / 60.0)}"


def _act_words(last: LastAct) -> str:
    words = _ACTS.get(last.kind, "last act")
    return f"{words} of {last.club}" if last.club and last.kind in _OF_A_CLUB else words


def _open(_: BayFacts) -> BaySentence:
    return BaySentence(
        say="Open today's visit before the first ball.",
        under="The plan asks for device, ball and tee height.",
    )


def _warm_up(facts: BayFacts) -> BaySentence:
    swings = facts.now.swings_today
    club = facts.next.club
    return BaySentence(
        say=f"Warm up with {club} first." if club else "Warm up first.",
        under=f"{count(swings, 'swing')} so far; none is compared until the golfer is warm.",
    )


def _stay(facts: BayFacts) -> BaySentence:
    club, balls = facts.next.club, facts.next.balls
    number = _NUMBERS[balls] if balls < len(_NUMBERS) else str(balls)
    say = f"{number.capitalize()} more {'ball' if balls == 1 else 'balls'} with {club}."
    return BaySentence(say=say, under=_reason(facts))


def _hand_over(facts: BayFacts) -> BaySentence:
    club = facts.next.club or ""
    hit = {one.club for one in facts.now.balls}
    if facts.proposed is not None and facts.proposed.club.split(",")[0] == club and club in hit:
        why = facts.proposed.why
        short = why.removeprefix(f"{club} ")
        return BaySentence(
            say=f"Hand over {club} next: it {short}."
            if short != why
            else f"Hand over {club} next.",
            under=_reason(facts) if short != why else f"{why.capitalize()}.",
        )
    if club == OWN:
        return BaySentence(
            say=f"Hand over {club} next: it is the own club's turn.",
            under="It comes at start, middle and end: hit only at the start it shows the warm-up.",
        )
    if club not in hit:
        return BaySentence(say=f"Hand over {club} next: it was not hit yet.", under=_reason(facts))
    return BaySentence(say=f"Hand over {club} next, by the plan.", under=_reason(facts))


def _reason(facts: BayFacts) -> str:
    """Return what the next balls are expected to bring, and how many there are."""
    proposed = facts.proposed
    same = proposed is not None and proposed.club.split(",")[0] == facts.next.club
    if same and proposed is not None and proposed.gain is not None and proposed.gain > 0.0:
        unit = facts.show.unit("distance")
        gain = facts.show.number(max(proposed.gain / unit.scale, 0.1), 1)
        return f"A ball with it is expected to gain {gain} {unit.name} on today's choice."
    if facts.decision is not None and facts.decision.clubs:
        return sentence(facts.decision, facts.show)
    return "Too few balls to say anything of these clubs yet."


def _free(_: BayFacts) -> BaySentence:
    return BaySentence(
        say="Hand over the club you want to see next.",
        under="Launch and spin are not both measured, so nothing is proposed.",
    )


def _done(facts: BayFacts) -> BaySentence:
    if facts.decision is None:
        return BaySentence(say="Every planned ball was hit.", under="None could be compared.")
    left = facts.pace.balls_left
    why = "Every planned ball was hit." if left == 0 else "More balls would not change the choice."
    return BaySentence(say=f"Stop here. {sentence(facts.decision, facts.show)}", under=why)


def _stop(facts: BayFacts) -> BaySentence:
    if facts.now.pain:
        return BaySentence(
            say="Stop: the golfer feels pain. Nobody swings again today.",
            under="A doctor or physiotherapist says when; every ball so far is kept.",
        )
    why = "" if facts.decision is None else objection(facts.decision, facts.show)
    return BaySentence(
        say=f"Stop: {count(facts.pace.swings, 'swing')} of {facts.pace.cap} are enough.",
        under=why or "The cap is a judgement and counts warm-up and unread balls.",
    )


_STEPS: Final = {
    Step.OPEN: _open,
    Step.WARM_UP: _warm_up,
    Step.STAY: _stay,
    Step.HAND_OVER: _hand_over,
    Step.FREE: _free,
    Step.DONE: _done,
    Step.STOP: _stop,
}
