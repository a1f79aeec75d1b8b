"""What leaves a fitting: the report on paper, and the golfer's balls as a table."""

import re
from datetime import date
from typing import Final
from unicodedata import normalize

from loftwright import __version__
from loftwright.bay.confounders import CONDITIONS
from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.outside import none_compared, outside_clubs
from loftwright.bay.setups import set_up_of
from loftwright.domain.club_kind import kind_words
from loftwright.domain.fitting import Strip
from loftwright.domain.numbers import FIELDS
from loftwright.domain.shot import Shot
from loftwright.errors import EvidenceError
from loftwright.evidence.budget import Budget
from loftwright.evidence.result import Decision
from loftwright.intake.own_table import shot_table_text
from loftwright.report.content import ReportContent
from loftwright.report.document import report_bytes
from loftwright.report.numbers import listed
from loftwright.services.bay_now import BayNow
from loftwright.services.evidence import Desk, weigh
from loftwright.services.hands import handedness
from loftwright.services.settings import show_of

INVENTED: Final = "Invented: every ball here is a virtual golfer's."
LISTED: Final = "on the fitting’s page Evidence"
_KINDS: Final = {
    "ball": "{}",
    "tee": "tee {}",
    "surface": "{}",
    "place": "{}",
    "treatment": "face: {}",
}
_UNSAFE: Final = re.compile(r"[^a-z0-9]+")
_LONGEST: Final = 60


def final_decision(desk: Desk, bay: BayNow) -> Decision | None:
    """Return what the balls say, the same at any hour: a closed fitting asks for no more.

    Parameters
    ----------
    desk : Desk
    bay : BayNow

    Returns
    -------
    Decision or None
        None while no ball can be compared.
    """
    if not bay.now.closed:
        return bay.evidence.decision
    found = desk.compared(
        bay.fitting.id,
        bay.now,
        bay.golfer,
        bay.settings.convention,
        bay.evidence.table.shifts,
        bay.evidence.pinned,
    )
    return weigh(found, bay.golfer, Budget(balls=0)).decision


def report_content(bay: BayNow, decision: Decision) -> ReportContent:
    """Return everything that the two pages show, the day being that of the newest visit.

    Parameters
    ----------
    bay : BayNow
    decision : Decision
    """
    return ReportContent(
        decision=decision,
        table=bay.evidence.table.table,
        golfer=bay.name,
        fitter=bay.fitting.fitter,
        studio=bay.settings.shop,
        visit_date=day_of_visit(bay),
        hand=handedness(bay.golfer.hand),
        conditions=conditions_of(bay),
        version=__version__,
        show=show_of(bay.settings),
        counts="ball",
        listed=LISTED,
    )


def report_pdf(desk: Desk, bay: BayNow) -> bytes:
    """Return the report as PDF, the same bytes as long as the record stays.

    Raises
    ------
    EvidenceError
        While no ball can be compared.
    """
    decision = final_decision(desk, bay)
    if decision is None:
        if none_compared(bay.now):
            raise EvidenceError(
                "there is nothing to report: no ball was hit with a driver",
                place=bay.fitting.id,
                mend=f"What the device showed of the other clubs stands {LISTED}.",
            )
        raise EvidenceError(
            "there is nothing to report yet",
            place=bay.fitting.id,
            mend="Hit two clubs twice at least; then it can be printed.",
        )
    return report_bytes(report_content(bay, decision))


def day_of_visit(bay: BayNow) -> date:
    """Return the day of the newest visit, or that on which the fitting was opened."""
    return bay.now.visit.day if bay.now.visit else bay.fitting.opened


def conditions_of(bay: BayNow) -> tuple[str, ...]:
    """Return what balls were hit from and measured with, as lines of a report."""
    devices = dict.fromkeys(one.device.name for one in bay.now.visits if one.device.name)
    lines = [f"Measured by {listed(tuple(devices))}."] if devices else []
    told = [words for name in CONDITIONS if (words := _condition(bay.now, name))]
    if told:
        lines.append(f"{'; '.join(told)}.")
    clubs = [one for one in outside_clubs(bay.now) if one.balls]
    others = [f"{one.club}, {kind_words(one.kind)}," for one in clubs]
    if others:
        verb = "stands" if len(others) == 1 else "stand"
        lines.append(f"{listed(others)} {verb} in no figure here: they hold for drivers.")
    if bay.fitting.invented:
        lines.append(INVENTED)
    return tuple(lines)


def shots_table(now: FittingNow, *, every: bool = False) -> str:
    """Return the balls of a fitting as our own table, in the order of play.

    Parameters
    ----------
    now : FittingNow
    every : bool
        With warm-up balls and readings that are none of this golfer's; they bear neither number
        nor club, so that a reader asks before it takes them for balls.
    """
    swings = now.swings if every else now.balls
    return shot_table_text([_shot(swing, now, row) for row, swing in enumerate(swings, start=2)])


def file_name(bay: BayNow, what: str, ending: str, *, named: bool = False) -> str:
    """Return a file's name that any machine takes.

    Parameters
    ----------
    bay : BayNow
    what : str
        What it holds.
    ending : str
        Without the dot.
    named : bool
        Whether the golfer's name is in it, for what is handed to the golfer.
    """
    words = [what, day_of_visit(bay).isoformat(), *([bay.name] if named else [])]
    plain = normalize("NFKD", " ".join(words)).encode("ascii", "ignore").decode().lower()
    return f"{_UNSAFE.sub('-', plain).strip('-')[:_LONGEST].rstrip('-')}.{ending}"


def _condition(now: FittingNow, name: str) -> str:
    """Return a condition with every value that it had, in the order of play."""
    strips: list[Strip] = [swing.strip for swing in now.balls] or [now.strip]
    values = tuple(dict.fromkeys(value for one in strips if (value := getattr(one, name))))
    return _KINDS[name].format(listed(values, "then")) if values else ""


def _shot(swing: Swing, now: FittingNow, row: int) -> Shot:
    numbers = swing.numbers
    told = {} if numbers is None else {name: getattr(numbers, name) for name in FIELDS}
    if swing.mark is not None:
        told |= {"strike_toe": swing.mark.toe, "strike_high": swing.mark.high}
    label = set_up_of(swing, now) if swing.compared else None
    return Shot(
        row=row,
        order=swing.order,
        ball=str(swing.number) if swing.number else None,
        club=label or "",
        mark_set=None if swing.mark_set is None else str(swing.mark_set),
        read=numbers is not None,
        time=swing.time or None,
        **told,
    )
