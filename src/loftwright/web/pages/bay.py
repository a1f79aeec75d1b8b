"""The bay: a fitter with a golfer waiting."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.golfer import Hand
from loftwright.services.acting import topic
from loftwright.services.bay_acts import closing_of, line_order
from loftwright.services.bay_now import BayNow
from loftwright.web.bay_events import bay_events, runner_of
from loftwright.web.job import job_of
from loftwright.web.live import LiveState
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.bay import Drawing, bay_parts, doubt_parts, prompt_parts
from loftwright.web.views.bay_keys import KEYS
from loftwright.web.views.bay_rest import strip_view

router = APIRouter(include_in_schema=False)

TURNED: Final = "face"
"""Cookie of a device whose fitter looks at the face as the club is held."""

_YEAR: Final = 365 * 24 * 3600


@router.get("/fittings/{fitting}/bay")
def show_bay(request: Request, fitting: str, studio: Here) -> Response:
    """Show the bay page."""
    bay = runner_of(request).newest(fitting)
    drawing = Drawing(turned=_turned(request), closing=closing_of(studio, fitting), plain=True)
    return render(
        request,
        "bay.html",
        job=job_of(request, fitting, "bay"),
        live=f"/fittings/{fitting}/bay/events",
        at=f"/fittings/{fitting}",
        parts=bay_parts(bay, drawing),
        seen=bay.now.upto,
        turned=drawing.turned,
        left_handed=bay.golfer.hand is Hand.LEFT,
        conditions=strip_view(bay).conditions,
        order=", ".join(line_order(bay.settings).columns),
        keys=KEYS,
    )


@router.get("/fittings/{fitting}/bay/events")
async def follow_bay(request: Request, fitting: str, studio: Here) -> Response:
    """Send the bay page's parts as they change."""
    turned = _turned(request)
    running = runner_of(request)

    def drawn(parts: Callable[[BayNow, Drawing], Mapping[str, str]]) -> LiveState:
        bay = running.newest(fitting)
        drawing = Drawing(turned=turned, closing=closing_of(studio, fitting))
        return LiveState(revision=bay.now.upto, parts=parts(bay, drawing))

    prompt, doubted = partial(drawn, prompt_parts), partial(drawn, doubt_parts)
    return await bay_events(request, (topic(fitting),), prompt, doubted)


@router.post("/fittings/{fitting}/turn-face")
def turn_face(request: Request, fitting: str) -> Response:
    """Remember on this device how the fitter looks at the face, and show the bay again."""
    answer = RedirectResponse(f"/fittings/{fitting}/bay", status_code=303)
    words = "front" if _turned(request) else "held"
    answer.set_cookie(TURNED, words, max_age=_YEAR, samesite="strict", httponly=True, path="/")
    return answer


def _turned(request: Request) -> bool:
    return request.cookies.get(TURNED, "front") == "held"
