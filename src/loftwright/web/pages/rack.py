"""The rack: what is there, what is added to it, and how it is looked through."""

from collections.abc import Mapping
from typing import Final
from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.piece_code import piece_of
from loftwright.domain.rack import Rack
from loftwright.errors import InputError
from loftwright.report.screen_numbers import Show
from loftwright.services.measuring import measured
from loftwright.services.moving import known_places
from loftwright.services.rack import add_item
from loftwright.services.rack_adding import add_head, add_shaft
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.rack_forms import (
    read_assembly,
    read_head,
    read_shaft,
    read_sleeve,
    read_wanted,
)
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.rack import rack_view
from loftwright.web.views.rack_rows import Choice, own_parts
from loftwright.web.views.rack_search import SORTS

router = APIRouter(prefix="/rack", include_in_schema=False)

HANDS: Final = (
    Choice(value="right", text="Right hand"),
    Choice(value="left", text="Left hand"),
)
_SORT_WORDS: Final = tuple(Choice(value=one, text=one.capitalize()) for one in SORTS)
_FORMS: Final = ("head", "shaft", "club", "sleeve")
_PLACES: Final = {"mass": "mass", "shaft": "sleeve", "bore": "settings"}
_KEPT: Final = {
    "head": "The head is in the rack.",
    "shaft": "The shaft is in the rack.",
    "shaft-club": "The shaft is in the rack and makes a club.",
    "club": "The club is put together.",
    "sleeve": "The sleeve is in the rack.",
}


@router.get("")
def show_rack(request: Request, studio: Here) -> Response:
    """Show the rack, as far as it is looked for; a label's code among the words opens its part."""
    asked = dict(request.query_params)
    part = _labelled(studio, asked.get("words", ""))
    if part:
        return RedirectResponse(f"/rack/items/{part}", status_code=303)
    opened = asked.get("add", "")
    likely = {
        name: asked.get(name, "") for name in ("head", "length", "sleeve", "setting", "hand")
    }
    filled = {opened: Filled(typed={key: text for key, text in likely.items() if text})}
    return rack_page(
        request,
        studio,
        forms=filled if opened in _FORMS else {},
        opened=opened,
        kept=_KEPT.get(asked.get("kept", ""), ""),
    )


@router.post("/heads")
def new_head(request: Request, studio: Here, fields: Fields) -> Response:
    """Add a head model with its one sample."""
    typed = _typed(studio, fields)
    new = read_head(typed)
    if new is None:
        return _again(request, studio, "head", typed)
    add_head(studio, new)
    return _added("head", opened="head", like={"hand": fields.get("hand", "")})


@router.post("/shafts")
def new_shaft(request: Request, studio: Here, fields: Fields) -> Response:
    """Add a shaft and the club it makes."""
    typed = _typed(studio, fields)
    new = read_shaft(typed, studio.store.rack())
    if new is None:
        return _again(request, studio, "shaft", typed)
    try:
        _, club = add_shaft(studio, new)
    except InputError as error:
        typed.refused(error, _PLACES)
        return _again(request, studio, "shaft", typed)
    like = {name: fields.get(name, "") for name in ("head", "length", "sleeve", "setting")}
    return _added("shaft-club" if club else "shaft", opened="shaft", like=like)


@router.post("/clubs")
def new_club(request: Request, studio: Here, fields: Fields) -> Response:
    """Put a club together from what is in the rack."""
    typed = _typed(studio, fields)
    club = read_assembly(typed, studio.store.rack())
    if club is not None:
        try:
            add_item(studio, club)
        except InputError as error:
            typed.refused(error)
    return _added("club", opened="club") if typed.good else _again(request, studio, "club", typed)


@router.post("/sleeves")
def new_sleeve(request: Request, studio: Here, fields: Fields) -> Response:
    """Add a kind of sleeve with its settings."""
    typed = _typed(studio, fields)
    sleeve = read_sleeve(typed)
    if sleeve is None:
        return _again(request, studio, "sleeve", typed)
    add_item(studio, sleeve)
    return _added("sleeve", opened="shaft")


def unit_names(show: Show) -> dict[str, str]:
    """Return the names of the units that a form's plain figures are in."""
    return {
        quantity: show.unit(quantity).name
        for quantity in ("mass", "length", "angle", "speed", "distance")
    }


def rack_page(
    request: Request,
    studio: Studio,
    *,
    forms: Mapping[str, Filled],
    opened: str = "",
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    """Return the rack's page with its forms as they stand.

    Parameters
    ----------
    request : Request
    studio : Studio
    forms : mapping of str to Filled
        Forms that were typed in, by name; the others stand empty.
    opened : str
        Which form that adds stands open.
    kept : str
        What was just done.
    stale : str
        Why it was not done.
    status : int
    """
    settings = read_settings(studio).settings
    show = show_of(settings)
    seek = Typed(fields=dict(request.query_params) if request.method == "GET" else {}, show=show)
    wanted = read_wanted(seek)
    rack = studio.store.rack()
    view = rack_view(rack, wanted, show, settings.currency, measured(studio))
    return render(
        request,
        "rack.html",
        status=status,
        view=view,
        forms={
            **dict.fromkeys((*_FORMS, "find"), Filled()),
            "seek": seek.filled,
            **forms,
        },
        opened=opened or _next_to_add(rack),
        kept=kept,
        stale=stale,
        places=known_places(studio, rack),
        moved=request.query_params.get("moved", ""),
        moved_from=request.query_params.get("from", ""),
        asked=request.url.query if request.method == "GET" else "",
        hands=HANDS,
        sorts=_SORT_WORDS,
        units=unit_names(show),
        currency=settings.currency,
    )


def _labelled(studio: Studio, words: str) -> str:
    """Return the shop's part whose label was scanned into the field for words; empty if none."""
    if not words:
        return ""
    rack = studio.store.rack()
    try:
        return piece_of(words, rack.pieces.keys() - own_parts(rack))
    except InputError:
        return ""


def _next_to_add(rack: Rack) -> str:
    """Return which form stands open by itself: a head while there is none, then a shaft."""
    if not rack.heads:
        return "head"
    return "" if rack.shafts else "shaft"


def _typed(studio: Studio, fields: dict[str, str]) -> Typed:
    return Typed(fields=fields, show=show_of(read_settings(studio).settings))


def _again(request: Request, studio: Studio, form: str, typed: Typed) -> Response:
    return rack_page(request, studio, forms={form: typed.filled}, opened=form, status=422)


def _added(what: str, *, opened: str, like: Mapping[str, str] | None = None) -> Response:
    """Go back to the rack with the next form open and what is likely the same in it."""
    asked = {"kept": what, "add": opened}
    asked |= {name: text for name, text in (like or {}).items() if text}
    return RedirectResponse(f"/rack?{urlencode(asked)}#add", status_code=303)
