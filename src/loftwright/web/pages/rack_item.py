"""One item of the rack: changed, locked, retired, put back."""

from typing import Final, TypeAlias

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.inspection import Finding, wear_of
from loftwright.domain.rack import Assembly, Piece, Rack, RackItem, Sleeve, State
from loftwright.errors import ConflictError, InputError
from loftwright.report.screen_numbers import Show
from loftwright.services.measuring import measured
from loftwright.services.rack_changing import change_together, known_item, set_state
from loftwright.services.settings import read_settings, show_of
from loftwright.services.shop_against import said_against
from loftwright.services.shop_newest import newest
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_of, inspect
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.pages.rack import HANDS, unit_names
from loftwright.web.rack_forms import (
    read_assembly,
    read_head_model,
    read_look,
    read_piece,
    read_reason,
    read_shaft_model,
    read_sleeve,
)
from loftwright.web.render import has_page, render
from loftwright.web.state import Here
from loftwright.web.views.rack_care import FINDINGS, care_view
from loftwright.web.views.rack_item import item_view
from loftwright.web.views.shop_shaft import shaft_lines

router = APIRouter(prefix="/rack/items", include_in_schema=False)

Changed: TypeAlias = tuple[tuple[RackItem, int], ...]

_KEPT: Final = {
    "saved": "Saved.",
    "locked": "Locked. Nobody is offered it until it is put back.",
    "retired": "Retired. Nobody is offered it until it is put back.",
    "ready": "Put back: it may be hit again.",
    "looked": "The look is written down.",
    "cracked": "The look is written down, and the part is locked.",
}


@router.get("/{item}")
def show_item(request: Request, item: str, studio: Here) -> Response:
    """Show one item with its form."""
    return _page(request, studio, item, kept=_KEPT.get(request.query_params.get("kept", ""), ""))


@router.post("/{item}")
def change(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Write an item down anew."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    changed = _changed(studio, item, typed)
    if changed is None:
        return _page(request, studio, item, form=typed.filled, status=422)
    try:
        change_together(studio, changed)
    except InputError as error:
        typed.refused(error)
        return _page(request, studio, item, form=typed.filled, status=422)
    except ConflictError as error:
        stale = f"Not saved: {error.message}."
        return _page(request, studio, item, form=typed.filled, stale=stale, status=409)
    return RedirectResponse(f"/rack/items/{item}?kept=saved", status_code=303)


@router.post("/{item}/state")
def change_state(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Lock a piece, retire it, or put it back."""
    typed = Typed(fields=fields)
    state = typed.word("state", State, State.READY)
    reason = "" if state is State.READY else read_reason(typed)
    version = typed.whole("version", least=1, most=999_999_999)
    if not typed.good:
        return _page(request, studio, item, held=typed.filled, status=422)
    try:
        set_state(studio, item, state, reason=reason, version=version)
    except ConflictError as error:
        stale = f"Not changed: {error.message}."
        return _page(request, studio, item, held=typed.filled, stale=stale, status=409)
    return RedirectResponse(f"/rack/items/{item}?kept={state.value}", status_code=303)


@router.post("/{item}/looks")
def look(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Write down a look at a piece; a cracked one is locked."""
    typed = Typed(fields=fields)
    finding, words, by = read_look(typed)
    if not typed.good:
        return _page(request, studio, item, look=typed.filled, status=422)
    inspect(studio, item, finding, words=words, by=by)
    kept = "cracked" if finding is Finding.CRACKED else "looked"
    return RedirectResponse(f"/rack/items/{item}?kept={kept}#looks", status_code=303)


def _changed(studio: Studio, item: str, typed: Typed) -> Changed | None:
    """Return what the form makes of an item and its model, with the versions it was read at."""
    rack = studio.store.rack()
    known = known_item(studio, item).item
    version = typed.whole("version", least=1, most=999_999_999, need="Open the page again.") or 0
    if isinstance(known, Piece):
        return _changed_piece(rack, known, typed, version)
    made: RackItem | None = None
    if isinstance(known, Assembly):
        made = read_assembly(typed, rack, known)
    elif isinstance(known, Sleeve):
        made = read_sleeve(typed, known)
    return None if made is None or not typed.good else ((made, version),)


def _changed_piece(rack: Rack, known: Piece, typed: Typed, version: int) -> Changed | None:
    head, shaft = rack.heads.get(known.model), rack.shafts.get(known.model)
    model_version = typed.whole("model_version", least=1, most=999_999_999, need="Open it again.")
    model: RackItem | None = (
        read_head_model(typed, head) if head is not None else read_shaft_model(typed, shaft)
    )
    piece = read_piece(typed, rack, known)
    if model is None or piece is None or not typed.good:
        return None
    return (model, model_version or 0), (piece, version)


def _page(
    request: Request,
    studio: Studio,
    item: str,
    *,
    form: Filled | None = None,
    held: Filled | None = None,
    look: Filled | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    settings = read_settings(studio).settings
    show = show_of(settings)
    rack = studio.store.rack()
    known = known_item(studio, item)
    view = item_view(rack, known.item, show, measured(studio))
    piece = known.item if isinstance(known.item, Piece) else None
    model = known_item(studio, piece.model).version if piece is not None else 0
    record = _record_words(studio, rack, piece, show)
    care = None
    if piece is not None:
        looks = studio.store.inspections().get(piece.id, ())
        balls = balls_of(studio, piece.id)
        care = care_view(wear_of(balls, looks, piece.check_after), looks, studio.zone)
    return render(
        request,
        "rack_item.html",
        status=status,
        view=view,
        form=form or Filled(typed=view.values),
        held=held or Filled(),
        look=look or Filled(),
        care=care,
        record=record,
        record_path="/shop" if has_page(request, "/shop") else "",
        findings=FINDINGS,
        versions={"item": known.version, "model": model},
        kept=kept,
        stale=stale,
        hands=HANDS,
        units=unit_names(show),
        currency=settings.currency,
    )


def _record_words(studio: Studio, rack: Rack, piece: Piece | None, show: Show) -> tuple[str, ...]:
    """Return what the shop record says of a shaft over all golfers; empty of anything else."""
    if piece is None or piece.model not in rack.shafts:
        return ()
    found = newest(studio)
    against = () if found.learned is None else said_against(studio, found.learned)
    return shaft_lines(found, rack, piece.id, show, against=against)
