"""The form of a quote as its page draws it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.domain.order import ClubSpec, PriceKind, PriceLine, Quote
from loftwright.report.not_hit_words import made_words
from loftwright.report.numbers import count
from loftwright.report.order_prices import sum_rows
from loftwright.report.order_words import spec_rows
from loftwright.report.screen_numbers import Show
from loftwright.web.forms import Filled
from loftwright.web.order_forms import MOST_LINES, rows_of
from loftwright.web.views.order import form_sentence
from loftwright.web.views.rack_rows import Choice

KINDS: Final = tuple(Choice(value=one.value, text=one.value.capitalize()) for one in PriceKind)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteForm:
    """A quote that is being written.

    Attributes
    ----------
    label : str
        The row of the choice.
    rows : tuple of int
        Numbers of the lines that the form has.
    listed : tuple of Choice
        The shop's price list.
    full : bool
        Whether no further line fits.
    known : str
        What is ticked where too few balls were hit; empty where enough were.
    sums : tuple of (str, str, bool)
        As of what stands in the fields; empty while one of them cannot be.
    """

    label: str
    name: str
    sentence: str
    objection: str
    spec: tuple[tuple[str, str], ...]
    why: tuple[str, ...]
    rows: tuple[int, ...]
    kinds: tuple[Choice, ...]
    listed: tuple[Choice, ...]
    full: bool
    known: str
    sums: tuple[tuple[str, str, bool], ...]
    currency: str
    filled: Filled


def quote_form(
    spec: ClubSpec,
    filled: Filled,
    told: Quote | None,
    listed: Sequence[PriceLine],
    *,
    to_hit: int,
    objection: str,
    show: Show,
    currency: str,
) -> QuoteForm:
    """Return the form of a quote.

    Parameters
    ----------
    spec : ClubSpec
        What is quoted.
    filled : Filled
    told : Quote or None
        What the fields come to; None while one of them cannot be.
    listed : sequence of PriceLine
        The shop's price list.
    to_hit : int
        Balls that are missing.
    objection : str
        What a careful fitter would object.
    show : Show
    currency : str
    """
    rows = rows_of(filled.typed)
    name = made_words(spec.label, show)
    wrong = f"{name} has no sum yet: a field below cannot be read."
    return QuoteForm(
        label=spec.label,
        name=name,
        sentence=wrong if told is None else form_sentence(spec.label, told, show),
        objection=objection,
        spec=spec_rows(spec, show),
        why=spec.why,
        rows=rows,
        kinds=KINDS,
        listed=tuple(
            Choice(value=str(place), text=_priced(one, show, currency))
            for place, one in enumerate(listed)
        ),
        full=len(rows) >= MOST_LINES,
        known=_known(to_hit),
        sums=() if told is None else sum_rows(told, show),
        currency=currency,
        filled=filled,
    )


def _priced(line: PriceLine, show: Show, currency: str) -> str:
    return line.what if line.price is None else f"{line.what}, {show.money(line.price, currency)}"


def _known(to_hit: int) -> str:
    if not to_hit:
        return ""
    verb = "is" if to_hit == 1 else "are"
    return f"{count(to_hit, 'ball')} with just this club {verb} missing; the golfer knows it"
