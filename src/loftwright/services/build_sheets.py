"""A job in the workshop as it stands: its sheet, what was built otherwise, and the mend."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.build_sheet import SolvedBuild
from loftwright.domain.built import Checked
from loftwright.domain.golfer import Hand, Identity
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec, Quote
from loftwright.domain.piece_code import code_of
from loftwright.domain.sheet_fields import FIELDS, MADE
from loftwright.errors import ConvergenceError, InputError, NotFoundError
from loftwright.intake.build_text import read_build_text
from loftwright.physics.build.solve import Quantity
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.services.build import solve_sheet
from loftwright.services.settings import read_settings
from loftwright.services.sheet_forecast import with_forecast
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.sheet_text import Draft, draft_of, figure_text
from loftwright.services.sheet_usual import Usual, usual_sheet
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.workshop.as_built import AsBuilt, Made, as_built, made_of
from loftwright.workshop.mends import as_set
from loftwright.workshop.stages import agreed_quote
from loftwright.workshop.steps import Progress, progress

ANGLES: Final = (Checked.LOFT, Checked.LIE, Checked.FACE)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildNow:
    """A job in the workshop as it stands.

    Attributes
    ----------
    code : str
        Of the job, on every sheet.
    initials : str
        Of the golfer; no name goes to a workshop.
    quote : Quote or None
        That the golfer agreed to.
    sheet : SheetNow or None
        None before one was issued.
    draft : dict of str to str
        The sheet that stands, field by field, with what was built otherwise.
    solved : SolvedBuild or None
        The sheet as it was issued.
    made : Made or None
        What is cut and added: as solved, or what a mend says instead.
    built : AsBuilt or None
        Where something is built otherwise.
    cannot : str
        Why what was built otherwise comes to no club; empty where it does.
    convention : Convention
        How the shop tells what a sleeve does.
    seen : int
        Sequence of the last entry.
    """

    fitting: str
    code: str
    initials: str
    hand: Hand
    record: tuple[JobEntry, ...]
    progress: Progress
    quote: Quote | None
    sheet: SheetNow | None
    draft: Draft
    solved: SolvedBuild | None
    made: Made | None
    built: AsBuilt | None
    cannot: str
    convention: Convention

    @property
    def seen(self) -> int:
        """Sequence of the last entry of the record; 0 for none."""
        return self.record[-1].sequence if self.record else 0

    @property
    def spec(self) -> ClubSpec | None:
        """The club that the golfer agreed to."""
        return None if self.quote is None else self.quote.spec

    @property
    def glued(self) -> bool:
        """Whether a bond is made."""
        return self.draft.get("bond", "glued") == "glued"


def build_now(studio: Studio, fitting: str) -> BuildNow:
    """Return a job in the workshop as it stands.

    Raises
    ------
    NotFoundError
        If there is no such fitting, or it is a training case, which has no job.
    """
    if is_training(fitting):
        raise NotFoundError(
            "a training case has no build", place=fitting, mend="Open a fitting of the studio."
        )
    record = studio.store.job_record(fitting)
    golfer = studio.store.fitting(fitting).value.golfer
    agreed = agreed_quote(record)
    sheet = sheet_now(record)
    stands = progress(record)
    solved, built, cannot, made = None, None, "", None
    if sheet is not None:
        solved = solve_sheet(read_build_text(sheet.issued.build))
        if agreed is not None:
            issued = draft_of(sheet.issued.build, sheet.issued.fields)
            solved = with_forecast(studio, agreed.quote.spec.shaft_piece, issued, solved)
        made = _made(solved, sheet)
        built, cannot = _built(solved, sheet, made, cut=stands.cut)
    return BuildNow(
        fitting=fitting,
        code=code_of(fitting),
        initials=studio.store.identity(golfer).initials,
        hand=studio.store.golfer(golfer).value.hand if agreed is None else agreed.quote.spec.hand,
        record=record,
        progress=stands,
        quote=None if agreed is None else agreed.quote,
        sheet=sheet,
        draft={} if sheet is None else draft_of(sheet.as_built, sheet.issued.fields),
        solved=solved,
        made=made,
        built=built,
        cannot=cannot,
        convention=read_settings(studio).settings.convention,
    )


def angles_as_set(now: BuildNow, draft: Draft) -> dict[Checked, float]:
    """Return loft, lie and face of a sheet's head with its sleeve as the sheet has it.

    Parameters
    ----------
    now : BuildNow
    draft : dict of str to str
        With the head's angles as measured in the middle of the sleeve; what was not measured is
        left out.
    """
    told = {one: draft.get(f"head_{one.value}_deg", "") for one in ANGLES}
    known = {one: float(text) * DEGREE for one, text in told.items() if text}
    spec = now.spec
    if spec is None or Checked.LOFT not in known:
        return known
    head = HeadAngles(
        loft=known[Checked.LOFT],
        lie=known.get(Checked.LIE, spec.lie),
        face=known.get(Checked.FACE, spec.face),
    )
    found = as_set(head, spec, draft.get("setting", spec.setting), now.convention)
    return {one: getattr(found, one.value) for one in known}


def start_of(studio: Studio, now: BuildNow) -> Usual:
    """Return what the form of the next sheet holds before anybody typed.

    Raises
    ------
    InputError
        If the golfer has not agreed to a quote.
    """
    if now.spec is None:
        raise not_agreed()
    first = usual_sheet(studio, now.spec, now.record)
    if now.sheet is None:
        fitter = studio.store.fitting(now.fitting).value.fitter
        if fitter.strip():
            first.draft["fitter"] = Identity(name=fitter).initials
        return first
    draft = dict(now.draft)
    sources = {
        one.key: f"As built on revision {now.sheet.revision}."
        for one in now.sheet.departures
        if one.key not in MADE
    }
    if now.progress.requoted:
        ordered = ("target.length_inch", "head", "shaft", "grip", "setting", "head_stated")
        changed = {one: first.draft.get(one, "") for one in ordered}
        sources |= {
            one: "Of the new quote." for one, text in changed.items() if text != draft.get(one, "")
        }
        draft = {name: text for name, text in (draft | changed).items() if text}
    return Usual(draft=draft, sources=sources)


def mend_of(now: BuildNow) -> dict[str, str]:
    """Return what to cut and add so that the club as built meets its targets; empty for nothing.

    By key of `MADE`, as a build file writes them.
    """
    if now.built is None or now.made is None or not now.built.mend.feasible:
        return {}
    mended = made_of(now.built.mend)
    found = {}
    if not now.progress.cut:
        found["made.cut_length_inch"] = (now.made.kept / INCH, mended.kept / INCH)
    found["made.head_added_g"] = (now.made.head_added / GRAM, mended.head_added / GRAM)
    found["made.butt_added_g"] = (now.made.butt_added / GRAM, mended.butt_added / GRAM)
    return {
        name: figure_text(after)
        for name, (before, after) in found.items()
        if abs(after - before) > (0.001 if name == "made.cut_length_inch" else 0.05)
    }


def off_target(now: BuildNow) -> tuple[Checked, ...]:
    """Return which targets the club as built would miss by more than their tolerance."""
    if now.built is None or now.solved is None:
        return ()
    sizes = now.solved.sheet.tolerances
    found = [Checked.LENGTH] if abs(now.built.length_apart) > sizes.length else []
    for quantity, checked in (
        (Quantity.SWINGWEIGHT, Checked.SWINGWEIGHT),
        (Quantity.MASS, Checked.MASS),
        (Quantity.INERTIA, Checked.INERTIA),
    ):
        if abs(now.built.apart.get(quantity, 0.0)) > getattr(sizes, checked.value):
            found.append(checked)
    return tuple(found)


def said_on_sheet(now: BuildNow) -> dict[str, str]:
    """Return what stands now of everything that can be built otherwise, by its key."""
    return {} if now.made is None else _told(now.draft, now.made)


def said_at_first(now: BuildNow) -> dict[str, str]:
    """Return what the sheet said of it when it was issued, by its key."""
    if now.sheet is None or now.solved is None:
        return {}
    issued = now.sheet.issued
    return _told(draft_of(issued.build, issued.fields), made_of(now.solved.answer))


def not_agreed() -> InputError:
    """Return the error of a job whose quote the golfer has not agreed to."""
    return InputError(
        "the golfer has not agreed to a quote",
        place="quote",
        mend="Agree to it on the order’s page first.",
    )


def _told(draft: Draft, made: Made) -> dict[str, str]:
    told = {name: text for name, text in draft.items() if name in FIELDS and "." in name}
    return told | {
        "made.cut_length_inch": figure_text(made.kept / INCH),
        "made.head_added_g": figure_text(made.head_added / GRAM),
        "made.butt_added_g": figure_text(made.butt_added / GRAM),
    }


def _made(solved: SolvedBuild, sheet: SheetNow) -> Made:
    planned = made_of(solved.answer)
    units = {"cut_length_inch": INCH, "head_added_g": GRAM, "butt_added_g": GRAM}
    told = {name: sheet.made.get(f"made.{name}") for name in units}

    def other(name: str, usual: float) -> float:
        value = told[name]
        return usual if value is None else value * units[name]

    return Made(
        kept=other("cut_length_inch", planned.kept),
        head_added=other("head_added_g", planned.head_added),
        butt_added=other("butt_added_g", planned.butt_added),
    )


def _built(
    solved: SolvedBuild, sheet: SheetNow, made: Made, *, cut: bool
) -> tuple[AsBuilt | None, str]:
    if not sheet.departures:
        return None, ""
    try:
        told = read_build_text(sheet.as_built)
        fixed = cut or "made.cut_length_inch" in sheet.made
        return as_built(told.parts, solved.sheet.target, made, cut=fixed), ""
    except (InputError, ConvergenceError) as error:
        return None, f"{error.message}. {error.mend}"
