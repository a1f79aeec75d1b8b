"""What the build's page and its paper share: times, the cuts drawn, what is done in each step."""

from datetime import datetime, tzinfo

from loftwright.constants import INCH
from loftwright.domain.sheet_acts import Step
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_lines import field_text, name_of
from loftwright.report.sheet_picture import cut_picture
from loftwright.report.sheet_targets import cut_rows
from loftwright.report.sheet_words import MADE_WORDS, cut_length
from loftwright.services.build_sheets import BuildNow


def clock_text(at: datetime, zone: tzinfo | None) -> str:
    """Return a time as a tag has it, in the shop's zone."""
    return f"{at.astimezone(zone):%H:%M on %-d %B %Y}"


def cuts_drawn(now: BuildNow, show: Show) -> str:
    """Return the shaft with its cuts as SVG; empty where there are none."""
    if now.solved is None or now.made is None or now.solved.answer.cuts is None:
        return ""
    told = now.draft.get("insertion_inch", "")
    insertion = float(told) * INCH if told else None
    return cut_picture(now.solved.answer.cuts, show, kept=now.made.kept, insertion=insertion)


def step_figures(step: Step, now: BuildNow, show: Show) -> tuple[str, ...]:
    """Return what is cut, added or reached in a step, as the workshop does it now."""
    solved, made, draft = now.solved, now.made, now.draft
    if solved is None or made is None:
        return ()
    cuts = dict(cut_rows(solved.answer, solved.sheet, show))
    plane = field_text("head.to_60_plane_inch", draft.get("head.to_60_plane_inch", ""), show)
    insertion = field_text("insertion_inch", draft.get("insertion_inch", ""), show)
    into = (
        f"{MADE_WORDS['made.head_added_g']}: {show.mass(made.head_added, 1)}",
        f"{MADE_WORDS['made.butt_added_g']}: {show.mass(made.butt_added, 1)}",
    )
    bonded = (
        *(f"{name_of(one)}: {draft[one]}" for one in ("adhesive", "mix") if draft.get(one)),
        *([f"Insertion mark: {insertion}"] if insertion else []),
        into[0],
    )
    return {
        Step.TIP_TRIMMED: (f"Off the tip: {cuts.get('Tip trim', '')}",),
        Step.DRY_FITTED: (f"Seated tip to the 60-degree plane: {plane}",),
        Step.BUTT_TRIMMED: (
            f"Off the butt: {cuts.get('Butt trim', '')}",
            f"Shaft, cut to: {cut_length(made.kept, show)}",
        ),
        Step.DRY_CHECKED: into,
        Step.BONDED: bonded,
        Step.GRIPPED: (into[1],),
    }.get(step, ())
