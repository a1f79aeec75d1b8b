"""The doors for devices and programs: a ball is posted, a fitting is read."""

import json
from typing import Annotated, Any, Final

from fastapi import APIRouter, Path, Request
from fastapi.responses import JSONResponse
from starlette.concurrency import run_in_threadpool

from loftwright.errors import IntakeError
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.intake.feed_model import FEED_MODEL
from loftwright.report.records import decision_record, strict
from loftwright.services.bay_now import bay_now
from loftwright.services.day import fittings_in_progress
from loftwright.services.settings import show_of
from loftwright.services.shots import Taken, was_taken
from loftwright.services.studio import Studio
from loftwright.services.ways_in import take_feed
from loftwright.web.reach import must_reach
from loftwright.web.state import studio_of

router = APIRouter(prefix="/api", tags=["fittings"])

FittingId = Annotated[str, Path(description="The fitting, as its address has it.", max_length=64)]

_ERROR: Final[dict[str, Any]] = {
    "description": "What is wrong, where, and the mend.",
    "content": {
        "application/json": {
            "schema": {
                "type": "object",
                "required": ["error"],
                "properties": {
                    "error": {
                        "type": "object",
                        "required": ["kind", "message", "place", "mend"],
                        "properties": {
                            name: {"type": "string"}
                            for name in ("kind", "message", "place", "mend")
                        },
                    }
                },
            }
        }
    },
}
_REFUSALS: Final[dict[int | str, dict[str, Any]]] = dict.fromkeys(
    (400, 401, 403, 404, 409, 413, 415, 422), _ERROR
)
_BALL: Final = {
    "requestBody": {
        "required": True,
        "content": {
            "application/json": {
                "schema": FEED_MODEL.model_json_schema(),
                "example": dict(EXAMPLE),
            }
        },
    }
}


@router.get("/fittings", summary="Fittings in progress, to which balls may be posted")
def get_in_progress(request: Request) -> JSONResponse:
    """Return every fitting whose visit of today is on, with its bay and nobody's name."""
    return JSONResponse(
        [{"fitting": one.id, "bay": one.bay} for one in fittings_in_progress(studio_of(request))]
    )


@router.post(
    "/fittings/{fitting}/shots",
    summary="Post one ball",
    description=(
        "Units stand in the keys. The same key again adds nothing and answers the same, so a "
        "sender may repeat a ball until it is answered."
    ),
    responses=_REFUSALS,
    openapi_extra=_BALL,
)
async def post_shot(request: Request, fitting: FittingId) -> JSONResponse:
    """Take one ball."""
    body = await request.body()
    line, record = _decoded(body)
    studio = studio_of(request)
    await run_in_threadpool(_must_be_open_to, request, studio, fitting, record)
    taken = await run_in_threadpool(
        take_feed, studio, fitting, record, line=line, by=_sender(request)
    )
    return JSONResponse(_answer(taken))


def _must_be_open_to(request: Request, studio: Studio, fitting: str, record: object) -> None:
    """Refuse a fitting that the sender may not have, save for a ball that was taken before."""
    key = record.get("key") if isinstance(record, dict) else None
    if not (isinstance(key, str) and key and was_taken(studio, fitting, key)):
        must_reach(request, studio, fitting)


@router.get(
    "/fittings/{fitting}/shots",
    summary="Every ball of a fitting as it stands",
    responses=_REFUSALS,
)
def get_shots(request: Request, fitting: FittingId) -> JSONResponse:
    """Return every ball with its club, mark and whether it counts."""
    studio = studio_of(request)
    now = bay_now(studio, request.app.state.desk, fitting).now
    return JSONResponse(
        [
            {
                "ball": one.number,
                "sequence": one.sequence,
                "club": one.club,
                "setting": one.setting,
                "read": one.numbers is not None,
                "not_ours": one.not_ours,
                "odd": one.odd,
                "warm_up": one.warm_up,
            }
            for one in now.swings
        ]
    )


@router.get("/fittings/{fitting}/decision", summary="What the balls say", responses=_REFUSALS)
def get_decision(request: Request, fitting: FittingId) -> JSONResponse:
    """Return the decision with the keys of `loftwright read --json`; null before a ball.

    Its sentences speak in the shop's units; every figure is in the unit of its key.
    """
    studio = studio_of(request)
    bay = bay_now(studio, request.app.state.desk, fitting)
    evidence = bay.evidence
    if evidence.decision is None:
        return JSONResponse(None)
    show = show_of(bay.settings)
    return JSONResponse(strict(decision_record(evidence.decision, evidence.table.table, show)))


def _decoded(body: bytes) -> tuple[str, object]:
    """Return a body as text and as what it says; RFC 8259 has JSON in UTF-8 alone."""
    try:
        text = body.decode("utf-8-sig")
        return text, json.loads(text)
    except (ValueError, RecursionError) as error:
        raise IntakeError(
            "the body is not JSON",
            place="body",
            mend=f"Send one object, for example {json.dumps(dict(EXAMPLE))}.",
        ) from error


def _sender(request: Request) -> str:
    device = getattr(request.state, "device", None)
    return getattr(device, "name", "") or "feed"


def _answer(taken: Taken) -> dict[str, object]:
    return {
        "fitting": taken.fitting,
        "sequence": taken.sequence,
        "ball": taken.number,
        "club": taken.club,
        "left_out": list(taken.problems),
    }
