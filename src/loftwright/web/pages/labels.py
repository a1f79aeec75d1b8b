"""Labels of the rack: chosen, printed, and found again by their code."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.piece_code import piece_of
from loftwright.errors import InputError
from loftwright.report.piece_labels import labels_pdf
from loftwright.services.settings import read_settings, show_of
from loftwright.web.forms import Typed
from loftwright.web.pages.rack import rack_page
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.labels import labels_of, labels_view
from loftwright.web.views.rack_rows import own_parts

router = APIRouter(prefix="/rack", include_in_schema=False)


@router.get("/find")
def find(request: Request, studio: Here) -> Response:
    """Open the part whose label was scanned or typed."""
    typed = Typed(fields=dict(request.query_params))
    code = typed.text("code", need="Scan a label, or type its nine signs.")
    rack = studio.store.rack()
    found = None
    if typed.good:
        shop = rack.pieces.keys() - own_parts(rack)
        found = typed.tried("code", lambda: piece_of(code, shop))
    if found is None:
        return rack_page(request, studio, forms={"find": typed.filled}, status=422)
    return RedirectResponse(f"/rack/items/{found}", status_code=303)


@router.get("/labels")
def show_labels(request: Request, studio: Here) -> Response:
    """Show the parts of which labels can be printed."""
    show = show_of(read_settings(studio).settings)
    chosen = frozenset(request.query_params.getlist("piece"))
    view = labels_view(studio.store.rack(), chosen, show)
    return render(request, "rack_labels.html", view=view)


@router.get("/labels.pdf")
def get_labels(request: Request, studio: Here) -> Response:
    """Print labels of the chosen parts, or of every part that may be hit.

    Raises
    ------
    InputError
        If a part is not in the shop's rack, or none is left to print.
    """
    settings = read_settings(studio).settings
    rack = studio.store.rack()
    asked = list(dict.fromkeys(request.query_params.getlist("piece")))
    known = rack.pieces.keys() - own_parts(rack)
    for piece in asked:
        if piece not in known:
            raise InputError(
                "a part is not in the rack any more", place="piece", mend="Choose the parts again."
            )
    labels = labels_of(rack, asked, show_of(settings))
    return Response(
        labels_pdf(labels, studio=settings.shop, day=studio.today()),
        media_type="application/pdf",
        headers={"Content-Disposition": 'inline; filename="rack-labels.pdf"'},
    )
