"""What we saw: the evidence of a fitting."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response

from loftwright.services.acting import topic
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.settings import show_of
from loftwright.services.studio import Studio
from loftwright.web.job import job_of
from loftwright.web.live import LiveState, live_events
from loftwright.web.render import part, render
from loftwright.web.state import AtDesk, Here
from loftwright.web.views.evidence import EvidenceView, evidence_view

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/evidence")
def show_evidence(
    request: Request, fitting: str, studio: Here, desk: AtDesk, a: str = "", b: str = ""
) -> Response:
    """Show what was seen, and why two clubs differ."""
    view = _view(studio, desk, fitting, a, b)
    asked = f"?{urlencode({'a': view.why.a, 'b': view.why.b})}" if view.why else ""
    return render(
        request,
        "evidence.html",
        job=job_of(request, fitting, "evidence"),
        live=f"/fittings/{fitting}/evidence/events{asked}",
        at=f"/fittings/{fitting}",
        view=view,
    )


@router.get("/fittings/{fitting}/evidence/events")
async def follow_evidence(
    request: Request, fitting: str, studio: Here, desk: AtDesk, a: str = "", b: str = ""
) -> Response:
    """Send the page anew when a ball or a correction came."""

    def draw() -> LiveState:
        view = _view(studio, desk, fitting, a, b)
        html = part("parts/evidence.html", view=view, at=f"/fittings/{fitting}")
        return LiveState(revision=view.seen, parts={"evidence": html})

    return await live_events(request, topic(fitting), draw)


def _view(studio: Studio, desk: Desk, fitting: str, a: str, b: str) -> EvidenceView:
    bay = bay_now(studio, desk, fitting)
    return evidence_view(bay, studio.record(fitting), show_of(bay.settings), a=a, b=b)
