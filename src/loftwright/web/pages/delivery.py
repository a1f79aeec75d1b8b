"""What one ball says of the swing, opened when somebody asks."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse

from loftwright.report.screen_numbers import Show
from loftwright.services.ball_delivery import delivery_of
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.web.job import job_of
from loftwright.web.render import has_page, part, render
from loftwright.web.state import Here
from loftwright.web.views.delivery import DeliveryView, delivery_view

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/delivery")
def show_delivery(
    request: Request, fitting: str, studio: Here, ball: int | None = None
) -> Response:
    """Show what a ball says of the swing; the last one read unless one is named."""
    return render(
        request,
        "delivery.html",
        job=job_of(request, fitting, "bay"),
        at=f"/fittings/{fitting}",
        view=_view(studio, fitting, ball),
        learning=has_page(request, "/spin"),
    )


@router.get("/fittings/{fitting}/delivery/part")
def delivery_part(
    request: Request, fitting: str, studio: Here, ball: int | None = None
) -> Response:
    """Return the same as a part for the bay's panel."""
    text = part(
        "parts/delivery.html",
        view=_view(studio, fitting, ball),
        level=2,
        learning=has_page(request, "/spin"),
    )
    return HTMLResponse(text, headers={"Cache-Control": "no-store"})


def _view(studio: Studio, fitting: str, ball: int | None) -> DeliveryView:
    found = delivery_of(studio, fitting, ball)
    opened = studio.store.fitting(fitting).value
    settings = read_settings(studio).settings
    show = Show(units=settings.units, decimal=settings.decimal)
    return delivery_view(found, studio.store.golfer(opened.golfer).value.hand, show)
