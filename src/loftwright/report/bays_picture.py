"""What each bay reads otherwise than the others, with its two ranges, over one rule."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor, log10
from typing import Final

from loftwright.report.graduated import graduate
from loftwright.report.look import ACCENT, EDGE, HAIR, INK, SHEET
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0

_NAMES = 190.0
_LEFT, _RIGHT = 200.0, 840.0
_TOP = 40.0
_ROW = 40.0
_FOOT = 44.0
_RADIUS = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BayRow:
    """One bay, in the unit of the rule.

    Attributes
    ----------
    name : str
    mean : float
    narrow, wide : (float, float)
    off : bool
        Whether it is called so; the mark is filled then.
    """

    name: str
    mean: float
    narrow: tuple[float, float]
    wide: tuple[float, float]
    off: bool


def bays_picture(
    rows: Sequence[BayRow], *, title: str, zero: str, show: Show = TRADE, prefix: str = "bays"
) -> str:
    """Draw what bays read otherwise.

    Parameters
    ----------
    rows : sequence of BayRow
        At least one, from the top.
    title, zero : str
        Of the whole, and of the upright at nought.
    show : Show
        The decimal mark of its numerals.
    prefix : str
        Beginning of the picture's ids.
    """
    ends = [0.0, *(end for row in rows for end in row.wide)]
    rule = graduate(min(ends), max(ends))

    def x(value: float) -> float:
        return _LEFT + (value - rule.low) / (rule.high - rule.low) * (_RIGHT - _LEFT)

    base = _TOP + _ROW * len(rows) + 4.0
    parts = [stroke(f"M{x(0.0):.1f} {_TOP - 8.0:.1f}V{base:.1f}", dash="6 5", width=1.6)]
    parts.append(label(x(0.0), _TOP - 18.0, zero, anchor="middle", bold=True))
    for place, row in enumerate(rows):
        y = _TOP + _ROW * (place + 0.5)
        parts += _row(row, y, [x(end) for end in (*row.wide, *row.narrow, row.mean)])
    ticks = [(x(one), 11.0) for one in rule.long] + [(x(one), 7.0) for one in rule.short]
    digits = max(0, -floor(log10(rule.step) + 1e-9))
    numerals = {x(one): show.signed(one, digits) for one in rule.long}
    parts.append(level_rule(ticks, numerals, base, (_LEFT, _RIGHT)))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


def _row(row: BayRow, y: float, places: Sequence[float]) -> Iterator[str]:
    low, high, inner, outer, mean = places
    yield label(0.0, y + 6.0, fitted(row.name, _NAMES))
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    ends = "".join(f"M{end:.1f} {y - 6.0:.1f}v12" for end in (low, high))
    yield stroke(f"M{low:.1f} {y:.1f}H{high:.1f}{ends}", colour=INK, width=1.6)
    yield stroke(f"M{inner:.1f} {y:.1f}H{outer:.1f}", colour=INK, width=5.0)
    yield (
        f'<circle cx="{mean:.1f}" cy="{y:.1f}" r="{_RADIUS}" '
        f'fill="{ACCENT if row.off else SHEET}" stroke="{EDGE}" stroke-width="1.6"/>'
    )
