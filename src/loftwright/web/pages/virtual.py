"""The virtual golfer hits: one ball, and the mark that it left, in invented fittings only."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from loftwright.errors import InputError
from loftwright.services.virtual_bay import virtual_ball, virtual_mark
from loftwright.web.errors import wants_json
from loftwright.web.forms import Fields, Typed
from loftwright.web.state import ActKey, Actor, Here

router = APIRouter(prefix="/fittings/{fitting}/virtual", include_in_schema=False)

_LAST = 10**9


@router.post("")
def hit(
    request: Request, fitting: str, studio: Here, fields: Fields, by: Actor, key: ActKey
) -> Response:
    """Let the virtual golfer hit with the club in hand; a later mark is asked for by itself."""
    later = fields.get("mark") == "later"
    taken = virtual_ball(studio, fitting, marked=not later, by=by, key=key)
    to = f"/fittings/{taken.fitting}/bay"
    if wants_json(request):
        upto = studio.record(taken.fitting)[-1].sequence
        told = {"to": to, "revision": upto, "fitting": taken.fitting, "ball": taken.sequence}
        return JSONResponse(told)
    return RedirectResponse(to, status_code=303)


@router.post("/mark")
def mark(request: Request, fitting: str, studio: Here, fields: Fields, by: Actor) -> Response:
    """Read the mark of a ball that the virtual golfer hit."""
    ball = Typed(fields=fields).whole("ball", least=1, most=_LAST)
    if ball is None:
        raise InputError("no ball was named", place="ball", mend="Let one be hit first.")
    left = virtual_mark(studio, fitting, ball, by=by)
    if wants_json(request):
        return JSONResponse({"to": f"/fittings/{fitting}/bay", "marked": left})
    return RedirectResponse(f"/fittings/{fitting}/bay", status_code=303)
