"""The parts of an order: checked in, held against the tested ones, settled."""

from typing import Final

from fastapi import APIRouter, Request, Response

from loftwright.domain.parts_acts import Part
from loftwright.errors import NotFoundError
from loftwright.services.parts import check_in, parts_standing, settle
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.attempts import DONE, attempt
from loftwright.web.build_answers import WORKSHOP, address_of, back_to
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.parts_forms import read_came, read_settled
from loftwright.web.render import render
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.job_undo import undo_view
from loftwright.web.views.parts_in import parts_view
from loftwright.web.views.rack_rows import Choice

router = APIRouter(include_in_schema=False)

_NAMED: Final = "/fittings/{fitting}/build/parts"
_WORKSHOP: Final = "/build/{fitting}/parts"
"""The same page for the workshop, without the golfer's name."""

_PLACES: Final = {"seen": "", "mass": "added", "setting": "angles"}
_HANDS = (Choice(value="right", text="Right"), Choice(value="left", text="Left"))
_AS_ORDERED = (
    Choice(value="yes", text="It is what was ordered"),
    Choice(value="no", text="Something else"),
)


@router.get(_NAMED)
@router.get(_WORKSHOP)
def show_parts(request: Request, fitting: str, studio: Here) -> Response:
    """Show what came, what is awaited and what can be done."""
    return _page(request, studio, fitting)


@router.post(_NAMED + "/{part}")
@router.post(_WORKSHOP + "/{part}")
def came(
    request: Request,
    fitting: str,
    part: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Check a part in."""
    kind = _part_of(part)
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    now = parts_standing(studio, fitting)
    if now.spec is None:
        typed.fail("", "no order is agreed", "Have the order agreed first.")
        return _page(request, studio, fitting, form=(part, typed.filled), status=422)
    read = read_came(typed, kind, now.spec.hand)
    if read is None:
        return _page(request, studio, fitting, form=(part, typed.filled), status=422)
    status = attempt(
        typed,
        lambda: check_in(studio, fitting, read, by=by, key=key, seen=seen),
        _PLACES,
    )
    if status != DONE:
        return _page(request, studio, fitting, form=(part, typed.filled), status=status)
    return back_to(request, fitting, f"/parts#{part}")


@router.post(_NAMED + "/{part}/settle")
@router.post(_WORKSHOP + "/{part}/settle")
def settled(
    request: Request,
    fitting: str,
    part: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Write down what is done about a part."""
    kind = _part_of(part)
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    mends = parts_standing(studio, fitting).mends
    add = 0.0 if mends is None or mends.weight is None else mends.weight.add
    chosen = read_settled(typed, kind, add)
    status = attempt(
        typed,
        lambda: settle(studio, fitting, chosen, by=by, key=key, seen=seen),
        _PLACES,
    )
    if status != DONE:
        return _page(request, studio, fitting, settling=(part, typed.filled), status=status)
    return back_to(request, fitting, f"/parts#{part}")


def _part_of(part: str) -> Part:
    try:
        return Part(part)
    except ValueError:
        raise NotFoundError(
            f"a {part!r} is no part of a club", place=part, mend=f"It has {', '.join(Part)}."
        ) from None


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    form: tuple[str, Filled] | None = None,
    settling: tuple[str, Filled] | None = None,
    status: int = 200,
) -> Response:
    now = parts_standing(studio, fitting)
    show = show_of(read_settings(studio).settings)
    view = parts_view(now, show)
    forms = {one.part: Filled(typed=one.values) for one in view.parts}
    at = address_of(request, fitting)
    named = at.startswith("/fittings/")
    return render(
        request,
        "parts_in.html",
        status=status,
        layout="fitting.html" if named else "base.html",
        job=job_of(request, fitting, "build") if named else None,
        here=None if named else WORKSHOP,
        view=view,
        undo=undo_view(now.record),
        seen=now.record[-1].sequence if now.record else 0,
        forms=forms | (dict([form]) if form is not None else {}),
        settling=dict([settling]) if settling is not None else {},
        nothing=Filled(),
        hands=_HANDS,
        as_ordered=_AS_ORDERED,
        order=f"/fittings/{fitting}/order" if named else "",
        build=at,
    )
