"""The shop's terms as their page shows them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.domain.bench_doubts import WORKED_OUT, tighter_than_the_bench
from loftwright.domain.order import PriceKind
from loftwright.domain.terms import Terms
from loftwright.physics.build.swingweight import USUAL_SCALE, letters
from loftwright.report.numbers import count, listed, percent
from loftwright.report.screen_numbers import Show
from loftwright.web.terms_forms import (
    CANNOT,
    MOST_GLUES,
    MOST_PRICES,
    TOLERANCE_FIELDS,
    ToleranceField,
    rows_of,
    tolerance_typed,
)
from loftwright.web.views.rack_rows import Choice

TOLERANCE_WORDS: Final = {
    "length": "Length",
    "swingweight": "Swingweight",
    "mass": "Weight of the club",
    "part_mass": "Weight of a part",
    "balance": "Balance point",
    "inertia": "Club MOI",
    "loft": "Loft",
    "lie": "Lie",
    "face": "Face angle",
    "frequency": "Frequency",
    "grip": "Grip, diameter",
}
CANNOT_WORDS: Final = dict(
    zip(CANNOT, ("Trim a tip", "Hold swingweight within half a point"), strict=True)
)
KIND_CHOICES: Final = (
    Choice(value=PriceKind.PART.value, text="Part"),
    Choice(value=PriceKind.LABOUR.value, text="Labour"),
)
_UNITS: Final = {"points": "points", "inertia": "kg cm²", "frequency": "cpm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ToleranceLine:
    """A tolerance's field.

    Attributes
    ----------
    tight : str
        That the bench cannot tell it, in words; empty where it can.
    """

    field: str
    name: str
    unit: str
    tight: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TickLine:
    """Something that an outside builder cannot do."""

    field: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TermsView:
    """The terms' page.

    Attributes
    ----------
    prices, glues : tuple of int
        Numbers of the rows that the form has.
    scale : str
        What the calibration club makes of the scale.
    """

    sentence: str
    lead: str
    prices: tuple[int, ...]
    glues: tuple[int, ...]
    tolerances: tuple[ToleranceLine, ...]
    scale: str
    units: Mapping[str, str]
    kinds: tuple[Choice, ...] = KIND_CHOICES
    cannot: tuple[TickLine, ...] = tuple(
        TickLine(field=f"cannot_{number}", words=CANNOT_WORDS[one])
        for number, one in enumerate(CANNOT)
    )


def terms_view(terms: Terms, show: Show, currency: str, typed: Mapping[str, str]) -> TermsView:
    """Return the terms' page.

    Parameters
    ----------
    terms : Terms
        As they stand.
    show : Show
    currency : str
    typed : mapping of str to str
        What stands in the form.
    """
    tight = tighter_than_the_bench(terms.tolerances)
    return TermsView(
        sentence=_sentence(terms, show, currency),
        lead=_lead(terms, tuple(tight)),
        prices=tuple(rows_of(typed, "prices", MOST_PRICES)),
        glues=tuple(rows_of(typed, "glues", MOST_GLUES)),
        tolerances=tuple(
            ToleranceLine(
                field=f"tolerance_{one.name}",
                name=TOLERANCE_WORDS[one.name],
                unit=_unit(one.quantity, show),
                tight=_tight(one, terms, tight, show),
            )
            for one in TOLERANCE_FIELDS
        ),
        scale=_scale(terms, show),
        units={name: show.unit(name).name for name in ("length", "mass", "share")},
    )


def _tight(one: ToleranceField, terms: Terms, tight: Mapping[str, float], show: Show) -> str:
    """Return that a bench cannot tell a tolerance; nothing where it can."""
    unit = _unit(one.quantity, show)
    if one.name in tight:
        off = tolerance_typed(one, tight[one.name], show)
        return f"A reading is off by up to {off} {unit}: tighter than a bench can tell."
    if one.name == "swingweight" and terms.tolerances.swingweight < WORKED_OUT:
        off = show.number(WORKED_OUT, 1)
        return f"Read on a scale; worked out from weight and balance it is off by up to {off}."
    return ""


def _unit(quantity: str, show: Show) -> str:
    return _UNITS.get(quantity) or show.unit(quantity).name


def _sentence(terms: Terms, show: Show, currency: str) -> str:
    usual = [one for one in terms.prices if one.usual]
    ready = f"ready in {count(terms.lead_days, 'day')}"
    if not terms.prices:
        return f"A new quote here begins with an empty list, {ready}."
    if not usual:
        lines = count(len(terms.prices), "line")
        return f"Of {lines} on the price list none is usual, so a new quote begins empty."
    total = sum(one.price for one in usual)
    tax = f" and {percent(terms.tax)} tax" if terms.tax else ""
    price = show.money(total, currency)
    return f"A new quote here begins at {price}{tax}: {count(len(usual), 'usual line')}, {ready}."


def _lead(terms: Terms, tight: tuple[str, ...]) -> str:
    said = []
    if terms.calibration is None:
        said.append(
            "No club has calibrated your swingweight scale: D0 stands at a figure from memory"
        )
    if tight:
        names = listed([_plain(TOLERANCE_WORDS[one]) for one in tight])
        said.append(f"Tighter than a bench can tell is the tolerance of {names}")
    if not said:
        said.append("What holds is written on every quote and sheet as it stood that day")
    return ". ".join(said) + "."


def _plain(name: str) -> str:
    return "club MOI" if name == "Club MOI" else name[:1].lower() + name[1:]


def _scale(terms: Terms, show: Show) -> str:
    club = terms.calibration
    if club is None:
        return show.words("Without it the usual scale holds, D0 at 213.5 oz in from memory.")
    scale = terms.scale
    apart = scale.index(USUAL_SCALE.d0_moment) - USUAL_SCALE.index(USUAL_SCALE.d0_moment)
    reads = show.words(letters(club.reads))
    return (
        f"Your scale reads this club as {reads}, {show.number(abs(apart), 1)} points "
        f"{'above' if apart > 0.0 else 'below'} the usual one; what is worked out follows yours."
    )
