"""Layers that the charts share: text, graduated rules, markers, and the step to SVG."""

import re
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Literal, TypeAlias

import altair as alt

from loftwright.report.fonts import REGULAR, SANS, font_folders
from loftwright.report.graduated import Rule
from loftwright.report.look import EDGE, INK, INK_2, SHEET
from loftwright.report.marks import Mark
from loftwright.report.screen_numbers import TRADE, Show

Row: TypeAlias = Mapping[str, object]
Across: TypeAlias = alt.X | alt.XValue
Down: TypeAlias = alt.Y | alt.YValue

RULE_HEIGHT = 34.0
"""Space that a rule with its numerals takes below its line."""

_FONT = f"'{SANS}'"
_TEXT = 15


def rows(values: Sequence[Row]) -> alt.InlineData:
    """Return rows as data that stand in the chart itself."""
    return alt.InlineData(values=[dict(value) for value in values])


def across(rule: Rule, left: float, right: float) -> alt.X:
    """Return the horizontal place of a field `x` on a rule from `left` to `right`."""
    scale = alt.Scale(domain=[rule.low, rule.high], range=[left, right], nice=False)
    return alt.X("x:Q", scale=scale, axis=None)


def down(height: float) -> alt.Y:
    """Return the vertical place of a field `y` in the picture's own units."""
    scale = alt.Scale(domain=[0.0, height], range=[0.0, height], nice=False)
    return alt.Y("y:Q", scale=scale, axis=None)


def at_x(place: float) -> alt.XValue:
    """Return a horizontal place in the picture's own units."""
    return alt.XValue(place)  # type: ignore[no-untyped-call]


def at_y(place: float) -> alt.YValue:
    """Return a vertical place in the picture's own units."""
    return alt.YValue(place)  # type: ignore[no-untyped-call]


def _to_x(place: float) -> alt.X2Value:
    return alt.X2Value(place)  # type: ignore[no-untyped-call]


def to_y(place: float) -> alt.Y2Value:
    """Return the vertical place at which a line ends."""
    return alt.Y2Value(place)  # type: ignore[no-untyped-call]


def text(
    values: Sequence[Row],
    x: Across,
    y: Down,
    *,
    align: Literal["left", "center", "right"] = "center",
    dx: float = 0.0,
    bold: bool = False,
    soft: bool = False,
) -> alt.Chart:
    """Return a layer of labels; `soft` is the colour of notes and numerals.

    Parameters
    ----------
    values : sequence of Row
        Rows with a `label` each.
    x, y : channels
        Where the labels stand.
    align : {"left", "center", "right"}
    dx : float
        To the right of there [points].
    bold, soft : bool
    """
    layer: alt.Chart = alt.Chart(rows(values)).mark_text(
        font=_FONT,
        fontSize=_TEXT,
        fontWeight=600 if bold else 400,
        color=INK_2 if soft else INK,
        baseline="middle",
        align=align,
        dx=dx,
    )
    return layer.encode(x=x, y=y, text="label:N")


def steel_rule(
    rule: Rule, x: alt.X, base: float, ends: tuple[float, float], show: Show = TRADE
) -> list[alt.Chart]:
    """Return the layers of a rule: a line, long ticks with numerals, short ticks between.

    Parameters
    ----------
    rule : Rule
    x : channel
    base : float
        How far down it lies.
    ends : (float, float)
        Where its line begins and ends.
    show : Show
        The decimal mark of its numerals.
    """
    left, right = ends
    y = at_y(base)
    line = alt.Chart(rows([{"x": 0.0}])).mark_rule(color=INK, strokeWidth=1.2)
    layers = [line.encode(x=at_x(left), x2=_to_x(right), y=y, y2=to_y(base))]
    for places, length in ((rule.short, 5.0), (rule.long, 11.0)):
        ticks = alt.Chart(rows([{"x": place} for place in places]))
        layers.append(
            ticks.mark_rule(color=EDGE, strokeWidth=1.2).encode(x=x, y=y, y2=to_y(base + length))
        )
    digits = 0 if rule.step >= 1.0 else 1
    numerals = [{"x": place, "label": show.signed(place, digits)} for place in rule.long]
    return [*layers, text(numerals, x, at_y(base + 24.0), soft=True)]


def upright(x: alt.X, top: float, base: float) -> alt.Chart:
    """Return the full line at zero."""
    line: alt.Chart = alt.Chart(rows([{"x": 0.0}])).mark_rule(color=INK, strokeWidth=1.5)
    return line.encode(x=x, y=at_y(top), y2=to_y(base))


def marker(value: Row, mark: Mark, x: Across, y: Down, radius: float) -> alt.Chart:
    """Return a club's marker."""
    point: alt.Chart = alt.Chart(rows([value])).mark_point(
        shape=mark.path(),
        size=4.0 * radius**2,
        opacity=1.0,
        fill=SHEET if mark.is_ring else mark.colour,
        stroke=INK,
        strokeWidth=2.8 if mark.is_ring else 1.3,
        strokeJoin="round",
    )
    return point.encode(x=x, y=y)


def finished(layers: Sequence[alt.Chart], width: float, height: float) -> alt.LayerChart:
    """Return layers as one chart of exactly this size, without frame or ground."""
    return alt.LayerChart(
        layer=list(layers),
        width=width,
        height=height,
        padding=0,
        autosize=alt.AutoSizeParams(type="none"),
        background="#ffffff00",
        config=alt.Config(view=alt.ViewConfig(stroke=None)),
    )


@cache
def _register_fonts() -> None:
    import vl_convert  # noqa: PLC0415 - only paper needs it

    for folder in font_folders():
        vl_convert.register_font_directory(str(folder))


def chart_svg(chart: alt.LayerChart) -> str:
    """Draw a chart as SVG, its regular letters marked as such for the typesetter.

    Parameters
    ----------
    chart : altair.LayerChart
        Any chart of this program.
    """
    import vl_convert  # noqa: PLC0415 - only paper needs it

    _register_fonts()
    svg: str = vl_convert.vegalite_to_svg(chart.to_dict(), allowed_base_urls=[])
    return re.sub(r"<text (?![^>]*font-weight=\"600\")", f"<text {REGULAR} ", svg)
