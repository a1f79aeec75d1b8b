"""What models do by the shop record: one row each with its two ranges, over one rule."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.graduated import Rule, graduate
from loftwright.report.look import ACCENT, HAIR, INK, SHEET, WASH
from loftwright.report.marks import Mark
from loftwright.report.picture_parts import (
    club_shape,
    fitted,
    label,
    level_rule,
    picture,
    stroke,
    text_width,
)
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0

_DIAMOND: Final = ((0.0, -1.05), (1.05, 0.0), (0.0, 1.05), (-1.05, 0.0))
SURE: Final = Mark(shape="diamond", colour=ACCENT, points=_DIAMOND)
"""Of a row whose wider range does not hold nought."""
UNSURE: Final = Mark(shape="hollow diamond", colour=SHEET, points=_DIAMOND)

_LEFT, _RIGHT = 270.0, 850.0
_TOP: Final = 34.0
_ROW: Final = 38.0
_FOOT: Final = 46.0
_RADIUS: Final = 8.6
_BAND: Final = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelRow:
    """One model's figure, in the unit of the rule.

    Attributes
    ----------
    name : str
    mean : float
    half, most : (float, float)
        The range of half the chance, and that of nine chances in ten.
    sure : bool
        Whether nought lies outside the wider one.
    hit : bool
        Whether it was hit; what is only carried over to it is drawn dashed.
    """

    name: str
    mean: float
    half: tuple[float, float]
    most: tuple[float, float]
    sure: bool
    hit: bool = True


def models_picture(
    told: Sequence[ModelRow], *, title: str, zero: str, unit: str, show: Show = TRADE
) -> str:
    """Draw what models do, with their ranges, over a graduated rule.

    Parameters
    ----------
    told : sequence of ModelRow
        At least one, from the top.
    title : str
    zero : str
        What zero is, written at the head of its line.
    unit : str
        Behind the numeral of zero.
    show : Show
        The decimal mark of its numerals.
    """
    ends = [0.0, *(end for row in told for end in row.most)]
    low, high = min(ends), max(ends)
    pad = 0.04 * (high - low) + 1e-9
    rule = graduate(low - pad, high + pad)
    base = _TOP + _ROW * len(told) + 4.0
    parts = [*_zero(zero, rule, base)]
    for number, row in enumerate(told):
        parts += _row(row, _TOP + _ROW * (number + 0.5), rule)
    parts.append(_steel(rule, base, unit, show))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix="models")


def _x(value: float, rule: Rule) -> float:
    return _LEFT + (value - rule.low) / (rule.high - rule.low) * (_RIGHT - _LEFT)


def _zero(zero: str, rule: Rule, base: float) -> Iterator[str]:
    """Draw the line at zero and name it on the side that has more room."""
    x = _x(0.0, rule)
    yield stroke(f"M{x:.1f} 8V{base:.1f}", colour=INK, width=1.5)
    right = _RIGHT - x >= x - _LEFT
    at = x + 8.0 if right else x - 8.0
    yield label(at, 20.0, zero, anchor="start" if right else "end", soft=True)


def _row(row: ModelRow, y: float, rule: Rule) -> Iterator[str]:
    low, high = (_x(end, rule) for end in row.most)
    inner = tuple(_x(end, rule) for end in row.half)
    yield label(0.0, y + 6.0, fitted(row.name, _LEFT - 16.0, bold=True), bold=True)
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    dash = "" if row.hit else "5 4"
    yield stroke(f"M{low:.1f} {y:.1f}H{high:.1f}", colour=INK, width=1.8, dash=dash)
    yield (
        f'<rect x="{inner[0]:.1f}" y="{y - _BAND:.1f}" width="{inner[1] - inner[0]:.1f}" '
        f'height="{2.0 * _BAND:g}" fill="{WASH}" stroke="{INK}" stroke-width="0.8"/>'
    )
    yield club_shape(SURE if row.sure else UNSURE, _x(row.mean, rule), y, _RADIUS)


def _steel(rule: Rule, base: float, unit: str, show: Show) -> str:
    ticks = [(_x(place, rule), 5.0) for place in rule.short]
    ticks += [(_x(place, rule), 12.0) for place in rule.long]
    digits = 0 if rule.step >= 1.0 else 1 if rule.step >= 0.1 else 2
    kept: dict[float, str] = {}
    free = _LEFT - 20.0
    for place in rule.long:
        words = f"0{unit}" if abs(place) < 1e-9 else show.signed(place, digits)
        x, half = _x(place, rule), 0.5 * text_width(words)
        if x - half > free:
            kept[x] = words
            free = x + half + 6.0
    return level_rule(ticks, kept, base, (_LEFT, _RIGHT))
