"""A studio with a job whose golfer agreed to a quote, and a sheet of invented parts for it."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order import ClubSpec, Kept, Quote
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.rack import Assembly, SleeveSetting
from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.physics.build.swingweight import index_of
from loftwright.services.build_sheets import build_now
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.job import job_act
from loftwright.services.rack_adding import OwnClub
from loftwright.services.sheet_issue import issue_sheet
from loftwright.services.sheet_steps import do_step, hold_figures
from loftwright.services.studio import Studio
from studios import Clock, a_head, a_shaft, a_sleeve, studio_in_memory

DRAFT: Final = {
    "target.length_inch": "45",
    "target.swingweight": "D3.0",
    "target.mass_g": "325",
    "shaft.raw_length_inch": "46",
    "shaft.mass_g": "62",
    "shaft.balance_from_tip_inch": "23.5",
    "head.mass_g": "195",
    "head.cg_along_inch": "0.6",
    "head.cg_toe_mm": "36",
    "head.own_moi_kgcm2": "3.5",
    "head.to_60_plane_inch": "1.75",
    "grip.mass_g": "50",
    "grip.length_inch": "10.5",
    "grip.balance_inch": "4.2",
    "grip.cap_inch": "0.125",
    "tape.mass_g": "1.5",
    "tape.length_inch": "10",
    "parts.sleeve.mass_g": "6",
    "parts.sleeve.from_tip_inch": "-0.6",
    "parts.screw.mass_g": "2",
    "parts.screw.from_tip_inch": "0.6",
    "parts.ferrule.mass_g": "1",
    "parts.ferrule.from_tip_inch": "-1.6",
    "parts.glue.mass_g": "1.5",
    "parts.glue.from_tip_inch": "-0.6",
    "counterweight.below_cap_inch": "0.75",
    "counterweight.max_g": "30",
    "tolerance.part_mass_g": "1",
    "rules.edition": "Equipment Rules, in force from 1 January 2019",
    "bond": "glued",
    "setting": "one up",
    "adhesive": "Slow glue (invented)",
    "torque": "4.5 N m (invented)",
    "torque_source": "printed on the screw",
    "material": "carbon",
    "condition": "new",
    "grip_by": "water",
    "head": "Harrow 460 (invented)",
    "shaft": "Reedmace firm (invented)",
}
"""An invented driver: it asks 6.9 g of the head and 3.2 g of the butt."""


@dataclass(slots=True)
class BuiltJob:
    """A job and everything it rests on."""

    studio: Studio
    clock: Clock
    fitting: str
    golfer: str
    tested: Assembly
    quote: Quote

    def issue(self, **changes: str) -> None:
        """Issue a sheet; a change to nothing leaves the field out."""
        draft = {**DRAFT, **{name.replace("__", "."): text for name, text in changes.items()}}
        issue_sheet(self.studio, self.fitting, {one: text for one, text in draft.items() if text})

    def work(self, last: Step) -> None:
        """Do every step up to one, each as its sheet says."""
        for step in Step:
            now = build_now(self.studio, self.fitting)
            if step not in now.progress.done:
                read = {one.name: one.sheet for one in hold_figures(step, now)}
                done = StepDone(step=step, initials="K.L.")
                do_step(self.studio, self.fitting, done, read)
            if step is last:
                return


def a_job(
    *,
    kept: Kept = Kept.NOTHING,
    agreed: bool = True,
    own: bool = True,
    studio: Studio | None = None,
) -> BuiltJob:
    """Return a job, in a studio of its own if none is given; all of it invented."""
    clock = Clock()
    if studio is None:
        studio = studio_in_memory(clock)
    studio.clock = clock
    sleeve = a_sleeve(studio)
    head = a_head(studio, system=sleeve.system)
    _, tested = a_shaft(studio, head=head, sleeve=sleeve, setting="one up", length=45.0)
    assert tested is not None
    card = PartFigures(
        mass=325.0 * GRAM,
        balance=33.0814 * INCH,
        length=45.0 * INCH,
        swingweight=index_of("D3"),
        inertia=2869.0 * KILOGRAM_SQUARE_CENTIMETRE,
    )
    day = date(2026, 11, 20)
    studio.store.keep_card(MeasuredCard(item=tested.id, day=day, by="K.L.", figures=card))
    figures = PartFigures(mass=195.0 * GRAM, loft=10.4 * DEGREE, lie=58.5 * DEGREE, face=0.0)
    studio.store.keep_card(MeasuredCard(item=head.id, day=day, by="K.L.", figures=figures))
    brought = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH, shaft_mass=0.060) if own else None
    visitor = Visitor(
        golfer=Golfer(id="", hand=Hand.RIGHT),
        identity=Identity(name="Sabine Bright (invented)"),
        own=brought,
    )
    fitting = open_for_new(studio, visitor, bay="Bay 1", fitter="Kit Lark (invented)")
    quote = Quote(
        spec=_spec(tested, kept, sleeve.settings),
        lines=(),
        tax=0.2,
        deposit=0.3,
        currency="EUR",
        lead_days=14,
        valid_until=day + timedelta(days=30),
    )
    job_act(studio, fitting.id, [Quoted(quote=quote)])
    if agreed:
        job_act(studio, fitting.id, [Agreed(name="S. Bright")])
    return BuiltJob(
        studio=studio,
        clock=clock,
        fitting=fitting.id,
        golfer=fitting.golfer,
        tested=tested,
        quote=quote,
    )


def another_quote(job: BuiltJob, *, length: float) -> Quote:
    """Return the job's quote for another length."""
    return replace(job.quote, spec=replace(job.quote.spec, length=length))


def _spec(tested: Assembly, kept: Kept, settings: tuple[SleeveSetting, ...]) -> ClubSpec:
    return ClubSpec(
        label="Ash",
        club="Ash",
        assembly=tested.id,
        hand=Hand.RIGHT,
        kept=kept,
        head="Harrow 460",
        shaft="Reedmace firm",
        grip="Round (invented)",
        head_piece=tested.head,
        shaft_piece=tested.shaft,
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        setting="one up",
        settings=settings,
        length=45.0 * INCH,
        hit=True,
        promise=None,
        why=("Ash goes further than Own as she swings it.", "One up: it starts left of Own."),
    )
