"""The rack as a file: taken out, and brought in after a look at what it would do."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.report.numbers import count
from loftwright.services.rack_back import last_import, take_back
from loftwright.services.rack_in import Coming, bring_in, look_at
from loftwright.services.rack_out import rack_csv, rack_json, shop_items
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.rack_files import coming_view, last_view

router = APIRouter(prefix="/rack", include_in_schema=False)

MOST_BYTES = 4 << 20


@router.get("/files")
def show_files(request: Request, studio: Here) -> Response:
    """Show what can be taken out and brought in."""
    told = {name: request.query_params.get(name, "") for name in ("came", "back")}
    rows = {name: int(text) for name, text in told.items() if text.isdecimal() and len(text) < 7}
    kept = f"{count(rows['came'], 'row')} came in." if "came" in rows else ""
    if "back" in rows:
        kept = f"{count(rows['back'], 'row')} went again; the rack is as it was before."
    return _page(request, studio, kept=kept)


@router.get("/export.json")
def get_json(studio: Here) -> Response:
    """Take the rack out as JSON."""
    return _file(rack_json(studio), "application/json", "json")


@router.get("/export.csv")
def get_csv(studio: Here) -> Response:
    """Take the rack out as a table."""
    return _file(rack_csv(studio), "text/csv; charset=utf-8", "csv")


@router.post("/files/look")
def look(request: Request, studio: Here, files: Files) -> Response:
    """Show what a file would do; nothing is changed."""
    typed = Typed(fields={})
    name, data = files.get("file", ("", b""))
    if not name:
        typed.fail("file", "no file was chosen", "Choose a file that a rack was written to.")
    elif len(data) > MOST_BYTES:
        typed.fail("file", f"{name} is too large", "Give 4 MB at most.")
    plain = _plain(data)
    coming = typed.tried("file", lambda: look_at(studio, name, plain)) if typed.good else None
    if coming is None:
        return _page(request, studio, form=typed.filled, status=422)
    text = plain.decode()
    return _page(request, studio, coming=coming, name=name, text=text)


@router.post("/files/bring")
def bring(request: Request, studio: Here, fields: Fields) -> Response:
    """Bring in a file that was looked at."""
    name = fields.get("name", "")
    data = _plain(fields.get("text", "").encode())
    text = data.decode()
    try:
        done = bring_in(studio, name, data, seen=fields.get("seen", ""))
    except InputError:
        coming = look_at(studio, name, data)
        return _page(request, studio, coming=coming, name=name, text=text, status=422)
    except ConflictError as error:
        coming = look_at(studio, name, data)
        return _page(
            request,
            studio,
            coming=coming,
            name=name,
            text=text,
            stale=f"Nothing came in: {error.message}. {error.mend}",
            status=409,
        )
    rows = len(done.new) + len(done.changed) + len(done.looks) + len(done.profiles)
    return RedirectResponse(f"/rack/files?came={rows}", status_code=303)


@router.post("/files/back")
def back(request: Request, studio: Here, fields: Fields) -> Response:
    """Take the newest file back, while nothing of it has been used."""
    typed = Typed(fields=fields)
    version = typed.whole("version", least=1, most=999_999_999, need="Open the page again.")
    if version is None:
        return _page(request, studio, form=typed.filled, status=422)
    try:
        last = take_back(studio, version=version)
    except (ConflictError, NotFoundError) as error:
        stale = f"Nothing was taken back: {error.message}. {error.mend}"
        return _page(request, studio, stale=stale, status=409)
    return RedirectResponse(f"/rack/files?back={last.came.rows}", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    *,
    coming: Coming | None = None,
    name: str = "",
    text: str = "",
    form: Filled | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    items = len(shop_items(studio.store.rack()))
    return render(
        request,
        "rack_files.html",
        status=status,
        view=coming_view(coming, name, items),
        name=name,
        text=text,
        form=form or Filled(),
        kept=kept,
        stale=stale,
        last=last_view(last_import(studio), studio.zone),
    )


def _plain(data: bytes) -> bytes:
    """Return a file as a form's field gives it back: no mark in front, one end of line."""
    whole = data.removeprefix(b"\xef\xbb\xbf")
    return whole.replace(b"\r\n", b"\n").replace(b"\r", b"\n")


def _file(text: str, kind: str, ending: str) -> Response:
    return Response(
        text,
        media_type=kind,
        headers={"Content-Disposition": f'attachment; filename="loftwright-rack.{ending}"'},
    )
