"""Everything a bay page shows, drawn from the store alone."""

from dataclasses import dataclass, replace
from typing import Final

from loftwright.bay.next_set import NextSet, Step, next_set
from loftwright.bay.now import FittingNow
from loftwright.bay.pace import Pace, asks_for_club, pace_of
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer
from loftwright.evidence.budget import Budget
from loftwright.evidence.result import NextClub
from loftwright.services.bay_check_words import bay_line
from loftwright.services.evidence import Desk, Doubts, Evidence, weigh
from loftwright.services.fitting_table import fitting_table
from loftwright.services.holding import held_in_hand
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.settings import Settings, read_settings
from loftwright.services.shaft_shifts import shaft_shifts
from loftwright.services.shop_beliefs import fitting_beliefs
from loftwright.services.studio import Studio

_LINE_STANDS: Final = 300.0
"""Seconds for which the line of a bay's check stands."""
_LINES: Final[KeptByStudio[str]] = KeptByStudio()
_CAREFUL: Final = frozenset({"senior", "junior"})
_BY_PLAN: Final = frozenset({Step.OPEN, Step.WARM_UP, Step.STAY, Step.STOP})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BayNow:
    """A fitting in its bay.

    Attributes
    ----------
    name : str
        The golfer's.
    pace : Pace
    next : NextSet
        By plan, or by the evidence where the plan leaves it free.
    proposed : NextClub, optional
        The evidence's own proposal with its reason.
    ask_club : bool
        Whether the club in hand should be asked for.
    partner : str
        Name of the golfer who takes turns; empty if nobody does.
    turn : str
        The fitting whose golfer hits, and the version under which that was read.
    held : str
        Why the club in hand may not be hit; empty if it may.
    house : str
        What the check of this bay says to who compares in it; empty where nothing is amiss.
    """

    fitting: Fitting
    golfer: Golfer
    name: str
    settings: Settings
    evidence: Evidence
    pace: Pace
    next: NextSet
    proposed: NextClub | None
    ask_club: bool
    partner: str
    turn: str
    turn_version: int
    limits: str
    held: str
    house: str = ""

    @property
    def now(self) -> FittingNow:
        """The fitting as it stands."""
        return self.evidence.now


def bay_now(studio: Studio, desk: Desk, fitting: str, *, words_only: bool = False) -> BayNow:
    """Return a fitting in its bay as the store has it at this instant.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    fitting : str
    words_only : bool
        For a page that says what to do and shows no comparison: none is made while the plan
        alone tells what to do, so that the page does not wait for what it does not show.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    """
    opened = studio.store.fitting(fitting).value
    golfer = studio.store.golfer(opened.golfer).value
    settings = read_settings(studio).settings
    now = studio.standing(opened.id)
    care = golfer.minor or golfer.ability in _CAREFUL
    pace = pace_of(now, studio.now(), care=care)
    pinned = fitting_beliefs(studio, golfer, now)
    if words_only and _plan_tells(now, pace.cap):
        table = fitting_table(now, golfer.hand, settings.convention)
        evidence = Evidence(
            now=now, table=table, decision=None, doubts=Doubts(None), pinned=pinned
        )
    else:
        shifts = shaft_shifts(studio, golfer, now)
        found = desk.compared(opened.id, now, golfer, settings.convention, shifts, pinned)
        budget = Budget(balls=pace.balls_left, seconds=pace.seconds_left)
        evidence = weigh(found, golfer, budget)
    proposed = evidence.decision.next_club if evidence.decision else None
    turn = studio.store.hitting(opened.bay)
    known = turn.value in {opened.id, opened.partner}
    return BayNow(
        fitting=opened,
        golfer=golfer,
        name=studio.store.identity(golfer.id).name,
        settings=settings,
        evidence=evidence,
        pace=pace,
        next=_next(evidence.now, pace, proposed, settled=evidence.decision is not None),
        proposed=proposed,
        ask_club=asks_for_club(evidence.now),
        partner=_partner(studio, opened),
        turn=turn.value if known else opened.id,
        turn_version=turn.version,
        limits=studio.store.limits(golfer.id, studio.today()),
        held=held_in_hand(studio, evidence.now),
        house="" if words_only else _house(studio, opened, evidence.now),
    )


def _house(studio: Studio, opened: Fitting, now: FittingNow) -> str:
    """Return the quiet line of the bay's check; none for a check, or where balls are invented."""
    if now.visit is None or now.closed or opened.bay_check or opened.invented:
        return ""
    bay, device = now.visit.bay, now.visit.device.name
    # Drawn with every ball: a check that ended in another bay is told some minutes later.
    key = (bay, device, int(studio.now().timestamp() // _LINE_STANDS))
    return _LINES.of(studio, key, lambda: bay_line(studio, bay, device))


def _plan_tells(now: FittingNow, cap: int) -> bool:
    """Return whether the words for what comes next are the same whatever the balls say."""
    planned = next_set(now, cap)
    if planned.step is Step.HAND_OVER:
        return all(ball.club != planned.club for ball in now.balls)
    return planned.step in _BY_PLAN


def _next(now: FittingNow, pace: Pace, proposed: NextClub | None, *, settled: bool) -> NextSet:
    """Return the plan's next set, or the evidence's where the plan leaves it free."""
    planned = next_set(now, pace.cap)
    if planned.step is not Step.FREE:
        return planned
    if proposed is not None:
        club = proposed.club.split(",")[0]
        step = Step.STAY if club == now.in_hand else Step.HAND_OVER
        return replace(planned, step=step, club=club)
    return replace(planned, step=Step.DONE) if settled else planned


def _partner(studio: Studio, opened: Fitting) -> str:
    if opened.partner is None:
        return ""
    other = studio.store.fitting(opened.partner).value
    return studio.store.identity(other.golfer).name
