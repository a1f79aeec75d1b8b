"""The measured card of a piece or a club of the rack, as its page shows it."""

from collections.abc import Iterator
from dataclasses import dataclass

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.rack import Rack
from loftwright.physics.build.swingweight import letters
from loftwright.report.build_words import contradiction_words
from loftwright.report.numbers import listed
from loftwright.report.parts_words import face_words
from loftwright.report.screen_numbers import Show
from loftwright.services.measured_cards import MeasuredNow, item_words
from loftwright.web.parts_forms import FIELDS, figure_values, unit_of_field
from loftwright.web.views.parts_in import FieldView

_ENOUGH = {"head": ("mass", "loft", "lie", "face"), "shaft": ("mass", "length", "balance")}


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRow:
    """One card."""

    day: str
    by: str
    figures: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredView:
    """The page.

    Attributes
    ----------
    contradicted : tuple of str
        Which readings cannot all be right.
    fields : tuple of FieldView
    values : dict of str to str
        What the form holds: the figures that stand.
    rows : tuple of CardRow
        The newest first.
    """

    name: str
    sentence: str
    lead: str
    contradicted: tuple[str, ...]
    fields: tuple[FieldView, ...]
    values: dict[str, str]
    rows: tuple[CardRow, ...]


def measured_view(rack: Rack, item: str, now: MeasuredNow, show: Show) -> MeasuredView:
    """Return the page of an item's measured card."""
    known = rack.pieces.get(item) or rack.assemblies[item]
    name = item_words(rack, known)
    return MeasuredView(
        name=name,
        sentence=_sentence(name, now, show),
        lead=_lead(now, show),
        contradicted=tuple(
            show.words(_capital(contradiction_words(one))) for one in now.contradicted
        ),
        fields=tuple(
            FieldView(name=one.name, words=one.words, unit=unit_of_field(one, show), hint=one.hint)
            for one in FIELDS[now.kind]
        ),
        values={} if now.card is None else figure_values(now.kind, now.card.figures, show),
        rows=tuple(_row(one, show) for one in now.cards),
    )


def _sentence(name: str, now: MeasuredNow, show: Show) -> str:
    if now.card is None:
        return f"{name} was never measured: a new one has nothing to be held to."
    if now.contradicted:
        return f"Readings of {name} contradict each other: measure them again."
    missing = _missing(now.kind, now.card.figures)
    if missing:
        return f"{name} is measured in part: {listed(missing)} {_are(missing)} missing."
    if now.swingweight is not None:
        points = show.words(letters(now.swingweight.value))
        return f"{name} is measured, with a swingweight of {points}."
    return f"{name} is measured: a new one can be held to it."


def _lead(now: MeasuredNow, show: Show) -> str:
    if now.kind != "club":
        return "What is built later is held to these figures."
    said = []
    if now.derived:
        said.append("The swingweight is worked out from weight and balance point.")
    if not now.calibrated and (now.swingweight is not None or now.contradicted):
        said.append(show.words("The scale is the usual one, D0 at 213.5 oz in from memory."))
    return " ".join(said) or "The finished club is held to these figures."


def _missing(kind: str, figures: PartFigures) -> list[str]:
    words = {one.name: one.words.partition(",")[0].lower() for one in FIELDS[kind]}
    wanted = _ENOUGH.get(kind, ("mass", "balance"))
    return [words[name] for name in wanted if getattr(figures, name) is None]


def _are(names: list[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _row(card: MeasuredCard, show: Show) -> CardRow:
    day = card.day
    return CardRow(
        day=f"{day.day} {day:%B %Y}", by=card.by, figures=", ".join(_figures(card.figures, show))
    )


def _figures(told: PartFigures, show: Show) -> Iterator[str]:
    if told.mass is not None:
        yield f"{show.number(told.mass / GRAM, 1)} g"
    if told.length is not None:
        yield f"{show.length(told.length)} long"
    if told.balance is not None:
        yield f"balance {show.length(told.balance)}"
    if told.loft is not None:
        yield f"loft {show.number(told.loft / DEGREE, 1)}°"
    if told.lie is not None:
        yield f"lie {show.number(told.lie / DEGREE, 1)}°"
    if told.face is not None:
        yield f"face {face_words(told.face, show)}"
    if told.swingweight is not None:
        yield show.words(letters(told.swingweight))
    if told.inertia is not None:
        yield f"club MOI {show.number(told.inertia / KILOGRAM_SQUARE_CENTIMETRE)} kg cm²"
    if told.frequency is not None and told.clamp is not None and told.tip_mass is not None:
        rate = show.number(told.frequency / CYCLE_PER_MINUTE)
        clamp, weight = show.length(told.clamp), show.mass(told.tip_mass)
        yield f"{rate} cpm ({clamp} clamp, {weight})"


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."
