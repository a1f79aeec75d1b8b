"""The bench's own page: its master shaft day by day, and the sheets that lie open."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import InputError
from loftwright.services.day_check import days, mark_master, masters, read_master, set_up_of
from loftwright.services.measuring import measured
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.bench_day import day_view
from loftwright.web.views.bench_parts import WORDS
from loftwright.web.views.rack_lineage import sample_words
from loftwright.web.views.rack_rows import Choice, own_parts

router = APIRouter(prefix="/bench", include_in_schema=False)

_KEPT: Final = {
    "master": "Marked. Read it before each day’s measuring.",
    "day": "Today’s reading is kept.",
}


@router.get("")
def show_bench(request: Request, studio: Here) -> Response:
    """Show whether the bench reads as it always did."""
    return _page(request, studio, kept=_KEPT.get(request.query_params.get("kept", ""), ""))


@router.post("/masters")
def mark(request: Request, studio: Here, fields: Fields) -> Response:
    """Mark a shaft as a bench's master, with how it is read."""
    settings = read_settings(studio).settings
    typed = Typed(fields=fields, show=show_of(settings))
    bench = typed.text("bench", need="Name the bench.")
    lengths = "mm" if settings.units == "metric" else "in"
    if typed.good:
        typed.tried(
            "s0-span",
            lambda: mark_master(
                studio, bench, fields.get("piece", ""), set_up_of(lengths, _set_up(fields))
            ),
        )
    if not typed.good:
        return _page(request, studio, form=typed.filled, status=422)
    return RedirectResponse("/bench?kept=master", status_code=303)


@router.post("/days")
def read_day(request: Request, studio: Here, fields: Fields) -> Response:
    """Keep what a bench reads of its master today."""
    typed = Typed(fields=fields)
    try:
        read_master(studio, fields.get("bench", ""), fields)
    except InputError as error:
        typed.refused(error)
        return _page(request, studio, day=typed.filled, status=422)
    return RedirectResponse("/bench?kept=day", status_code=303)


def _set_up(fields: dict[str, str]) -> dict[str, str]:
    wanted = ("s0-", "s1-")
    return {
        name: text
        for name, text in fields.items()
        if name.startswith(wanted) or name in {"length", "station"}
    }


def _page(
    request: Request,
    studio: Studio,
    *,
    form: Filled | None = None,
    day: Filled | None = None,
    kept: str = "",
    status: int = 200,
) -> Response:
    settings = read_settings(studio).settings
    rack = studio.store.rack()
    known = [
        (master, days(studio, master))
        for master in masters(studio).values()
        if master.piece in rack.pieces
    ]
    own, read = own_parts(rack), measured(studio)
    shafts = [
        piece
        for piece in rack.pieces.values()
        if piece.model in rack.shafts and piece.id not in own
    ]
    return render(
        request,
        "bench.html",
        status=status,
        view=day_view(rack, known, studio.store.bench_sheets(), studio.today()),
        kept=kept,
        form=form or Filled(),
        day=day or Filled(),
        nothing_typed=Filled(),
        words=WORDS,
        lengths="mm" if settings.units == "metric" else "in",
        shafts=tuple(Choice(value=one.id, text=sample_words(rack, one)) for one in shafts),
        measured=read.keys(),
    )
