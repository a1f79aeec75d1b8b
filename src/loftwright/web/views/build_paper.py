"""The build sheet as it is printed for the workshop's wall."""

from datetime import tzinfo

from loftwright.domain.build_sheet import SolvedBuild
from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.domain.sheet_kinds import Block
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_lines import (
    BlockShown,
    blocks,
    cautions_of,
    departure_rows,
    figure_shown,
)
from loftwright.report.sheet_paper import BLANK, PaperStep, SheetPaper
from loftwright.report.sheet_targets import target_rows
from loftwright.report.sheet_words import (
    BLOCK_WORDS,
    STEP_WORDS,
    minds_of,
    off_sentence,
    solved_sentence,
    work_sentence,
)
from loftwright.services.build_sheets import BuildNow, angles_as_set, off_target
from loftwright.services.sheet_steps import hold_figures
from loftwright.web.views.build_steps import clock_text, cuts_drawn, step_figures


def paper_of(now: BuildNow, show: Show, *, studio: str, zone: tzinfo | None) -> SheetPaper:
    """Return the paper of a job whose sheet stands.

    Parameters
    ----------
    now : BuildNow
        With a sheet.
    show : Show
    studio : str
        The shop's name; may be empty.
    zone : tzinfo or None
        The shop's.
    """
    sheet, solved = now.sheet, now.solved
    if sheet is None or solved is None:
        raise ValueError("a paper needs a sheet")
    bond = now.progress.bond
    issue = now.progress.issues[-1]
    return SheetPaper(
        code=now.code,
        revision=sheet.revision,
        day=issue.entry.at.astimezone(zone).date(),
        studio=studio,
        player=f"player {now.initials}, {now.hand}-handed club",
        sentence=_sentence(now, solved, show),
        blocks=_blocks(now, show),
        targets=target_rows(solved, angles_as_set(now, now.draft), show),
        steps=[_step(one, now, show) for one in Step],
        cautions=cautions_of(now.draft, solved.answer, show),
        minds=minds_of(solved, show),
        why=sheet.issued.why,
        departures=departure_rows(sheet.departures, show),
        glued=now.glued,
        picture=cuts_drawn(now, show),
        not_before=clock_text(bond.not_before, zone) if bond is not None and now.glued else "",
    )


def _sentence(now: BuildNow, solved: SolvedBuild, show: Show) -> str:
    off = off_sentence(off_target(now))
    if off or now.cannot:
        return f"Stop. {off or now.cannot} Take the mend, or issue another revision."
    if now.made is None or now.built is None:
        return solved_sentence(solved, show)
    return work_sentence(now.made, now.built.club, solved.sheet.target.scale, show)


def _blocks(now: BuildNow, show: Show) -> list[BlockShown]:
    """Return the blocks, an empty field with its dash; a dry fit and a scale only where used."""
    rarely = {BLOCK_WORDS[one][0] for one in (Block.DRY_FIT, Block.SCALE)}
    return [
        one
        for one in blocks(now.draft, show, blanks=BLANK)
        if one.title not in rarely or any(value != BLANK for _, value in one.rows)
    ]


def _step(step: Step, now: BuildNow, show: Show) -> PaperStep:
    name, hold = STEP_WORDS[step]
    worked = now.progress.done.get(step)
    done = ""
    if worked is not None:
        done = worked.done.initials if isinstance(worked.done, StepDone) else worked.entry.by
    reads = tuple(
        f"{one.words} ({figure_shown(one.holds, one.sheet, show)})"
        for one in hold_figures(step, now)
    )
    if step is Step.BONDED:
        name, hold = (name, hold) if now.glued else ("No bond is made", "Leave it as it is.")
        reads = ("Batch", "Mixed at", "Temperature") if now.glued else ()
    if step is Step.CURED and not now.glued:
        hold = "Nothing cures on this club."
    return PaperStep(
        name=name,
        hold=hold,
        figures=step_figures(step, now, show),
        reads=reads,
        done=done,
    )
