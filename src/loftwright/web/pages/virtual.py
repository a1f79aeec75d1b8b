"""The virtual golfer hits: one ball, and the mark that it left, in invented fittings only."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from loftwright.services.virtual_bay import virtual_ball, virtual_mark
from loftwright.web.errors import wants_json
from loftwright.web.forms import Fields, Typed
from loftwright.web.state import Actor, Here

router = APIRouter(prefix="/fittings/{fitting}/virtual", include_in_schema=False)


@router.post("")
def hit(request: Request, fitting: str, studio: Here, fields: Fields, by: Actor) -> Response:
    """Let the virtual golfer hit with the club in hand; a later mark is asked for by itself."""
    later = fields.get("mark") == "later"
    taken = virtual_ball(studio, fitting, marked=not later, by=by)
    if wants_json(request):
        return JSONResponse({"fitting": taken.fitting, "ball": taken.sequence})
    return RedirectResponse(f"/fittings/{taken.fitting}/bay", status_code=303)


@router.post("/mark")
def mark(request: Request, fitting: str, studio: Here, fields: Fields, by: Actor) -> Response:
    """Read the mark of a ball that the virtual golfer hit."""
    ball = Typed(fields=fields).whole("ball", least=1, most=10**9)
    left = virtual_mark(studio, fitting, ball or 0, by=by)
    if wants_json(request):
        return JSONResponse({"marked": left})
    return RedirectResponse(f"/fittings/{fitting}/bay", status_code=303)
