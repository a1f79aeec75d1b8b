"""The shop's terms: what it charges, promises and holds itself to."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.terms_forms import read_terms_form, terms_values
from loftwright.web.views.terms import terms_view

router = APIRouter(prefix="/settings/terms", include_in_schema=False)

_LARGEST: Final = 999_999_999


@router.get("")
def show_terms(request: Request, studio: Here) -> Response:
    """Show the terms."""
    kept = "Saved. Quotes and sheets that were made keep what stood then."
    return _page(request, studio, kept=kept if request.query_params.get("kept") else "")


@router.post("")
def change(request: Request, studio: Here, fields: Fields) -> Response:
    """Keep the terms as they were typed."""
    known = read_terms(studio)
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    version = typed.whole("version", least=0, most=_LARGEST, need="Open the page again.")
    terms = read_terms_form(typed, known.terms)
    if terms is None or version is None or not typed.good:
        return _page(request, studio, form=typed.filled, status=422)
    try:
        change_terms(studio, terms, version=version)
    except ConflictError as error:
        stale = f"Not saved: {error.message}."
        return _page(request, studio, form=typed.filled, stale=stale, status=409)
    return RedirectResponse("/settings/terms?kept=yes", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    *,
    form: Filled | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    known, settings = read_terms(studio), read_settings(studio).settings
    show = show_of(settings)
    filled = form or Filled(typed=terms_values(known.terms, show))
    return render(
        request,
        "terms.html",
        status=status,
        view=terms_view(known.terms, show, settings.currency, filled.typed),
        form=filled,
        currency=settings.currency,
        version=known.version,
        kept=kept,
        stale=stale,
    )
