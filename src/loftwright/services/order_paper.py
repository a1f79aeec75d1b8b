"""What leaves an order: the text for the workshop, and the sheets for golfer and workshop."""

from dataclasses import replace
from datetime import date

from loftwright.domain.golfer import Identity
from loftwright.domain.order import Quote
from loftwright.domain.terms import Terms
from loftwright.errors import InputError
from loftwright.report.order_paper import OrderPaper, order_pdf
from loftwright.report.order_words import OrderText, cannot_lines, order_text, without_name
from loftwright.services.order import OWN_WORKSHOP, promised_day
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.workshop.order import OrderNow, OrderState


def cannot_of(quote: Quote, terms: Terms) -> tuple[str, ...]:
    """Return what the builder of a quote cannot do, where that is the one who was asked."""
    return terms.cannot if quote.builder and quote.builder == terms.builder else ()


def text_of_order(studio: Studio, fitting: str, now: OrderNow) -> str:
    """Return the order in plain words, with initials and no price.

    Parameters
    ----------
    studio : Studio
    fitting : str
    now : OrderNow

    Raises
    ------
    InputError
        If nobody agreed to it yet.
    """
    quote = now.quote
    if quote is None or now.agreed_at is None:
        raise InputError(
            "nobody agreed to an order yet",
            place="order",
            mend="Quote a club and take the golfer's agreement first.",
        )
    settings, terms = read_settings(studio).settings, read_terms(studio).terms
    identity = studio.store.identity(studio.store.fitting(fitting).value.golfer)
    bare = _nameless(quote, identity)
    return order_text(
        OrderText(
            shop=settings.shop,
            initials=identity.initials,
            to=now.sent.to if now.sent is not None else quote.builder or OWN_WORKSHOP,
            day=now.agreed_at.astimezone(studio.zone).date(),
            promised=now.promised or promised_day(studio, quote),
            spec=bare.spec,
            lines=bare.lines,
            note=bare.note,
            cannot=cannot_of(quote, terms),
            tolerances=terms.tolerances,
        ),
        show_of(settings),
    )


def paper_of_order(studio: Studio, fitting: str, now: OrderNow, *, workshop: bool) -> bytes:
    """Return the sheet of an order as PDF: the golfer's copy, or the workshop's.

    Parameters
    ----------
    studio : Studio
    fitting : str
    now : OrderNow
    workshop : bool
        Initials, no price, no promise of yards.

    Raises
    ------
    InputError
        If nothing is quoted, or nobody agreed to what the workshop should build.
    """
    quote = now.quote
    if quote is None or now.quoted_at is None or now.state is OrderState.OFF:
        raise InputError("nothing is quoted", place="order", mend="Quote a club first.")
    if workshop and now.agreed is None:
        raise InputError(
            "nobody agreed to this order", place="order", mend="Take the agreement first."
        )
    settings, terms = read_settings(studio).settings, read_terms(studio).terms
    identity = studio.store.identity(studio.store.fitting(fitting).value.golfer)
    show = show_of(settings)
    agreed: date | None = None
    if now.agreed_at is not None:
        agreed = now.agreed_at.astimezone(studio.zone).date()
    if workshop:
        quote = _nameless(quote, identity)
    flags = cannot_lines(quote.spec, cannot_of(quote, terms), terms.tolerances, show)
    return order_pdf(
        OrderPaper(
            shop=settings.shop,
            golfer=identity.initials if workshop else identity.name,
            quote=quote,
            day=now.quoted_at.astimezone(studio.zone).date(),
            agreed=agreed,
            signed=now.agreed.name if now.agreed is not None else "",
            on_paper=now.agreed is not None and now.agreed.on_paper,
            promised=now.promised,
            workshop=workshop,
            flags=flags if workshop else (),
            show=show,
        )
    )


def _nameless(quote: Quote, identity: Identity) -> Quote:
    """Return a quote in which nothing that was typed names the golfer."""
    lines = tuple(replace(one, what=without_name(one.what, identity)) for one in quote.lines)
    spec = replace(quote.spec, grip=without_name(quote.spec.grip, identity))
    return replace(quote, spec=spec, lines=lines, note=without_name(quote.note, identity))
