"""What we saw: both figures, why two clubs differ, odd balls, strikes, and what may be said."""

from collections.abc import Mapping
from dataclasses import dataclass

from loftwright.bay.cancelled import standing_entries
from loftwright.bay.now import FittingNow
from loftwright.domain.acts import Entry, OddBall
from loftwright.domain.names import OWN
from loftwright.evidence.advice import MORE_BALLS, advise
from loftwright.evidence.decide import FEWEST_BALLS
from loftwright.evidence.result import (
    Claim,
    Decision,
    Pair,
    RankedOn,
)
from loftwright.evidence.result import (
    OddBall as Odd,
)
from loftwright.report.belief_words import before_words
from loftwright.report.claim_words import told_claims
from loftwright.report.differences import explained_pair, parts_note, shown_parts
from loftwright.report.marks import Mark, deal_marks
from loftwright.report.numbers import listed, percent
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import by_count, objection, reference, sentence
from loftwright.services.bay_now import BayNow
from loftwright.web.views.evidence_clubs import ClubRow, club_row
from loftwright.web.views.evidence_pictures import (
    Picture,
    parts_picture,
    ranges_picture,
    strikes_picture,
)
from loftwright.web.views.nothing_yet import (
    AS_READ,
    ONE_MORE_COLUMN,
    nothing_yet,
    without_columns,
    without_drivers,
)
from loftwright.web.views.outside import OutsideView, outside_balls, outside_view

NOTHING_YET = "Nothing to compare yet: two clubs with two balls each are enough to begin."


@dataclass(frozen=True, slots=True, kw_only=True)
class PairChoice:
    """Two clubs whose difference can be looked at."""

    a: str
    b: str
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Why two plain averages differ, in parts that add up as shown."""

    a: str
    b: str
    picture: Picture | None
    parts: tuple[tuple[str, str], ...]
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OddRow:
    """A ball that counts for less than half, and the tap that sets it aside or takes that back.

    Attributes
    ----------
    ball : int, optional
        Its sequence, where it can be set aside.
    undo : int, optional
        Sequence of the act that set it aside.
    """

    number: int
    weight: str
    why: str
    ball: int | None
    undo: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class EvidenceView:
    """The page."""

    sentence: str
    objection: str
    against: str
    picture: Picture | None
    device_carry: bool
    ended: tuple[tuple[str, str], ...]
    no_same: str
    clubs: tuple[ClubRow, ...]
    choices: tuple[PairChoice, ...]
    why: Why | None
    odd: tuple[OddRow, ...]
    refused: tuple[str, ...]
    strikes: Picture | None
    open_questions: tuple[str, ...]
    believed: str
    lost: bool
    may: tuple[Claim, ...]
    may_not: tuple[Claim, ...]
    doubts: tuple[str, ...]
    outside: OutsideView | None
    seen: int


def evidence_view(
    bay: BayNow, record: tuple[Entry, ...], show: Show, *, a: str = "", b: str = ""
) -> EvidenceView:
    """Return the page of what was seen.

    Parameters
    ----------
    bay : BayNow
    record : tuple of Entry
        For the acts that set balls aside.
    show : Show
    a, b : str
        The two clubs whose difference is explained; those that need it most without them.
    """
    now, decision = bay.now, bay.evidence.decision
    if decision is None:
        return _empty(bay, show)
    marks = deal_marks([club.club for club in decision.clubs], OWN)
    claims = told_claims(decision.claims, show)
    pair = _chosen(decision, a, b)
    return EvidenceView(
        sentence=sentence(decision, show),
        objection=objection(decision, show),
        against=reference(decision),
        picture=ranges_picture(decision, marks, show, {}),
        device_carry=decision.ranked_on is RankedOn.DEVICE_CARRY,
        ended=tuple((club.name, club.out) for club in now.clubs if club.out),
        no_same=_no_same(decision),
        clubs=tuple(club_row(decision, club, show) for club in decision.clubs),
        choices=tuple(
            PairChoice(a=one.a, b=one.b, chosen=one == pair)
            for one in decision.pairs
            if one.parts is not None
        ),
        why=_why(pair, show, len({one.visit for one in now.balls})),
        odd=_odd(decision, now, record),
        refused=_refused(bay),
        strikes=_strikes(now, marks, bay),
        open_questions=_open(decision),
        believed=before_words(decision.believed),
        lost=decision.believed.lost,
        may=tuple(claim for claim in claims if claim.may),
        may_not=tuple(claim for claim in claims if not claim.may),
        doubts=_doubts(bay, decision, show),
        outside=outside_view(now, show),
        seen=now.upto,
    )


def _refused(bay: BayNow) -> tuple[str, ...]:
    """Return every ball that is not compared; clubs that are no drivers have their own block."""
    apart = outside_balls(bay.now)
    return tuple(
        f"Ball {one.row}: {one.why}"
        for one in bay.evidence.table.table.refused
        if one.row not in apart
    )


def _empty(bay: BayNow, show: Show) -> EvidenceView:
    marks: Mapping[str, Mark] = deal_marks([club.name for club in bay.now.clubs], OWN)
    return EvidenceView(
        sentence=nothing_yet(bay, NOTHING_YET),
        objection=_what_would_do(bay),
        against="",
        picture=None,
        device_carry=False,
        ended=tuple((club.name, club.out) for club in bay.now.clubs if club.out),
        no_same="",
        clubs=(),
        choices=(),
        why=None,
        odd=(),
        refused=_refused(bay),
        strikes=_strikes(bay.now, marks, bay),
        open_questions=(),
        believed=before_words(bay.evidence.pinned.said(None)),
        lost=bay.evidence.pinned.lost,
        may=(),
        may_not=(),
        doubts=(),
        outside=outside_view(bay.now, show),
        seen=bay.now.upto,
    )


def _what_would_do(bay: BayNow) -> str:
    if without_drivers(bay):
        return AS_READ
    return ONE_MORE_COLUMN if without_columns(bay) else ""


def _chosen(decision: Decision, a: str, b: str) -> Pair | None:
    wanted = {a, b}
    told = (pair for pair in decision.pairs if {pair.a, pair.b} == wanted)
    pair = next(told, None) or explained_pair(decision)
    return pair if pair is not None and pair.parts is not None else None


def _why(pair: Pair | None, show: Show, days: int) -> Why | None:
    if pair is None or pair.parts is None:
        return None
    unit = show.unit("distance")
    return Why(
        a=pair.a,
        b=pair.b,
        picture=parts_picture(pair, show),
        parts=tuple(
            (name.capitalize() if name[0].islower() else name, f"{show.signed(value)} {unit.name}")
            for name, value in shown_parts(pair, unit.scale)
        ),
        note=parts_note(pair.parts, days),
    )


def _odd(decision: Decision, now: FittingNow, record: tuple[Entry, ...]) -> tuple[OddRow, ...]:
    acts = {
        entry.act.ball: entry.sequence
        for entry in standing_entries(record)
        if isinstance(entry.act, OddBall)
    }
    by_number = {swing.number: swing.sequence for swing in now.balls}
    return tuple(_odd_row(ball, by_number.get(ball.row), acts) for ball in decision.odd_balls)


def _odd_row(odd: Odd, ball: int | None, acts: Mapping[int, int]) -> OddRow:
    undo = acts.get(ball or 0)
    return OddRow(
        number=odd.row,
        weight=percent(odd.weight),
        why=odd.why,
        ball=ball if undo is None else None,
        undo=undo,
    )


def _strikes(now: FittingNow, marks: Mapping[str, Mark], bay: BayNow) -> Picture | None:
    return strikes_picture(now, marks, bay.golfer.hand)


def _no_same(decision: Decision) -> str:
    if any(club.from_the_same_swing is not None for club in decision.clubs):
        return ""
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return "Only the device's own carry and ball speed are there: nothing is taken apart."
    return (
        "From the same swing does not exist here: neither delivery nor marks are measured, so "
        "club and swing cannot be told apart."
    )


def _open(decision: Decision) -> tuple[str, ...]:
    """Return what is still open and what it would take."""
    advice = advise(decision)
    told = []
    if advice.more_balls_tell is not None and advice.leader and advice.other:
        verb = "would" if advice.more_balls_tell else "would not"
        told.append(
            f"{MORE_BALLS} more balls with {advice.leader} and {advice.other} {verb} tell them "
            "apart."
        )
    few = [club.club for club in decision.clubs if club.balls < FEWEST_BALLS]
    if few:
        told.append(f"{listed(few)} must be hit twice before anything is said.")
    if advice.rivals:
        told.append(f"{listed(advice.rivals)} may be as good as {advice.leader}.")
    return tuple(told)


def _doubts(bay: BayNow, decision: Decision, show: Show) -> tuple[str, ...]:
    """Return every doubt, with balls where the comparison speaks of rows."""
    raised = [show.words(alarm.say) for alarm in bay.evidence.alarms]
    warned = [
        by_count(warning, "ball")
        for warning in (*bay.evidence.table.table.warnings, *decision.warnings)
    ]
    return tuple(dict.fromkeys((*raised, *warned)))
