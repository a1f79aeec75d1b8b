"""The spin setting of balls and faces, learned from the shop's marked shots on request."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError
from loftwright.report.screen_numbers import Show
from loftwright.services.settings import read_settings
from loftwright.services.spin_setting import keep_spin, learn_spin, read_spin
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.spin import spin_view

router = APIRouter(include_in_schema=False)


@router.get("/spin")
def show_spin(request: Request, studio: Here, learned: bool = False) -> Response:
    """Show what was learned of balls and faces."""
    return _page(request, studio, kept=learned)


@router.post("/spin")
def learn_again(request: Request, studio: Here, fields: Fields) -> Response:
    """Learn from every marked shot of the shop, and keep it."""
    version = fields.get("version", "")
    found = learn_spin(studio)
    try:
        keep_spin(studio, found, version=int(version) if version.isdecimal() else -1)
    except ConflictError:
        return _page(request, studio, stale=True, status=409)
    return RedirectResponse("/spin?learned=true", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    *,
    kept: bool = False,
    stale: bool = False,
    status: int = 200,
) -> Response:
    settings = read_settings(studio).settings
    show = Show(units=settings.units, decimal=settings.decimal)
    return render(
        request,
        "spin.html",
        status=status,
        view=spin_view(read_spin(studio), show),
        kept=kept,
        stale=stale,
    )
