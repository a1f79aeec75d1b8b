"""Work through a build sheet: steps, departures, the mend and the bond."""

from fastapi import APIRouter, Request, Response

from loftwright.domain.sheet_acts import Step, StepDone
from loftwright.services.bonding import bond
from loftwright.services.build_sheets import build_now, mend_of
from loftwright.services.settings import read_settings, show_of
from loftwright.services.sheet_issue import depart
from loftwright.services.sheet_steps import check_step, do_step, hold_figures, missed
from loftwright.services.sheet_text import figure_text
from loftwright.web.attempts import DONE, attempt
from loftwright.web.build_answers import PLACES, back_to, build_page
from loftwright.web.forms import Fields, Typed
from loftwright.web.sheet_forms import (
    LONGEST_FIELD,
    read_bond,
    read_departure,
    read_hold,
    refuse_missed,
)
from loftwright.web.state import ActKey, Actor, Here, Seen

router = APIRouter(include_in_schema=False)

MEND_WHY = "The mend, so that the club meets its targets"


@router.post("/fittings/{fitting}/build/step")
@router.post("/build/{fitting}/step")
def step_done(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Tick the next step with initials, or log what its hold point found."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    now = build_now(studio, fitting)
    step = typed.word("step", Step, Step.WEIGHED)
    logs = fields.get("do") == "depart"
    read = read_hold(typed, hold_figures(step, now))
    off = missed(step, now, read)
    departs = bool(off) and all(one.figure.departs for one in off)
    if not logs:
        refuse_missed(typed, off, typed.show)
    initials = typed.text("initials", most=8, need="" if logs else "Who did it, in initials.")
    note = typed.text("note", most=LONGEST_FIELD)

    def act() -> None:
        check_step(studio, now, step)
        done_now = StepDone(step=step, initials=initials, note=note)
        do_step(studio, fitting, done_now, read, by=by, key=key, seen=seen)

    def log() -> None:
        built = {one.figure.name: figure_text(one.read) for one in off if one.figure.departs}
        why = note or "Found at its hold point"
        depart(studio, fitting, built, why, by=by, key=key, seen=seen)

    status = attempt(typed, log if logs and departs else act, PLACES)
    if status != DONE:
        return build_page(
            request, studio, fitting, step=typed.filled, departs=departs, status=status
        )
    return back_to(request, fitting, "#next")


@router.post("/fittings/{fitting}/build/departure")
@router.post("/build/{fitting}/departure")
def departure(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Log what was built otherwise; the target stays."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    built = read_departure(typed)
    why = fields.get("why", "").strip()

    def act() -> None:
        depart(studio, fitting, built, why, by=by, key=key, seen=seen)

    status = attempt(typed, act, PLACES)
    if status != DONE:
        return build_page(request, studio, fitting, otherwise=typed.filled, status=status)
    return back_to(request, fitting, "#built")


@router.post("/fittings/{fitting}/build/mend")
@router.post("/build/{fitting}/mend")
def mend(
    request: Request,
    fitting: str,
    studio: Here,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Take the mend: cut and add what brings the club as built to its targets."""
    typed = Typed(fields={})
    wanted = mend_of(build_now(studio, fitting))
    if not wanted:
        typed.fail("", "there is nothing to mend", "The page shows what stands now.")

    def act() -> None:
        depart(studio, fitting, wanted, MEND_WHY, by=by, key=key, seen=seen)

    status = attempt(typed, act, PLACES)
    if status != DONE:
        return build_page(request, studio, fitting, otherwise=typed.filled, status=status)
    return back_to(request, fitting, "#built")


@router.post("/fittings/{fitting}/build/bond")
@router.post("/build/{fitting}/bond")
def bonded(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write the bond down; the new club stands in the rack, locked until its time."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    mixed = read_bond(typed, studio, glued=build_now(studio, fitting).glued)

    def act() -> None:
        if mixed is not None:
            bond(studio, fitting, mixed, by=by, key=key, seen=seen)

    status = attempt(typed, act, PLACES)
    if status != DONE:
        return build_page(request, studio, fitting, glue=typed.filled, status=status)
    return back_to(request, fitting, "#next")
