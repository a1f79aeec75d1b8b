"""Best estimates with their ranges, one row each, over one graduated rule."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.graduated import graduate
from loftwright.report.look import ACCENT, HAIR, INK, SHEET
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 776.0

_NAMES = 124.0
_BARE_NAMES = 206.0
_LEFT, _RIGHT = 216.0, 686.0
_TOP = 16.0
_ROW = 40.0
_FOOT = 44.0
_RADIUS = 7.0
_END = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeOf:
    """One row, in the rule's own unit.

    Attributes
    ----------
    name : str
    best, low, high : float
    sure : bool
        Whether the marker is filled; hollow says that it was not read but follows from other
        numbers.
    below, above : str
        What lies to the left and to the right, in words beside the rule.
    """

    name: str
    best: float
    low: float
    high: float
    sure: bool = True
    below: str = ""
    above: str = ""


def range_rows(
    rows: Sequence[RangeOf],
    *,
    title: str,
    unit: str = "",
    zero: float | None = None,
    prefix: str = "ranges",
    show: Show = TRADE,
) -> str:
    """Draw ranges over one rule.

    Parameters
    ----------
    rows : sequence of RangeOf
        At least one, from the top.
    title : str
    unit : str
        Behind every numeral, as a degree's sign.
    zero : float, optional
        Where a full line stands.
    prefix : str
        Beginning of the picture's ids.
    show : Show
        Whose decimal mark the numerals have.
    """
    ends = [edge for row in rows for edge in (row.low, row.high)]
    ends += [] if zero is None else [zero]
    low, high = min(ends), max(ends)
    margin = 0.02 * (high - low) + 1e-9
    rule = graduate(low - margin, high + margin, wanted=6)
    base = _TOP + _ROW * len(rows) + 4.0

    def x(value: float) -> float:
        return _LEFT + (value - rule.low) / (rule.high - rule.low) * (_RIGHT - _LEFT)

    parts = []
    if zero is not None:
        parts.append(stroke(f"M{x(zero):.1f} {_TOP:.1f}V{base:.1f}", colour=INK, width=1.6))
    for place, row in enumerate(rows):
        y = _TOP + _ROW * (place + 0.5)
        parts += _row(row, y, (x(row.low), x(row.best), x(row.high)))
    ticks = [(x(at), 11.0) for at in rule.long] + [(x(at), 7.0) for at in rule.short]
    digits = 0 if rule.step >= 1.0 else 1 if rule.step >= 0.1 else 2
    numerals = {x(at): f"{show.number(at, digits)}{unit}" for at in rule.long}
    parts.append(level_rule(ticks, numerals, base, (_LEFT, _RIGHT)))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


def _row(row: RangeOf, y: float, at: tuple[float, float, float]) -> Iterator[str]:
    low, best, high = at
    yield label(0.0, y + 6.0, fitted(row.name, _NAMES if row.below else _BARE_NAMES))
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    ends = "".join(f"M{end:.1f} {y - _END:.1f}v{2.0 * _END:g}" for end in (low, high))
    yield stroke(f"M{low:.1f} {y:.1f}H{high:.1f}{ends}", colour=INK, width=1.8)
    yield (
        f'<circle cx="{best:.1f}" cy="{y:.1f}" r="{_RADIUS}" '
        f'fill="{ACCENT if row.sure else SHEET}" stroke="{INK}" stroke-width="1.8"/>'
    )
    if row.below:
        yield label(_LEFT - 10.0, y + 6.0, row.below, anchor="end", soft=True)
    if row.above:
        yield label(_RIGHT + 10.0, y + 6.0, row.above, soft=True)
