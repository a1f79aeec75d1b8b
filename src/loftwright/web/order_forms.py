"""The forms of an order: a quote line by line, the agreement, the sending and the calling off."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from loftwright.domain.golfer import Identity
from loftwright.domain.order import ClubSpec, PriceKind, PriceLine, Quote
from loftwright.domain.order_acts import Agreed, OrderSent
from loftwright.domain.terms import Terms
from loftwright.report.order_words import FEW_BALLS_KNOWN
from loftwright.report.screen_numbers import Show
from loftwright.web.forms import LONGEST_TEXT, Typed

MOST_LINES: Final = 12
LONGEST_WHAT: Final = 160
KNOWN: Final = "few_known"
_ROW: Final = re.compile(r"what-(\d{1,2})")


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteStart:
    """What a quote's form begins with.

    Attributes
    ----------
    lines : tuple of PriceLine
    tax, deposit : float
    grip : str
    few_known : bool
        Whether the golfer knows how few balls were hit.
    """

    lines: tuple[PriceLine, ...]
    tax: float
    deposit: float
    lead_days: int
    valid_until: date
    grip: str
    builder: str = ""
    note: str = ""
    few_known: bool = False


def start_of_terms(
    spec: ClubSpec, lines: tuple[PriceLine, ...], terms: Terms, last: date
) -> QuoteStart:
    """Return what a new quote begins with: its lines and the shop's terms."""
    return QuoteStart(
        lines=lines,
        tax=terms.tax,
        deposit=terms.deposit,
        lead_days=terms.lead_days,
        valid_until=last,
        grip=spec.grip,
        builder=terms.builder,
    )


def start_of_quote(quote: Quote, last: date) -> QuoteStart:
    """Return what the form begins with that changes a quote; a day that is over is moved on."""
    return QuoteStart(
        lines=quote.lines,
        tax=quote.tax,
        deposit=quote.deposit,
        lead_days=quote.lead_days,
        valid_until=max(quote.valid_until, last),
        grip=quote.spec.grip,
        builder=quote.builder,
        note=quote.note.replace(FEW_BALLS_KNOWN, "").strip(),
        few_known=quote.few_balls_known,
    )


def fields_of_start(start: QuoteStart, show: Show) -> dict[str, str]:
    """Return what stands in the fields of a quote's form before anybody typed."""
    found = {
        "tax": show.typed("share", start.tax),
        "deposit": show.typed("share", start.deposit),
        "lead_days": str(start.lead_days),
        "valid_until": start.valid_until.isoformat(),
        "grip": start.grip,
        "builder": start.builder,
        "note": start.note,
        KNOWN: "yes" if start.few_known else "",
    }
    for number, one in enumerate(start.lines, start=1):
        found |= fields_of_line(number, one, show)
    return found


def fields_of_line(number: int, line: PriceLine, show: Show) -> dict[str, str]:
    """Return the fields of one line of a quote."""
    return {
        f"what-{number}": line.what,
        f"kind-{number}": line.kind.value,
        f"price-{number}": "" if line.price is None else show.money(line.price, ""),
        f"count-{number}": str(line.count),
    }


def rows_of(fields: Mapping[str, str]) -> tuple[int, ...]:
    """Return the numbers of the lines that a form has, in order."""
    found = (_ROW.fullmatch(name) for name in fields)
    numbers = (int(one.group(1)) for one in found if one is not None)
    return tuple(sorted(one for one in numbers if 1 <= one <= MOST_LINES))


def changed_rows(
    fields: dict[str, str], verb: str, listed: Sequence[PriceLine], show: Show
) -> dict[str, str]:
    """Return a form's fields with a line added or removed; everything typed stays.

    Parameters
    ----------
    fields : dict of str to str
    verb : str
        ``add``, or ``remove-3`` for the third line.
    listed : sequence of PriceLine
        The shop's price list; the form names the place of the wanted one, or none.
    show : Show
    """
    rows = rows_of(fields)
    if verb.startswith("remove-"):
        gone = verb.removeprefix("remove-")
        return {
            name: text
            for name, text in fields.items()
            if name not in {f"{part}-{gone}" for part in ("what", "kind", "price", "count")}
        }
    free = next((one for one in range(1, MOST_LINES + 1) if one not in rows), None)
    if free is None:
        return fields
    number = max(rows, default=0) + 1 if max(rows, default=0) < MOST_LINES else free
    place = fields.get("listed", "")
    chosen = listed[int(place)] if place.isdecimal() and int(place) < len(listed) else None
    blank = {f"what-{number}": "", f"kind-{number}": PriceKind.PART.value}
    added = (
        blank | {f"price-{number}": "", f"count-{number}": "1"}
        if chosen is None
        else fields_of_line(number, chosen, show)
    )
    return {**fields, **added, "listed": ""}


def read_quote(typed: Typed, spec: ClubSpec, currency: str) -> Quote | None:
    """Return the quote that was typed; None if a field cannot be."""
    lines = tuple(one for row in rows_of(typed.fields) if (one := _line(typed, row)) is not None)
    tax = typed.quantity("tax", "share") or 0.0
    deposit = typed.quantity("deposit", "share") or 0.0
    lead = typed.whole("lead_days", least=0, most=730, need="Give 0 to 730 days.")
    last = typed.day("valid_until")
    if last is None:
        typed.fields.setdefault("valid_until", "")
        typed.fail("valid_until", "a last day is missing", "Give the day until which it holds.")
    builder, grip = typed.text("builder"), typed.text("grip")
    note = typed.text("note", most=LONGEST_TEXT).replace("\r\n", "\n")
    known = typed.ticked(KNOWN)
    if not typed.good or lead is None or last is None:
        return None
    return typed.tried(
        "tax",
        lambda: Quote(
            spec=replace(spec, grip=grip),
            lines=lines,
            tax=tax,
            deposit=deposit,
            currency=currency,
            lead_days=lead,
            valid_until=last,
            builder=builder,
            note=f"{note} {FEW_BALLS_KNOWN}".strip() if known else note,
            few_balls_known=known,
        ),
    )


def read_agreement(typed: Typed, identity: Identity) -> Agreed | None:
    """Return the agreement that was typed; of a signed sheet the name may be left to the file."""
    paper = typed.fields.get("how", "") == "paper"
    name = typed.text("name")
    if not name and not paper:
        typed.fields.setdefault("name", "")
        typed.fail("name", "it is empty", "The golfer types the name, or signs on paper.")
    if not typed.good:
        return None
    return Agreed(name=name or identity.guardian or identity.name, on_paper=paper)


def read_sending(typed: Typed) -> OrderSent | None:
    """Return to whom the order went and for which day; None if a field cannot be."""
    typed.fields.setdefault("promised", "")
    to = typed.text("to", need="Write who builds it.")
    promised = typed.day("promised")
    if promised is None and typed.good:
        typed.fail("promised", "a day is missing", "Give the day that the golfer is told.")
    return OrderSent(to=to, promised=promised) if typed.good else None


def _line(typed: Typed, row: int) -> PriceLine | None:
    """Return one line; a row in which nothing stands is no line."""
    what, price = f"what-{row}", f"price-{row}"
    if not typed.given(what) and not typed.given(price):
        return None
    name = typed.text(what, most=LONGEST_WHAT, need="Write what it is for, or remove the line.")
    kind = typed.word(f"kind-{row}", PriceKind, PriceKind.PART)
    amount = typed.money(price)
    count = typed.whole(f"count-{row}", least=1, most=100)
    if not name or not typed.good:
        return None
    return PriceLine(what=name, kind=kind, price=amount, count=1 if count is None else count)
