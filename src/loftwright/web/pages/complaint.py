"""A complaint, looked at together: what was said, six looks in order, and how it ends."""

from collections.abc import Callable
from dataclasses import replace

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.after_acts import Look, LookedAt, Where
from loftwright.domain.home import Home, Turf
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import Promise
from loftwright.errors import ConflictError, ConvergenceError, InputError, IntakeError
from loftwright.report.screen_numbers import Show
from loftwright.services.complaint import (
    PlaceEffect,
    end,
    found_at,
    found_of,
    look,
    place_effect,
    read_again,
    what_was_said,
)
from loftwright.services.follow_up import complain, taken_club
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.web.after_forms import (
    FIGURES,
    PLACES,
    SURFACES,
    WIND_WORDS,
    read_complaint,
    read_ending,
    read_look,
)
from loftwright.web.attempts import DONE
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.pages.follow_up import demand_a_job, not_taken
from loftwright.web.render import has_page, render
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.complaint import ComplaintFacts, complaint_view
from loftwright.web.views.complaint_form import figure_fields
from loftwright.web.views.job_undo import undo_view
from loftwright.web.views.rack_rows import Choice
from loftwright.workshop.complaint import Complaint, complaint_now

router = APIRouter(prefix="/fittings/{fitting}/complaint", include_in_schema=False)

_PLACES = {"seen": "", "complaint": ""}


@router.get("")
def show_complaint(request: Request, fitting: str, studio: Here) -> Response:
    """Show what stands of a complaint."""
    return _page(request, studio, fitting, asked=request.query_params.get("look", ""))


@router.post("")
def begin(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write a complaint down."""
    typed = _typed(studio, fields)
    said = read_complaint(typed, studio.today())

    def write() -> None:
        if said is not None:
            complain(studio, fitting, said, by=by, key=key, seen=seen)

    status = _done(typed, write)
    if status != DONE:
        return _page(request, studio, fitting, begun=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/complaint", status_code=DONE)


@router.post("/look")
def write_look(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down one of the looks."""
    typed = _typed(studio, fields)
    which = typed.word("look", Look, Look.MEASURED)
    told = read_look(typed, which)

    def write() -> None:
        if told is not None:
            looked, follows = told
            looked = _followed(studio, fitting, looked) if follows else looked
            look(studio, fitting, looked, by=by, key=key, seen=seen)

    status = _done(typed, write)
    if status != DONE:
        return _page(
            request, studio, fitting, asked=which.value, looked=typed.filled, status=status
        )
    return RedirectResponse(f"/fittings/{fitting}/complaint#looks", status_code=DONE)


@router.post("/end")
def write_ending(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down how the complaint ended."""
    typed = _typed(studio, fields)
    ended = read_ending(typed)

    def write() -> None:
        if ended is not None:
            end(studio, fitting, ended, by=by, key=key, seen=seen)

    status = _done(typed, write)
    if status != DONE:
        return _page(request, studio, fitting, ended=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/complaint", status_code=DONE)


def _typed(studio: Studio, fields: dict[str, str]) -> Typed:
    return Typed(fields=fields, show=show_of(read_settings(studio).settings))


def _done(typed: Typed, act: Callable[[], None]) -> int:
    """Do what a well-filled form asks and return the status of the answer."""
    if not typed.good:
        return 422
    try:
        act()
    except ConflictError as error:
        typed.refused(error, _PLACES)
        return 409
    except (InputError, IntakeError, ConvergenceError) as error:
        field = error.place.rpartition(": ")[2].partition(".")[0]
        by_key = {key: name for name, key, _, _ in FIGURES}
        typed.refused(error, {**_PLACES, error.place: by_key.get(field, field)})
        return 422
    return DONE


def _followed(studio: Studio, fitting: str, looked: LookedAt) -> LookedAt:
    """Return a look with the finding that follows from its figures."""
    if looked.look is Look.MEASURED:
        record = studio.store.job_record(fitting)
        lines = read_again(record, looked.measured, read_terms(studio).terms.tolerances)
        return replace(looked, found=found_of(lines))
    said = what_was_said(studio, fitting)
    if said.promise is None or looked.where is None:
        raise InputError(
            "no total was said, so that nothing follows from a place",
            place="found",
            mend="Choose what was found.",
        )
    effect = place_effect(said.promise, said.home, looked.where)
    return replace(looked, found=found_at(effect))


def _effect(one: Complaint | None, promise: Promise | None, home: Home) -> PlaceEffect | None:
    where: Where | None = None
    if one is not None and Look.PLACE in one.looks:
        where = one.looks[Look.PLACE].where
    return None if where is None or promise is None else place_effect(promise, home, where)


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    asked: str = "",
    begun: Filled | None = None,
    looked: Filled | None = None,
    ended: Filled | None = None,
    status: int = 200,
) -> Response:
    demand_a_job(fitting)
    after = taken_club(studio, fitting)
    job = job_of(request, fitting, "follow-up")
    record = studio.store.job_record(fitting)
    undo = undo_view(record)
    now = complaint_now(record)
    if after is None and now.open is None and not now.earlier:
        return not_taken(request, studio, fitting, complaint="", status=status)
    show = show_of(read_settings(studio).settings)
    facts = _facts(studio, fitting, record, asked)
    today = f"{studio.today():%Y-%m-%d}"
    return render(
        request,
        "complaint.html",
        status=status,
        job=job,
        view=complaint_view(facts, show),
        undo=undo,
        seen=undo.seen,
        open=facts.now.open is not None,
        begun=begun or looked or ended or Filled(typed={"day": today}),
        looked=looked or Filled(),
        ended=ended or Filled(),
        figures=figure_fields(record, show),
        fields=_place_fields(show),
        hit_again=_hit_again(request, fitting),
        first="" if after is None else f"{after.taken:%Y-%m-%d}",
        there=after is not None,
        today=today,
    )


def _place_fields(show: Show) -> dict[str, object]:
    """Return units and choices of the fields in which a place is told."""
    quantities = ("distance", "altitude", "wind", "temperature")
    return {
        "units": {name: show.unit(name).name for name in quantities},
        "grounds": _choices(tuple(Turf)),
        "surfaces": _choices(SURFACES),
        "places": _choices(PLACES),
        "winds": [Choice(value=one, text=words) for one, words in WIND_WORDS.items()],
    }


def _facts(
    studio: Studio, fitting: str, record: tuple[JobEntry, ...], asked: str
) -> ComplaintFacts:
    now = complaint_now(record)
    one = now.open
    said = what_was_said(studio, fitting)
    chosen = None
    if one is not None:
        chosen = next((look for look in Look if look.value == asked), one.next_look)
    measured = one.looks[Look.MEASURED].measured if one and Look.MEASURED in one.looks else ""
    return ComplaintFacts(
        now=now,
        spec=said.spec,
        fitting=studio.standing(fitting),
        ordered=record[0].at,
        home=said.home,
        asked=chosen,
        readings=read_again(record, measured, read_terms(studio).terms.tolerances)
        if measured
        else (),
        effect=_effect(one, said.promise, said.home),
    )


def _hit_again(request: Request, fitting: str) -> tuple[str, str]:
    """Return the address and the words of the page where both clubs are hit in turn."""
    if has_page(request, "/fittings/{}/final-check/pick-up"):
        return f"/fittings/{fitting}/final-check/pick-up", "Hit both clubs in turn"
    return f"/fittings/{fitting}/bay", "Go to the bay"


def _choices(words: tuple[str, ...]) -> list[Choice]:
    return [Choice(value=one, text=one.capitalize()) for one in words]
