"""Forms of what was measured of a part or a club, and of what is done about a part."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.golfer import Hand
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.errors import InputError
from loftwright.physics.build.swingweight import HIGHEST, index_of, letters
from loftwright.report.screen_numbers import Show
from loftwright.units import parse_quantity
from loftwright.web.forms import Typed

CLUB: Final = "club"


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureField:
    """One figure of a form.

    Attributes
    ----------
    quantity : str
        What it is read as; `frequency`, `inertia` and `points` besides those of screens.
    least, most : float
        Between which it can be one of such a part [SI, points].
    """

    name: str
    words: str
    quantity: str
    least: float
    most: float
    hint: str = ""


def _field(
    name: str, words: str, quantity: str, between: tuple[float, float], hint: str = ""
) -> FigureField:
    least, most = between
    return FigureField(
        name=name, words=words, quantity=quantity, least=least, most=most, hint=hint
    )


_ANGLES: Final = (
    _field("loft", "Loft", "angle", (4.0 * DEGREE, 20.0 * DEGREE), "Sleeve in the middle."),
    _field("lie", "Lie", "angle", (45.0 * DEGREE, 70.0 * DEGREE), "Sleeve in the middle."),
    _field("face", "Face, open +", "angle", (-8.0 * DEGREE, 8.0 * DEGREE), "Soled flat."),
)
_FREQUENCY: Final = (
    _field(
        "frequency",
        "Frequency",
        "frequency",
        (60.0 * CYCLE_PER_MINUTE, 600.0 * CYCLE_PER_MINUTE),
        "Only with its clamp and weight.",
    ),
    _field("clamp", "Clamp", "length", (2.0 * INCH, 12.0 * INCH), "Of the butt."),
    _field("tip_mass", "Weight on the tip", "mass", (20.0 * GRAM, 400.0 * GRAM)),
)
FIELDS: Final[dict[str, tuple[FigureField, ...]]] = {
    Part.HEAD: (
        _field("mass", "Weight", "mass", (120.0 * GRAM, 260.0 * GRAM), "Without its sleeve."),
        *_ANGLES,
    ),
    Part.SHAFT: (
        _field("mass", "Weight", "mass", (25.0 * GRAM, 150.0 * GRAM), "Bare, as long as below."),
        _field("length", "Length", "length", (35.0 * INCH, 50.0 * INCH), "As it was weighed."),
        _field("balance", "Balance point", "length", (12.0 * INCH, 40.0 * INCH), "From the tip."),
        *_FREQUENCY,
    ),
    Part.GRIP: (
        _field("mass", "Weight", "mass", (12.0 * GRAM, 150.0 * GRAM)),
        _field("length", "Length", "length", (7.0 * INCH, 17.0 * INCH)),
        _field("balance", "Balance point", "length", (1.0 * INCH, 12.0 * INCH), "From its top."),
    ),
    Part.SLEEVE: (_field("mass", "Weight", "mass", (1.0 * GRAM, 40.0 * GRAM), "With its screw."),),
    CLUB: (
        _field("mass", "Weight", "mass", (230.0 * GRAM, 450.0 * GRAM)),
        _field("balance", "Balance point", "length", (25.0 * INCH, 42.0 * INCH), "From the top."),
        _field("length", "Length", "length", (40.0 * INCH, 50.0 * INCH), "By the 60° plane."),
        *_ANGLES,
        _field("swingweight", "Swingweight", "points", (0.0, HIGHEST), "As D2.1, as read."),
        _field(
            "inertia",
            "Club MOI",
            "inertia",
            (1500.0 * KILOGRAM_SQUARE_CENTIMETRE, 4000.0 * KILOGRAM_SQUARE_CENTIMETRE),
            "About the top of the grip.",
        ),
        *_FREQUENCY,
    ),
}
"""What is measured of each kind of part, and of a whole club (bounds: judgement)."""

_UNITS: Final = {"frequency": "cpm", "inertia": "kg cm²", "points": ""}


def unit_of_field(one: FigureField, show: Show) -> str:
    """Return the unit that a plain figure is in."""
    own = _UNITS.get(one.quantity)
    return show.unit(one.quantity).name if own is None else own


def figure_values(kind: str, figures: PartFigures, show: Show) -> dict[str, str]:
    """Return what the form holds for figures that were measured."""
    return {
        one.name: _typed_as(one, value, show)
        for one in FIELDS[kind]
        for value in (getattr(figures, one.name),)
        if value is not None
    }


def read_figures(typed: Typed, kind: str) -> PartFigures | None:
    """Return what was measured; None where a figure cannot be, or two contradict."""
    told = {one.name: _read(typed, one) for one in FIELDS[kind]}
    _set_up_is_whole(typed, told)
    balance, length = told.get("balance"), told.get("length")
    if balance is not None and length is not None and balance >= length:
        show = typed.show
        typed.fail(
            "balance",
            f"it balances at {show.length(balance)} and is {show.length(length)} long",
            "Measure both again, from the end that the form names.",
        )
    if not typed.good:
        return None
    return typed.tried("mass", lambda: PartFigures(**told))


def read_came(typed: Typed, part: Part, hand: Hand) -> PartCame | None:
    """Return a part as it came; None where a field cannot be.

    Parameters
    ----------
    typed : Typed
    part : Part
    hand : Hand
        For which a head was ordered.
    """
    ordered = typed.fields.setdefault("ordered", "")
    if ordered not in {"yes", "no"}:
        typed.fail("ordered", "nobody looked at what is written on it", "Look, then choose.")
    named = typed.text("named") if ordered == "no" else ""
    if ordered == "no" and not named:
        typed.fields.setdefault("named", "")
        typed.fail("named", "it is empty", "Write what is on it.")
    came_for = hand
    if part is Part.HEAD:
        given = typed.fields.setdefault("hand", "")
        if given not in set(Hand):
            typed.fail("hand", "nobody looked for which hand it is", "Look, then choose.")
        else:
            came_for = Hand(given)
    serial, note = typed.text("serial"), typed.text("note", most=400)
    figures = read_figures(typed, part)
    if figures is None or not typed.good:
        return None
    return PartCame(
        part=part,
        figures=figures,
        serial=serial,
        note=note,
        named=named,
        other_hand=came_for is not hand,
    )


def came_values(came: PartCame, hand: Hand, show: Show) -> dict[str, str]:
    """Return what the form of a part holds after it was checked in."""
    other = Hand.LEFT if hand is Hand.RIGHT else Hand.RIGHT
    values = figure_values(came.part, came.figures, show)
    values |= {"serial": came.serial, "note": came.note, "named": came.named}
    values["ordered"] = "no" if came.named else "yes"
    if came.part is Part.HEAD:
        values["hand"] = (other if came.other_hand else hand).value
    return values


def read_settled(typed: Typed, part: Part, add: float) -> tuple[PartSettled, ...]:
    """Return what is done about a part, one decision a matter.

    Parameters
    ----------
    typed : Typed
    part : Part
    add : float
        What would bring a light head to the tested one [kg].
    """
    why = typed.text("why", most=400)
    put_in = typed.quantity("added", "mass")
    if typed.ticked("back"):
        return (PartSettled(part=part, settled=Settled.SEND_BACK, why=why),)
    found = []
    for matter in Matter:
        chosen = typed.fields.get(matter.value, "")
        if not chosen:
            continue
        what, _, setting = chosen.partition(":")
        if what not in set(Settled) - {Settled.SEND_BACK}:
            typed.fail(matter.value, f"{chosen!r} is unknown", "Choose one of those on the page.")
            continue
        settled = Settled(what)
        found.append(
            PartSettled(
                part=part,
                settled=settled,
                setting=setting,
                mass=(add if put_in is None else put_in)
                if settled is Settled.HEAD_WEIGHT
                else 0.0,
                why=why,
                matter=matter,
            )
        )
    return tuple(found)


def _read(typed: Typed, one: FigureField) -> float | None:
    text = typed.text(one.name)
    if not text:
        return None
    if one.quantity == "points":
        value = typed.tried(one.name, lambda: _points(text))
    elif one.quantity == "frequency":
        value = typed.tried(one.name, lambda: parse_quantity(text, "cpm", place=one.name))
    elif one.quantity == "inertia":
        plain = text.removesuffix("kg cm²").strip().replace(",", ".")
        value = typed.tried(one.name, lambda: _inertia(plain, one.name))
    else:
        value = typed.quantity(one.name, one.quantity)
    if value is not None and not one.least <= value <= one.most:
        show = typed.show
        typed.fail(
            one.name,
            f"{_with_unit(one, value, show)} cannot be",
            f"Give {_typed_as(one, one.least, show)} to {_with_unit(one, one.most, show)}; "
            "look at the unit.",
        )
        return None
    return value


def _points(text: str) -> float:
    plain = text.replace(",", ".")
    try:
        return float(plain)
    except ValueError:
        return index_of(plain)


def _inertia(text: str, place: str) -> float:
    try:
        return float(text) * KILOGRAM_SQUARE_CENTIMETRE
    except ValueError:
        raise InputError(
            f"{text!r} is no number", place=place, mend="Write it in kg cm², such as 2800."
        ) from None


def _typed_as(one: FigureField, value: float, show: Show) -> str:
    if one.quantity == "points":
        return show.words(letters(value))
    if one.quantity == "frequency":
        return show.words(f"{value / CYCLE_PER_MINUTE:.6g}")
    if one.quantity == "inertia":
        return show.words(f"{value / KILOGRAM_SQUARE_CENTIMETRE:.6g}")
    return show.typed(one.quantity, value)


def _with_unit(one: FigureField, value: float, show: Show) -> str:
    return f"{_typed_as(one, value, show)} {unit_of_field(one, show)}".rstrip()


def _set_up_is_whole(typed: Typed, told: dict[str, float | None]) -> None:
    names = ("frequency", "clamp", "tip_mass")
    if not any(told.get(name) is not None for name in names):
        return
    for name in names:
        if name in told and told[name] is None:
            typed.fields.setdefault(name, "")
            typed.fail(name, "it is empty", "Frequency, clamp and weight belong together.")
