"""Draw the page of an order: how it stands, its forms as they were sent, and what is wrong."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from fastapi import Request, Response

from loftwright.report.order_words import day_words
from loftwright.services.order import OWN_WORKSHOP, promised_day
from loftwright.services.order_paper import text_of_order
from loftwright.web.forms import Fault, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.order_desk import OrderDesk
from loftwright.web.order_forms import fields_of_start, read_quote
from loftwright.web.render import has_page, render
from loftwright.web.views.job_undo import undo_view
from loftwright.web.views.order import MARGIN, OPEN, order_view
from loftwright.web.views.order_form import QuoteForm, quote_form
from loftwright.web.views.order_ways import cheap_ways, way_rows
from loftwright.workshop.order import OrderState

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


def draw_order(request: Request, at: OrderDesk, shown: Shown) -> Response:
    """Return the page of an order, with the forms that were sent as they were typed."""
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
