"""The build page: what to cut and add, how far the work is, and what was built otherwise."""

from dataclasses import dataclass
from datetime import datetime, tzinfo
from typing import Final

from loftwright.domain.cautions import Caution
from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import Holds
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_lines import (
    BlockShown,
    blocks,
    cautions_of,
    departure_rows,
    field_text,
    figure_shown,
    name_of,
)
from loftwright.report.sheet_targets import (
    ApartShown,
    TargetShown,
    apart_rows,
    target_rows,
)
from loftwright.report.sheet_words import (
    STEP_WORDS,
    minds_of,
    off_sentence,
    solved_sentence,
)
from loftwright.report.theme_svg import for_screen
from loftwright.services.build_sheets import (
    BuildNow,
    angles_as_set,
    mend_of,
    off_target,
    said_on_sheet,
)
from loftwright.services.sheet_steps import hold_figures
from loftwright.services.sheet_text import draft_of
from loftwright.web.sheet_forms import unit_of
from loftwright.web.views.build_steps import clock_text, cuts_drawn, step_figures
from loftwright.web.views.rack_rows import Choice
from loftwright.workshop.steps import Issue

_NOT_OTHERWISE: Final = ("target.", "tolerance.", "u95.", "rules.", "calibration.", "dry_fit.")
"""Fields that no part can be built otherwise in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldView:
    """A reading that the next step waits for."""

    name: str
    words: str
    unit: str
    sheet: str
    needed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One step of the sheet.

    Attributes
    ----------
    state : {"done", "next", "later"}
    told : str
        Who did it and when; empty before.
    figures : tuple of str
        What is cut, added or reached in it.
    """

    key: str
    number: int
    name: str
    hold: str
    state: str
    told: str
    note: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltView:
    """The club as built: how far it is off, and the mend."""

    rows: tuple[ApartShown, ...]
    says: str
    mend: tuple[tuple[str, str], ...]
    cannot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RevisionView:
    """A revision in the list of them."""

    number: int
    issued: str
    departures: int
    stands: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildView:
    """The build page of a job with a sheet.

    Attributes
    ----------
    picture : str
        The shaft with its cuts, as SVG.
    next : StepView or None
        None where all is done.
    holds : tuple of HoldView
        Of the next step.
    minds : tuple of str
    locked_until : str
        Until when nobody hits the club; empty before the bond and after its time.
    """

    sentence: str
    lead: str
    code: str
    initials: str
    revision: int
    targets: tuple[TargetShown, ...]
    picture: str
    steps: tuple[StepView, ...]
    next: StepView | None
    holds: tuple[HoldView, ...]
    built: BuiltView | None
    departures: tuple[tuple[str, str, str, str], ...]
    otherwise: tuple[Choice, ...]
    cautions: tuple[Caution, ...]
    minds: tuple[str, ...]
    why: tuple[str, ...]
    blocks: tuple[BlockShown, ...]
    revisions: tuple[RevisionView, ...]
    locked_until: str
    stopped: str
    glued: bool
    off: bool
    may_issue: bool


def build_view(now: BuildNow, show: Show, at: datetime, zone: tzinfo | None) -> BuildView:
    """Return the build page of a job whose sheet stands.

    Parameters
    ----------
    now : BuildNow
        With a sheet.
    show : Show
    at : datetime
        The instant it is.
    zone : tzinfo or None
        The shop's.
    """
    sheet, solved = now.sheet, now.solved
    if sheet is None or solved is None:
        raise ValueError("a build page needs a sheet")
    steps = _steps(now, show, zone)
    ahead = next((one for one in steps if one.state == "next"), None)
    bond = now.progress.bond
    locked = "" if bond is None or bond.not_before <= at else clock_text(bond.not_before, zone)
    return BuildView(
        sentence=_sentence(now, show, ahead, locked),
        lead=_lead(now, ahead, show),
        code=now.code,
        initials=now.initials,
        revision=sheet.revision,
        targets=target_rows(solved, angles_as_set(now, now.draft), show),
        picture=for_screen(cuts_drawn(now, show)),
        steps=steps,
        next=ahead,
        holds=() if now.progress.next is None else _holds(now.progress.next, now, show),
        built=_built(now, show),
        departures=departure_rows(sheet.departures, show),
        otherwise=_otherwise(now, show),
        cautions=cautions_of(now.draft, solved.answer, show),
        minds=tuple(minds_of(solved, show)),
        why=sheet.issued.why,
        blocks=blocks(now.draft, show),
        revisions=tuple(_revision(one, now, zone) for one in reversed(now.progress.issues)),
        locked_until=locked,
        stopped=stopped(now),
        glued=now.glued,
        off=bool(now.cannot or off_target(now)),
        may_issue=now.progress.may_issue,
    )


def stopped(now: BuildNow) -> str:
    """Return why nothing is built at present; empty where the work goes on."""
    if now.progress.off is not None:
        reason = now.progress.off.reason.rstrip(".")
        return f"The order is off: {reason}." if reason else "The order is off."
    if not now.progress.agreed:
        return "Another quote was made; the golfer has not agreed to it yet."
    if now.progress.requoted and now.progress.bond is None:
        return "A new quote was agreed to after this sheet: issue another revision."
    return ""


def revision_blocks(issue: Issue, show: Show) -> tuple[BlockShown, ...]:
    """Return a revision as it was issued, block by block."""
    return blocks(draft_of(issue.sheet.build, issue.sheet.fields), show)


def _sentence(now: BuildNow, show: Show, ahead: StepView | None, locked: str) -> str:
    why = stopped(now)
    if why:
        return why
    if locked:
        return f"Nobody hits this club before {locked}."
    if ahead is None:
        return "The club is built; a second person checks it now."
    if now.solved is None or now.sheet is None or now.sheet.departures:
        return off_sentence(off_target(now)) or "Built otherwise, and still on its targets."
    return solved_sentence(now.solved, show)


def _lead(now: BuildNow, ahead: StepView | None, show: Show) -> str:
    if stopped(now):
        return "The sheet stays to be read; nothing is built from it."
    if now.progress.requoted:
        return "A new quote came after this sheet, when the club was bonded already."
    mend = _mend(now, show)
    if mend and off_target(now):
        return "The mend: " + "; ".join(f"{what.lower()} {value}" for what, value in mend) + "."
    if ahead is None:
        return "Every step of the sheet is done."
    return f"Next is step {ahead.number}: {ahead.name.lower()}. {ahead.hold}"


def _steps(now: BuildNow, show: Show, zone: tzinfo | None) -> tuple[StepView, ...]:
    found = []
    for number, step in enumerate(Step, 1):
        worked = now.progress.done.get(step)
        name, hold = STEP_WORDS[step]
        if step is Step.BONDED and not now.glued:
            name, hold = "No bond is made", "Write the club into the rack."
        told, note = "", ""
        if worked is not None:
            done = worked.done
            who = done.initials if isinstance(done, StepDone) else worked.entry.by
            note = done.note if isinstance(done, StepDone) else ""
            if step is Step.BONDED and now.progress.bond is not None and now.glued:
                note = f"{now.progress.bond.adhesive} {now.progress.bond.batch}"
            told = f"{who}, {clock_text(worked.entry.at, zone)}".removeprefix(", ")
        state = "done" if worked else "next" if now.progress.next is step else "later"
        found.append(
            StepView(
                key=step.value,
                number=number,
                name=name,
                hold=hold,
                state=state,
                told=told,
                note=note.strip(),
                figures=step_figures(step, now, show),
            )
        )
    return tuple(found)


def _holds(step: Step, now: BuildNow, show: Show) -> tuple[HoldView, ...]:
    return tuple(
        HoldView(
            name=one.name,
            words=one.words,
            unit=unit_of(one.holds, show),
            sheet=figure_shown(one.holds, one.sheet, show),
            needed=one.needed,
        )
        for one in hold_figures(step, now)
    )


def _built(now: BuildNow, show: Show) -> BuiltView | None:
    if now.solved is None or (now.built is None and not now.cannot):
        return None
    off = off_target(now)
    rows = () if now.built is None else apart_rows(now.solved, now.built.club, off, show)
    cannot = now.cannot
    if now.built is not None and off and not now.built.mend.feasible:
        cannot = "No weight in head or butt mends it: change the part, or issue another revision."
    return BuiltView(
        rows=rows,
        says=off_sentence(off) or "Still within every tolerance.",
        mend=_mend(now, show),
        cannot=cannot,
    )


def _mend(now: BuildNow, show: Show) -> tuple[tuple[str, str], ...]:
    says = said_on_sheet(now)
    return tuple(
        (
            name_of(name),
            f"{field_text(name, text, show)}, not {field_text(name, says[name], show)}",
        )
        for name, text in mend_of(now).items()
    )


def _otherwise(now: BuildNow, show: Show) -> tuple[Choice, ...]:
    """Return what can be built otherwise, each with what the sheet says now."""
    found = []
    for name, text in said_on_sheet(now).items():
        known = FIELDS.get(name)
        fixed = known is not None and known.kind in {Holds.TICK, Holds.LIST, Holds.PICK}
        if not name.startswith(_NOT_OTHERWISE) and not fixed:
            said = f"{name_of(name)} ({field_text(name, text, show)})"
            found.append(Choice(value=name, text=said))
    return tuple(found)


def _revision(issue: Issue, now: BuildNow, zone: tzinfo | None) -> RevisionView:
    by = f"{issue.entry.by}, " if issue.entry.by else ""
    return RevisionView(
        number=issue.revision,
        issued=f"{by}{clock_text(issue.entry.at, zone)}",
        departures=len(issue.departures),
        stands=now.sheet is not None and issue.revision == now.sheet.revision,
    )
