"""A bundle for help: read first, then saved as it was read."""

from fastapi import APIRouter, Request, Response

from loftwright.services.diagnostics import Bundles, make_bundle
from loftwright.services.doctor import look_beside
from loftwright.services.health import Pulse
from loftwright.services.program_log import log_file
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.installation import bundle_view

PATH = "/settings/bundle"

router = APIRouter(prefix=PATH, include_in_schema=False)


@router.get("")
def show_bundle(request: Request, studio: Here) -> Response:
    """Make a bundle and show all that is in it."""
    pulse: Pulse = request.app.state.pulse
    bundles: Bundles = request.app.state.bundles
    now = studio.now()
    bundle = make_bundle(
        now,
        studio.folder,
        pulse.log_path or log_file(studio.folder),
        studio=studio,
        health=pulse.look(),
        looked=look_beside(studio.folder, now),
    )
    save = f"{PATH}/{bundles.show(bundle)}"
    return render(request, "bundle.html", view=bundle_view(bundle, save))


@router.get("/{bundle}")
def save_bundle(request: Request, bundle: str) -> Response:
    """Send a bundle that was shown, exactly as it was."""
    bundles: Bundles = request.app.state.bundles
    found = bundles.shown(bundle)
    return Response(
        found.data(),
        media_type="application/zip",
        headers={
            "Content-Disposition": f'attachment; filename="{found.name}"',
            "Cache-Control": "no-store",
        },
    )
