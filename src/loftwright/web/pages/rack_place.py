"""A part of the rack moved from the list, and back with one tap."""

from collections.abc import Mapping
from typing import Final
from urllib.parse import parse_qsl, urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError
from loftwright.services.moving import move
from loftwright.services.rack_changing import known_item
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Typed
from loftwright.web.pages.rack import rack_page
from loftwright.web.state import Here

router = APIRouter(prefix="/rack/items", include_in_schema=False)

_SOUGHT: Final = ("least_mass", "most_mass", "least_length", "most_length", "words", "sort")
"""What the list was looked through by, and is again."""


@router.post("/{item}/place")
def move_part(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Say where a part is now, and show the list as it was looked through."""
    typed = Typed(fields=fields)
    known_item(studio, item)
    was = fields.get("was", "")
    try:
        typed.tried("place", lambda: move(studio, item, fields.get("place", ""), was=was))
    except ConflictError as error:
        return _refused(request, studio, f"Not moved: {error.message}. {error.mend}", 409)
    if not typed.good:
        fault = next(iter(typed.faults.values()))
        return _refused(request, studio, f"Not moved: {fault.message} {fault.mend}", 422)
    asked = urlencode(_asked(fields) | {"moved": item, "from": was})
    return RedirectResponse(f"/rack?{asked}#at-{item}", status_code=303)


def _asked(fields: Mapping[str, str]) -> dict[str, str]:
    found = dict(parse_qsl(fields.get("asked", "")))
    return {name: found[name] for name in _SOUGHT if name in found}


def _refused(request: Request, studio: Studio, words: str, status: int) -> Response:
    return rack_page(request, studio, forms={}, stale=words, status=status)
