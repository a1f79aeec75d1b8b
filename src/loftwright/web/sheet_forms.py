"""The build sheet's forms: every field typed in the shop's units, steps, departures, the bond."""

from collections.abc import Mapping
from datetime import datetime
from math import isfinite
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    MILLIMETRE,
)
from loftwright.domain.sheet_fields import FIELDS, MADE
from loftwright.domain.sheet_kinds import FIGURES, SMALL_PARTS, Holds, SheetField
from loftwright.errors import LoftwrightError
from loftwright.physics.build.swingweight import index_of, letters
from loftwright.report.screen_numbers import Show
from loftwright.services.bonding import Mixed
from loftwright.services.sheet_steps import HoldFigure, Missed
from loftwright.services.sheet_text import YES, Draft, figure_text, lacking
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.units import parse_quantity
from loftwright.web.forms import Typed

_QUANTITIES: Final = {
    Holds.MASS: ("mass", GRAM),
    Holds.LENGTH: ("length", INCH),
    Holds.SMALL: ("mark", MILLIMETRE),
    Holds.ANGLE: ("angle", DEGREE),
}
_PLACES: Final = {
    "length": "target.length_inch",
    "swingweight": "target.swingweight",
    "swingweight, mass, inertia": "target.swingweight",
    "target": "target.swingweight",
    "club mass": "target.mass_g",
    "club length": "target.length_inch",
    "club balance": "target.length_inch",
    "head mass": "head.mass_g",
    "shaft mass": "shaft.mass_g",
    "grip mass": "grip.mass_g",
    "tip trim": "shaft.tip_trim_inch",
    "grip cap": "grip.cap_inch",
    "tape length": "tape.length_inch",
    "dry fit mass": "dry_fit.mass_g",
    "head reach": "head.cg_along_inch",
    "head toe": "head.cg_toe_mm",
    "head to plane": "head.to_60_plane_inch",
    "counterweight": "counterweight.below_cap_inch",
    "shaft balance": "shaft.balance_from_tip_inch",
    "shaft length": "shaft.raw_length_inch",
    "grip balance": "grip.balance_inch",
    "grip length": "grip.length_inch",
    "edition": "rules.edition",
}
"""Fields by the places that errors of the floors below name."""

LONGEST_FIELD: Final = 120
MIXED: Final = "%Y-%m-%dT%H:%M"


def unit_of(holds: Holds, show: Show) -> str:
    """Return the unit that a plain figure of a field is in."""
    if holds in _QUANTITIES:
        return show.unit(_QUANTITIES[holds][0]).name
    return {Holds.INERTIA: "kg cm²", Holds.CYCLES: "cpm"}.get(holds, "")


def typed_text(field: SheetField, text: str, show: Show) -> str:
    """Return what a form's field holds for a sheet's text."""
    if not text:
        return ""
    if field.kind in _QUANTITIES:
        quantity, unit = _QUANTITIES[field.kind]
        return show.typed(quantity, float(text) * unit)
    if field.kind in FIGURES or field.kind is Holds.POINTS:
        return show.words(text)
    return text


def typed_draft(draft: Mapping[str, str], show: Show) -> dict[str, str]:
    """Return what every field of the form holds for a draft."""
    return {name: typed_text(one, draft.get(name, ""), show) for name, one in FIELDS.items()}


def read_draft(typed: Typed, known: Mapping[str, str]) -> Draft:
    """Return the draft that was typed; what cannot be or is missing is a fault of its field.

    Parameters
    ----------
    typed : Typed
    known : mapping of str to str
        The draft that the form began with: a figure that nobody touched keeps all its digits.
    """
    draft = {}
    for name, one in FIELDS.items():
        text = read_field(typed, name, one)
        untouched = typed_text(one, known.get(name, ""), typed.show)
        if text and one.kind in FIGURES and typed.fields.get(name, "").strip() == untouched:
            text = known[name]
        if text:
            draft[name] = text
    for name, (message, mend) in lacking(draft).items():
        typed.fields.setdefault(name, "")
        typed.fail(name, message, mend)
    return draft


def read_field(typed: Typed, name: str, field: SheetField) -> str:
    """Return one field's text as a sheet keeps it; empty for nothing or a fault."""
    if field.kind is Holds.TICK:
        return YES if typed.ticked(name) else ""
    if field.kind is Holds.PICK:
        known = tuple(value for value, _ in field.choices)
        return typed.one_of(name, known, known[0])
    text = typed.text(name, most=LONGEST_FIELD)
    if not text:
        return ""
    if field.kind in FIGURES:
        value = read_figure(typed, name, field.kind)
        return "" if value is None else figure_text(value)
    if field.kind is Holds.POINTS:
        points = typed.tried(name, lambda: index_of(text.replace(",", ".")))
        return "" if points is None else letters(points)
    return text


def read_figure(typed: Typed, name: str, holds: Holds) -> float | None:
    """Return a field's figure in the unit of its kind; None for an empty one or a fault."""
    if holds in _QUANTITIES:
        quantity, unit = _QUANTITIES[holds]
        value = typed.quantity(name, quantity)
        return None if value is None else value / unit
    text = typed.text(name)
    if not text:
        return None
    if holds is Holds.CYCLES:
        value = typed.tried(name, lambda: parse_quantity(text, "cpm", place=name))
        return None if value is None else value / CYCLE_PER_MINUTE
    if holds is Holds.POINTS:
        return typed.tried(name, lambda: index_of(text.replace(",", ".")))
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        number = float("nan")
    if not isfinite(number):
        typed.fail(name, f"{text!r} is no number", "Write for example 12.")
        return None
    return number


def refuse_field(typed: Typed, error: LoftwrightError) -> None:
    """Keep an error of the floors below at the field that its place stands for."""
    place = error.place.removeprefix("build sheet, ").removeprefix("build sheet")
    last = place.rpartition(", ")[2]
    for name in (place.replace(", ", "."), *_small_names(last), _PLACES.get(last, "")):
        if name in typed.fields:
            typed.fail(name, error.message, error.mend)
            return
    typed.fail("", error.message, error.mend)


def _small_names(place: str) -> tuple[str, ...]:
    """Return the fields of a small part that a place may name."""
    return tuple(
        f"parts.{one}.{key}"
        for one in SMALL_PARTS
        for words, key in ((f"{one} mass", "mass_g"), (f"place of the {one}", "from_tip_inch"))
        if place == words
    )


def read_hold(typed: Typed, figures: tuple[HoldFigure, ...]) -> dict[str, float]:
    """Return what was read at a hold point; a needed reading that is missing is a fault."""
    read = {}
    for one in figures:
        value = read_figure(typed, one.name, one.holds)
        if value is not None:
            read[one.name] = value
        elif one.needed and not typed.given(one.name):
            typed.fields.setdefault(one.name, "")
            typed.fail(one.name, "it was not read", "The hold point waits for it.")
    return read


def refuse_missed(typed: Typed, off: tuple[Missed, ...], show: Show) -> None:
    """Keep at each reading that lies outside how far it is off and what follows."""
    for one in off:
        figure = one.figure
        mend = (
            "Stop: say why below and log it, then the club is computed again."
            if figure.departs
            else "Stop: find why, log what differs, take the mend, and measure again."
        )
        typed.fail(figure.name, _off(one, show), mend)


def read_departure(typed: Typed) -> dict[str, str]:
    """Return what was built otherwise, by its key; empty where something is missing."""
    name = typed.text("what", need="Choose what was built otherwise.")
    known = FIELDS.get(MADE.get(name, name))
    if known is None:
        typed.fields.setdefault("what", "")
        typed.fail("what", "it is not on the sheet", "Choose one of the list.")
        return {}
    fields = dict(typed.fields)
    typed.fields[name] = fields.get("built", "")
    text = read_field(typed, name, known)
    fault = typed.faults.pop(name, None)
    typed.fields.pop(name)
    if fault is not None:
        typed.fail("built", fault.message, fault.mend)
    elif not text:
        typed.fail("built", "it is empty", "Write the figure as built.")
    typed.text("why", most=LONGEST_FIELD, need="Say why; it stays on the sheet.")
    return {name: text} if typed.good else {}


def read_bond(typed: Typed, studio: Studio, *, glued: bool) -> Mixed | None:
    """Return the glue as it was mixed; None while something is open."""
    now = studio.now()
    initials = typed.text("initials", most=8, need="Who did it, in initials.")
    if not glued:
        made = Mixed(adhesive="", batch="", hours=0.0, mixed=now, initials=initials)
        return made if typed.good else None
    adhesive = typed.text("adhesive", need="Write its name, as on the tin.")
    batch = typed.text("batch", need="It is on the tin.")
    known = {one.name: one.hours for one in read_terms(studio).terms.adhesives}
    hours = read_figure(typed, "hours", Holds.NUMBER) if typed.given("hours") else None
    if hours is None and "hours" not in typed.faults:
        hours = known.get(adhesive)
    if hours is None:
        typed.fields.setdefault("hours", "")
        typed.fail("hours", "it is empty", "Give the hours of its own data sheet.")
    mixed = _instant(typed, studio)
    temperature = typed.quantity("temperature", "temperature")
    if not typed.good or hours is None or mixed is None:
        return None
    return Mixed(
        adhesive=adhesive,
        batch=batch,
        hours=hours,
        mixed=mixed,
        temperature=temperature,
        initials=initials,
    )


def _instant(typed: Typed, studio: Studio) -> datetime | None:
    text = typed.text("mixed", need="Write when it was mixed.")
    if not text:
        return None
    try:
        told = datetime.fromisoformat(text[:16])
    except ValueError:
        typed.fail("mixed", f"{text!r} is no time", "Write it as 2026-11-25T14:30.")
        return None
    local = told.replace(tzinfo=studio.zone) if studio.zone is not None else told.astimezone()
    return local.astimezone(studio.now().tzinfo)


def _off(one: Missed, show: Show) -> str:
    figure = one.figure
    apart = abs(one.read - figure.sheet)
    if figure.holds in {Holds.POINTS, Holds.CYCLES}:
        unit_name = "points" if figure.holds is Holds.POINTS else "cpm"
        return f"{show.number(apart, 1)} {unit_name} off the target"
    quantity, unit = _QUANTITIES[figure.holds]
    known = show.unit(quantity)
    digits = 1 if figure.holds is Holds.MASS or show.units == "metric" else 3
    size = f"{show.number(apart * unit / known.scale, digits)} {known.name}"
    if figure.holds is Holds.MASS:
        return f"{size} {'light' if one.read < figure.sheet else 'heavy'} of the sheet"
    return f"{size} {'short' if one.read < figure.sheet else 'long'} of the sheet"
