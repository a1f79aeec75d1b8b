"""The form of a measured profile: one line a station, errors beside figures, conditions said."""

from datetime import date
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.profile import MeasuredProfile
from loftwright.errors import InputError
from loftwright.web.forms import LONGEST_TEXT, Typed

_KINDS = (("bending", 1.0), ("twisting", 1.0), ("density", GRAM))
_COUNTS = {3: 1, 5: 2, 7: 3}
_PLACES = {
    **dict.fromkeys(
        (
            *("station", "bending", "bending_error", "twisting", "twisting_error"),
            *("density", "density_error"),
        ),
        "stations",
    ),
    "scale_error": "scale",
}


def read_profile(typed: Typed, piece: str, today: date) -> MeasuredProfile | None:
    """Return a profile as it was typed; None if a field cannot be."""
    bench = typed.text("bench", need="Name the bench.")
    need = "Say how: spans, clamps, grip on or off."
    conditions = typed.text("conditions", most=LONGEST_TEXT, need=need)
    day = typed.day("day") or today
    scale = _figure(typed, "scale", 0.01) or 0.0
    figures: dict[str, Any] = {
        "mass": _figure(typed, "weighed", GRAM),
        "mass_error": _figure(typed, "weighed_error", GRAM),
        "balance": _figure(typed, "balance", MILLIMETRE),
        "balance_error": _figure(typed, "balance_error", MILLIMETRE),
        "butt_diameter": _figure(typed, "butt_diameter", INCH),
        "tip_diameter": _figure(typed, "tip_diameter", INCH),
    }
    lines = typed.text("stations", most=8000, need="Give one line a station.")
    along: dict[str, Any] | None = None
    if lines:
        along = typed.tried("stations", lambda: _along(lines))
    if along is None or not typed.good:
        return None
    places = _PLACES | {"mass": "weighed", "mass_error": "weighed_error"}
    return typed.tried(
        "stations",
        lambda: MeasuredProfile(
            id="",
            piece=piece,
            day=day,
            bench=bench,
            conditions=conditions,
            scale_error=scale,
            **along,
            **figures,
        ),
        places,
    )


def _figure(typed: Typed, name: str, unit: float) -> float | None:
    text = typed.text(name).replace(",", ".")
    if not text:
        return None
    try:
        return float(text) * unit
    except ValueError:
        typed.fail(name, f"{text!r} is no number", "Give a plain number.")
        return None


def _along(text: str) -> dict[str, Any]:
    """Return arrays of lines: mm from the butt, then EI, GJ and g/m, each with its error."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    rows: list[list[float]] = []
    for number, line in enumerate(lines, start=1):
        try:
            row = [float(part.replace(",", ".")) for part in line.replace(";", " ").split()]
        except ValueError:
            row = []
        if len(row) not in _COUNTS or (rows and len(row) != len(rows[0])):
            raise InputError(
                f"line {number}, {line!r}, is no station",
                place="stations",
                mend="Give mm from the butt, EI and its error; then, in every line, GJ and its "
                "error, and g/m and its error, if they were measured.",
            )
        rows.append(row)
    table = np.array(rows)
    found: dict[str, FloatArray] = {"station": table[:, 0] * MILLIMETRE}
    for place, (name, unit) in enumerate(_KINDS[: _COUNTS[table.shape[1]]]):
        found[name] = table[:, 1 + 2 * place] * unit
        found[f"{name}_error"] = table[:, 2 + 2 * place] * unit
    return found
