"""The ways in for the balls of a fitting: feed, folder, table, paper."""

from collections.abc import Mapping
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from loftwright.errors import LoftwrightError
from loftwright.intake.doubts import DoubtsError
from loftwright.services.studio import Studio
from loftwright.services.tables_in import paper_sheet, take_sheet, take_text, take_upload
from loftwright.services.watched_places import (
    refuse_new_place,
    remember_place,
    watched_places,
)
from loftwright.services.watching import Watches
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.render import render
from loftwright.web.state import Actor, Here
from loftwright.web.views.ways_in import (
    Question,
    questions,
    sheet_words,
    table_words,
    ways_in_view,
)

router = APIRouter(prefix="/fittings/{fitting}/ways-in", include_in_schema=False)

_PLACES: Final = {
    "sheet": "rows",
    "line": "rows",
    "path": "path",
    "answers": "text",
    "pasted text": "text",
}


@router.get("")
def show_ways_in(request: Request, fitting: str, studio: Here) -> Response:
    """Show the ways in."""
    return _page(request, studio, fitting)


@router.post("/table")
async def post_table(request: Request, fitting: str, studio: Here, by: Actor) -> Response:
    """Take a table that was pasted or uploaded."""
    async with request.form() as form:
        text = str(form.get("text", ""))
        answers = [str(value) for name, value in form.multi_items() if name.startswith("answer")]
        file = form.get("file")
        content = await file.read() if isinstance(file, UploadFile) and file.filename else b""
        name = file.filename or "" if isinstance(file, UploadFile) else ""
    kept = [answer for answer in answers if answer.strip()]
    typed = Typed(fields={"text": text or content.decode("utf-8", "replace")})
    asked: tuple[Question, ...] = ()
    try:
        if content:
            taken = await run_in_threadpool(
                take_upload, studio, fitting, content, name, kept, by=by
            )
        else:
            taken = await run_in_threadpool(take_text, studio, fitting, text, kept, by=by)
    except DoubtsError as error:
        asked = questions(error.doubts)
    except LoftwrightError as error:
        typed.fail("text", error.message, error.mend)
    else:
        return _page(request, studio, fitting, kept=table_words(taken))
    return _page(
        request,
        studio,
        fitting,
        forms={"table": typed.filled},
        asked=asked,
        answers=tuple(kept),
        status=422,
    )


@router.post("/sheet")
def post_sheet(
    request: Request, fitting: str, studio: Here, by: Actor, fields: Fields
) -> Response:
    """Take a paper sheet that was typed in."""
    typed = Typed(fields=fields)
    name = typed.text("sheet", need="Copy the sheet's own name from its foot.")
    if typed.good:
        try:
            taken = take_sheet(studio, fitting, fields.get("rows", ""), sheet=name, by=by)
        except LoftwrightError as error:
            typed.fail("rows", f"{error.place}: {error.message}", error.mend)
        else:
            return _page(request, studio, fitting, kept=sheet_words(taken))
    return _page(request, studio, fitting, forms={"sheet": typed.filled}, status=422)


@router.get("/sheet.pdf")
def get_sheet(fitting: str, studio: Here) -> Response:
    """Print the sheet for the balls that are still planned."""
    return Response(
        paper_sheet(studio, fitting),
        media_type="application/pdf",
        headers={"Content-Disposition": 'inline; filename="shot-sheet.pdf"'},
    )


@router.post("/folder")
def post_folder(request: Request, fitting: str, studio: Here, fields: Fields) -> Response:
    """Watch a file or folder, or stop watching."""
    watches: Watches = request.app.state.watches
    if "stop" in fields:
        watches.stop(fitting)
        return _back(fitting)
    typed = Typed(fields=fields)
    path = typed.text("path", most=1000, need="Give the file or folder the device writes to.")
    if typed.good:
        here = request.state.device is None
        try:
            if not here:
                refuse_new_place(studio, path)
            watches.start(fitting, path, take_present=typed.ticked("present"))
            if here:
                remember_place(studio, path)
        except LoftwrightError as error:
            typed.refused(error, _PLACES)
    if not typed.good:
        return _page(request, studio, fitting, forms={"folder": typed.filled}, status=422)
    return _back(fitting)


def _back(fitting: str) -> Response:
    return RedirectResponse(f"/fittings/{fitting}/ways-in", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    forms: Mapping[str, Filled] | None = None,
    asked: tuple[Question, ...] = (),
    answers: tuple[str, ...] = (),
    kept: str = "",
    status: int = 200,
) -> Response:
    watches: Watches = request.app.state.watches
    view = ways_in_view(
        studio.standing(fitting),
        address=f"{request.base_url}api/fittings/{fitting}/shots",
        path=watches.path(fitting),
        files=watches.reports(fitting),
    )
    empty = Filled()
    return render(
        request,
        "ways_in.html",
        status=status,
        job=job_of(request, fitting, "bay"),
        at=f"/fittings/{fitting}",
        view=view,
        forms={name: (forms or {}).get(name, empty) for name in ("table", "sheet", "folder")},
        asked=asked,
        answers=answers,
        kept=kept,
        places=watched_places(studio),
    )
