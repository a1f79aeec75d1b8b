"""The order: what is wanted at which price, the golfer's agreement, and the text that goes out."""

from typing import Annotated, Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import InputError, NotFoundError
from loftwright.services.evidence import Desk
from loftwright.services.order import (
    Writing,
    agree,
    give_quote,
    order_of,
    send_order,
    withdraw,
)
from loftwright.services.order_paper import paper_of_order, text_of_order
from loftwright.services.studio import Studio
from loftwright.web.attempts import DONE, attempt
from loftwright.web.forms import LONGEST_TEXT, Fields, Typed
from loftwright.web.order_desk import not_training, order_desk
from loftwright.web.order_drawn import Shown, draw_order
from loftwright.web.order_forms import (
    changed_rows,
    read_agreement,
    read_quote,
    read_sending,
)
from loftwright.web.state import ActKey, Actor, AtDesk, Here, Seen

router = APIRouter(prefix="/fittings/{fitting}/order", include_in_schema=False)

_PLACES: Final = {"seen": "order"}
"""A stale page is told of the whole form, not of its hidden field."""
_WRITES: Final = "quote"
_FORMS: Final = frozenset({"quote", "agree", "send", "withdraw"})


def writing(by: Actor, key: ActKey, seen: Seen = None) -> Writing:
    """Return who writes, under which key, from which page."""
    return Writing(by=by, key=key, seen=seen)


Written = Annotated[Writing, Depends(writing)]


@router.get("")
def show_order(
    request: Request, fitting: str, studio: Here, desk: AtDesk, club: str = ""
) -> Response:
    """Show how the order stands, or the form of a quote for a row of the choice."""
    return draw_order(request, order_desk(studio, desk, fitting), Shown(label=club))


@router.post("/quote")
def quote(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    written: Written,
) -> Response:
    """Write a quote, or draw its form again with a line more, a line less or its new sum."""
    at = order_desk(studio, desk, fitting)
    label, verb = fields.get("club", ""), fields.get("do", _WRITES)
    spec = at.spec(label)
    if verb != _WRITES:
        changed = changed_rows(fields, verb, at.listed, at.show) if verb != "sum" else fields
        typed = Typed(fields=changed, show=at.show)
        if verb == "sum" and spec is not None:
            read_quote(typed, spec, at.settings.currency)
        return draw_order(request, at, Shown(label=label, quoted=typed.filled))
    typed = Typed(fields=fields, show=at.show)
    if spec is None:
        typed.fail("order", f"{label or 'no club'}: {at.why_not(label)}")
        return draw_order(request, at, Shown(faults=typed.filled, status=422))
    told = read_quote(typed, spec, at.settings.currency)

    def write() -> None:
        if told is not None:
            give_quote(studio, fitting, told, written)

    status = attempt(typed, write, _PLACES)
    if status != DONE:
        at = order_desk(studio, desk, fitting)
        return draw_order(request, at, Shown(label=label, quoted=typed.filled, status=status))
    return _back(fitting)


@router.post("/agree")
def take_agreement(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    written: Written,
) -> Response:
    """Write that the golfer agreed."""
    not_training(fitting)
    typed = Typed(fields=fields)
    identity = studio.store.identity(studio.store.fitting(fitting).value.golfer)
    told = read_agreement(typed, identity)
    seen = fields.get("quoted", "")

    def write() -> None:
        if told is not None:
            agree(studio, fitting, told, int(seen) if seen.isdecimal() else 0, written)

    status = attempt(typed, write, _PLACES)
    if status == DONE:
        return _back(fitting)
    return _again(request, studio, desk, fitting, Shown(agreed=typed.filled, status=status))


@router.post("/send")
def say_sent(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    written: Written,
) -> Response:
    """Write that the order went out, and for when the club is promised."""
    not_training(fitting)
    typed = Typed(fields=fields)
    told = read_sending(typed)

    def write() -> None:
        if told is not None:
            send_order(studio, fitting, told, written)

    status = attempt(typed, write, _PLACES)
    if status == DONE:
        return _back(fitting)
    return _again(request, studio, desk, fitting, Shown(sent=typed.filled, status=status))


@router.post("/withdraw")
def call_off(
    request: Request,
    fitting: str,
    studio: Here,
    desk: AtDesk,
    fields: Fields,
    written: Written,
) -> Response:
    """Write that the order is off."""
    not_training(fitting)
    typed = Typed(fields=fields)
    typed.fields.setdefault("reason", "")
    reason = typed.text("reason", most=LONGEST_TEXT)
    status = attempt(typed, lambda: withdraw(studio, fitting, reason, written), _PLACES)
    if status == DONE:
        return _back(fitting)
    return _again(request, studio, desk, fitting, Shown(off=typed.filled, status=status))


@router.get(".txt")
def get_text(fitting: str, studio: Here) -> Response:
    """Send the order in plain words."""
    not_training(fitting)
    text = text_of_order(studio, fitting, order_of(studio, fitting))
    return _file(text.encode(), "text/plain; charset=utf-8", "order", studio, "txt")


@router.get(".pdf")
def get_paper(fitting: str, studio: Here, copy: str = "golfer") -> Response:
    """Send the sheet of the order as PDF: the golfer's copy, or the workshop's."""
    not_training(fitting)
    if copy not in {"golfer", "workshop"}:
        raise InputError(
            f"there is no copy for {copy!r}", place="copy", mend="Ask for golfer or workshop."
        )
    workshop = copy == "workshop"
    made = paper_of_order(studio, fitting, order_of(studio, fitting), workshop=workshop)
    return _file(made, "application/pdf", "order" if workshop else "agreed", studio, "pdf")


@router.get("/{form}")
def leave_form(fitting: str, form: str) -> Response:
    """Lead from the address of a form, where its faults stood, back to the page."""
    if form not in _FORMS:
        raise NotFoundError("there is nothing here", place=form, mend="Go to the order's page.")
    return _back(fitting)


def _file(content: bytes, media: str, what: str, studio: Studio, ending: str) -> Response:
    name = f"{what}-{studio.today().isoformat()}.{ending}"
    return Response(
        content,
        media_type=media,
        headers={
            "Content-Disposition": f'attachment; filename="{name}"',
            "Cache-Control": "no-store",
        },
    )


def _back(fitting: str) -> RedirectResponse:
    return RedirectResponse(f"/fittings/{fitting}/order", status_code=DONE)


def _again(request: Request, studio: Studio, desk: Desk, fitting: str, shown: Shown) -> Response:
    return draw_order(request, order_desk(studio, desk, fitting), shown)
