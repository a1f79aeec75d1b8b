"""Every act of a fitting: one address each, the same for a tap, a key and a form."""

from collections.abc import Mapping
from typing import Final
from uuid import uuid4

from fastapi import APIRouter, Request, Response

from loftwright.bay.now import FittingNow
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act, undo
from loftwright.services.bay_acts import another_day, switch_to, type_ball
from loftwright.services.joining import add_club
from loftwright.services.scanning import hand_over_scanned
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.web.act_forms import Told, acts_of
from loftwright.web.answers import acted, inside
from loftwright.web.forms import Fields
from loftwright.web.state import Actor, Here

router = APIRouter(include_in_schema=False)

_TRIES: Final = 3


@router.post("/fittings/{fitting}/acts/{name}")
def post_act(
    request: Request, fitting: str, name: str, studio: Here, by: Actor, fields: Fields
) -> Response:
    """Do what a form asks for and show the page it came from."""
    key = request.headers.get("idempotency-key") or fields.get("key", "")
    if name == "turn":
        to = switch_to(studio, fitting, fields.get("to", fitting))
        return acted(request, f"/fittings/{to}/bay")
    page = inside(fields.get("back", ""), f"/fittings/{fitting}/bay")
    if name == "scan":
        scanned = hand_over_scanned(
            studio,
            fitting,
            fields.get("code", ""),
            planned=fields.get("planned", ""),
            by=by,
            key=key,
            seen=_sequence(fields, "seen"),
        )
        return acted(request, page, revision=scanned.now.upto, note=scanned.note)
    now = perform(studio, fitting, name, fields, by=by, key=key)
    return acted(request, page, revision=now.upto)


def perform(
    studio: Studio, fitting: str, name: str, fields: Mapping[str, str], *, by: str, key: str
) -> FittingNow:
    """Do one act and return the fitting as it stands after it.

    An act whose key the record knows is not read again: what it was read against has changed.
    """
    opened = studio.store.fitting(fitting).value
    record = studio.record(fitting)
    if written(record, key):
        return studio.standing(fitting)
    if name == "ball":
        after = _sequence(fields, "after")
        line = fields.get("line", "")
        return type_ball(studio, fitting, line, key=key or str(uuid4()), after=after, by=by)
    if name == "another-day":
        return another_day(studio, fitting, by=by, key=key)
    if name == "add-club":
        return add_club(studio, fitting, fields.get("assembly", ""), by=by, key=key)
    seen = _sequence(fields, "seen")
    if name == "undo":
        return undo(studio, fitting, _sequence(fields, "act") or 0, by=by, key=key, seen=seen)
    error = read_settings(studio).settings.mark_error(opened.fitter)
    for _ in range(_TRIES):
        now = studio.standing(fitting)
        acts = acts_of(name, Told(fields=fields, now=now, mark_error=error))
        at_end = now.upto if len(acts) > 1 else None
        try:
            return act(studio, fitting, acts, by=by, key=key, seen=seen, at_end=at_end)
        except ConflictError as conflict:
            if conflict.place != "record":
                raise
    raise ConflictError(
        "balls come in too fast to mend this now", place="record", mend="Tap once more."
    )


def _sequence(fields: Mapping[str, str], name: str) -> int | None:
    text = fields.get(name, "").strip()
    if not text:
        return None
    if not text.isdecimal() or len(text) > 9:
        raise InputError(f"{text!r} is no place in the record", place=name, mend="Leave it out.")
    return int(text)
