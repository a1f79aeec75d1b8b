"""The training bay: cases to open, the call, and what was true afterwards."""

from fastapi import APIRouter, Request, Response

from loftwright.errors import InputError
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.training_bay import call_case, open_case
from loftwright.services.training_debrief import look_back
from loftwright.services.training_plays import all_plays, read_play
from loftwright.services.training_room import TrainingRoom
from loftwright.training.case_files import known_cases
from loftwright.web.answers import acted
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import CALL, job_of
from loftwright.web.render import render
from loftwright.web.state import Actor, Here, Room
from loftwright.web.views.rack_rows import Choice
from loftwright.web.views.training import call_view, cases_view, debrief_view

router = APIRouter(prefix="/training", include_in_schema=False)

_LARGEST_SEED = 999_999_999


@router.get("")
def show_cases(request: Request, room: Room) -> Response:
    """Show the cases and what was played of each."""
    return _cases(request, room, Filled())


@router.post("")
def open_one(request: Request, room: Room, fields: Fields, by: Actor) -> Response:
    """Open a case and go to its bay."""
    typed = Typed(fields=fields)
    seed = typed.whole("seed", least=0, most=_LARGEST_SEED)
    case = typed.text("case", need="Choose a case.")
    if not typed.good:
        return _cases(request, room, typed.filled, status=422)
    try:
        fitting = open_case(room.studio(), case, seed=seed, by=by)
    except InputError as error:
        typed.fail("case", error.message, error.mend)
        return _cases(request, room, typed.filled, status=422)
    return acted(request, f"/fittings/{fitting}/bay")


@router.get("/{fitting}")
def show_call(request: Request, fitting: str, studio: Here) -> Response:
    """Ask for the call; after it show what was true."""
    return _call(request, fitting, studio, Filled())


@router.post("/{fitting}")
def call(request: Request, fitting: str, studio: Here, fields: Fields, by: Actor) -> Response:
    """Call a club, once."""
    typed = Typed(fields=fields)
    called = typed.text("call", need="Choose a club, or that it is too close to call.")
    if typed.good:
        try:
            call_case(studio, fitting, called, by=by)
        except InputError as error:
            typed.fail("call", error.message, error.mend)
    if not typed.good:
        return _call(request, fitting, studio, typed.filled, status=422)
    return acted(request, f"/training/{fitting}")


def _cases(request: Request, room: TrainingRoom, form: Filled, *, status: int = 200) -> Response:
    cases = known_cases()
    return render(
        request,
        "training.html",
        status=status,
        view=cases_view(cases, all_plays(room.studio())),
        form=form,
        choices=tuple(Choice(value=one.name, text=one.golfer) for one in cases),
    )


def _call(
    request: Request, fitting: str, studio: Studio, form: Filled, *, status: int = 200
) -> Response:
    play = read_play(studio, fitting)
    job = job_of(request, fitting, CALL)
    if play.call:
        view = debrief_view(look_back(studio, fitting), show_of(read_settings(studio).settings))
        return render(request, "training_debrief.html", status=status, job=job, view=view)
    shown = call_view(play.player().case, studio.standing(fitting))
    return render(
        request,
        "training_call.html",
        status=status,
        job=job,
        at=f"/training/{fitting}",
        bay=f"/fittings/{fitting}/bay",
        view=shown,
        form=form,
    )
