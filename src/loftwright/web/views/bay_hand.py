"""The clubs in hand and next, and what is left of the visit; to be read from three metres."""

from dataclasses import dataclass

from loftwright.bay.next_set import Step
from loftwright.bay.now import ClubNow
from loftwright.report.bay_words import minutes_left, setting_words
from loftwright.services.bay_now import BayNow


@dataclass(frozen=True, slots=True, kw_only=True)
class FarClub:
    """One name in large letters.

    Attributes
    ----------
    club : str
        Empty where there is none; then `words` stand instead.
    fact, verdict : str
        How its sleeve stands.
    """

    label: str
    club: str
    words: str = ""
    fact: str = ""
    verdict: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandView:
    """What stands in large letters."""

    in_hand: FarClub
    next: FarClub
    minutes: str
    balls: str


def hand_view(bay: BayNow) -> HandView:
    """Return the names and figures in large letters."""
    left = bay.pace.balls_left
    return HandView(
        in_hand=_in_hand(bay),
        next=_next(bay),
        minutes=minutes_left(bay.pace),
        balls="–" if left is None else str(left),
    )


def _in_hand(bay: BayNow) -> FarClub:
    club = bay.now.club(bay.now.in_hand or "")
    if club is None:
        return FarClub(label="In hand", club="", words="none", fact="No club was handed over yet.")
    return _far("In hand", club, bay, in_hand=True)


def _next(bay: BayNow) -> FarClub:
    step, wanted = bay.next.step, bay.now.club(bay.next.club or "")
    if wanted is not None and wanted.name != bay.now.in_hand:
        return _far("Next", wanted, bay, in_hand=False)
    if step is Step.STAY and wanted is not None:
        return FarClub(
            label="Next", club="", words=f"{bay.next.balls} more", fact=f"With {wanted.name}."
        )
    words, fact = _OTHER.get(step, ("–", ""))
    return FarClub(label="Next", club="", words=words, fact=fact)


_OTHER = {
    Step.WARM_UP: ("warm", "Balls are not compared yet."),
    Step.STOP: ("stop", "Nobody swings again today."),
    Step.DONE: ("done", "Nothing more is planned."),
    Step.FREE: ("any", "Your choice."),
}


def _far(label: str, club: ClubNow, bay: BayNow, *, in_hand: bool) -> FarClub:
    fact, verdict = setting_words(club, bay.now.seen, in_hand=in_hand)
    return FarClub(label=label, club=club.name, fact=fact, verdict=verdict)
