"""The final check: the finished club measured, looked at by a second person, and received."""

from collections.abc import Sequence
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import Withdrawn
from loftwright.errors import ConflictError, InputError, LoftwrightError, NotFoundError
from loftwright.intake.build_text import read_build_text
from loftwright.report.final_rounds import departure_line
from loftwright.report.screen_numbers import Show
from loftwright.services.build import targets_of
from loftwright.services.final_check import (
    HeldRound,
    clock,
    held,
    held_rounds,
    keep_check,
    open_points,
)
from loftwright.services.final_usual import built_as
from loftwright.services.job import undo_job
from loftwright.services.settings import read_settings, show_of
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.web.answers import acted
from loftwright.web.final_fields import PLACES
from loftwright.web.final_forms import (
    fields_as_typed,
    read_looked,
    read_measured,
    read_received,
    usual_fields,
)
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.render import has_page, render
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.final_check import final_view, rework_text
from loftwright.web.views.final_says import Asking, FinalFacts
from loftwright.web.views.job_undo import undo_view
from loftwright.workshop.final import FinalState, final_now
from loftwright.workshop.standing import newest, standing, undoable

router = APIRouter(include_in_schema=False)

BENCH: Final = "/build/{fitting}/final-check"
"""The workshop's own address, which shows no golfer."""


@router.get("/fittings/{fitting}/final-check")
@router.get(BENCH)
def show_final(request: Request, fitting: str, studio: Here) -> Response:
    """Show how the club stands, and the form of its receipt."""
    return _page(request, studio, fitting)


@router.post("/fittings/{fitting}/final-check")
@router.post(BENCH)
def receive(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Hold what was typed against the sheet, and keep it if that is asked for."""
    _not_training(fitting)
    typed = Typed(fields=dict(fields), show=show_of(read_settings(studio).settings))
    typed.fields.setdefault("final", "")
    keeping = fields.get("act") == "keep"
    measured = read_measured(typed)
    received = read_received(typed, measured or "") if keeping else None
    checked = _held(studio, fitting, typed, measured)
    if checked is None or (keeping and received is None):
        return _page(request, studio, fitting, typed=typed, checked=checked, status=422)
    if received is None:
        return _page(request, studio, fitting, typed=typed, checked=checked)
    status = _kept(studio, fitting, typed, received, by=by, key=key, seen=seen)
    if status != 303:
        return _page(request, studio, fitting, typed=typed, checked=checked, status=status)
    return RedirectResponse(request.url.path, status_code=303)


@router.post(f"{BENCH}/undo")
def undo(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Take back the newest receipt; the workshop undoes nothing else from here."""
    _not_training(fitting)
    last = undoable(studio.store.job_record(fitting))
    sent = fields.get("act", "")
    if last is None or not isinstance(last.act, Received) or sent != str(last.sequence):
        raise InputError(
            "the final check is not what was done last",
            place="act",
            mend="What came after it is taken back on the fitting's own page.",
        )
    record = undo_job(studio, fitting, last.sequence, by=by, key=key, seen=seen)
    return acted(request, f"/build/{fitting}/final-check", revision=record[-1].sequence)


def _held(studio: Studio, fitting: str, typed: Typed, measured: str | None) -> CheckedBuild | None:
    """Return the verdicts of what was typed; None, and why at its field, if it cannot be."""
    sheet = sheet_now(studio.store.job_record(fitting))
    if measured is None:
        return None
    if sheet is None:
        typed.fail("final", "there is no build sheet", "Issue the build sheet first.")
        return None
    try:
        return held(sheet, measured)
    except LoftwrightError as error:
        typed.refused(error, PLACES)
        return None


def _kept(
    studio: Studio,
    fitting: str,
    typed: Typed,
    received: Received,
    *,
    by: str,
    key: str,
    seen: int | None,
) -> int:
    """Keep a receipt and return the status of the answer."""
    try:
        keep_check(studio, fitting, received, by=by, key=key, seen=seen)
    except ConflictError as error:
        typed.fail("final", error.message, error.mend)
        return 409
    except InputError as error:
        typed.refused(error, PLACES)
        return 422
    return 303


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    typed: Typed | None = None,
    checked: CheckedBuild | None = None,
    status: int = 200,
) -> Response:
    _not_training(fitting)
    bench = request.url.path.startswith("/build/")
    record = studio.store.job_record(fitting)
    opened = studio.store.fitting(fitting).value
    show = show_of(read_settings(studio).settings)
    facts, usual = _facts(studio, record, show, typed, checked)
    view = final_view(facts)
    return render(
        request,
        "final_check.html",
        status=status,
        frame="shop.html" if bench else "fitting.html",
        bench=bench,
        job=None if bench else job_of(request, fitting, "final-check"),
        initials=studio.store.identity(opened.golfer).initials,
        at=request.url.path if bench else f"/fittings/{fitting}/final-check",
        back=f"/build/{fitting}" if bench else f"/fittings/{fitting}",
        missing=_missing_path(request, fitting, view.missing, bench=bench),
        view=view,
        form=_form(facts, usual, typed, checked),
        undo=undo_view(record),
        receipt_last=_receipt_last(record),
        pick_up=_pick_up(request, fitting, facts, bench=bench),
    )


def _facts(
    studio: Studio,
    record: Sequence[JobEntry],
    show: Show,
    typed: Typed | None,
    checked: CheckedBuild | None,
) -> tuple[FinalFacts, dict[str, str]]:
    """Return what the page says, and what its form holds before anything is typed."""
    final = final_now(record, studio.now())
    sheet, broken = None, ("", "")
    targets: tuple[Checked, ...] = ()
    usual: dict[str, str] = {}
    rounds: tuple[HeldRound, ...] = ()
    try:
        sheet = sheet_now(record)
        rounds = held_rounds(record, final)
        if sheet is not None:
            as_built = read_build_text(sheet.as_built)
            wanted = targets_of(as_built)
            targets = tuple(one for one in Checked if one in wanted)
            built = built_as(sheet, rounds, changed=final.changed)
            usual = usual_fields(as_built, built, show, studio.today())
    except LoftwrightError as error:
        sheet = None
        broken = (error.message, error.mend or f"See {error.place}.")
    off = newest(standing(record), Withdrawn)
    return (
        FinalFacts(
            final=final,
            rounds=rounds,
            departures=_departures(sheet, show),
            fields={} if sheet is None else sheet.issued.fields,
            until="" if final.bond is None else clock(studio, final.bond.not_before),
            targets=targets,
            off="" if off is None else off.reason,
            broken=broken,
            asking=_asking(typed, checked),
            show=show,
        ),
        usual,
    )


def _departures(issued: SheetNow | None, show: Show) -> tuple[str, ...]:
    return () if issued is None else tuple(departure_line(one, show) for one in issued.departures)


def _asking(typed: Typed | None, checked: CheckedBuild | None) -> Asking:
    if typed is None:
        return Asking()
    general = typed.faults.get("final")
    looks = read_looked(Typed(fields=dict(typed.fields)))
    return Asking(
        checked=checked,
        points=None if checked is None else open_points(checked, looks),
        faults=len(typed.faults),
        refused="" if general is None else f"{general.message[:1].lower()}{general.message[1:]}",
    )


def _form(
    facts: FinalFacts,
    usual: dict[str, str],
    typed: Typed | None,
    checked: CheckedBuild | None,
) -> Filled:
    """Return the form: as it was typed, or with what is usual on this bench."""
    if typed is not None:
        rework = "" if checked is None else rework_text(checked, facts.show)
        return Filled(typed=fields_as_typed(typed.fields, rework), faults=dict(typed.faults))
    return Filled(typed=usual)


def _missing_path(
    request: Request, fitting: str, missing: tuple[str, ...], *, bench: bool
) -> tuple[str, str]:
    """Return where to go first, and its words; empty where there is no such page."""
    if not missing:
        return "", ""
    step, words = missing
    shape = "/build/{}" if bench else f"/fittings/{{}}/{step}"
    if not has_page(request, shape) or (bench and step != "build"):
        return "", ""
    return shape.replace("{}", fitting), words


def _receipt_last(record: Sequence[JobEntry]) -> bool:
    last = undoable(record)
    return last is not None and isinstance(last.act, Received)


def _pick_up(request: Request, fitting: str, facts: FinalFacts, *, bench: bool) -> str:
    """Return the address of the pick-up balls once the club is accepted."""
    ready = facts.final.state is FinalState.ACCEPTED and not bench
    there = has_page(request, "/fittings/{}/final-check/pick-up")
    return f"/fittings/{fitting}/final-check/pick-up" if ready and there else ""


def _not_training(fitting: str) -> None:
    if is_training(fitting):
        raise NotFoundError(
            "a training case has no final check",
            place="final-check",
            mend="Go back to its call.",
        )
