"""A shaft's quick check: six entries against its kept profile."""

from fastapi import APIRouter, Request, Response

from loftwright.errors import InputError
from loftwright.services.bench_keeping import open_sheet
from loftwright.services.measuring import measured
from loftwright.services.quick_checking import check_quickly
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.bench_forms import read_quick
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.bench_check import CheckView, bare_view, check_view
from loftwright.web.views.bench_parts import WORDS
from loftwright.web.views.rack_lineage import sample_words

router = APIRouter(prefix="/rack/items/{item}/check", include_in_schema=False)


@router.get("")
def show_check(request: Request, item: str, studio: Here) -> Response:
    """Show the six entries."""
    return _page(request, studio, item)


@router.post("")
def check(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Hold today's figures against the kept profile; nothing is kept."""
    settings = read_settings(studio).settings
    typed = Typed(fields=fields, show=show_of(settings))
    lengths = _lengths(studio)
    open_sheet(studio, item)
    quick = read_quick(typed, lengths)
    if quick is None:
        return _page(request, studio, item, form=typed.filled, status=422)
    try:
        checked = check_quickly(studio, item, quick.readings, quick.length)
    except InputError as error:
        typed.refused(error)
        return _page(request, studio, item, form=typed.filled, status=422)
    rack = studio.store.rack()
    names = {
        one.id: sample_words(rack, one)
        for one in rack.pieces.values()
        if one.model in rack.shafts and one.id != item
    }
    view = check_view(sample_words(rack, rack.pieces[item]), checked, names, lengths)
    return _page(request, studio, item, form=typed.filled, view=view)


def _lengths(studio: Studio) -> str:
    return "mm" if read_settings(studio).settings.units == "metric" else "in"


def _page(
    request: Request,
    studio: Studio,
    item: str,
    *,
    form: Filled | None = None,
    view: CheckView | None = None,
    status: int = 200,
) -> Response:
    piece = open_sheet(studio, item).piece
    name = sample_words(studio.store.rack(), piece)
    known = item in measured(studio)
    return render(
        request,
        "bench_check.html",
        status=status,
        view=view or bare_view(name, measured=known),
        measured=known,
        item=item,
        name=name,
        form=form or Filled(),
        words=WORDS,
        lengths=_lengths(studio),
    )
