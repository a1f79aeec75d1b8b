"""The shop's terms in a form: prices, shares, days, glues, tolerances, the calibration club."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from math import isfinite, nan
from typing import Final
from unicodedata import normalize

from loftwright.constants import CYCLE_PER_MINUTE, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.order import PriceKind
from loftwright.domain.terms import Adhesive, CalibrationClub, ListedPrice, Terms
from loftwright.domain.tolerances import Tolerances
from loftwright.physics.build.swingweight import calibrated_scale
from loftwright.report.screen_numbers import Show
from loftwright.web.bag_forms import points_typed, read_cycles, read_inertia, read_points
from loftwright.web.forms import Typed

EMPTY_PRICES: Final = 3
EMPTY_GLUES: Final = 2
MOST_PRICES: Final = 60
MOST_GLUES: Final = 12
MOST_DAYS: Final = 730
LONGEST_GLUE_HOURS: Final = 240
CANNOT: Final = ("tip trim", "tight swingweight")
"""What an outside builder may be unable to do, as the order asks for it."""

DAYS: Final = ("lead_days", "valid_days", "follow_up_days")
_FRACTION: Final = re.compile(r"\s*(\d{1,4})\s*/\s*([1-9]\d{0,3})\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class ToleranceField:
    """How a tolerance is typed.

    Attributes
    ----------
    name : str
        Of the tolerance and of its field behind ``tolerance_``.
    quantity : str
        As `Show` writes it; ``points``, ``inertia`` and ``frequency`` have units of their own.
    """

    name: str
    quantity: str


TOLERANCE_FIELDS: Final = (
    ToleranceField(name="length", quantity="length"),
    ToleranceField(name="swingweight", quantity="points"),
    ToleranceField(name="mass", quantity="mass"),
    ToleranceField(name="part_mass", quantity="mass"),
    ToleranceField(name="balance", quantity="length"),
    ToleranceField(name="inertia", quantity="inertia"),
    ToleranceField(name="loft", quantity="angle"),
    ToleranceField(name="lie", quantity="angle"),
    ToleranceField(name="face", quantity="angle"),
    ToleranceField(name="frequency", quantity="frequency"),
    ToleranceField(name="grip", quantity="length"),
)
_SIZES: Final = {
    "points": 1.0,
    "inertia": KILOGRAM_SQUARE_CENTIMETRE,
    "frequency": CYCLE_PER_MINUTE,
}


def terms_values(terms: Terms, show: Show) -> dict[str, str]:
    """Return what the form of the terms holds, with empty rows to fill."""
    values = {
        "tax": show.typed("share", terms.tax),
        "deposit": show.typed("share", terms.deposit),
        "builder": terms.builder,
        "edition": terms.edition,
        "prices": str(len(terms.prices) + EMPTY_PRICES),
        "glues": str(len(terms.adhesives) + EMPTY_GLUES),
        **{name: str(getattr(terms, name)) for name in DAYS},
        **{f"cannot_{number}": "yes" for number in _cannot(terms.cannot)},
    }
    for number, price in enumerate(terms.prices):
        values |= {
            f"what_{number}": price.what,
            f"kind_{number}": price.kind.value,
            f"price_{number}": money_typed(price.price, show),
            f"usual_{number}": "yes" if price.usual else "",
        }
    for number, glue in enumerate(terms.adhesives):
        values |= {f"glue_{number}": glue.name, f"hours_{number}": _figure(glue.hours, show)}
    for one in TOLERANCE_FIELDS:
        value = getattr(terms.tolerances, one.name)
        values[f"tolerance_{one.name}"] = tolerance_typed(one, value, show)
    return values | _calibration_values(terms.calibration, show)


def read_terms_form(typed: Typed, known: Terms) -> Terms | None:
    """Return the terms that were typed; None if a field cannot be.

    Parameters
    ----------
    typed : Typed
    known : Terms
        As they stand; a figure whose field was left alone keeps its last digit.
    """
    held = terms_values(known, typed.show)
    prices, glues = _prices(typed), _glues(typed)
    shares = {name: _share(typed, name, known, held) for name in ("tax", "deposit")}
    days = {name: _days(typed, name, known) for name in DAYS}
    tolerances = _tolerances(typed, known.tolerances, held)
    calibration = _calibration(typed, known.calibration, held)
    builder, cannot = typed.text("builder"), _cannot_typed(typed)
    if cannot and not builder:
        mend = "Write who builds, or untick what that builder cannot do."
        typed.fail("builder", "a builder who cannot do something needs a name", mend)
    edition = typed.text(
        "edition", most=200, need="Write which edition a person here looked up last."
    )
    if not typed.good or tolerances is None:
        return None
    return typed.tried(
        "terms",
        lambda: Terms(
            prices=prices,
            tax=shares["tax"],
            deposit=shares["deposit"],
            lead_days=days["lead_days"],
            valid_days=days["valid_days"],
            follow_up_days=days["follow_up_days"],
            builder=builder,
            cannot=cannot,
            adhesives=glues,
            tolerances=tolerances,
            calibration=calibration,
            edition=edition,
        ),
    )


def rows_of(typed: Mapping[str, str], name: str, most: int) -> range:
    """Return the numbers of the rows that a form has of a kind.

    Parameters
    ----------
    typed : mapping of str to str
        What stands in its fields.
    name : str
        Of the field that counts them: ``prices`` or ``glues``.
    most : int
    """
    text = typed.get(name, "")
    return range(min(int(text), most) if text.isdecimal() and len(text) < 5 else 0)


def money_typed(amount: int, show: Show) -> str:
    """Return an amount in the smallest unit of money as a field holds it."""
    return show.money(amount, "")


def tolerance_typed(one: ToleranceField, value: float, show: Show) -> str:
    """Return a tolerance [SI, points] as its field holds it.

    Parameters
    ----------
    one : ToleranceField
    value : float
    show : Show
    """
    if one.quantity not in _SIZES:
        return show.typed(one.quantity, value)
    return _figure(value / _SIZES[one.quantity], show)


def _cannot(words: tuple[str, ...]) -> list[int]:
    return [number for number, one in enumerate(CANNOT) if one in words]


def _cannot_typed(typed: Typed) -> tuple[str, ...]:
    return tuple(one for at, one in enumerate(CANNOT) if typed.ticked(f"cannot_{at}"))


def _prices(typed: Typed) -> tuple[ListedPrice, ...]:
    found = []
    for number in rows_of(typed.fields, "prices", MOST_PRICES):
        what = typed.text(f"what_{number}")
        kind = typed.word(f"kind_{number}", PriceKind, PriceKind.PART)
        price = typed.money(f"price_{number}")
        if not what:
            if typed.given(f"price_{number}"):
                typed.fail(f"what_{number}", "a price is for something", "Write what it is for.")
            continue
        if price is None:
            typed.fields.setdefault(f"price_{number}", "")
            typed.fail(f"price_{number}", "it has no price", "Give one, or empty the line.")
            continue
        usual = typed.ticked(f"usual_{number}")
        found.append(ListedPrice(what=what, kind=kind, price=price, usual=usual))
    names = [one.what.casefold() for one in found]
    for number in rows_of(typed.fields, "prices", MOST_PRICES):
        if names.count(typed.fields.get(f"what_{number}", "").strip().casefold()) > 1:
            typed.fail(f"what_{number}", "it stands twice", "Keep one of the two lines.")
    return tuple(found)


def _glues(typed: Typed) -> tuple[Adhesive, ...]:
    found = []
    for number in rows_of(typed.fields, "glues", MOST_GLUES):
        name, hours = typed.text(f"glue_{number}"), _number(typed, f"hours_{number}")
        if not name and not typed.given(f"hours_{number}"):
            continue
        if not name:
            typed.fail(f"glue_{number}", "a glue needs a name", "Write its name.")
        elif hours is None:
            typed.fields.setdefault(f"hours_{number}", "")
            mend = "Give what its data sheet says until the club may be hit."
            typed.fail(f"hours_{number}", "it has no hours of cure", mend)
        else:
            made = typed.tried(f"hours_{number}", _glue(name, hours), {"hours": f"hours_{number}"})
            found += [] if made is None else [made]
    return tuple(found)


def _glue(name: str, hours: float) -> Callable[[], Adhesive]:
    return lambda: Adhesive(name=name, hours=hours)


def _share(typed: Typed, name: str, known: Terms, held: Mapping[str, str]) -> float:
    if _same(typed, name, held):
        return float(getattr(known, name))
    value = typed.quantity(name, "share")
    if value is not None and not 0.0 <= value <= 1.0:
        typed.fail(name, f"{100.0 * value:g} % cannot be", "Give 0 to 100 %.")
    return 0.0 if value is None else value


def _days(typed: Typed, name: str, known: Terms) -> int:
    days = typed.whole(name, least=0, most=MOST_DAYS, need="Give a whole number of days.")
    return int(getattr(known, name)) if days is None else days


def _tolerances(typed: Typed, known: Tolerances, held: Mapping[str, str]) -> Tolerances | None:
    values: dict[str, float] = {}
    for one in TOLERANCE_FIELDS:
        name = f"tolerance_{one.name}"
        if _same(typed, name, held):
            values[one.name] = getattr(known, one.name)
            continue
        value = _tolerance(typed, one, name)
        if value is None:
            typed.fields.setdefault(name, "")
            typed.fail(name, "it is empty", "Give how far it may be off to either side.")
        elif value <= 0.0:
            typed.fail(name, "it is not more than nothing", "Give how far it may be off.")
        else:
            values[one.name] = value
    if len(values) < len(fields(Tolerances)):
        return None
    return Tolerances(**values)


def _tolerance(typed: Typed, one: ToleranceField, name: str) -> float | None:
    text = normalize("NFKC", typed.fields.get(name, "")).replace("\N{FRACTION SLASH}", "/")
    decimal = _FRACTION.sub(lambda found: f"{int(found[1]) / int(found[2]):.9g} ", text)
    read = Typed(fields={name: decimal.strip()}, show=typed.show, faults=typed.faults)
    if one.quantity == "points":
        return _number(read, name)
    if one.quantity == "inertia":
        return read_inertia(read, name)
    if one.quantity == "frequency":
        return read_cycles(read, name)
    return read.quantity(name, one.quantity)


def _calibration_values(club: CalibrationClub | None, show: Show) -> dict[str, str]:
    return {
        "club_mass": show.typed("mass", None if club is None else club.mass),
        "club_balance": show.typed("length", None if club is None else club.balance),
        "club_reads": points_typed(None if club is None else club.reads, show),
    }


def _calibration(
    typed: Typed, known: CalibrationClub | None, held: Mapping[str, str]
) -> CalibrationClub | None:
    names = ("club_mass", "club_balance", "club_reads")
    if all(_same(typed, name, held) for name in names):
        return known
    given = [name for name in names if typed.given(name)]
    if given and len(given) < len(names):
        missing = next(name for name in names if name not in given)
        typed.fields.setdefault(missing, "")
        typed.fail(missing, "a calibration club needs all three", "Give it, or empty the others.")
    mass, balance = typed.quantity("club_mass", "mass"), typed.quantity("club_balance", "length")
    reads = read_points(typed, "club_reads")
    if mass is None or balance is None or reads is None:
        return None
    typed.tried("club_reads", lambda: calibrated_scale(mass, balance, reads))
    return CalibrationClub(mass=mass, balance=balance, reads=reads)


def _number(typed: Typed, name: str) -> float | None:
    text = typed.text(name)
    if not text:
        return None
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = nan
    if isfinite(value):
        return value
    typed.fail(name, f"{text!r} is no number", "Write a number such as 24.")
    return None


def _same(typed: Typed, name: str, held: Mapping[str, str]) -> bool:
    return typed.fields.get(name, "").strip() == held.get(name, "") != ""


def _figure(value: float, show: Show) -> str:
    return show.words(f"{value:.6f}".rstrip("0").rstrip("."))
