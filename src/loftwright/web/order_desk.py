"""Everything that the page of an order draws from: the order, the choice, the shop's terms."""

from dataclasses import dataclass

from loftwright.domain.names import OWN
from loftwright.domain.order import ClubSpec, PriceLine
from loftwright.domain.terms import Terms
from loftwright.errors import NotFoundError
from loftwright.report.screen_numbers import Show
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.choosing import Chosen, chosen_now
from loftwright.services.evidence import Desk
from loftwright.services.order import balls_missing, last_day, order_of, usual_lines
from loftwright.services.settings import Settings, read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.services.training_plays import is_training
from loftwright.services.wanted import Wanted, wanted_clubs
from loftwright.web.order_forms import QuoteStart, start_of_quote, start_of_terms
from loftwright.web.views import choice_words
from loftwright.web.views.order import Around
from loftwright.workshop.order import OrderNow, OrderState


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OrderDesk:
    """What the page of an order knows.

    Attributes
    ----------
    bay : BayNow
    clubs : tuple of Wanted
        Every row of the choice as something to order.
    """

    studio: Studio
    fitting: str
    settings: Settings
    terms: Terms
    now: OrderNow
    bay: BayNow
    chosen: Chosen
    clubs: tuple[Wanted, ...]

    @property
    def show(self) -> Show:
        """How figures are written in this shop."""
        return show_of(self.settings)

    @property
    def listed(self) -> tuple[PriceLine, ...]:
        """The shop's price list as lines of a quote."""
        return tuple(
            PriceLine(what=one.what, kind=one.kind, price=one.price) for one in self.terms.prices
        )

    @property
    def dearer(self) -> str:
        """Why not the dearer one, in a line."""
        return choice_words.why_not_dearer(
            self.chosen.choice,
            self.bay.evidence.decision,
            self.show,
            self.settings.currency,
        )

    def wanted(self, label: str) -> Wanted | None:
        """Return a row of the choice that can be ordered."""
        found = (one for one in self.clubs if one.label == label and one.spec is not None)
        return next(found, None)

    def spec(self, label: str) -> ClubSpec | None:
        """Return the club of a row, or that of the standing quote if the choice lost its row."""
        wanted = self.wanted(label)
        if wanted is not None:
            return wanted.spec
        quote = self.now.quote
        return quote.spec if quote is not None and quote.spec.label == label else None

    def why_not(self, label: str) -> str:
        """Return why a row cannot be ordered."""
        found = next((one.why_not for one in self.clubs if one.label == label), "")
        return found or "the choice has no such row any more"

    def to_hit(self, label: str) -> int:
        """Return how many balls are missing with the club of a row."""
        wanted = self.wanted(label)
        if wanted is not None:
            return wanted.to_hit
        quote = self.now.quote
        return 0 if quote is None else balls_missing(self.studio, self.fitting, quote)

    def start(self, spec: ClubSpec) -> QuoteStart:
        """Return what the form of a quote begins with: the quote that stands, or the terms."""
        last = last_day(self.terms, self.studio.today())
        quote, wanted = self.now.quote, self.wanted(spec.label)
        if quote is not None and quote.spec.label == spec.label:
            return start_of_quote(quote, last)
        lines = () if wanted is None else usual_lines(wanted, self.terms)
        return start_of_terms(spec, lines, self.terms, last)

    def around(self) -> Around:
        """Return what the page's answer needs besides the order."""
        quote = self.now.quote
        lead = choice_words.pick(self.chosen.choice, self.bay.evidence.decision)
        waits = self.now.state in {OrderState.QUOTED, OrderState.RUN_OUT}
        return Around(
            show=self.show,
            terms=self.terms,
            zone=self.studio.zone,
            lead=lead.label if lead is not None and self.wanted(lead.label) else "",
            keep=lead is not None and lead.label == OWN,
            some=any(one.spec is not None for one in self.clubs),
            open=not self.bay.now.closed,
            doubt=choice_words.choice_objection(self.bay.evidence.decision, self.show),
            missing=balls_missing(self.studio, self.fitting, quote) if quote and waits else 0,
        )


def order_desk(studio: Studio, desk: Desk, fitting: str) -> OrderDesk:
    """Return what the page of a fitting's order draws from.

    Raises
    ------
    NotFoundError
        If there is no such fitting, or it is a training case.
    """
    not_training(fitting)
    bay = bay_now(studio, desk, fitting)
    chosen = chosen_now(studio, desk, bay)
    return OrderDesk(
        studio=studio,
        fitting=fitting,
        settings=read_settings(studio).settings,
        terms=read_terms(studio).terms,
        now=order_of(studio, fitting),
        bay=bay,
        chosen=chosen,
        clubs=wanted_clubs(bay, chosen, studio.store.rack()),
    )


def not_training(fitting: str) -> None:
    """Refuse a training case: nobody orders its clubs.

    Raises
    ------
    NotFoundError
        If it is one.
    """
    if is_training(fitting):
        raise NotFoundError(
            "a training case is not ordered",
            place=fitting,
            mend="Go back to the training bay; a real fitting has an order.",
        )
