"""Follow-up: who is to be asked, what was answered, and what the course says of what was said."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.order_acts import Quoted, Withdrawn
from loftwright.errors import IntakeError, NotFoundError
from loftwright.services.follow_up import add_rounds, ask, follow_ups, taken_club
from loftwright.services.golfers import known_golfer
from loftwright.services.growth_checks import growth_checks, move_growth_check
from loftwright.services.rounds_in import RefusedLine, read_rounds, text_of
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.web.after_forms import read_asked, read_round
from loftwright.web.attempts import DONE, attempt
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.render import has_page, render
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.follow_up import follow_up_view, follow_ups_view
from loftwright.web.views.growth_checks import growth_view
from loftwright.web.views.job_undo import undo_view
from loftwright.workshop.complaint import complaint_now
from loftwright.workshop.stages import agreed_quote
from loftwright.workshop.standing import standing

_PLACES: Final = {"seen": ""}
router = APIRouter(include_in_schema=False)

_PAGE = "/fittings/{fitting}/follow-up"


@router.get("/follow-ups")
def show_due(request: Request, studio: Here) -> Response:
    """Show who is to be asked how the club does."""
    return _due_page(request, studio)


@router.post("/golfers/{golfer}/growth-check")
def move_check(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Write down when a minor is to be looked at next, or that it is not any more."""
    typed = Typed(fields={"day": "", **fields})
    last = fields.get("do") == "none"
    was, day = typed.day("was"), None if last else typed.day("day")
    if day is None and not last:
        typed.fail("day", "the next day is missing", "Give it, or choose that there is none.")
    status = attempt(
        typed, lambda: move_growth_check(studio, golfer, day, was=was), {"golfer": ""}
    )
    if status != DONE:
        return _due_page(request, studio, moved=typed.filled, of=golfer, status=status)
    return RedirectResponse("/follow-ups#growth", status_code=DONE)


@router.get(_PAGE)
def show_follow_up(request: Request, fitting: str, studio: Here) -> Response:
    """Show what became of a fitting's club."""
    return _page(request, studio, fitting)


@router.post(_PAGE)
def write_answer(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down what a golfer answered."""
    typed = _typed(studio, fields)
    asked = read_asked(typed, studio.today())

    def write() -> None:
        if asked is not None:
            ask(studio, fitting, asked, by=by, key=key, seen=seen)

    status = attempt(typed, write, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, asked=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/follow-up", status_code=DONE)


@router.post(f"{_PAGE}/round")
def write_round(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down a round."""
    typed = _typed(studio, fields)
    played = read_round(typed)

    def write() -> None:
        if played is not None:
            add_rounds(studio, fitting, [played], by=by, key=key, seen=seen)

    status = attempt(typed, write, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, played=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/follow-up#rounds", status_code=DONE)


@router.post(f"{_PAGE}/rounds")
def write_table(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    files: Files,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down a table of rounds, all of it or nothing."""
    after = taken_club(studio, fitting)
    typed = _typed(studio, {**fields, "table": fields.get("table", "")})
    refused: tuple[RefusedLine, ...] = ()
    try:
        if "file" in files:
            typed.fields["table"] = text_of(files["file"][1])
        taken = studio.today() if after is None else after.taken
        told = read_rounds(typed.fields["table"], taken=taken, today=studio.today())
    except IntakeError as error:
        typed.fail("table", error.message, error.mend)
    else:
        refused = told.refused
        if refused:
            typed.fail("table", "nothing of it was taken", "Mend the lines below, then try again.")

    def write() -> None:
        add_rounds(studio, fitting, told.rounds, by=by, key=key, seen=seen)

    status = attempt(typed, write, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, table=typed.filled, refused=refused, status=status)
    return RedirectResponse(f"/fittings/{fitting}/follow-up#rounds", status_code=DONE)


def demand_a_job(fitting: str) -> None:
    """Demand that a fitting is none of training.

    Raises
    ------
    NotFoundError
        If it is: no club is made in it.
    """
    if is_training(fitting):
        raise NotFoundError(
            "no club is made in a training case",
            place="fitting",
            mend="Its last page is the call.",
        )


def _typed(studio: Studio, fields: dict[str, str]) -> Typed:
    return Typed(fields=fields, show=show_of(read_settings(studio).settings))


def _due_page(
    request: Request,
    studio: Studio,
    *,
    moved: Filled | None = None,
    of: str = "",
    status: int = 200,
) -> Response:
    growth = growth_view(growth_checks(studio), studio.today())
    return render(
        request,
        "follow_ups.html",
        status=status,
        view=follow_ups_view(follow_ups(studio), growth.sentence, studio.today()),
        growth=growth,
        moved=moved or Filled(),
        of=of,
    )


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    asked: Filled | None = None,
    played: Filled | None = None,
    table: Filled | None = None,
    refused: tuple[RefusedLine, ...] = (),
    status: int = 200,
) -> Response:
    demand_a_job(fitting)
    after = taken_club(studio, fitting)
    job = job_of(request, fitting, "follow-up")
    record = studio.store.job_record(fitting)
    undo = undo_view(record)
    complaints = complaint_now(record)
    complaint = "open" if complaints.open else "ended" if complaints.earlier else ""
    if after is None:
        return not_taken(request, studio, fitting, complaint=complaint, status=status)
    show = show_of(read_settings(studio).settings)
    known = known_golfer(studio, studio.store.fitting(fitting).value.golfer)
    today = studio.today()
    view = follow_up_view(after, known, today, show)
    return render(
        request,
        "follow_up.html",
        status=status,
        job=job,
        view=view,
        undo=undo,
        asked=asked or Filled(typed={"day": f"{today:%Y-%m-%d}"}),
        played=played or Filled(),
        table=table or Filled(),
        refused=refused,
        unit=show.unit("distance").name,
        today=f"{today:%Y-%m-%d}",
        first=f"{after.taken:%Y-%m-%d}",
        complaint=complaint,
        golfer=known.golfer.id,
        seen=undo.seen,
    )


def not_taken(
    request: Request, studio: Studio, fitting: str, *, complaint: str, status: int
) -> Response:
    """Return the page of a fitting whose golfer has no club.

    Parameters
    ----------
    request : Request
    studio : Studio
    fitting : str
    complaint : {"", "open", "ended"}
    status : int
    """
    return render(
        request,
        "follow_up_wait.html",
        status=status,
        job=job_of(request, fitting, "follow-up"),
        wait=_waiting_words(request, studio, fitting),
        undo=undo_view(studio.store.job_record(fitting)),
        complaint=complaint,
    )


def _waiting_words(request: Request, studio: Studio, fitting: str) -> tuple[str, str, str, str]:
    """Return why nobody has a club yet: a sentence, the line under it, and where to go."""
    record = studio.store.job_record(fitting)
    stands = standing(record)
    at = f"/fittings/{fitting}"
    last = next((x.act for x in reversed(stands) if isinstance(x.act, Quoted | Withdrawn)), None)
    if isinstance(last, Withdrawn):
        say, under = "The order is off: there is no club to ask after.", last.reason
        step, words = "order", "Go to the order"
    elif agreed_quote(record) is None:
        say = "Nothing was ordered, so there is no club to ask after."
        under = "A club is asked after once the golfer took it home."
        step, words = "order", "Go to the order"
    else:
        say = "The golfer does not have the club yet."
        under = "It is asked after once the pick-up is written down."
        step, words = "final-check", "Go to the final check"
    if not has_page(request, f"/fittings/{{}}/{step}"):
        return say, under, f"{at}/choice", "Go to the choice"
    return say, under, f"{at}/{step}", words
