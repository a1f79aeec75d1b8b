"""The receipt's form: readings with their doubts, what was looked at, and how it ended."""

from collections.abc import Callable, Mapping
from datetime import date
from math import isfinite, nan
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.build_sheet import BuildSheet, LengthMethod
from loftwright.domain.check_acts import Outcome, Received
from loftwright.errors import InputError
from loftwright.intake.build_text import Value, toml_text
from loftwright.physics.build.swingweight import index_of
from loftwright.report.screen_numbers import Show
from loftwright.services.final_usual import BuiltAs
from loftwright.units import parse_quantity
from loftwright.web.final_fields import FIGURES, UNITS, Asked, typed_doubt
from loftwright.web.forms import LONGEST_TEXT, Typed
from loftwright.workshop.final import MAY_BE_ABSENT, HandCheck

YES, NO, ABSENT = "yes", "no", "absent"
_TENTHS: Final = 10
"""Significant digits of a figure in the text; a bench has six at most."""


def read_measured(typed: Typed) -> str | None:
    """Return the readings as text of a file of measurements; None if a field cannot be.

    Parameters
    ----------
    typed : Typed
        Its units are those of plain figures.
    """
    values: dict[str, Value] = {}
    for one in FIGURES.values():
        value, doubt = _figure(typed, one.name, one), None
        if value is None:
            continue
        need = "Give half the width of the range that holds it 95 times in 100."
        if not typed.given(f"{one.name}_u95"):
            typed.fields.setdefault(f"{one.name}_u95", "")
            typed.fail(f"{one.name}_u95", "its doubt is missing", need)
        else:
            doubt = _figure(typed, f"{one.name}_u95", one)
        if doubt is not None:
            values |= {f"{one.key}.value": _short(value / one.size)}
            values |= {f"{one.key}.u95": _short(doubt / one.size)}
            values |= _more(typed, one.name)
    values |= _pendulum(typed) | _built(typed) | _rules(typed)
    return toml_text(values) if typed.good else None


def read_looked(typed: Typed) -> dict[str, bool]:
    """Return what was looked at; what the club does not have is left out."""
    looked: dict[str, bool] = {}
    for one in HandCheck:
        answer = typed.fields.setdefault(f"look_{one.value}", "")
        if answer in {YES, NO}:
            looked[one.value] = answer == YES
        elif answer != ABSENT or one not in MAY_BE_ABSENT:
            typed.fail(f"look_{one.value}", "it was not looked at", "Look, then answer.")
    return looked


def read_received(typed: Typed, measured: str) -> Received | None:
    """Return a receipt as it was typed around its readings; None if a field cannot be."""
    looked = read_looked(typed)
    outcome = typed.fields.setdefault("outcome", "")
    if outcome not in set(Outcome):
        typed.fail("outcome", "how it ended is not chosen", "Choose accept, rework or reject.")
    second = typed.text("second", need="Write who looked.")
    rework = typed.text("rework", most=LONGEST_TEXT)
    reason = typed.text("reason", most=LONGEST_TEXT)
    day = typed.day("day")
    if day is None:
        typed.fail("day", "it is empty", "Give the day of the look.")
    if not typed.good:
        return None
    return Received(
        measured=measured,
        looked=looked,
        outcome=Outcome(outcome),
        second=second,
        rework=rework,
        reason=reason,
        day=day,
        alone=typed.ticked("alone"),
    )


def usual_fields(
    sheet: BuildSheet, built: BuiltAs | None, show: Show, today: date
) -> dict[str, str]:
    """Return what the form holds before anything is typed.

    Parameters
    ----------
    sheet : BuildSheet
    built : BuiltAs, optional
        How it was cut and weighted.
    show : Show
    today : date
    """
    usual = {f"{one.name}_u95": typed_doubt(one, show) for one in FIGURES.values()}
    usual |= {
        "method": LengthMethod.PLANE.value,
        "clamp": show.typed("mark", sheet.clamp),
        "tip_mass": show.typed("mass", sheet.tip_mass),
        "period_u95": show.words("0.005"),
        "edition": sheet.rules.edition,
        "local_length": YES if sheet.rules.local_length else "",
        "day": today.isoformat(),
    }
    if built is not None:
        usual |= {
            "cut_length": show.typed("length", built.kept),
            "head_added": show.typed("mass", round(built.head, 4)),
            "butt_added": show.typed("mass", round(built.butt, 4)),
        }
    return usual


def _figure(typed: Typed, name: str, asked: Asked) -> float | None:
    """Return a field's figure in SI, swingweight in points."""
    if asked.kind == "points":
        return _tried(typed, name, _points)
    if asked.kind in UNITS:
        return _tried(typed, name, lambda text: _plain(text, name) * asked.size)
    if asked.kind == "frequency":
        return _tried(typed, name, lambda text: parse_quantity(text, "cpm", place=name))
    return typed.quantity(name, asked.kind)


def _tried(typed: Typed, name: str, read: Callable[[str], float]) -> float | None:
    text = typed.text(name)
    return typed.tried(name, lambda: read(text)) if text else None


def _seconds(typed: Typed, name: str) -> float | None:
    return _tried(typed, name, lambda text: parse_quantity(text, "s", place=name))


def _plain(text: str, name: str) -> float:
    """Return a figure that has no other unit than the one at its field."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = nan
    if not isfinite(value):
        raise InputError(f"{text!r} is no number", place=name, mend="Give a plain number.")
    return value


def _points(text: str) -> float:
    if text[:1].isalpha():
        return index_of(text.replace(",", "."))
    return _plain(text, "swingweight")


def _more(typed: Typed, name: str) -> dict[str, Value]:
    """Return what a length and a frequency say beside their value."""
    if name == "length":
        method = typed.word("method", LengthMethod, LengthMethod.PLANE)
        return {"length_inch.method": method.value}
    if name != "frequency":
        return {}
    need = "A frequency says nothing without its clamp and weight."
    for field in ("clamp", "tip_mass"):
        typed.fields.setdefault(field, "")
        if not typed.given(field):
            typed.fail(field, "it is missing", need)
    clamp, weight = typed.quantity("clamp", "mark"), typed.quantity("tip_mass", "mass")
    if clamp is None or weight is None:
        return {}
    return {
        "frequency_cpm.clamp_mm": _short(clamp / MILLIMETRE),
        "frequency_cpm.tip_mass_g": _short(weight / GRAM),
    }


def _pendulum(typed: Typed) -> dict[str, Value]:
    names = ("pivot", "period")
    if not any(typed.given(name) for name in names):
        return {}
    for name in (*names, "period_u95"):
        typed.fields.setdefault(name, "")
        if not typed.given(name):
            typed.fail(name, "it is missing", "A pendulum needs pivot, period and its doubt.")
    pivot = typed.quantity("pivot", "length")
    period, doubt = _seconds(typed, "period"), _seconds(typed, "period_u95")
    if pivot is None or period is None or doubt is None:
        return {}
    return {
        "pendulum.pivot_inch": _short(pivot / INCH),
        "pendulum.period_s": _short(period),
        "pendulum.period_u95_s": _short(doubt),
    }


def _built(typed: Typed) -> dict[str, Value]:
    kept = typed.quantity("cut_length", "length")
    head, butt = (typed.quantity(name, "mass") for name in ("head_added", "butt_added"))
    told: dict[str, Value] = {}
    if kept is not None:
        told["built.cut_length_inch"] = _short(kept / INCH)
    if head is not None or butt is not None:
        told["built.head_added_g"] = _short((head or 0.0) / GRAM)
        told["built.butt_added_g"] = _short((butt or 0.0) / GRAM)
    return told


def _rules(typed: Typed) -> dict[str, Value]:
    edition = typed.text("edition", need="Write which edition was looked at.")
    return {
        "rules.edition": edition,
        "rules.competition_uses_46_inch": typed.ticked("local_length"),
    }


def _short(value: float) -> float:
    return float(f"{value:.{_TENTHS}g}")


def fields_as_typed(fields: Mapping[str, str], rework: str) -> dict[str, str]:
    """Return a form's fields with what is to be done filled in where nothing was typed."""
    if fields.get("rework", "").strip():
        return dict(fields)
    return {**fields, "rework": rework}
