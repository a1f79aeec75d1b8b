"""How the studio is, for a monitor or a reverse proxy: one JSON object, and one status."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse

from loftwright.services.health import Pulse, Status, health_record
from loftwright.web.errors import retry_after
from loftwright.web.security import from_this_machine

PATH = "/health"

router = APIRouter(include_in_schema=False)


@router.api_route(PATH, methods=["GET", "HEAD"])
def show_health(request: Request) -> Response:
    """Say how the studio is: 200 while it keeps what it is told, else 503.

    To whom comes from beyond this machine without a fitter's key, one word says it all.
    """
    pulse: Pulse = request.app.state.pulse
    health = pulse.look()
    known = knows_us(request)
    told = health_record(health) if known else {"status": health.status.value}
    failing = health.status is Status.FAILING
    return JSONResponse(
        told,
        status_code=503 if failing else 200,
        headers={"Cache-Control": "no-store"} | (retry_after() if failing else {}),
    )


def knows_us(request: Request) -> bool:
    """Return whether a request comes from this machine, or with a fitter's key."""
    device = getattr(request.state, "device", None)
    return device.role == "fitter" if device is not None else from_this_machine(request.scope)
