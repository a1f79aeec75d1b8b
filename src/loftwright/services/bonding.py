"""The bond: when the club may be hit, and the new club in the rack, locked until then."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Final

from loftwright.constants import GRAM
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec
from loftwright.domain.rack import Assembly, Piece, Rack, RackItem
from loftwright.domain.sheet_acts import Bonded, Step, StepDone
from loftwright.errors import ConflictError, InputError
from loftwright.services.build_sheets import BuildNow, build_now
from loftwright.services.job import job_act
from loftwright.services.rack import check_assembly
from loftwright.services.rack_adding import rack_with
from loftwright.services.sheet_steps import check_step
from loftwright.services.studio import Studio, new_id

PLACE: Final = "Workshop"
NO_BOND: Final = "none"
_LATEST: Final = timedelta(hours=1)
"""How far ahead of the studio's clock a mix may be written down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """A glue as it was mixed.

    Attributes
    ----------
    adhesive : str
        Empty where no bond is made.
    hours : float
        Until the club may be hit, by the adhesive's own data sheet.
    mixed : datetime
        In UTC.
    temperature : float or None
        Of the workshop [K].
    initials : str
        Of who bonded.
    """

    adhesive: str
    batch: str
    hours: float
    mixed: datetime
    temperature: float | None = None
    initials: str = ""


def bond(
    studio: Studio,
    fitting: str,
    mixed: Mixed,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> Bonded:
    """Write the bond down and put the new club into the rack, locked until it may be hit.

    Parameters
    ----------
    studio : Studio
    fitting : str
    mixed : Mixed
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.

    Returns
    -------
    Bonded

    Raises
    ------
    InputError
        If the time of the mix cannot be, or the club cannot be put together.
    ConflictError
        If a step before it is not done, or the record went on.

    Notes
    -----
    A head or shaft that stays is the golfer's own sample. A bond that was taken back and made
    again keeps its samples.
    """
    with studio.lock:
        now = build_now(studio, fitting)
        known = [one.act for one in now.record if key and one.key == key]
        for one in known:
            if isinstance(one, Bonded):
                return one
        if seen is not None and seen != now.seen:
            raise ConflictError(
                "the record of this job is not what the page showed",
                place="seen",
                mend="The page shows what stands now; act again if it is still wrong.",
            )
        check_step(studio, now, Step.BONDED)
        _check_time(studio, mixed)
        spec = now.spec
        if spec is None:
            raise ConflictError("the order is off", place="seen")
        not_before = mixed.mixed + timedelta(hours=mixed.hours)
        items = _items(studio, now, spec, not_before)
        head, shaft, club = items
        check_assembly(rack_with(studio.store.rack(), *items), club)
        act = Bonded(
            adhesive=mixed.adhesive or NO_BOND,
            batch=mixed.batch,
            mixed=mixed.mixed,
            not_before=not_before,
            assembly=club.id,
            head_piece=head.id,
            shaft_piece=shaft.id,
            temperature=mixed.temperature,
        )
        _put(studio, items)
        done = StepDone(step=Step.BONDED, initials=mixed.initials)
        job_act(studio, fitting, [done, act], by=by, key=key, seen=seen)
    return act


def _check_time(studio: Studio, mixed: Mixed) -> None:
    if mixed.mixed > studio.now() + _LATEST:
        raise InputError(
            "the glue was not mixed yet", place="mixed", mend="Write when it was mixed."
        )
    if mixed.adhesive and not 0.0 < mixed.hours <= 240.0:
        raise InputError(
            f"{mixed.hours:g} hours of cure cannot be",
            place="hours",
            mend="Give what its data sheet says, at most 240.",
        )


def _items(
    studio: Studio, now: BuildNow, spec: ClubSpec, not_before: datetime
) -> tuple[Piece, Piece, Assembly]:
    rack = studio.store.rack()
    golfer = studio.store.golfer(studio.store.fitting(now.fitting).value.golfer).value
    own = rack.assemblies.get(golfer.own or "")
    before = _before(now.record, rack)
    kept_head, kept_shaft = spec.kept.own_head, spec.kept.own_shaft
    if own is None and (kept_head or kept_shaft):
        raise InputError(
            "the rack does not have the golfer’s own club",
            place="head",
            mend="Write it down on the golfer’s page.",
        )
    lock = not_before if now.glued else None
    head = _piece(rack, spec.head_piece, before[1] if before else "", now, part="head")
    shaft = _piece(rack, spec.shaft_piece, before[2] if before else "", now, part="shaft")
    if own is not None and kept_head:
        head = rack.pieces[own.head]
    if own is not None and kept_shaft:
        shaft = rack.pieces[own.shaft]
    length = now.built.club.length if now.built is not None else spec.length
    club = Assembly(
        id=before[0] if before else new_id(),
        head=head.id,
        shaft=shaft.id,
        length=length,
        setting=now.draft.get("setting", spec.setting),
        grip=now.draft.get("grip", spec.grip),
        owner=golfer.id,
    )
    return replace(head, locked_until=lock), replace(shaft, locked_until=lock), club


def _piece(rack: Rack, tested: str, known: str, now: BuildNow, *, part: str) -> Piece:
    """Return a new sample of the tested one's model, with what was weighed of it."""
    model = rack.pieces.get(tested)
    if model is None:
        raise InputError(
            f"the rack does not have the tested {part} any more",
            place=part,
            mend="Put it back on the rack’s page, then bond.",
        )
    mass = float(now.draft[f"{part}.mass_g"]) * GRAM
    if part == "head" and now.made is not None:
        mass += now.made.head_added
    return Piece(
        id=known or new_id(),
        model=model.model,
        label=now.draft.get(f"{part}_serial", "") or f"Built {now.code}",
        mass=mass,
        place=PLACE,
        sleeve=model.sleeve if part == "shaft" else None,
    )


def _before(record: Sequence[JobEntry], rack: Rack) -> tuple[str, str, str] | None:
    """Return the ids of an earlier bond of this job that are still in the rack."""
    for entry in reversed(record):
        act = entry.act
        if isinstance(act, Bonded) and act.assembly in rack.assemblies:
            return act.assembly, act.head_piece, act.shaft_piece
    return None


def _put(studio: Studio, items: Sequence[RackItem]) -> None:
    rack = studio.store.rack()
    known = rack.pieces.keys() | rack.assemblies.keys()
    studio.store.put_together(
        [(one, studio.store.item(one.id).version if one.id in known else None) for one in items]
    )
