"""The golfer's screen beside the bay."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.services.acting import topic
from loftwright.services.day import fittings_in_progress
from loftwright.services.shots import hitting
from loftwright.web.bay_events import bay_events, runner_of
from loftwright.web.live import LiveState
from loftwright.web.reach import must_reach, reaches
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.screen import screen_parts

router = APIRouter(include_in_schema=False)

_LOOK_AGAIN: Final = {"Refresh": "15"}
"""Seconds after which a screen on the wall looks whether somebody is there now."""


@router.get("/screen")
def find_screen(request: Request, studio: Here) -> Response:
    """Go to the bay where a fitting is on; with several, ask which."""
    bays = {one.bay: one.id for one in reversed(fittings_in_progress(studio))}
    if len(bays) == 1:
        return RedirectResponse(f"/screen/{next(iter(bays.values()))}", status_code=303)
    return render(
        request, "screen_choice.html", bays=sorted(bays.items()), headers=dict(_LOOK_AGAIN)
    )


@router.get("/screen/{fitting}")
def show_screen(request: Request, fitting: str, studio: Here) -> Response:
    """Show the golfer who hits the last ball."""
    if not reaches(request, studio, fitting):
        return RedirectResponse("/screen", status_code=303)
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
    must_reach(request, studio, fitting)
    running = runner_of(request)
    opened = studio.store.fitting(fitting).value

    def draw() -> LiveState:
        bay = running.newest(hitting(studio, fitting))
        return LiveState(revision=bay.now.upto, parts=screen_parts(bay))

    both = tuple(topic(one) for one in (opened.id, opened.partner) if one is not None)
    return await bay_events(
        request, both, draw, over=lambda: not reaches(request, studio, fitting)
    )
