"""The form of what might be done to a shaft, and of the set-up that its figures mean."""

from dataclasses import dataclass
from typing import Final

from loftwright.domain.bench_figures import USUAL, SetUp
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_preview import MOST_WRAPS, Preview, Trims, preview
from loftwright.web.forms import Typed

FIELDS: Final = ("tip", "butt", "wraps", "tape", "butt_diameter", "wall")
"""Of what is done; each may stay empty."""

_CUTS: Final = {"tip trim": "tip", "butt cut": "butt", "trims": "tip"}
_PLACES: Final = _CUTS | {"load station": "clamp", "weight at the free end": "weight"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was asked of a shaft.

    Attributes
    ----------
    trims : Trims
    found : Preview
    """

    trims: Trims
    found: Preview


def read_preview(typed: Typed, measured: MeasuredProfile) -> Asked | None:
    """Return what the form asks of a measured shaft; None if a field cannot be."""
    trims, set_up = _trims(typed), _set_up(typed)
    if trims is None or set_up is None or not typed.good:
        return None
    home = "tip" if typed.given("tip") or not typed.given("butt") else "butt"
    places = _PLACES | {"trims": home}
    found = typed.tried("clamp", lambda: preview(measured, trims, set_up), places)
    return None if found is None else Asked(trims=trims, found=found)


def _trims(typed: Typed) -> Trims | None:
    tip, butt = _size(typed, "tip", "length"), _size(typed, "butt", "length")
    wraps = typed.whole("wraps", least=0, most=MOST_WRAPS)
    tape = _size(typed, "tape", "mark")
    diameter = _size(typed, "butt_diameter", "length")
    wall = _size(typed, "wall", "mark")
    if not typed.good:
        return None
    return typed.tried(
        "tip",
        lambda: Trims(
            tip=tip or 0.0,
            butt=butt or 0.0,
            wraps=wraps or 0,
            tape=tape or 0.0,
            butt_diameter=diameter,
            wall=wall,
        ),
        _PLACES,
    )


def _set_up(typed: Typed) -> SetUp | None:
    clamp, weight = _size(typed, "clamp", "length"), _size(typed, "weight", "mass")
    if not typed.good:
        return None
    return typed.tried(
        "clamp",
        lambda: SetUp(
            clamp=USUAL.clamp if clamp is None else clamp,
            weight=USUAL.weight if weight is None else weight,
        ),
        _PLACES,
    )


def _size(typed: Typed, name: str, quantity: str) -> float | None:
    """Return a field's figure in SI, none below nothing."""
    found = typed.quantity(name, quantity)
    if found is not None and found < 0.0:
        typed.fail(name, f"{typed.text(name)!r} is less than nothing", "Give nothing or more.")
        return None
    return found
