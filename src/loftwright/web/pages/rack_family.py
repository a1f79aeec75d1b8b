"""Families of shafts: all of them, one of them, and its picture to publish."""

from fastapi import APIRouter, Request, Response

from loftwright.services.families import family, family_names
from loftwright.services.family_picture import published
from loftwright.services.settings import read_settings, show_of
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.rack_family import family_links, family_view

router = APIRouter(prefix="/rack/families", include_in_schema=False)

_MEDIA = {"svg": "image/svg+xml; charset=utf-8", "png": "image/png"}


@router.get("")
def show_families(request: Request, studio: Here) -> Response:
    """Show every family."""
    found = tuple(family(studio, name) for name in family_names(studio.store.rack()))
    return render(request, "rack_families.html", links=family_links(found))


@router.get("/{name}")
def show_family(request: Request, name: str, studio: Here) -> Response:
    """Show one family against a reference."""
    found = family(studio, name, request.query_params.get("reference", ""))
    show = show_of(read_settings(studio).settings)
    return render(request, "rack_family.html", view=family_view(found, show))


@router.get("/{name}/picture.{kind}")
def get_picture(request: Request, name: str, kind: str, studio: Here) -> Response:
    """Return a family's picture with its publication block."""
    found = family(studio, name, request.query_params.get("reference", ""))
    return Response(
        published(found, kind),
        media_type=_MEDIA.get(kind, "application/octet-stream"),
        headers={"Content-Disposition": f'attachment; filename="family.{kind}"'},
    )
