"""Every ball of a fitting with the mends of one or of a run of them."""

from fastapi import APIRouter, Request, Response

from loftwright.report.screen_numbers import Show
from loftwright.services.joining import clubs_to_add
from loftwright.services.settings import read_settings
from loftwright.web.job import job_of
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.mends import adding_taps, mends_view

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/mends")
def show_mends(
    request: Request,
    fitting: str,
    studio: Here,
    first: int | None = None,
    last: int | None = None,
) -> Response:
    """Show every ball of a fitting with what mends it."""
    record = studio.record(fitting)
    now = studio.standing(fitting)
    settings = read_settings(studio).settings
    show = Show(units=settings.units, decimal=settings.decimal)
    view = mends_view(now, record, show, settings.convention, first=first, last=last)
    return render(
        request,
        "mends.html",
        job=job_of(request, fitting, "bay"),
        at=f"/fittings/{fitting}",
        seen=now.upto,
        view=view,
        adding=() if now.closed else adding_taps(clubs_to_add(studio, fitting), show),
    )
