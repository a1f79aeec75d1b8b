"""Pick-up balls: the built club against the tested one, and the handing over."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.golfer import Hand
from loftwright.services.acting import topic
from loftwright.services.evidence import Desk
from loftwright.services.golfers import known_golfer
from loftwright.services.pick_up import PickUpNow, begin_pick_up, end_pick_up, pick_up_now
from loftwright.services.pick_up_balls import usual_start
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.visit_start import visit_is_open
from loftwright.store.topics import JOB
from loftwright.web.attempts import DONE, attempt
from loftwright.web.bay_events import bay_events
from loftwright.web.forms import LONGEST_TEXT, Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.live import LiveState
from loftwright.web.plan_forms import (
    BY_HAND,
    LEFT_CHECKS,
    PLACES,
    SURFACES,
    TREATMENTS,
    read_start,
)
from loftwright.web.render import part, render
from loftwright.web.state import ActKey, Actor, AtDesk, Here, Seen
from loftwright.web.views.job_undo import undo_view
from loftwright.web.views.pick_up import PickUpView, pick_up_view
from loftwright.web.views.rack_rows import Choice

router = APIRouter(prefix="/fittings/{fitting}/final-check/pick-up", include_in_schema=False)


@router.get("")
def show_pick_up(request: Request, fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Show whether the built club plays as the tested one, and what comes next."""
    return _page(request, studio, desk, fitting)


@router.get("/events")
async def follow_pick_up(request: Request, fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Send the verdict anew when a ball, a correction or an act of the job came."""

    def draw() -> LiveState:
        found = pick_up_now(studio, desk, fitting)
        view = _view(studio, found)
        return LiveState(
            revision=found.now.upto, parts={"pick-up": part("parts/pick_up.html", view=view)}
        )

    return await bay_events(request, (topic(fitting), f"{JOB}{fitting}"), draw)


@router.post("/begin")
def begin(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Begin to hit the built club, unless something hurts."""
    golfer = known_golfer(studio, studio.store.fitting(fitting).value.golfer)
    typed = Typed(fields=fields)
    start = read_start(typed, golfer.golfer, read_settings(studio).settings)
    if start is not None and start.pain:
        job = job_of(request, fitting, "final-check")
        return render(request, "pain.html", job=job, name=golfer.identity.name)
    complaint = typed.ticked("complaint")

    def begun() -> None:
        if start is not None:
            begin_pick_up(studio, fitting, start, complaint=complaint, by=by, key=key, seen=seen)

    status = attempt(typed, begun)
    if status != DONE:
        return _page(request, studio, desk, fitting, begun=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/bay", status_code=DONE)


@router.post("/end")
def end(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down that the golfer has the club, or left it here."""
    typed = Typed(fields=fields)
    typed.fields.setdefault("told", "")
    typed.fields.setdefault("note", "")
    taken = typed.one_of("taken", ("yes", "no"), "no") == "yes"
    note = typed.text("note", most=LONGEST_TEXT)
    lines = _view(studio, pick_up_now(studio, desk, fitting)).told
    told = tuple(line for place, line in enumerate(lines) if typed.ticked(f"told_{place}"))
    if taken and len(told) < len(lines):
        typed.fail("told", "not everything was told", "Say each line, then tick it.")

    def ended() -> None:
        end_pick_up(
            studio, desk, fitting, taken=taken, told=told, note=note, by=by, key=key, seen=seen
        )

    status = attempt(typed, ended)
    if status != DONE:
        return _page(request, studio, desk, fitting, ended=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/final-check/pick-up", status_code=DONE)


def _view(studio: Studio, found: PickUpNow) -> PickUpView:
    show = show_of(read_settings(studio).settings)
    return pick_up_view(found, show, today=visit_is_open(studio, found.now))


def _page(
    request: Request,
    studio: Studio,
    desk: Desk,
    fitting: str,
    *,
    begun: Filled | None = None,
    ended: Filled | None = None,
    status: int = 200,
) -> Response:
    found = pick_up_now(studio, desk, fitting)
    settings = read_settings(studio).settings
    golfer = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    names = [device.name for device in settings.devices] + [BY_HAND]
    return render(
        request,
        "pick_up.html",
        status=status,
        job=job_of(request, fitting, "final-check"),
        live=f"/fittings/{fitting}/final-check/pick-up/events",
        view=_view(studio, found),
        undo=undo_view(found.record),
        begun=begun or _usual(found, names),
        ended=ended or Filled(),
        devices=[Choice(value=name, text=name) for name in names],
        strips={
            "surface": _choices(SURFACES),
            "place": _choices(PLACES),
            "treatment": _choices(TREATMENTS),
        },
        left_checks=LEFT_CHECKS if golfer.hand is Hand.LEFT else (),
    )


def _usual(found: PickUpNow, names: list[str]) -> Filled:
    """Return the form with device and conditions of the day when the tested club was hit."""
    if found.pair is None:
        return Filled(typed={"device": names[0]})
    device, strip = usual_start(found.now, found.pair)
    then = "" if device is None else device.name
    return Filled(
        typed={
            "device": then if then in names else names[0],
            "ball": strip.ball,
            "tee": strip.tee,
            "surface": strip.surface,
            "place": strip.place,
            "treatment": strip.treatment,
        }
    )


def _choices(words: tuple[str, ...]) -> list[Choice]:
    return [Choice(value=one, text=one.capitalize()) for one in words]
