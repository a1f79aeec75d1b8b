"""Charts of a comparison, specified once; drawn as SVG for paper and publishing."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import altair as alt

from loftwright.evidence.result import Parts
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
    to_y,
    upright,
)
from loftwright.report.differences import rounded_parts
from loftwright.report.graduated import RangeRow, Rule, graduate
from loftwright.report.look import ACCENT, EDGE, INK, SHEET
from loftwright.report.marks import OWN_MARK, Mark
from loftwright.report.pencil import LETTER
from loftwright.report.runs import shortened
from loftwright.report.screen_numbers import TRADE, Show


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartSize:
    """Sizes of a chart in its own units: all of it, a row, the space for names."""

    width: float
    row: float
    names: float


RANGES_SIZE = ChartSize(width=330.0, row=33.0, names=150.0)
PARTS_SIZE = ChartSize(width=380.0, row=25.0, names=84.0)
_HEAD = 30.0
_MARGIN = 16.0
_FIGURE = 46.0
"""Width of a figure at the end of a bar with the space before it, in the picture's units."""


def ranges_chart(
    told: Sequence[RangeRow],
    marks: Mapping[str, Mark],
    *,
    zero: str,
    zero_is_own: bool,
    size: ChartSize = RANGES_SIZE,
    show: Show = TRADE,
) -> alt.LayerChart:
    """Specify differences with their ranges over a graduated rule.

    Parameters
    ----------
    told : sequence of RangeRow
        In ranked order, the club that all are taken against left out.
    marks : mapping of str to Mark
        Shapes and colours by club.
    zero : str
        What zero is, written at the head of its line.
    zero_is_own : bool
        Whether zero is the golfer's own club, which is drawn as a ring.
    size : ChartSize
        Sizes in the picture's units.
    show : Show
        The decimal mark of its numerals.
    """
    rule = _covering([end for row in told for end in row.most])
    right = size.width - _MARGIN
    base = _HEAD + size.row * len(told) + 4.0
    height = base + RULE_HEIGHT
    x, y = across(rule, size.names, right), down(height)
    head = at_y(13.0)
    layers = [
        upright(x, 22.0, base),
        *steel_rule(rule, x, base, (size.names, right), show),
        *_zero_head(zero, rule, x, head, size, ring=zero_is_own),
    ]
    for index, row in enumerate(told):
        place = _HEAD + size.row * (index + 0.5)
        layers.extend(_range_row(row, marks[row.club], place, x, y))
    return finished(layers, size.width, height)


def _covering(values: Sequence[float]) -> Rule:
    low, high = min([0.0, *values]), max([0.0, *values])
    return graduate(low, high if high > low else low + 1.0)


def _zero_head(
    zero: str, rule: Rule, x: alt.X, head: alt.YValue, size: ChartSize, *, ring: bool
) -> Iterator[alt.Chart]:
    """Name zero on the side of its line that has more room, cut to that room."""
    right = rule.high >= -rule.low
    share = max(rule.high, -rule.low) / (rule.high - rule.low)
    shift = 13.0 if ring else 4.0
    room = share * (size.width - _MARGIN - size.names) - shift
    label = {"x": 0.0, "label": shortened(zero, max(4, int(room / LETTER)))}
    if right:
        yield text([label], x, head, align="left", dx=shift, soft=True)
    else:
        yield text([label], x, head, align="right", dx=-shift, soft=True)
    if ring:
        yield marker({"x": 0.0}, OWN_MARK, x, head, 7.5)


def _range_row(row: RangeRow, mark: Mark, place: float, x: alt.X, y: alt.Y) -> Iterator[alt.Chart]:
    most = alt.Chart(rows([{"x": row.most[0], "x2": row.most[1], "y": place}]))
    dash = [4, 3] if row.dashed else [1, 0]
    yield most.mark_rule(color=INK, strokeWidth=1.6, strokeDash=dash).encode(x=x, x2="x2:Q", y=y)
    if not row.dashed:
        half = alt.Chart(rows([{"x": row.half[0], "x2": row.half[1], "y": place}]))
        band = half.mark_bar(height=8.0, color=mark.colour, stroke=INK, strokeWidth=0.7)
        yield band.encode(x=x, x2="x2:Q", y=y)
        yield marker({"x": row.mean, "y": place}, mark, x, y, 8.5)
    yield marker({"y": place}, mark, at_x(10.0), y, 9.0)
    name = {"y": place, "label": row.label}
    yield text([name], at_x(27.0), y, align="left", bold=True)


def parts_chart(
    parts: Parts, *, a: str, b: str, size: ChartSize = PARTS_SIZE, show: Show = TRADE
) -> alt.LayerChart:
    """Specify the stepped bar that carries one average to the other, part by part.

    Parameters
    ----------
    parts : Parts
        Of the difference a minus b.
    a, b : str
        The two clubs as they are printed.
    size : ChartSize
        Sizes in the picture's units.
    show : Show
        The unit and the decimal mark of its figures.
    """
    shown = rounded_parts(parts, show.unit("distance").scale)
    edges = [0.0]
    for _, value in shown:
        edges.append(round(edges[-1] + value, 1))
    pad = 0.16 * max(max(edges) - min(edges), 1.0)
    rule = graduate(min(edges) - pad, max(edges) + pad)
    right = size.width - _MARGIN
    base = _HEAD + size.row * (len(shown) + 1) + 8.0
    height = base + RULE_HEIGHT
    x, y = across(rule, size.names, right), down(height)
    unit = (rule.high - rule.low) / (right - size.names)
    bars: list[alt.Chart] = []
    layers = list(_heads(a, b, size))
    for index, (name, value) in enumerate(shown):
        place = _HEAD + size.row * (index + 0.5)
        fill = ACCENT if name == "Club" else EDGE
        bars.append(_bar((edges[index], value), place, (x, y), fill, size.row))
        bars.append(_link(edges[index + 1], place, x, size.row))
        told = (edges[index], value)
        layers.extend(_figures(name, told, place, (x, y), unit, show, bold=fill == ACCENT))
    place = _HEAD + size.row * (len(shown) + 0.5) + 4.0
    bars.append(_bar((0.0, edges[-1]), place, (x, y), SHEET, size.row))
    layers.extend(_figures("Average", (0.0, edges[-1]), place, (x, y), unit, show, bold=True))
    ground = [*bars, upright(x, 20.0, base)]
    ground += steel_rule(rule, x, base, (size.names, right), show)
    return finished([*ground, *layers], size.width, height)


def _heads(a: str, b: str, size: ChartSize) -> Iterator[alt.Chart]:
    y = at_y(9.0)
    for_b, for_a = {"label": f"← for {b}"}, {"label": f"for {a} →"}
    yield text([for_b], at_x(size.names), y, align="left", soft=True)
    yield text([for_a], at_x(size.width), y, align="right", soft=True)


def _bar(
    step: tuple[float, float], place: float, at: tuple[alt.X, alt.Y], fill: str, row: float
) -> alt.Chart:
    start, value = step
    x, y = at
    bar: alt.Chart = alt.Chart(rows([{"x": start, "x2": start + value, "y": place}])).mark_bar(
        height=0.62 * row, color=fill, stroke=INK if fill == SHEET else fill, strokeWidth=1.2
    )
    return bar.encode(x=x, x2="x2:Q", y=y)


def _link(edge: float, place: float, x: alt.X, row: float) -> alt.Chart:
    """Carry the end of one bar to the beginning of the next."""
    line: alt.Chart = alt.Chart(rows([{"x": edge}])).mark_rule(color=EDGE, strokeWidth=1.0)
    return line.encode(x=x, y=at_y(place), y2=to_y(place + row))


def _figures(
    name: str,
    step: tuple[float, float],
    place: float,
    at: tuple[alt.X, alt.Y],
    per_unit: float,
    show: Show,
    *,
    bold: bool,
) -> Iterator[alt.Chart]:
    """Write the part's name at the edge and its figure where the bar ends."""
    start, value = step
    x, y = at
    # A figure stands at the end of its bar, unless it would stand on the line at zero.
    end, room = start + value, _FIGURE * per_unit
    right = value >= 0.0
    if right and end < 0.0 < end + room:
        right, end = False, start
    elif not right and end - room < 0.0 < end:
        right, end = True, start
    figure = [{"x": end, "y": place, "label": show.signed(value)}]
    if right:
        yield text(figure, x, y, align="left", dx=6.0, bold=True)
    else:
        yield text(figure, x, y, align="right", dx=-6.0, bold=True)
    yield text([{"y": place, "label": name}], at_x(0.0), y, align="left", bold=bold)
