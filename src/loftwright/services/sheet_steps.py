"""The steps of a build: done in order, each behind its hold point."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import SMALL_PARTS, Holds
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.physics.build.swingweight import index_of
from loftwright.services.build_sheets import BuildNow, build_now, off_target, said_on_sheet
from loftwright.services.job import job_act
from loftwright.services.studio import Studio

CHECK_LENGTH: Final = "check.length_inch"
CHECK_POINTS: Final = "check.swingweight"
CHECK_CYCLES: Final = "check.frequency_cpm"
_ON_THE_WAY: Final = (Step.TIP_TRIMMED, Step.BUTT_TRIMMED, Step.BONDED)
"""Steps that cannot be taken back, so that the club must come to its targets first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldFigure:
    """What is read at a hold point.

    Attributes
    ----------
    name : str
        Key of the build file or of what is made; a check's own name.
    words : str
    holds : Holds
        Its unit.
    sheet : float
        What the sheet says, in that unit; swingweight in points.
    room : float
        By how much the reading may differ.
    needed : bool
        Whether the step waits for it.
    departs : bool
        Whether a reading outside is logged as a departure; else the cause is sought first.
    """

    name: str
    words: str
    holds: Holds
    sheet: float
    room: float
    needed: bool = True
    departs: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A hold point that is not met."""

    figure: HoldFigure
    read: float


def hold_figures(step: Step, now: BuildNow) -> tuple[HoldFigure, ...]:
    """Return what is read at a step's hold point, beside what the sheet says."""
    if now.solved is None or now.made is None:
        return ()
    room, says = now.solved.sheet.tolerances, said_on_sheet(now)
    if step is Step.COMPARED:
        names = ["head.mass_g", "shaft.mass_g", "grip.mass_g"]
        names += [f"parts.{one}.mass_g" for one in SMALL_PARTS if f"parts.{one}.mass_g" in says]
        return tuple(
            HoldFigure(
                name=name,
                words=FIELDS[name].words.removesuffix(", weighed"),
                holds=Holds.MASS,
                sheet=float(says[name]),
                room=room.part_mass / GRAM,
            )
            for name in names
        )
    if step is Step.DRY_FITTED:
        return (_length("head.to_60_plane_inch", "Seated tip to the 60-degree plane", says, room),)
    if step is Step.BUTT_TRIMMED:
        return (_length("made.cut_length_inch", "Shaft, cut", says, room),)
    if step is Step.DRY_CHECKED:
        return _dry_check(now, room)
    return ()


def missed(step: Step, now: BuildNow, read: Mapping[str, float]) -> tuple[Missed, ...]:
    """Return which readings of a hold point lie outside.

    Parameters
    ----------
    step : Step
    now : BuildNow
    read : mapping of str to float
        By name, each in the unit of its figure.
    """
    return tuple(
        Missed(figure=one, read=read[one.name])
        for one in hold_figures(step, now)
        if one.name in read and abs(read[one.name] - one.sheet) > one.room + 1e-9
    )


def do_step(
    studio: Studio,
    fitting: str,
    done: StepDone,
    read: Mapping[str, float],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down that a step was done and its hold point met.

    Parameters
    ----------
    studio : Studio
    fitting : str
    done : StepDone
    read : mapping of str to float
        What was read at the hold point.
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.

    Raises
    ------
    InputError
        If a reading is missing or outside.
    ConflictError
        If another step comes first, the bond is still curing, or the record went on.
    """
    now = build_now(studio, fitting)
    if written(now.record, key):
        return now.record
    check_step(studio, now, done.step)
    for one in hold_figures(done.step, now):
        if one.needed and one.name not in read:
            raise InputError(
                f"{one.words.lower()} was not read",
                place=one.name,
                mend="The hold point waits for it.",
            )
    for off in missed(done.step, now, read):
        raise InputError(
            f"{off.figure.words.lower()} is off its sheet",
            place=off.figure.name,
            mend="Log the departure, so that the club is computed again.",
        )
    return job_act(studio, fitting, [done], by=by, key=key, seen=seen)


def check_step(studio: Studio, now: BuildNow, step: Step) -> None:
    """Refuse a step that is not the next one, or whose hold point lies in the job itself.

    Raises
    ------
    ConflictError
        If another step comes first, the order is off, the club would miss a target or the bond
        is curing.
    """
    stands = now.progress
    if stands.off is not None or not stands.agreed:
        raise ConflictError(
            "the order is off" if stands.off is not None else "a new quote waits for agreement",
            place="seen",
            mend="Nothing is built until the golfer has agreed on the order’s page.",
        )
    if stands.requoted and stands.bond is None:
        raise ConflictError(
            "a new quote was agreed to after this sheet",
            place="seen",
            mend="Issue another revision, so that the club is the one that is wanted now.",
        )
    if stands.next is not step:
        raise ConflictError(
            "another step comes first" if step not in stands.done else "this step is done already",
            place="seen",
            mend="The page shows which one is next.",
        )
    if step in _ON_THE_WAY and now.cannot:
        raise ConflictError(
            f"as built it comes to no club: {now.cannot}",
            place="seen",
            mend="Change the part, or issue another revision.",
        )
    if step in _ON_THE_WAY and off_target(now):
        raise ConflictError(
            "as built the club would miss its target",
            place="seen",
            mend="Take the mend, change the part, or issue another revision.",
        )
    bond = stands.bond
    if step is Step.CURED and bond is not None and bond.not_before > studio.now():
        raise ConflictError(
            "the bond is still curing",
            place="seen",
            mend="Its tag says until when; nobody waggles or hits the club before.",
        )


def _length(name: str, words: str, says: Mapping[str, str], room: Tolerances) -> HoldFigure:
    return HoldFigure(
        name=name,
        words=words,
        holds=Holds.LENGTH,
        sheet=float(says[name]),
        room=room.length / INCH,
    )


def _dry_check(now: BuildNow, room: Tolerances) -> tuple[HoldFigure, ...]:
    found = [
        HoldFigure(
            name=CHECK_LENGTH,
            words="Length",
            holds=Holds.LENGTH,
            sheet=float(now.draft["target.length_inch"]),
            room=room.length / INCH,
            departs=False,
        )
    ]
    points = now.draft.get("target.swingweight")
    if points:
        found.append(
            HoldFigure(
                name=CHECK_POINTS,
                words="Swingweight, the grip beside it",
                holds=Holds.POINTS,
                sheet=index_of(points),
                room=room.swingweight,
                needed=False,
                departs=False,
            )
        )
    if now.draft.get("target.frequency_cpm"):
        found.append(
            HoldFigure(
                name=CHECK_CYCLES,
                words="Frequency, in the clamp and with the weight of the target",
                holds=Holds.CYCLES,
                sheet=float(now.draft["target.frequency_cpm"]),
                room=room.frequency / CYCLE_PER_MINUTE,
                needed=False,
                departs=False,
            )
        )
    return tuple(found)
