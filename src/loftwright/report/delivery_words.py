"""A delivery that was solved back from its ball, in words and in keys."""

from typing import Final

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.physics.delivery_belief import DELIVERY
from loftwright.physics.inverse_impact import DeliveryEstimate
from loftwright.report.layout import facts, notes
from loftwright.report.numbers import fixed
from loftwright.report.records import Record, rounded

UNTOLD: Final = (
    "Where the ball met the face cannot be told from this ball: a toe strike and an open face "
    "send it to the same side. A mark on the face, or attack and path measured, would tell"
)
MOSTLY_BELIEVED: Final = 0.8
"""Where so much of the doubt is left, a figure is what golfers usually do more than this ball."""

_NAMES: Final = {
    "head_speed": ("Head speed", "mph", MILE_PER_HOUR, 1),
    "attack": ("Attack angle", "\N{DEGREE SIGN}", DEGREE, 1),
    "path": ("Club path", "\N{DEGREE SIGN}", DEGREE, 1),
    "face": ("Face angle", "\N{DEGREE SIGN}", DEGREE, 1),
    "loft": ("Dynamic loft", "\N{DEGREE SIGN}", DEGREE, 1),
    "toe": ("Strike to the toe", "mm", MILLIMETRE, 0),
    "high": ("Strike up the face", "mm", MILLIMETRE, 0),
}
_KEYS: Final = {
    "head_speed": "head_speed_mph",
    "attack": "attack_deg",
    "path": "path_deg",
    "face": "face_deg",
    "loft": "loft_deg",
    "toe": "strike_toe_mm",
    "high": "strike_high_mm",
}
_STRIKE: Final = frozenset({"toe", "high"})


def delivery_lines(found: DeliveryEstimate) -> list[str]:
    """Return a delivery in words: what can be told and how well, and what cannot."""
    rows = []
    for place, name in enumerate(DELIVERY):
        if name in _STRIKE and not found.strike_told:
            continue
        words, unit, scale, digits = _NAMES[name]
        rests = ", mostly what golfers do" if found.left[place] > MOSTLY_BELIEVED else ""
        rows.append(
            (words, _figure(found.mean[place], found.sd[place], unit, scale, digits) + rests)
        )
    relative, doubt = found.face_to_path
    rows.insert(4, ("Face to path", _figure(relative, doubt, "\N{DEGREE SIGN}", DEGREE, 1)))
    together = [
        ("Face with path", fixed(found.correlation("face", "path"), 2)),
        ("Strike with path", fixed(found.correlation("toe", "path"), 2)),
    ]
    return [
        _answer(found),
        "",
        *facts(rows),
        "",
        "± is one standard deviation. How the doubts go together, \N{MINUS SIGN}1 to 1:",
        *facts(together),
        *notes(_warnings(found)),
    ]


def delivery_record(found: DeliveryEstimate) -> Record:
    """Return a delivery with the keys of `loftwright impact --from-ball`."""
    record: Record = {}
    for place, name in enumerate(DELIVERY):
        told = found.strike_told or name not in _STRIKE
        scale = _NAMES[name][2]
        record[_KEYS[name]] = rounded(float(found.mean[place]), scale) if told else None
        record[f"{_KEYS[name]}_sd"] = rounded(float(found.sd[place]), scale)
    relative, doubt = found.face_to_path
    record |= {
        "face_to_path_deg": rounded(relative, DEGREE),
        "face_to_path_deg_sd": rounded(doubt, DEGREE),
        "left": {name: rounded(float(found.left[place])) for place, name in enumerate(DELIVERY)},
        "face_path_correlation": rounded(found.correlation("face", "path")),
        "strike_path_correlation": rounded(found.correlation("toe", "path")),
        "strike_told": found.strike_told,
        "warnings": _warnings(found),
    }
    return record


def _answer(found: DeliveryEstimate) -> str:
    if not found.strike_told:
        return "The strike cannot be told from this ball."
    toe, high = (found.mean[DELIVERY.index(name)] / MILLIMETRE for name in ("toe", "high"))
    across = f"{fixed(abs(toe))} mm to the {'toe' if toe >= 0.0 else 'heel'}"
    along = f"{fixed(abs(high))} mm {'up' if high >= 0.0 else 'down'}"
    return f"The ball met the face {across} and {along}."


def _figure(mean: float, doubt: float, unit: str, scale: float, digits: int) -> str:
    gap = "" if unit == "\N{DEGREE SIGN}" else " "
    return f"{fixed(mean / scale, digits)}{gap}{unit} ± {fixed(doubt / scale, digits)}"


def _warnings(found: DeliveryEstimate) -> list[str]:
    warnings = [] if found.strike_told else [UNTOLD]
    if found.hardly_fits:
        warnings.append(
            "These numbers hardly go together for this head: look at their units and signs"
        )
    return warnings
