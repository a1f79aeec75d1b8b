"""What leaves a fitting: paper, pictures to publish, and its balls as a table."""

from typing import Final

from fastapi import APIRouter, Request, Response

from loftwright.services.bay_now import bay_now
from loftwright.services.fitting_report import (
    file_name,
    final_decision,
    report_pdf,
    shots_table,
)
from loftwright.services.publishing import published
from loftwright.services.settings import show_of
from loftwright.web.job import job_of
from loftwright.web.render import render
from loftwright.web.state import AtDesk, Here
from loftwright.web.views.report import report_view

router = APIRouter(prefix="/fittings/{fitting}", include_in_schema=False)

_MEDIA: Final = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml; charset=utf-8",
    "png": "image/png",
    "csv": "text/csv; charset=utf-8",
}


@router.get("/report")
def show_report(request: Request, fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Show what the paper says in short, and what else may leave the shop."""
    bay = bay_now(studio, desk, fitting)
    decision = final_decision(desk, bay)
    return render(
        request,
        "report.html",
        job=job_of(request, fitting, "report"),
        at=f"/fittings/{fitting}",
        view=report_view(bay, decision, show_of(bay.settings)),
    )


@router.get("/report.pdf")
def get_report(fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Send the two pages as PDF."""
    bay = bay_now(studio, desk, fitting)
    name = file_name(bay, "fitting", "pdf", named=True)
    return _file(report_pdf(desk, bay), name)


@router.get("/pictures/{picture}.{kind}")
def get_picture(fitting: str, picture: str, kind: str, studio: Here, desk: AtDesk) -> Response:
    """Send a picture with its publication block, where it may be published."""
    bay = bay_now(studio, desk, fitting)
    made = published(bay, final_decision(desk, bay), picture, kind)
    return _file(made, file_name(bay, picture, kind))


@router.get("/shots.csv")
def get_shots(fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Send the balls of the comparison as our own table."""
    bay = bay_now(studio, desk, fitting)
    return _file(shots_table(bay.now).encode(), file_name(bay, "shots", "csv"))


@router.get("/readings.csv")
def get_readings(fitting: str, studio: Here, desk: AtDesk) -> Response:
    """Send every reading, those of the warm-up and of strangers among them."""
    bay = bay_now(studio, desk, fitting)
    made = shots_table(bay.now, every=True).encode()
    return _file(made, file_name(bay, "readings", "csv"))


def _file(content: bytes, name: str) -> Response:
    return Response(
        content,
        media_type=_MEDIA[name.rpartition(".")[2]],
        headers={
            "Content-Disposition": f'attachment; filename="{name}"',
            "Cache-Control": "no-store",
        },
    )
