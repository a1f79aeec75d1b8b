"""Which one: every way to go on."""

from fastapi import APIRouter, Request, Response

from loftwright.domain.check_acts import PickUpBegun
from loftwright.services.acting import topic
from loftwright.services.bay_now import bay_now
from loftwright.services.choosing import chosen_now
from loftwright.services.evidence import Desk
from loftwright.services.settings import show_of
from loftwright.services.studio import Studio
from loftwright.web.bay_events import bay_events
from loftwright.web.job import job_of
from loftwright.web.live import LiveState
from loftwright.web.render import part, render
from loftwright.web.state import AtDesk, Here
from loftwright.web.views.choice import ChoiceView, choice_view
from loftwright.workshop.standing import standing

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/choice")
def show_choice(request: Request, fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Show every way to go on, best supported first."""
    return render(
        request,
        "choice.html",
        job=job_of(request, fitting, "choice"),
        live=f"/fittings/{fitting}/choice/events",
        at=f"/fittings/{fitting}",
        view=_view(studio, desk, fitting),
    )


@router.get("/fittings/{fitting}/choice/events")
async def follow_choice(request: Request, fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Send the page anew when a ball, a feel or a correction came."""

    def draw() -> LiveState:
        view = _view(studio, desk, fitting)
        html = part("parts/choice.html", view=view, at=f"/fittings/{fitting}")
        return LiveState(revision=view.seen, parts={"choice": html})

    return await bay_events(request, (topic(fitting),), draw)


def _view(studio: Studio, desk: Desk, fitting: str) -> ChoiceView:
    bay = bay_now(studio, desk, fitting)
    found = chosen_now(studio, desk, bay)
    built = frozenset(
        one.act.built
        for one in standing(studio.store.job_record(fitting))
        if isinstance(one.act, PickUpBegun)
    )
    return choice_view(bay, found, studio.record(fitting), show_of(bay.settings), built)
