"""A recall: where a piece or a model has been, all of it locked at once, and the undo of that."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.report.numbers import count
from loftwright.services.recalling import lock_all, put_all_back, recall
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.rack_forms import read_reason
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.rack_care import recall_view

router = APIRouter(prefix="/recall", include_in_schema=False)


@router.get("/{item}")
def show_recall(request: Request, item: str, studio: Here) -> Response:
    """Show where a piece, or every sample of a model, has been."""
    return _page(request, studio, item)


@router.post("/{item}/lock")
def lock(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Lock every recalled piece that may still be handed over."""
    typed = Typed(fields=fields)
    reason = read_reason(typed)
    if not typed.good:
        return _page(request, studio, item, form=typed.filled, status=422)
    locked = lock_all(studio, item, reason)
    asked = urlencode({"locked": ",".join(locked), "reason": reason})
    return RedirectResponse(f"/recall/{item}?{asked}", status_code=303)


@router.post("/{item}/undo")
def undo(item: str, studio: Here, fields: Fields) -> Response:
    """Put back what this recall locked."""
    pieces = tuple(one for one in fields.get("pieces", "").split(",") if one)
    number = put_all_back(studio, pieces, fields.get("reason", ""))
    return RedirectResponse(f"/recall/{item}?back={number}", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    item: str,
    *,
    form: Filled | None = None,
    status: int = 200,
) -> Response:
    asked = request.query_params
    rack = studio.store.rack()
    view = recall_view(rack, recall(studio, item), show_of(read_settings(studio).settings))
    known = [one for one in asked.get("locked", "").split(",") if one in rack.pieces]
    back = asked.get("back", "")
    kept = f"{count(len(known), 'part')} locked." if known else ""
    if back.isdecimal() and len(back) < 6:
        kept = f"{count(int(back), 'part')} put back."
    return render(
        request,
        "recall.html",
        status=status,
        view=view,
        item=item,
        form=form or Filled(),
        kept=kept,
        locked=",".join(known),
        reason=asked.get("reason", ""),
    )
