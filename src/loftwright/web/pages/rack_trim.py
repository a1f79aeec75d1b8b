"""What a trim, build-up or another butt would do to a measured shaft; nothing is kept."""

from fastapi import APIRouter, Request, Response

from loftwright.domain.likeness import standing
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_preview import preview
from loftwright.report.screen_numbers import Show
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Filled, Typed
from loftwright.web.pages.rack import unit_names
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.trim_forms import read_preview
from loftwright.web.views.rack_lineage import sample_words
from loftwright.web.views.rack_rows import shop_shaft
from loftwright.web.views.rack_trim import (
    NOTHING,
    TrimView,
    not_measured_view,
    trim_view,
    usual_values,
)

router = APIRouter(prefix="/rack/items/{item}/trim", include_in_schema=False)


@router.get("")
def show_trim(request: Request, item: str, studio: Here) -> Response:
    """Show a shaft before and after what the address asks."""
    rack = studio.store.rack()
    name = sample_words(rack, shop_shaft(rack, item))
    show = show_of(read_settings(studio).settings)
    typed = Typed(fields=dict(request.query_params), show=show)
    measured = _measured(studio, item)
    view = not_measured_view(name) if measured is None else _view(name, measured, typed, show)
    return render(
        request,
        "rack_trim.html",
        status=200 if typed.good else 422,
        view=view,
        item=item,
        form=Filled(typed={**usual_values(show), **typed.fields}, faults=typed.faults),
        units=unit_names(show),
    )


def _measured(studio: Studio, item: str) -> MeasuredProfile | None:
    return standing(studio.store.profiles().get(item, ()))


def _view(name: str, measured: MeasuredProfile, typed: Typed, show: Show) -> TrimView:
    """Return the page; while a field cannot be, the shaft is shown as it is."""
    asked = read_preview(typed, measured)
    if asked is None:
        return trim_view(name, NOTHING, preview(measured, NOTHING), show)
    return trim_view(name, asked.trims, asked.found, show)
