"""The stepped bar that carries one plain average to the other, part by part."""

from collections.abc import Iterator, Sequence
from typing import Final

from loftwright.report.graduated import Rule, graduate
from loftwright.report.look import ACCENT, EDGE, HAIR, INK, SHEET
from loftwright.report.picture_parts import (
    fitted,
    label,
    level_rule,
    picture,
    stroke,
    text_width,
)
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0

_NAMES = 150.0
_RIGHT = 856.0
_TOP = 34.0
_ROW = 38.0
_BAR = 22.0
_CLUB = "club"


def stepped_bar(
    parts: Sequence[tuple[str, float]],
    *,
    a: str,
    b: str,
    unit: str,
    prefix: str = "parts",
    show: Show = TRADE,
) -> str:
    """Draw the parts of a difference, each beginning where the last ended.

    Parameters
    ----------
    parts : sequence of (str, float)
        Name and size of each as shown, which add up as shown.
    a, b : str
        The clubs; the difference is a less b.
    unit : str
        Of the sizes, as it is printed.
    prefix : str
        Beginning of the picture's ids.
    show : Show
        The decimal mark of the figures.
    """
    edges = [0.0]
    for _, size in parts:
        edges.append(round(edges[-1] + size, 6))
    rule = _rule(edges)
    base = _TOP + _ROW * (len(parts) + 1) + 10.0
    drawn = [*_heads(a, b, rule, base)]
    for index, (name, size) in enumerate(parts):
        y = _TOP + _ROW * (index + 0.5)
        own = name.lower() == _CLUB
        drawn += _step(rule, (edges[index], size), y, ACCENT if own else EDGE)
        x = _x(rule, edges[index + 1])
        drawn.append(stroke(f"M{x:.1f} {y:.1f}v{_ROW}", width=1.1))
        drawn.append(label(0.0, y + 6.0, name.capitalize(), bold=own))
        drawn += _figure(rule, (edges[index], size), y, show)
    y = _TOP + _ROW * (len(parts) + 0.5) + 4.0
    drawn.append(stroke(f"M0 {y - 0.5 * _ROW:.1f}H{_RIGHT}", colour=HAIR, width=1.0))
    drawn += _step(rule, (0.0, edges[-1]), y, SHEET)
    drawn.append(label(0.0, y + 6.0, "Average", bold=True))
    drawn += _figure(rule, (0.0, edges[-1]), y, show)
    drawn.append(_steel(rule, base, unit, show))
    title = f"Why the averages of {a} and {b} differ, part by part"
    return picture(WIDTH, base + 44.0, drawn, title=title, prefix=prefix)


def _rule(edges: Sequence[float]) -> Rule:
    low, high = min(edges), max(edges)
    pad = 0.16 * max(high - low, 1.0)
    return graduate(low - pad, high + pad)


def _x(rule: Rule, value: float) -> float:
    return _NAMES + (value - rule.low) / (rule.high - rule.low) * (_RIGHT - _NAMES)


def _heads(a: str, b: str, rule: Rule, base: float) -> Iterator[str]:
    """Say which way is which club's, beside the line at zero where both have room."""
    x = _x(rule, 0.0)
    yield stroke(f"M{x:.1f} {_TOP - 12:.1f}V{base:.1f}", colour=INK, width=1.5)
    left, right = f"← for {b}", f"for {a} →"
    half = 0.5 * (_RIGHT - _NAMES) - 12.0
    left, right = fitted(left, half), fitted(right, half)
    inner = max(x - 8.0, _NAMES + text_width(left))
    inner = min(inner, _RIGHT - text_width(right) - 16.0)
    yield label(inner, 16.0, left, anchor="end", soft=True)
    yield label(inner + 16.0, 16.0, right, soft=True)


def _step(rule: Rule, step: tuple[float, float], y: float, fill: str) -> Iterator[str]:
    start, size = step
    left, right = sorted((_x(rule, start), _x(rule, start + size)))
    edge = INK if fill == SHEET else fill
    yield (
        f'<rect x="{left:.1f}" y="{y - 0.5 * _BAR:.1f}" width="{max(right - left, 0.8):.1f}" '
        f'height="{_BAR}" fill="{fill}" stroke="{edge}" stroke-width="1.4"/>'
    )


def _figure(rule: Rule, step: tuple[float, float], y: float, show: Show) -> Iterator[str]:
    """Write a figure where its bar ends, or at its start where the line at zero is in the way."""
    start, size = step
    words = show.signed(size)
    room, zero = text_width(words, bold=True) + 10.0, _x(rule, 0.0)
    end, right = _x(rule, start + size), size >= 0.0
    if right and end < zero < end + room:
        right, end = False, _x(rule, start)
    elif not right and end - room < zero < end:
        right, end = True, _x(rule, start)
    at = end + 9.0 if right else end - 9.0
    yield label(at, y + 6.0, words, anchor="start" if right else "end", bold=True, halo=True)


def _steel(rule: Rule, base: float, unit: str, show: Show) -> str:
    ticks = [(_x(rule, place), 5.0) for place in rule.short]
    ticks += [(_x(rule, place), 12.0) for place in rule.long]
    digits = 0 if rule.step >= 1.0 else 1
    numerals = {
        _x(rule, place): f"0 {unit}" if place == 0.0 else show.signed(place, digits)
        for place in rule.long
    }
    return level_rule(ticks, numerals, base, (_NAMES, _RIGHT))
