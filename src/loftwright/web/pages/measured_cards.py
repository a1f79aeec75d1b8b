"""The measured card of a head, a shaft or a whole club of the rack."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.measured_card import PartFigures
from loftwright.errors import InputError
from loftwright.services.measured_cards import keep_measured, measured_now
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.parts_forms import read_figures
from loftwright.web.render import render
from loftwright.web.state import Actor, Here
from loftwright.web.views.measured_cards import measured_view
from loftwright.web.views.rack_rows import own_parts

router = APIRouter(prefix="/rack/items/{item}/measured", include_in_schema=False)


@router.get("")
def show_card(request: Request, item: str, studio: Here) -> Response:
    """Show what was measured of an item, and the form to measure it anew."""
    return _page(request, studio, item)


@router.post("")
def keep(request: Request, item: str, studio: Here, fields: Fields, by: Actor) -> Response:
    """Keep what was measured today."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    kind = measured_now(studio, item).kind
    who = typed.text("by") or by
    figures = read_figures(typed, kind)
    if figures == PartFigures():
        typed.fail("", "nothing was measured", "Give at least one figure.")
    if figures is None or not typed.good:
        return _page(request, studio, item, form=typed.filled, status=422)
    try:
        keep_measured(studio, item, figures, by=who)
    except InputError as error:
        typed.refused(error)
        return _page(request, studio, item, form=typed.filled, status=422)
    return RedirectResponse(f"/rack/items/{item}/measured", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    item: str,
    *,
    form: Filled | None = None,
    status: int = 200,
) -> Response:
    show = show_of(read_settings(studio).settings)
    rack = studio.store.rack()
    view = measured_view(rack, item, measured_now(studio, item), show)
    owned = own_parts(rack) | {one.id for one in rack.assemblies.values() if one.owner is not None}
    return render(
        request,
        "rack_measured.html",
        status=status,
        item=item,
        view=view,
        back="" if item in owned else f"/rack/items/{item}",
        form=form or Filled(typed=view.values),
    )
