"""The golfer's screen beside the bay."""

from fastapi import APIRouter, Request, Response

from loftwright.services.acting import topic
from loftwright.services.shots import hitting
from loftwright.web.bay_events import bay_events, runner_of
from loftwright.web.live import LiveState
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.screen import screen_parts

router = APIRouter(include_in_schema=False)


@router.get("/screen/{fitting}")
def show_screen(request: Request, fitting: str, studio: Here) -> Response:
    """Show the golfer who hits the last ball."""
    bay = runner_of(request).newest(hitting(studio, fitting))
    return render(
        request,
        "screen.html",
        live=f"/screen/{fitting}/events",
        parts=screen_parts(bay),
    )


@router.get("/screen/{fitting}/events")
async def follow_screen(request: Request, fitting: str, studio: Here) -> Response:
    """Send the golfer's screen as it changes; with two golfers it follows the one who hits."""
    running = runner_of(request)
    opened = studio.store.fitting(fitting).value

    def draw() -> LiveState:
        bay = running.newest(hitting(studio, fitting))
        return LiveState(revision=bay.now.upto, parts=screen_parts(bay))

    both = tuple(topic(one) for one in (opened.id, opened.partner) if one is not None)
    return await bay_events(request, both, draw)
