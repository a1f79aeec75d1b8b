"""What was agreed, on one sheet of A4 in black and white: for the golfer and for the workshop."""

import json
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.domain.order import Quote
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import clean
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.order_prices import amount, sum_rows
from loftwright.report.order_words import day_words, promise_rows, spec_rows
from loftwright.report.runs import breakable, shortened
from loftwright.report.screen_numbers import Show
from loftwright.report.typesetting import compiler, pdf_bytes
from loftwright.workshop.quote import line_total

_TEMPLATE: Final = "order.typ"
_SIZES: Final = (10.5, 9.5, 8.5, 7.5)
"""Sizes of type [pt] to try, so that it stays one sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPaper:
    """What the sheet of an order says.

    Attributes
    ----------
    golfer : str
        The name on the golfer's copy; initials on the workshop's.
    quote : Quote
        Its note without a name on the workshop's copy.
    day : date
        On which it was quoted.
    agreed : date or None
    signed : str
        Who agreed; empty while nobody did, and on the workshop's copy.
    on_paper : bool
        Whether a signed sheet lies with the order.
    promised : date or None
    workshop : bool
        The workshop's copy: no price, no promise of yards, no signature.
    flags : tuple of str
        What the builder cannot do, and what that means here.
    """

    shop: str
    golfer: str
    quote: Quote
    day: date
    agreed: date | None = None
    signed: str = ""
    on_paper: bool = False
    promised: date | None = None
    workshop: bool = False
    flags: tuple[str, ...] = ()
    show: Show


def order_pdf(paper: OrderPaper) -> bytes:
    """Return the sheet as PDF/UA-1, the same bytes for the same content.

    Parameters
    ----------
    paper : OrderPaper

    Returns
    -------
    bytes
        One page of A4, in the largest type in which it is one.
    """
    data = _data(paper)
    for size in _SIZES:
        data = {**data, "size": size}
        pages = json.loads(compiler(_TEMPLATE, data).query("<pages>", field="value", one=True))
        if pages == 1:
            break
    return pdf_bytes(compiler(_TEMPLATE, data), paper.agreed or paper.day)


def _data(paper: OrderPaper) -> dict[str, object]:
    quote, show = paper.quote, paper.show
    return {
        "title": _title(paper),
        "author": clean(paper.shop) or "Loftwright",
        "studio": shortened(paper.shop, 40) or "Loftwright",
        "facts": [breakable(one) for one in _facts(paper)],
        "spec": [[name, breakable(words)] for name, words in spec_rows(quote.spec, show)],
        "told": [] if paper.workshop else [list(row) for row in promise_rows(quote.spec, show)],
        "why": [] if paper.workshop else [breakable(one) for one in quote.spec.why],
        "lines": _lines(paper),
        "sums": [] if paper.workshop else _sums(paper),
        "dates": [list(row) for row in _dates(paper)],
        "note": breakable(quote.note),
        "flags": [breakable(one) for one in paper.flags],
        "priced": not paper.workshop,
        "sign": not paper.workshop,
        "signed": breakable(_signed(paper)),
        "look": {"ink": INK, "ink2": INK_2, "edge": EDGE, "sans": SANS, "serif": SERIF},
    }


def _title(paper: OrderPaper) -> str:
    if paper.workshop:
        return "Order for the workshop"
    return "What was agreed" if paper.agreed is not None else "Quote"


def _facts(paper: OrderPaper) -> list[str]:
    copy = "workshop’s copy" if paper.workshop else "golfer’s copy"
    return [paper.golfer, f"quoted {day_words(paper.day)}", copy]


def _lines(paper: OrderPaper) -> list[list[str]]:
    currency, show = paper.quote.currency, paper.show
    found = []
    for one in paper.quote.lines:
        row = [breakable(one.what), one.kind.value, str(one.count)]
        if not paper.workshop:
            row += [
                amount(one.price, currency, show),
                amount(line_total(one), currency, show),
            ]
        found.append(row)
    return found


def _sums(paper: OrderPaper) -> list[list[object]]:
    return [list(row) for row in sum_rows(paper.quote, paper.show)]


def _dates(paper: OrderPaper) -> list[tuple[str, str]]:
    quote = paper.quote
    rows = [("Built by", quote.builder or "our own workshop")]
    if paper.agreed is None and not paper.workshop:
        rows.append(("Good until", day_words(quote.valid_until)))
    if paper.agreed is not None:
        rows.append(("Agreed", day_words(paper.agreed)))
    ready = f"{quote.lead_days} days after the order"
    rows.append(("Ready", ready if paper.promised is None else day_words(paper.promised)))
    return rows


def _signed(paper: OrderPaper) -> str:
    if paper.agreed is None or not paper.signed or paper.workshop:
        return ""
    where = "on paper" if paper.on_paper else "on the screen"
    return f"{paper.signed}, {where}, {day_words(paper.agreed)}"
