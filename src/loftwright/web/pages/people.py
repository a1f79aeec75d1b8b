"""Who fits here, whose access ends and who comes back; records of one golfer, and erasing one."""

from collections.abc import Mapping, Sequence
from itertools import islice
from typing import Final
from urllib.parse import quote

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import UsageError
from loftwright.report.numbers import count, listed
from loftwright.services.bay_check import read_house
from loftwright.services.erasing import unfinished
from loftwright.services.golfers import golfers_called
from loftwright.services.leaving import (
    Gone,
    come_back,
    devices_of,
    fitters,
    gone,
    in_hands_of,
    leave,
)
from loftwright.services.merging import merge, merged_into, take_apart
from loftwright.services.pairing import Pairing
from loftwright.services.retention import due, read_years
from loftwright.services.studio import Studio
from loftwright.web.attempts import DONE, attempt
from loftwright.web.errors import error_answer
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.roles import ROLE_NAMES
from loftwright.web.state import Actor, Here, LookedFor
from loftwright.web.views.golfer_data import DueView, due_view
from loftwright.web.views.people import (
    DeviceTick,
    FitterRow,
    GoneRow,
    PeopleView,
    SecondRow,
    found_words,
    people_sentence,
)
from loftwright.web.views.rack_rows import Choice

router = APIRouter(prefix="/people", include_in_schema=False)

_KEPT: Final = {
    "left": "The access is ended; what was written stays.",
    "back": "Lists offer the name again. Devices are let in anew, each by a code.",
    "merged": "The two records are one golfer’s from now on.",
    "erased": "The golfer is erased.",
    "years": "Saved.",
    "no-years": "The years were not saved: give a whole number from 1 to 50, and save again.",
    "apart": "Each record stands for itself again.",
}
MOST_OFFERED: Final = 100
"""Golfers that a list offers; the others are found by their name."""
_PLACES: Final = {"device": "devices", "second": "second", "golfer": "second"}


@router.get("")
def show_people(
    request: Request, studio: Here, names: LookedFor, kept: str = "", sought: str = ""
) -> Response:
    """Show who fits here, who left, and which records are of one golfer."""
    return _page(request, studio, find=names.text(sought), kept=_KEPT.get(kept, ""))


@router.post("")
def show_chosen(request: Request, studio: Here, fields: Fields) -> Response:
    """Ask about a fitter who leaves, whose name stands in no address."""
    return _page(request, studio, form=Filled(typed={"name": fields.get("name", "")}))


@router.post("/find")
def find_golfer(names: LookedFor, fields: Fields) -> Response:
    """Go to golfers by a name, which stands in no address."""
    mark = names.keep(fields.get("find", ""))
    return RedirectResponse(f"/people?sought={mark}#records", status_code=303)


@router.post("/leave")
def end_access(request: Request, studio: Here, fields: Fields) -> Response:
    """End a person's access; on the main screen alone, for the owner."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    typed = Typed(fields=fields)
    typed.fields.setdefault("devices", "")
    name = typed.text("name", need="Choose who leaves.")
    devices = tuple(one for one in typed.fields["devices"].split(",") if one)
    pairing: Pairing = request.app.state.pairing
    status = attempt(typed, lambda: leave(studio, pairing, name, devices), _PLACES)
    if status != DONE:
        return _page(request, studio, form=typed.filled, status=status)
    return RedirectResponse("/people?kept=left", status_code=DONE)


@router.post("/back")
def let_back(request: Request, studio: Here, fields: Fields) -> Response:
    """Offer a person in lists again; on the main screen alone, for the owner."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    come_back(studio, fields.get("name", ""))
    return RedirectResponse("/people?kept=back", status_code=DONE)


@router.post("/merge")
def make_one(request: Request, studio: Here, fields: Fields, by: Actor) -> Response:
    """Say that two records are of one golfer."""
    typed = Typed(fields=fields)
    first = typed.text("first", need="Choose the record that stands for both.")
    second = typed.text("second", need="Choose the second record.")
    status = attempt(typed, lambda: merge(studio, second, first, by=by), _PLACES)
    if status != DONE:
        return _page(request, studio, records=typed.filled, status=status)
    return RedirectResponse("/people?kept=merged#records", status_code=DONE)


@router.post("/apart")
def make_two(request: Request, studio: Here, fields: Fields) -> Response:
    """Let a second record stand for itself again."""
    typed = Typed(fields=fields)
    second = typed.text("second", need="Choose the second record.")
    status = attempt(typed, lambda: take_apart(studio, second), _PLACES)
    if status != DONE:
        return _page(request, studio, records=typed.filled, status=status)
    return RedirectResponse("/people?kept=apart#records", status_code=DONE)


@router.post("/erase")
def erase(request: Request, studio: Here, fields: Fields) -> Response:
    """Go to the page that says what erasing a golfer takes; for the owner, on the main screen."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    typed = Typed(fields=fields)
    golfer = typed.text("golfer", need="Choose who asked to be erased.")
    status = attempt(typed, lambda: studio.store.golfer(golfer))
    if status != DONE:
        return _page(request, studio, erased=typed.filled, status=status)
    return RedirectResponse(f"/golfers/{quote(golfer, safe='')}/erase", status_code=DONE)


def _page(
    request: Request,
    studio: Studio,
    *,
    form: Filled | None = None,
    records: Filled | None = None,
    erased: Filled | None = None,
    find: str = "",
    kept: str = "",
    status: int = 200,
) -> Response:
    chosen = form or Filled()
    fitting, left = fitters(studio), gone(studio)
    sentence, lead = people_sentence(fitting, left)
    golfers = golfers_called(studio, find, read_house(studio).house.people)
    known = studio.store.names()
    firsts = [one for one in dict.fromkeys(studio.store.seconds().values()) if one in known]
    offered = dict(islice(golfers.items(), MOST_OFFERED)) | _chosen(golfers, records, erased)
    view = PeopleView(
        sentence=sentence,
        lead=lead,
        fitters=tuple(_fitter(request, studio, one) for one in fitting),
        gone=tuple(_gone(studio, one) for one in left),
        golfers=tuple(Choice(value=one, text=name or one) for one, name in offered.items()),
        found=found_words(find, len(golfers), MOST_OFFERED),
        seconds=_seconds(studio, known, firsts),
    )
    return render(
        request,
        "people.html",
        status=status,
        view=view,
        form=chosen,
        devices=_ticks(request, chosen),
        records=records or Filled(),
        erased=erased or Filled(),
        seek=Filled(typed={"find": find}),
        due=_due(studio),
        owner=getattr(request.state, "device", None) is None,
        kept=kept,
    )


def _seconds(
    studio: Studio, known: Mapping[str, str], firsts: Sequence[str]
) -> tuple[SecondRow, ...]:
    return tuple(
        SecondRow(
            id=one.second,
            name=studio.store.identity(one.second).name,
            first=known[first],
            since=f"{one.at.astimezone(studio.zone):%-d %B %Y}"
            + (f", {one.by}" if one.by else ""),
        )
        for first in firsts
        for one in merged_into(studio, first)
    )


def _chosen(known: Mapping[str, str], *forms: Filled | None) -> dict[str, str]:
    """Return the golfers that a form which was refused had chosen, so that it keeps them."""
    typed = {text for form in forms if form is not None for text in form.typed.values()}
    return {one: name for one, name in known.items() if one in typed}


def _due(studio: Studio) -> DueView:
    years = read_years(studio)
    return due_view(due(studio), years.value, years.version, unfinished=unfinished(studio))


def _ticks(request: Request, form: Filled) -> tuple[DeviceTick, ...]:
    """Return every device that is let in; those called by the chosen name are ticked."""
    pairing: Pairing = request.app.state.pairing
    name = form.value("name")
    theirs = {one.id for one in devices_of(pairing, name)} if name else set()
    if "devices" in form.typed:
        theirs = set(form.value("devices").split(","))
    return tuple(
        DeviceTick(
            id=one.id,
            words=f"{one.name}, {ROLE_NAMES.get(one.role, one.role)}",
            ticked=one.id in theirs,
        )
        for one in pairing.devices()
    )


def _fitter(request: Request, studio: Studio, name: str) -> FitterRow:
    pairing: Pairing = request.app.state.pairing
    hands = in_hands_of(studio, name)
    devices = [one.name for one in devices_of(pairing, name)]
    return FitterRow(
        name=name,
        devices=listed(devices) if devices else "none by this name",
        hands=listed([one.bay for one in hands]) if hands else "nothing now",
    )


def _gone(studio: Studio, one: Gone) -> GoneRow:
    hands = in_hands_of(studio, one.name)
    running = f"; {listed([x.bay for x in hands])} still in their hand" if hands else ""
    devices = count(len(one.devices), "device")
    return GoneRow(
        name=one.name,
        since=f"{one.at.astimezone(studio.zone):%-d %B %Y}",
        words=f"{devices} withdrawn{running}",
    )


def _owners(request: Request) -> Response:
    error = UsageError(
        "who leaves and who comes back is the owner’s to say",
        place=request.url.path,
        mend="Do it on the main screen of the studio.",
    )
    return error_answer(request, error, 403)
