"""The bays: who has which part, what the check club found, and what is due."""

from itertools import islice
from typing import Final
from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse, StreamingResponse

from loftwright.domain.golfer import Hand
from loftwright.domain.piece_code import piece_of
from loftwright.domain.place import AWAY
from loftwright.errors import InputError
from loftwright.services.bay_check import (
    add_person,
    end_check,
    name_club,
    read_house,
    start_check,
)
from loftwright.services.golfers import golfers_called
from loftwright.services.leaving import fitters
from loftwright.services.places import check_out, name_of
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.store.topics import RACK
from loftwright.web.attempts import DONE, STALE, attempt
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.live import LiveState, live_events
from loftwright.web.plan_forms import device_of
from loftwright.web.render import part, render
from loftwright.web.state import ActKey, Actor, Here
from loftwright.web.views.bays import bays_view, places_to, places_view
from loftwright.web.views.golfer import HAND_CHOICES
from loftwright.web.views.rack_rows import Choice

router = APIRouter(prefix="/bays", include_in_schema=False)

PLACE: Final = "place"
"""Cookie of a device that stands in one bay: where it checks out to."""

_MOST_KNOWN: Final = 200
_YEAR: Final = 365 * 24 * 3600
_KEPT: Final = {
    "club": "The check club is named.",
    "person": "Written down.",
    "ended": "The check is closed and counts.",
}


@router.get("")
def show_bays(request: Request, studio: Here) -> Response:
    """Show the bays."""
    asked = request.query_params
    kept = _KEPT.get(asked.get("kept", ""), "")
    return _page(request, studio, kept=kept or _moved(studio, asked.get("moved", "")))


@router.get("/events")
async def follow_bays(request: Request, studio: Here) -> StreamingResponse:
    """Send the list of places as parts move, in whichever bay they are scanned."""

    def draw() -> LiveState:
        settings = read_settings(studio).settings
        view = places_view(studio, studio.store.rack(), settings)
        html = part("parts/bays_places.html", places=view)
        return LiveState(revision=view.revision, parts={"places": html})

    return await live_events(request, RACK, draw)


@router.post("/check-out")
def move_by_label(request: Request, studio: Here, fields: Fields, by: Actor) -> Response:
    """Say by its label where a part is now; taken from another bay only by naming it."""
    typed = Typed(fields=fields)
    place = typed.text("place", need="Choose where it is.")
    code = typed.text("code", need="Scan the label, or type its nine signs.")
    golfer = typed.text("golfer") or None
    if place and place not in places_to(studio, studio.store.rack()):
        typed.fail("place", f"{place!r} is no place of the shop", "Choose one of the list.")
    if place == AWAY and golfer is None:
        typed.fail("golfer", "nobody is named who has it away", "Choose the golfer.")
    who = typed.text("by") or by
    if not typed.good:
        return _page(request, studio, form=typed.filled, status=422)
    had = fields.get("had", "")
    taker = golfer if place == AWAY else None

    def move() -> None:
        check_out(studio, code, place, by=who, had=had, golfer=taker)

    status = attempt(typed, move)
    if status != DONE:
        return _page(request, studio, form=typed.filled, status=status)
    asked = urlencode({"moved": code})
    answer = RedirectResponse(f"/bays?{asked}#places", status_code=DONE)
    answer.set_cookie(PLACE, place, max_age=_YEAR, samesite="strict", httponly=True, path="/bays")
    return answer


@router.post("/club")
def choose_club(request: Request, studio: Here, fields: Fields) -> Response:
    """Name the check club."""
    typed = Typed(fields=fields)
    version = _version(typed)
    club = typed.text("club", need="Choose a club that stays in the house.")
    status = attempt(typed, lambda: name_club(studio, club, version=version))
    if status != DONE:
        return _page(request, studio, club=typed.filled, status=status)
    return RedirectResponse("/bays?kept=club#house", status_code=DONE)


@router.post("/people")
def write_person_down(request: Request, studio: Here, fields: Fields) -> Response:
    """Write down who hits the check club."""
    typed = Typed(fields=fields)
    version = _version(typed)
    name = typed.text("name", need="Write a name, or initials.")
    hand = typed.word("hand", Hand, Hand.RIGHT)
    status = attempt(typed, lambda: add_person(studio, name, hand, version=version))
    if status != DONE:
        return _page(request, studio, person=typed.filled, status=status)
    return RedirectResponse("/bays?kept=person#house", status_code=DONE)


@router.post("/checks")
def begin_check(
    request: Request, studio: Here, fields: Fields, by: Actor, key: ActKey
) -> Response:
    """Begin a check and go to its bay, where balls come in as in any fitting."""
    typed = Typed(fields=fields)
    settings = read_settings(studio).settings
    bay = typed.text("bay", need="Choose the bay.")
    person = typed.text("person", need="Choose who hits.")
    device = device_of(typed.text("device"), settings)
    opened: list[str] = []

    def begin() -> None:
        opened.append(start_check(studio, bay, person, device, by=by, key=key).id)

    status = attempt(typed, begin)
    if status != DONE:
        return _page(request, studio, check=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{opened[0]}/bay", status_code=DONE)


@router.post("/checks/{fitting}/end")
def close_check(studio: Here, fitting: str, by: Actor, key: ActKey) -> Response:
    """Close a check; what was hit counts."""
    end_check(studio, fitting, by=by, key=key)
    return RedirectResponse("/bays?kept=ended", status_code=DONE)


def _version(typed: Typed) -> int:
    version = typed.whole("version", least=0, most=999_999_999, need="Open the page again.")
    return 0 if version is None else version


def _page(
    request: Request,
    studio: Studio,
    *,
    form: Filled | None = None,
    check: Filled | None = None,
    club: Filled | None = None,
    person: Filled | None = None,
    kept: str = "",
    status: int = 200,
) -> Response:
    settings = read_settings(studio).settings
    house = read_house(studio)
    view = bays_view(studio, settings, show_of(settings))
    away = Filled(typed={"place": request.cookies.get(PLACE, "")})
    usual = Filled(typed={"club": house.house.club})
    filled = form or away
    return render(
        request,
        "bays.html",
        status=status,
        live="/bays/events",
        view=view,
        form=filled,
        had=_holder(studio, filled) if status == STALE and form is not None else "",
        check=check or Filled(),
        club=club or usual,
        person=person or Filled(),
        people=tuple(
            Choice(value=one, text=studio.store.identity(one).name) for one in house.house.people
        ),
        devices=tuple(Choice(value=one.name, text=one.name) for one in settings.devices),
        golfers=tuple(
            Choice(value=golfer, text=name)
            for golfer, name in islice(
                golfers_called(studio, "", house.house.people).items(), _MOST_KNOWN
            )
        ),
        fitters=fitters(studio),
        hands=HAND_CHOICES,
        version=house.version,
        named=house.house.club in {one.value for one in view.clubs},
        kept=kept,
    )


def _holder(studio: Studio, form: Filled) -> str:
    """Return the place that has the part which a form asks for, to be named in taking it."""
    pieces = studio.store.rack().pieces
    try:
        return pieces[piece_of(form.value("code"), pieces)].place
    except InputError:
        return ""


def _moved(studio: Studio, code: str) -> str:
    """Return what a label's part did last, in words; empty for what is no label."""
    rack = studio.store.rack()
    try:
        piece = rack.pieces[piece_of(code, rack.pieces)]
    except InputError:
        return ""
    move = studio.store.places().get(piece.id)
    before = f"; before: {move.was}" if move is not None and move.was else ""
    return f"{name_of(rack, piece)}: {piece.place}{before}."
