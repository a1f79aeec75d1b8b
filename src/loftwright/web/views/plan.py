"""The plan as its page shows it: what can be hit, in which order, and what it will show."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from loftwright.bay.next_set import sets_hit
from loftwright.bay.now import FittingNow
from loftwright.bay.outside import is_outside
from loftwright.domain.fitting import PlanCard
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.names import OWN
from loftwright.evidence.plan import MINUTE, Pace
from loftwright.evidence.power import SCATTER, Scatter, difference_seen
from loftwright.evidence.result import Claim
from loftwright.report.claim_words import told_claims
from loftwright.report.marks import deal_marks
from loftwright.report.numbers import count
from loftwright.report.plan_strip import StripSet, plan_strip
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.rack import Candidate
from loftwright.services.visit_start import plan_seconds
from loftwright.web.views.plan_clubs import CandidateRow, candidate_row

FEWEST_COMPARED: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """One set of the plan; `state` says that it was hit or is in hand."""

    number: int
    minute: str
    club: str
    balls: int
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanNowView:
    """The plan that stands.

    Attributes
    ----------
    minutes : str
        What it takes.
    picture : str
    given_up : tuple of str
    clubs : str
        How many, with their balls each.
    """

    minutes: str
    picture: str
    sets: tuple[SetRow, ...]
    given_up: tuple[str, ...]
    clubs: str
    blind: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The plan's page.

    Attributes
    ----------
    offered, barred : tuple of CandidateRow
        What can be put together here now, and the rest with its reason.
    plan : PlanNowView, optional
    may, may_not : tuple of Claim
        The claims ladder before the first ball.
    state : {"no_plan", "planned", "open", "closed"}
    limits : str
        What the body allows today.
    left : bool
        Whether the golfer plays left-handed.
    """

    sentence: str
    lead: str
    offered: tuple[CandidateRow, ...]
    barred: tuple[CandidateRow, ...]
    plan: PlanNowView | None
    may: tuple[Claim, ...]
    may_not: tuple[Claim, ...]
    state: str
    limits: str
    left: bool
    own: str
    visit: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFacts:
    """What the plan's page is drawn from.

    Attributes
    ----------
    open : bool
        Whether a visit is open today.
    pace : Pace
        How long things take from now on.
    minutes_left, balls_left : float, int
        By the plan, once a visit is open.
    record : mapping of str to tuple of str
        What the shop record says of shafts, by their samples.
    """

    golfer: Golfer
    name: str
    now: FittingNow
    candidates: tuple[Candidate, ...]
    claims: tuple[Claim, ...]
    open: bool
    pace: Pace
    limits: str
    minutes_left: float = 0.0
    balls_left: int = 0
    record: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def plan_view(facts: PlanFacts, show: Show, currency: str, ticked: frozenset[str]) -> PlanView:
    """Return the plan's page.

    Parameters
    ----------
    facts : PlanFacts
    show : Show
    currency : str
    ticked : frozenset of str
        Assemblies that the form has ticked.
    """
    rows = tuple(
        candidate_row(
            one,
            facts.now,
            show,
            currency,
            ticked=one.assembly.id in ticked,
            compared=facts.golfer.own is not None,
            record=facts.record.get(one.assembly.shaft, ()),
        )
        for one in facts.candidates
    )
    card = facts.now.plan.plan if facts.now.plan is not None else None
    claims = told_claims(facts.claims, show)
    plan = None if card is None else _plan_now(card, facts)
    return PlanView(
        sentence=_sentence(facts, card, rows, show),
        lead=_lead(facts, card),
        offered=tuple(row for row in rows if not row.why_not),
        barred=tuple(row for row in rows if row.why_not),
        plan=plan,
        may=tuple(claim for claim in claims if claim.may),
        may_not=tuple(claim for claim in claims if not claim.may),
        state=_state(facts, card),
        limits=facts.limits,
        left=facts.golfer.hand is Hand.LEFT,
        own=_own_words(facts, show),
        visit=len(facts.now.visits),
    )


def planned_clubs(card: PlanCard) -> tuple[str, ...]:
    """Return the clubs of a plan in the order in which they first come up."""
    return tuple(dict.fromkeys(club for club, _ in card.sets))


def scatter_of(golfer: Golfer) -> Scatter:
    """Return the spread of one ball that a plan for this golfer reckons with."""
    return SCATTER.get(golfer.ability or "mid", SCATTER["mid"])


def _state(facts: PlanFacts, card: PlanCard | None) -> str:
    if facts.now.closed:
        return "closed"
    if card is None:
        return "no_plan"
    return "open" if facts.open else "planned"


def _sentence(
    facts: PlanFacts, card: PlanCard | None, rows: tuple[CandidateRow, ...], show: Show
) -> str:
    if facts.now.closed:
        return f"The fitting of {facts.name} is closed; what was planned stands below."
    if card is None:
        return _offer(facts, sum(not row.why_not for row in rows))
    clubs = len(planned_clubs(card))
    if facts.open:
        left = count(facts.balls_left, "ball")
        return f"{left} and {facts.minutes_left:.0f} minutes are left for {count(clubs, 'club')}."
    minutes = plan_seconds(card, facts.pace) / MINUTE
    if _drivers(card, facts.now) < FEWEST_COMPARED:
        return (
            f"{count(clubs, 'club')}, {card.balls} balls, {minutes:.0f} minutes: fewer than two "
            "are drivers, so nothing is compared."
        )
    seen = difference_seen(card.balls // clubs, scatter_of(facts.golfer).total)
    return (
        f"{count(clubs, 'club')}, {card.balls} balls, {minutes:.0f} minutes: differences of "
        f"{show.yards(seen)} in total can be seen."
    )


def _drivers(card: PlanCard, now: FittingNow) -> int:
    other = {club.name for club in now.clubs if is_outside(club.card)}
    return sum(club not in other for club in planned_clubs(card))


def _offer(facts: PlanFacts, offered: int) -> str:
    hand = "a left-hander" if facts.golfer.hand is Hand.LEFT else "a right-hander"
    if not offered:
        return f"Nothing in the rack can be put together here for {hand} now."
    return f"{count(offered, 'club')} can be put together here for {hand}: tick what to hit."


def _lead(facts: PlanFacts, card: PlanCard | None) -> str:
    if card is None:
        own = "No own club is written down, so there is none to beat"
        if facts.golfer.own:
            own = "The own club joins by itself"
        return f"{own}. Length, loft, head and weight come before the shaft: they do more."
    if card.given_up:
        return f"Given up for time: {'; '.join(card.given_up)}."
    return "Which club is straighter it will not show: that takes some 160 balls with each."


def _own_words(facts: PlanFacts, show: Show) -> str:
    club = facts.now.club(OWN)
    if club is None:
        return ""
    card = club.card
    return f"{card.head}, {show.angle(card.loft)}, {card.shaft}, {show.length(card.length)}"


def _plan_now(card: PlanCard, facts: PlanFacts) -> PlanNowView:
    pace = facts.pace
    marks = deal_marks([club.name for club in facts.now.clubs], OWN)
    clock, strip, rows = pace.before(), [], []
    hit, in_hand = sets_hit(facts.now) if facts.open else ((), None)
    for number, (club, balls) in enumerate(card.sets, 1):
        end = clock + balls * pace.ball
        strip.append(
            StripSet(
                club=club,
                mark=marks[club],
                balls=balls,
                start=clock / MINUTE,
                end=end / MINUTE,
                done=number - 1 in hit,
                in_hand=number - 1 == in_hand,
            )
        )
        state = "hit" if number - 1 in hit else "in hand" if number - 1 == in_hand else ""
        rows.append(
            SetRow(
                number=number,
                minute=f"{clock // MINUTE:.0f}",
                club=club,
                balls=balls,
                state=state,
            )
        )
        clock = end + pace.change
    whole = plan_seconds(card, pace) / MINUTE
    clubs = planned_clubs(card)
    return PlanNowView(
        minutes=f"{whole:.0f}",
        picture=for_screen(plan_strip(strip, before=pace.before() / MINUTE, whole=whole)),
        sets=tuple(rows),
        given_up=card.given_up,
        clubs=f"{count(len(clubs), 'club')}, some {card.balls // len(clubs)} balls each",
        blind=card.blind,
    )
