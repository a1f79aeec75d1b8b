"""What of it is ordered: the answer, the quote that stands, and what the next act needs."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from typing import Final
from urllib.parse import quote as quoted

from loftwright.domain.order import PriceLine, Quote
from loftwright.domain.terms import Terms
from loftwright.report.not_hit_words import made_words
from loftwright.report.numbers import count
from loftwright.report.order_prices import amount, sum_rows, untold
from loftwright.report.order_words import cannot_lines, day_words, promise_rows, spec_rows
from loftwright.report.screen_numbers import Show
from loftwright.services.order_paper import cannot_of
from loftwright.workshop.order import OrderNow, OrderState
from loftwright.workshop.quote import lacking, line_total, sums_of

MARGIN: Final = "What the shop earns is in no ranking: no order of clubs looks at it."
OWN_WORKSHOP: Final = "our own workshop"
OPEN: Final = "The fitting is still open: more balls may change the choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One line of a quote as it is read."""

    what: str
    kind: str
    count: str
    one: str
    together: str


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteView:
    """A quote as it is read.

    Attributes
    ----------
    spec, told, dates : tuple of (str, str)
    sums : tuple of (str, str, bool)
        Name, amount, and whether it is what is paid.
    """

    label: str
    spec: tuple[tuple[str, str], ...]
    told: tuple[tuple[str, str], ...]
    why: tuple[str, ...]
    rows: tuple[PriceRow, ...]
    sums: tuple[tuple[str, str, bool], ...]
    dates: tuple[tuple[str, str], ...]
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderView:
    """The page's answer and what stands.

    Attributes
    ----------
    state : str
    quoted : int
        Sequence of the quote, for the agreement to it.
    quote : QuoteView or None
    missing : str
        Why it may not be agreed to yet; empty if it may.
    flags : tuple of str
        What the builder cannot do, and what it means here.
    unasked : str
        Said of a builder of whom nobody wrote down what he cannot do.
    agreed : str
        Who agreed, how and when.
    quote_key : str
        The quoted row of the choice, as it stands in an address.
    """

    sentence: str
    objection: str
    state: str
    quoted: int
    quote: QuoteView | None
    missing: str
    flags: tuple[str, ...]
    unasked: str
    builder: str
    agreed: str
    quote_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What the page knows besides the order.

    Attributes
    ----------
    lead : str
        The club that the choice would quote; empty where none leads.
    keep : bool
        Whether the choice is to keep the own club.
    some : bool
        Whether anything can be ordered at all.
    open : bool
        Whether the fitting is still open.
    doubt : str
        What a careful fitter would object to the choice.
    missing : int
        Balls that are missing before the quote may be agreed to.
    """

    show: Show
    terms: Terms
    zone: tzinfo | None
    lead: str = ""
    keep: bool = False
    some: bool = True
    open: bool = False
    doubt: str = ""
    missing: int = 0


def order_view(now: OrderNow, around: Around) -> OrderView:
    """Return the page of an order.

    Parameters
    ----------
    now : OrderNow
    around : Around
    """
    quote = now.quote
    return OrderView(
        sentence=_sentence(now, around),
        objection=_objection(now, around),
        state=now.state.value,
        quoted=now.sequence,
        quote=None if quote is None else quote_view(now, quote, around),
        missing=_missing(quote, around),
        flags=_flags(quote, around),
        unasked=_unasked(quote, around.terms),
        builder="" if quote is None else quote.builder,
        agreed=_agreed(now, around.zone),
        quote_key="" if quote is None else quoted(quote.spec.label),
    )


def form_sentence(label: str, quote: Quote, show: Show) -> str:
    """Return the answer of the page while a quote is written."""
    told = sums_of(quote)
    name = made_words(label, show)
    if told is None:
        lines = count(len(lacking(quote.lines)), "line")
        bare = f"{lines} without a price" if quote.lines else "nothing stands in it"
        return f"{name} has no sum yet: {bare}."
    gross = show.money(told.gross, quote.currency)
    deposit = show.money(told.deposit, quote.currency)
    at_once = f", {deposit} of it with the order" if told.deposit else ""
    taxed = " with tax" if quote.tax else ""
    return f"{name} would cost {gross}{taxed}{at_once}."


def quote_view(now: OrderNow, quote: Quote, around: Around) -> QuoteView:
    """Return a quote as it is read on the page."""
    show, spec = around.show, quote.spec
    return QuoteView(
        label=made_words(spec.label, show),
        spec=spec_rows(spec, show),
        told=promise_rows(spec, show),
        why=spec.why,
        rows=tuple(_price_row(one, quote.currency, show) for one in quote.lines),
        sums=sum_rows(quote, show),
        dates=tuple(_dates(now, quote, around.zone)),
        note=quote.note,
    )


def local_day(at: datetime, zone: tzinfo | None) -> date:
    """Return the day of an instant in the shop's zone."""
    return at.astimezone(zone).date()


def _sentence(now: OrderNow, around: Around) -> str:
    show, quote = around.show, now.quote
    if now.state is OrderState.OFF:
        return f"The order is off: {now.reason.rstrip('.')}."
    if quote is None:
        return _before(around)
    name = made_words(quote.spec.label, show)
    told = sums_of(quote)
    sum_words = "no sum yet" if told is None else show.money(told.gross, quote.currency)
    last = day_words(quote.valid_until)
    if now.state is OrderState.RUN_OUT:
        return f"The quote for {name} ran out on {last}: quote it again."
    if now.state is OrderState.QUOTED:
        return f"{name} is quoted at {sum_words} until {last}; nobody agreed yet."
    if now.state is OrderState.AGREED:
        return f"{name} is agreed at {sum_words}; it is not ordered yet."
    when = "no day" if now.promised is None else day_words(now.promised)
    return f"{name} is ordered and promised for {when}."


def _before(around: Around) -> str:
    if not around.some:
        return "Nothing can be ordered yet: two clubs with two balls each are enough."
    if around.keep:
        return "Nothing needs to be ordered: the choice is to keep Own."
    if around.lead:
        return f"{made_words(around.lead, around.show)} leads, and nothing is quoted yet."
    return "Nothing is quoted yet, and no club leads: choose the one that is wanted."


def _objection(now: OrderNow, around: Around) -> str:
    if now.state is OrderState.SENT and now.sent is not None:
        return f"Sent to {now.sent.to}."
    if now.state is OrderState.AGREED:
        return "Copy the order, send it, then say so here."
    if now.state in {OrderState.QUOTED, OrderState.RUN_OUT}:
        return _missing(now.quote, around) or around.doubt
    if now.state is OrderState.OFF:
        return "The quote is kept; another one begins the order anew."
    return OPEN if around.open and around.some else around.doubt


def _missing(quote: Quote | None, around: Around) -> str:
    if quote is None:
        return ""
    if sums_of(quote) is None:
        return f"It cannot be agreed to: {untold(quote)}."
    if around.missing:
        balls = count(around.missing, "ball")
        verb = "is" if around.missing == 1 else "are"
        return f"{balls} with just this club {verb} missing before the golfer may agree."
    return ""


def _flags(quote: Quote | None, around: Around) -> tuple[str, ...]:
    if quote is None:
        return ()
    cannot = cannot_of(quote, around.terms)
    return cannot_lines(quote.spec, cannot, around.terms.tolerances, around.show)


def _unasked(quote: Quote | None, terms: Terms) -> str:
    if quote is None or not quote.builder or quote.builder == terms.builder:
        return ""
    return f"Nobody wrote down what {quote.builder} cannot do: ask before the order goes out."


def _agreed(now: OrderNow, zone: tzinfo | None) -> str:
    if now.agreed is None or now.agreed_at is None:
        return ""
    how = "on paper" if now.agreed.on_paper else "on the screen"
    return f"{now.agreed.name}, {how}, {day_words(local_day(now.agreed_at, zone))}"


def _dates(now: OrderNow, quote: Quote, zone: tzinfo | None) -> Sequence[tuple[str, str]]:
    rows = [("Built by", quote.builder or OWN_WORKSHOP)]
    if now.quoted_at is not None:
        rows.append(("Quoted", day_words(local_day(now.quoted_at, zone))))
    rows.append(("Good until", day_words(quote.valid_until)))
    rows.append(("Ready", f"{count(quote.lead_days, 'day')} after the order"))
    agreed = _agreed(now, zone)
    rows += [("Agreed by", agreed)] if agreed else []
    if now.sent is not None and now.sent_at is not None:
        rows.append(("Sent", f"to {now.sent.to}, {day_words(local_day(now.sent_at, zone))}"))
    if now.promised is not None:
        rows.append(("Promised", day_words(now.promised)))
    return rows


def _price_row(line: PriceLine, currency: str, show: Show) -> PriceRow:
    return PriceRow(
        what=line.what,
        kind=line.kind.value,
        count=str(line.count),
        one=amount(line.price, currency, show),
        together=amount(line_total(line), currency, show),
    )
