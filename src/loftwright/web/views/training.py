"""The training bay: the cases, the call of one, and what was true of it."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Hand
from loftwright.domain.names import OWN
from loftwright.report.marks import deal_marks
from loftwright.report.numbers import count, percent
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.report.truth_picture import truth_picture, truth_words
from loftwright.services.training_debrief import LookBack
from loftwright.services.training_plays import Played
from loftwright.services.training_words import DebriefWords, debrief_words, truth_lanes
from loftwright.training.case import Case
from loftwright.training.debrief import TOO_CLOSE, Debrief
from loftwright.web.views.evidence_pictures import Picture

MINUTE = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseRow:
    """A case that can be opened.

    Attributes
    ----------
    name : str
        What opens it.
    asks : str
        Hand, clubs, balls and minutes.
    open : tuple of (str, str)
        Where it was left: addresses and their words, the newest first.
    """

    name: str
    golfer: str
    brief: str
    goal: str
    asks: str
    open: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CasesView:
    """The page of all cases."""

    sentence: str
    rows: tuple[CaseRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CallView:
    """The page on which a club is called.

    Attributes
    ----------
    clubs : tuple of (str, str, str, int)
        Value, club, what is written on it, and balls hit.
    ready : bool
        Whether a ball was hit.
    """

    sentence: str
    brief: str
    clubs: tuple[tuple[str, str, str, int], ...]
    close: str
    ready: bool
    seen: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueRow:
    """One club in the table of what was true."""

    club: str
    shaft: str
    worth: str
    carry: str
    total: str
    plain: str
    said: str
    chance: str
    lead: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DebriefView:
    """The page after the call."""

    words: DebriefWords
    picture: Picture
    rows: tuple[TrueRow, ...]
    unit: str
    zero: str
    case: str
    seed: int


def cases_view(cases: Sequence[Case], played: Sequence[Played]) -> CasesView:
    """Return the cases with what was played of each; nothing of the truth."""
    rows = tuple(_case_row(case, played) for case in cases)
    called = {one.play.case for one in played if one.play.call}
    done = f", {count(len(called), 'case')} called so far" if called else ""
    return CasesView(
        sentence=f"Fit an invented golfer, call a club, then see what was true: "
        f"{count(len(cases), 'case')}{done}.",
        rows=rows,
    )


def _case_row(case: Case, played: Sequence[Played]) -> CaseRow:
    mine = [one for one in played if one.play.case == case.name]
    left = " left-hander," if case.hand is Hand.LEFT else ""
    return CaseRow(
        name=case.name,
        golfer=case.golfer,
        brief=" ".join(case.brief.split()),
        goal=case.goal,
        asks=f"{left} {len(case.clubs)} clubs, {case.balls} balls, "
        f"{case.seconds / MINUTE:.0f} minutes".strip(),
        open=tuple(_left(one) for one in mine),
    )


def _left(one: Played) -> tuple[str, str]:
    if one.play.call:
        call = "too close" if one.play.call == TOO_CLOSE else one.play.call
        return f"/training/{one.fitting}", f"Called {call}: look back"
    return f"/fittings/{one.fitting}/bay", "Go on in the bay"


def call_view(case: Case, now: FittingNow) -> CallView:
    """Return the page on which a club is called."""
    hit = {club.name: sum(ball.club == club.name for ball in now.balls) for club in now.clubs}
    ready = bool(now.balls)
    spent = f"after {count(len(now.balls), 'ball')} of {case.balls}"
    return CallView(
        sentence=f"Which club is it, {spent}? What was true is shown once you have called."
        if ready
        else "Let the golfer hit first: there is nothing to call yet.",
        brief=" ".join(case.brief.split()),
        clubs=tuple((club.name, club.name, club.card.shaft, hit[club.name]) for club in now.clubs),
        close=TOO_CLOSE,
        ready=ready,
        seen=now.upto,
    )


def debrief_view(back: LookBack, show: Show) -> DebriefView:
    """Return what was true of a case and what its call came to."""
    lanes, zero = truth_lanes(back.debrief)
    marks = deal_marks([lane.club for lane in lanes], OWN)
    words = truth_words(lanes, zero=zero, show=show)
    svg = for_screen(truth_picture(lanes, marks, zero=zero, show=show))
    return DebriefView(
        words=debrief_words(back, show),
        picture=Picture(heading="", svg=svg, words=words),
        rows=_rows(back.debrief, show),
        unit=show.unit("distance").name,
        zero=zero,
        case=back.case.name,
        seed=back.seed,
    )


def _rows(found: Debrief, show: Show) -> tuple[TrueRow, ...]:
    unit = show.unit("distance").scale
    lanes = {lane.club: lane for lane in truth_lanes(found)[0]}
    chances = found.end.chances if found.end else {}
    rows = []
    for one in found.clubs:
        lane = lanes[one.club]
        ranked = lane.low is not None and lane.high is not None
        rows.append(
            TrueRow(
                club=one.club,
                shaft=one.shaft,
                worth=show.signed(lane.truth / unit),
                carry=show.signed(one.carry / unit),
                total=show.signed(one.total / unit),
                plain="–" if lane.plain is None else show.signed(lane.plain / unit),
                said=show.yards_range(lane.low or 0.0, lane.high or 0.0) if ranked else "–",
                chance=percent(chances[one.club]) if one.club in chances else "–",
                lead=one.club == found.best,
            )
        )
    return tuple(rows)
