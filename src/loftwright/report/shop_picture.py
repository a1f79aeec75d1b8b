"""What models do by the shop record: one row each with its two ranges, over one rule."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import altair as alt

from loftwright.report.chart_layers import (
    RULE_HEIGHT,
    across,
    at_x,
    at_y,
    down,
    finished,
    marker,
    rows,
    steel_rule,
    text,
    upright,
)
from loftwright.report.graduated import graduate
from loftwright.report.look import ACCENT, INK, SHEET, WASH
from loftwright.report.marks import Mark
from loftwright.report.picture_parts import fitted
from loftwright.report.screen_numbers import TRADE, Show

_DIAMOND: Final = ((0.0, -1.05), (1.05, 0.0), (0.0, 1.05), (-1.05, 0.0))
SURE: Final = Mark(shape="diamond", colour=ACCENT, points=_DIAMOND)
"""Of a row whose range does not hold nought."""
UNSURE: Final = Mark(shape="hollow diamond", colour=SHEET, points=_DIAMOND)

_WIDTH: Final = 776.0
_NAMES: Final = 250.0
_MARGIN: Final = 18.0
_ROW: Final = 34.0
_HEAD: Final = 30.0


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
    """

    name: str
    mean: float
    half: tuple[float, float]
    most: tuple[float, float]
    sure: bool


def models_chart(told: Sequence[ModelRow], *, zero: str, show: Show = TRADE) -> alt.LayerChart:
    """Specify what models do, with their ranges, over a graduated rule.

    Parameters
    ----------
    told : sequence of ModelRow
        At least one, from the top.
    zero : str
        What zero is, written at the head of its line.
    show : Show
        The decimal mark of its numerals.
    """
    ends = [0.0, *(end for row in told for end in row.most)]
    low, high = min(ends), max(ends)
    rule = graduate(low, high if high > low else low + 1.0)
    base = _HEAD + _ROW * len(told) + 4.0
    height = base + RULE_HEIGHT
    x, y = across(rule, _NAMES, _WIDTH - _MARGIN), down(height)
    right = rule.high >= -rule.low
    layers = [
        upright(x, 22.0, base),
        *steel_rule(rule, x, base, (_NAMES, _WIDTH - _MARGIN), show),
        text(
            [{"x": 0.0, "label": zero}],
            x,
            at_y(13.0),
            align="left" if right else "right",
            dx=4.0 if right else -4.0,
            soft=True,
        ),
    ]
    for number, row in enumerate(told):
        layers.extend(_row(row, _HEAD + _ROW * (number + 0.5), x, y))
    return finished(layers, _WIDTH, height)


def _row(row: ModelRow, place: float, x: alt.X, y: alt.Y) -> Iterator[alt.Chart]:
    most = alt.Chart(rows([{"x": row.most[0], "x2": row.most[1], "y": place}]))
    yield most.mark_rule(color=INK, strokeWidth=1.6).encode(x=x, x2="x2:Q", y=y)
    half = alt.Chart(rows([{"x": row.half[0], "x2": row.half[1], "y": place}]))
    band = half.mark_bar(height=8.0, color=WASH, stroke=INK, strokeWidth=0.7)
    yield band.encode(x=x, x2="x2:Q", y=y)
    yield marker({"x": row.mean, "y": place}, SURE if row.sure else UNSURE, x, y, 8.0)
    name = {"y": place, "label": fitted(row.name, _NAMES - 12.0)}
    yield text([name], at_x(0.0), y, align="left", bold=True)
