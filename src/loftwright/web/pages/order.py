"""The order: what is wanted at which price, the golfer's agreement, and the text that goes out."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError, InputError
from loftwright.report.order_words import day_words
from loftwright.services.evidence import Desk
from loftwright.services.order import (
    OWN_WORKSHOP,
    Writing,
    agree,
    give_quote,
    order_of,
    promised_day,
    send_order,
    withdraw,
)
from loftwright.services.order_paper import paper_of_order, text_of_order
from loftwright.services.studio import Studio
from loftwright.web.forms import LONGEST_TEXT, Fault, Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.order_desk import OrderDesk, not_training, order_desk
from loftwright.web.order_forms import (
    changed_rows,
    fields_of_start,
    read_agreement,
    read_quote,
    read_sending,
)
from loftwright.web.render import has_page, render
from loftwright.web.state import ActKey, Actor, AtDesk, Here, Seen
from loftwright.web.views.job_undo import undo_view
from loftwright.web.views.order import MARGIN, OPEN, order_view
from loftwright.web.views.order_form import QuoteForm, quote_form
from loftwright.web.views.order_ways import cheap_ways, way_rows
from loftwright.workshop.order import OrderState

router = APIRouter(prefix="/fittings/{fitting}/order", include_in_schema=False)

DONE: Final = 303
_PLACES: Final = {"seen": "order"}
"""A stale page is told of the whole form, not of its hidden field."""
_WRITES: Final = "quote"
_BOUND: Final = frozenset({OrderState.AGREED, OrderState.SENT})


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The forms of the page as they were sent, where one was.

    Attributes
    ----------
    label : str
        The row of the choice that is being quoted; empty for none.
    quoted, agreed, sent, off : Filled or None
    """

    label: str = ""
    quoted: Filled | None = None
    agreed: Filled | None = None
    sent: Filled | None = None
    off: Filled | None = None
    faults: Filled = field(default_factory=Filled)
    status: int = 200


def writing(by: Actor, key: ActKey, seen: Seen = None) -> Writing:
    """Return who writes, under which key, from which page."""
    return Writing(by=by, key=key, seen=seen)


Written = Annotated[Writing, Depends(writing)]


@router.get("")
def show_order(
    request: Request, fitting: str, studio: Here, desk: AtDesk, club: str = ""
) -> Response:
    """Show how the order stands, or the form of a quote for a row of the choice."""
    return _page(request, order_desk(studio, desk, fitting), Shown(label=club))


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
        return _page(request, at, Shown(label=label, quoted=typed.filled))
    typed = Typed(fields=fields, show=at.show)
    if spec is None:
        typed.fail("order", f"{label or 'no club'}: {at.why_not(label)}")
        return _page(request, at, Shown(faults=typed.filled, status=422))
    told = read_quote(typed, spec, at.settings.currency)

    def write() -> None:
        if told is not None:
            give_quote(studio, fitting, told, written)

    status = _done(typed, write)
    if status != DONE:
        at = order_desk(studio, desk, fitting)
        return _page(request, at, Shown(label=label, quoted=typed.filled, status=status))
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

    status = _done(typed, write)
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

    status = _done(typed, write)
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
    status = _done(typed, lambda: _ignore(withdraw(studio, fitting, reason, written)))
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


def _done(typed: Typed, act: Callable[[], None]) -> int:
    """Do what a well-filled form asks and return the status of the answer."""
    if not typed.good:
        return 422
    try:
        act()
    except ConflictError as error:
        typed.refused(error, _PLACES)
        return 409
    except InputError as error:
        typed.refused(error, _PLACES)
        return 422
    return DONE


def _ignore(_: object) -> None:
    """Let go of a record that the page reads anew."""


def _again(request: Request, studio: Studio, desk: Desk, fitting: str, shown: Shown) -> Response:
    return _page(request, order_desk(studio, desk, fitting), shown)


def _form(at: OrderDesk, shown: Shown) -> QuoteForm | None:
    """Return the form of a quote, where a row is being quoted or the quote has run out."""
    label = shown.label
    if not label and at.now.state is OrderState.RUN_OUT and at.now.quote is not None:
        label = at.now.quote.spec.label
    spec = at.spec(label)
    if spec is None:
        return None
    currency = at.settings.currency
    filled = shown.quoted or Filled(typed=fields_of_start(at.start(spec), at.show))
    told = read_quote(Typed(fields=dict(filled.typed), show=at.show), spec, currency)
    return quote_form(
        spec,
        filled,
        told,
        at.listed,
        to_hit=at.to_hit(label),
        objection=_objection(at),
        show=at.show,
        currency=currency,
    )


def _objection(at: OrderDesk) -> str:
    """Return what is to be known before a quote is written."""
    if at.now.state in _BOUND:
        return "A new quote takes the place of the agreed one: the golfer agrees anew."
    if at.now.state is OrderState.RUN_OUT and at.now.quote is not None:
        return f"The last one ran out on {day_words(at.now.quote.valid_until)}."
    around = at.around()
    return OPEN if around.open else around.doubt


def _page(request: Request, at: OrderDesk, shown: Shown) -> Response:
    form = _form(at, shown)
    faults = shown.faults
    if shown.label and form is None:
        typed = Typed(fields={})
        typed.fail("order", f"{shown.label}: {at.why_not(shown.label)}")
        faults = typed.filled
    record = at.studio.store.job_record(at.fitting)
    bound = at.now.state in _BOUND
    currency, show = at.settings.currency, at.show
    return render(
        request,
        "order.html",
        status=shown.status,
        job=job_of(request, at.fitting, "order"),
        view=order_view(at.now, at.around()),
        form=form,
        faulty=faults,
        stray=_stray(at, shown, form),
        agreed=shown.agreed or Filled(),
        sent=shown.sent or Filled(typed=_sending(at)),
        off=shown.off or Filled(),
        ways=way_rows(at.clubs, at.fitting, show, currency),
        cheap=cheap_ways(at.clubs, at.fitting, show, currency),
        dearer=at.dearer,
        margin=MARGIN,
        terms=has_page(request, "/settings/terms"),
        minor=at.bay.golfer.minor,
        text=text_of_order(at.studio, at.fitting, at.now) if bound else "",
        undo=undo_view(record),
        seen=record[-1].sequence if record else 0,
    )


def _stray(at: OrderDesk, shown: Shown, form: QuoteForm | None) -> tuple[Fault, ...]:
    """Return what is wrong with a form that the page does not show any more."""
    state = at.now.state
    hidden = (
        (shown.agreed, form is not None or state is not OrderState.QUOTED),
        (shown.sent, form is not None or state not in _BOUND),
        (shown.off, state in {OrderState.NONE, OrderState.OFF}),
    )
    return tuple(
        fault
        for filled, gone in hidden
        if filled is not None and gone
        for fault in filled.faults.values()
    )


def _sending(at: OrderDesk) -> Mapping[str, str]:
    """Return what the form of the sending begins with."""
    quote = at.now.quote
    if quote is None:
        return {}
    day = at.now.promised or promised_day(at.studio, quote)
    to = at.now.sent.to if at.now.sent is not None else quote.builder or OWN_WORKSHOP
    return {"to": to, "promised": day.isoformat()}
