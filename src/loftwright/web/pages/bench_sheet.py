"""A shaft's bench page: readings typed as on paper, read while they are typed."""

import re
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from loftwright.domain.rack import State
from loftwright.errors import ConflictError, InputError, IntakeError
from loftwright.report.bench_sheet_words import asked, asked_of_many
from loftwright.services.bench_keeping import (
    OpenSheet,
    begin_anew,
    keep_sheet,
    open_sheet,
    with_table,
    write_sheet,
)
from loftwright.services.bench_mending import many_mended, many_taken_back, mended
from loftwright.services.bench_reads import read_sheet
from loftwright.services.bench_sheet import Sheet, row_name
from loftwright.services.bench_typing import changed, spread, typed_in, undone, with_series
from loftwright.services.rack_changing import set_state
from loftwright.services.studio import Studio
from loftwright.web.errors import wants_json
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.render import part, render
from loftwright.web.state import Here
from loftwright.web.views.bench import KIND_CHOICES, bench_view
from loftwright.web.views.bench_parts import BenchView
from loftwright.web.views.rack_lineage import sample_words

router = APIRouter(prefix="/rack/items/{item}/bench", include_in_schema=False)

CREAKED: Final = "creaked or cracked on the bench"
_KEPT: Final = {
    "saved": "Saved.",
    "table": "The table’s rows are on the sheet.",
    "locked": "Locked. Nobody is offered it until it was looked at and put back.",
    "anew": "A new sheet. The one before stays on record.",
    "profile": "Kept as this shaft’s profile. The sheet stays on record; this is a new one.",
}
_OF_ROW: Final = re.compile(r"(mend|again|undo)-s(\d{1,2})r(\d{1,2})(?:-(\d))?")
_OF_SERIES: Final = re.compile(r"spread-(\d{1,2})")
_OF_MANY: Final = re.compile(r"many-(\d)")


@router.get("")
def show_bench(request: Request, item: str, studio: Here) -> Response:
    """Show a shaft's bench page."""
    kept = _KEPT.get(request.query_params.get("kept", ""), "")
    return _page(request, studio, open_sheet(studio, item), kept=kept)


@router.post("")
def type_in(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Take what was typed, and do what a button asks of a row or a series.

    A script sends only the cells that were changed and gets the parts of the page that say
    something of them; a form sends all of them and is led back to the page.
    """
    act = fields.get("act", "save")
    cells = {name: text for name, text in fields.items() if name not in {"act", "version"}}
    typed = Typed(fields=fields)
    version = typed.whole("version", least=0, most=999_999_999)

    def change(sheet: Sheet) -> Sheet:
        return _done(act, fields.get("kind", ""), typed_in(sheet, cells))

    script = wants_json(request)
    try:
        opened = write_sheet(studio, item, change, version=version, merge=script)
    except (ConflictError, InputError) as error:
        if script:
            raise
        return _refused(request, studio, item, cells, error)
    if script:
        return JSONResponse(_parts(studio, opened))
    return RedirectResponse(f"/rack/items/{item}/bench{_anchor(act, opened)}", status_code=303)


@router.post("/table")
def take_table(
    request: Request, item: str, studio: Here, fields: Fields, files: Files
) -> Response:
    """Take the rows of a table that was chosen or pasted."""
    pasted = fields.get("pasted", "").strip()
    content = files["table"][1] if "table" in files else pasted.encode()
    try:
        write_sheet(studio, item, lambda sheet: with_table(sheet, content))
    except (InputError, IntakeError) as error:
        typed = Typed(fields={"pasted": pasted})
        typed.fail("pasted", f"{_row_of(error.place)}{error.message}", error.mend)
        opened = open_sheet(studio, item)
        return _page(request, studio, opened, table=typed.filled, status=422)
    return RedirectResponse(f"/rack/items/{item}/bench?kept=table#sheet", status_code=303)


@router.post("/lock")
def lock(item: str, studio: Here) -> Response:
    """Lock a shaft that creaked or cracked under the load."""
    open_sheet(studio, item)
    set_state(studio, item, State.LOCKED, reason=CREAKED)
    return RedirectResponse(f"/rack/items/{item}/bench?kept=locked", status_code=303)


@router.post("/anew")
def start_anew(item: str, studio: Here) -> Response:
    """Begin a new sheet; the one before stays on record."""
    begin_anew(studio, item)
    return RedirectResponse(f"/rack/items/{item}/bench?kept=anew", status_code=303)


@router.post("/keep")
def keep(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Keep what the sheet reads as the shaft's profile."""
    typed = Typed(fields=fields)
    version = typed.whole("version", least=0, most=999_999_999)
    try:
        keep_sheet(studio, item, with_doubts=typed.ticked("with_doubts"), version=version)
    except (InputError, ConflictError) as error:
        typed.refused(error)
        opened = open_sheet(studio, item)
        return _page(request, studio, opened, keeping=typed.filled, status=422)
    return RedirectResponse(f"/rack/items/{item}/shape?kept=kept", status_code=303)


def _done(act: str, kind: str, sheet: Sheet) -> Sheet:
    """Return a sheet after a button's act."""
    if act == "add":
        return with_series(sheet, kind)
    if found := _OF_SERIES.fullmatch(act):
        return spread(sheet, int(found[1]))
    if found := _OF_MANY.fullmatch(act):
        return _many_mended(sheet, int(found[1]))
    if act == "many-back":
        return many_taken_back(sheet)
    found = _OF_ROW.fullmatch(act)
    return sheet if found is None else _of_row(sheet, found)


def _of_row(sheet: Sheet, found: re.Match[str]) -> Sheet:
    """Return a sheet after what a button beside a row asks."""
    verb, series, row = found[1], int(found[2]), int(found[3])
    if verb == "undo":
        return undone(sheet, series, row)
    if verb == "again":
        read = sheet.series[series].of.read if series < len(sheet.series) else ""
        return changed(sheet, series, row, {read: ""}, "read again")
    return _mended(sheet, series, row, int(found[4] or 0))


def _mended(sheet: Sheet, series: int, row: int, way: int) -> Sheet:
    read = read_sheet(sheet)
    doubts = () if read.measured is None else read.measured.doubts
    for doubt in doubts:
        here = read.readings[doubt.place]
        if (here.series, here.row) == (series, row) and way < len(doubt.mends):
            mend = doubt.mends[way]
            return mended(sheet, here, mend, asked(mend).partition(" (")[0])
    raise InputError(
        f"row {row_name(series, row)} is not doubted any more",
        place="row",
        mend="Look at the sheet as it stands now.",
    )


def _many_mended(sheet: Sheet, way: int) -> Sheet:
    read = read_sheet(sheet)
    mends = () if read.measured is None else read.measured.table_mends
    if way >= len(mends):
        raise InputError(
            "no slip of many rows is doubted any more",
            place="rows",
            mend="Look at the sheet as it stands now.",
        )
    return many_mended(sheet, read.readings, mends[way], asked_of_many(mends[way]))


def _parts(studio: Studio, opened: OpenSheet) -> dict[str, object]:
    """Return what a script puts into the page after cells were typed."""
    view = _view(studio, opened)
    cells = [
        *view.head.values(),
        *(cell for series in view.series for cell in series.set_up),
        *(cell for series in view.series for row in series.rows for cell in row.cells),
    ]
    context = {"view": view, "keeping": Filled(), "item": opened.piece.id}
    return {
        "version": opened.version,
        "parts": {
            "say": part("parts/bench_say.html", **context),
            "ribbon": part("parts/bench_ribbon.html", **context),
            "state": part("parts/bench_state.html", **context),
            "doubts": part("parts/bench_doubts.html", **context),
        },
        "rows": {
            row.key: part("parts/bench_verdict.html", verdict=row.verdict)
            for series in view.series
            for row in series.rows
        },
        "faults": {cell.name: cell.fault for cell in cells if cell.fault},
    }


def _refused(
    request: Request,
    studio: Studio,
    item: str,
    cells: dict[str, str],
    error: ConflictError | InputError,
) -> Response:
    """Return the page with what was typed and why it was not kept."""
    opened = open_sheet(studio, item)
    try:
        typed = typed_in(opened.sheet, cells)
    except InputError:
        typed = opened.sheet
    shown = OpenSheet(piece=opened.piece, sheet=typed, version=opened.version)
    status = 409 if isinstance(error, ConflictError) else 422
    stale = f"Not saved: {error.message}. {error.mend}"
    return _page(request, studio, shown, stale=stale, status=status)


def _view(studio: Studio, opened: OpenSheet) -> BenchView:
    name = sample_words(studio.store.rack(), opened.piece)
    return bench_view(name, opened, read_sheet(opened.sheet))


def _page(
    request: Request,
    studio: Studio,
    opened: OpenSheet,
    *,
    keeping: Filled | None = None,
    table: Filled | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    piece = opened.piece
    return render(
        request,
        "bench_sheet.html",
        status=status,
        view=_view(studio, opened),
        item=piece.id,
        version=opened.version,
        lengths=opened.sheet.lengths,
        keeping=keeping or Filled(),
        table_form=table or Filled(),
        kinds=KIND_CHOICES,
        kept=kept,
        stale=stale,
        locked="" if piece.state is State.READY else f"{piece.state.value}: {piece.reason}",
    )


def _anchor(act: str, opened: OpenSheet) -> str:
    if found := _OF_ROW.fullmatch(act):
        return f"#row-s{int(found[2])}r{int(found[3])}"
    if act.startswith("many-"):
        return "#keep"
    if act == "add":
        return f"#series-{len(opened.sheet.series) - 1}"
    return "?kept=saved#sheet"


def _row_of(place: str) -> str:
    found = re.search(r"(row \d+|heading '[^']*')", place)
    return f"{found[1]}: " if found else ""
