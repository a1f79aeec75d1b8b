"""Take back what was done last to a job, or do it again."""

from fastapi import APIRouter, Request, Response

from loftwright.services.job import undo_job
from loftwright.web.answers import acted, inside
from loftwright.web.forms import Fields
from loftwright.web.state import ActKey, Actor, Here, Seen

router = APIRouter(include_in_schema=False)


@router.post("/fittings/{fitting}/job/undo")
def undo(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Take back the newest act, or do again what was taken back, and show the page again."""
    sequence = int(fields.get("act", "")) if fields.get("act", "").isdecimal() else 0
    record = undo_job(studio, fitting, sequence, by=by, key=key, seen=seen)
    page = inside(fields.get("back", ""), f"/fittings/{fitting}/order")
    return acted(request, page, revision=record[-1].sequence)
