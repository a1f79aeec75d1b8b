"""What we saw: the evidence of a fitting."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response

from loftwright.services.acting import topic
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.settings import show_of
from loftwright.services.shop_against import said_against
from loftwright.services.studio import Studio
from loftwright.web.job import job_of
from loftwright.web.live import LiveState, live_events
from loftwright.web.render import part, render
from loftwright.web.state import AtDesk, Here
from loftwright.web.views.evidence import EvidenceView, evidence_view
from loftwright.web.views.evidence_record import ClubInRecord, clubs_in_record

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/evidence")
def show_evidence(
    request: Request, fitting: str, studio: Here, desk: AtDesk, a: str = "", b: str = ""
) -> Response:
    """Show what was seen, and why two clubs differ."""
    bay = bay_now(studio, desk, fitting)
    view = _view(studio, bay, a, b)
    asked = f"?{urlencode({'a': view.why.a, 'b': view.why.b})}" if view.why else ""
    return render(
        request,
        "evidence.html",
        job=job_of(request, fitting, "evidence"),
        live=f"/fittings/{fitting}/evidence/events{asked}",
        at=f"/fittings/{fitting}",
        view=view,
        record=_record(studio, bay),
    )


@router.get("/fittings/{fitting}/evidence/events")
async def follow_evidence(
    request: Request, fitting: str, studio: Here, desk: AtDesk, a: str = "", b: str = ""
) -> Response:
    """Send the page anew when a ball or a correction came."""

    def draw() -> LiveState:
        bay = bay_now(studio, desk, fitting)
        view = _view(studio, bay, a, b)
        parts = {
            "evidence": part("parts/evidence.html", view=view, at=f"/fittings/{fitting}"),
            "evidence-record": part("parts/evidence_record.html", record=_record(studio, bay)),
        }
        return LiveState(revision=view.seen, parts=parts)

    return await live_events(request, topic(fitting), draw)


def _view(studio: Studio, bay: BayNow, a: str, b: str) -> EvidenceView:
    record = studio.record(bay.fitting.id)
    return evidence_view(bay, record, show_of(bay.settings), a=a, b=b)


def _record(studio: Studio, bay: BayNow) -> tuple[ClubInRecord, ...]:
    """Return what the shop record had said of the clubs before their first ball."""
    learned = bay.evidence.pinned.learned
    against = () if learned is None else said_against(studio, learned)
    return clubs_in_record(bay, show_of(bay.settings), against)
