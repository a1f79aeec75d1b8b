"""Shafts hung along a steel rule by their weight, each with its name."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from loftwright.constants import GRAM
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.picture_parts import (
    fitted,
    label,
    level_rule,
    picture,
    stroke,
    text_width,
)

WIDTH: Final = 880.0
_ENDS = (24.0, 856.0)
_LINE = 24.0
_TOP = 20.0
_MOST_ROWS: Final = 9
_NAME_ROOM = 230.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HungShaft:
    """One shaft on the rule.

    Attributes
    ----------
    mass : float
        Weighed here, else as printed [kg].
    weighed : bool
        A printed weight hangs on a dashed line.
    """

    name: str
    mass: float
    weighed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hung:
    shaft: HungShaft
    x: float
    row: int
    leftwards: bool


def rack_picture(shafts: Sequence[HungShaft], *, prefix: str = "rack") -> str:
    """Draw shafts by weight along a rule in grams; bare without one.

    Parameters
    ----------
    shafts : sequence of HungShaft
    prefix : str
        Beginning of the picture's ids.
    """
    low, high = _bounds(shafts)
    ordered = sorted(shafts, key=lambda one: one.mass)
    hung, left_out = _hung(ordered, low, high)
    rows = 1 + max((one.row for one in hung), default=0)
    base = _TOP + rows * _LINE + 6.0
    parts = [part for one in hung for part in _drawn(one, base)]
    step = 5 if high - low <= 60 else 10
    ticks = [
        (_place(grams, low, high), 12.0 if grams % step == 0 else 4.0)
        for grams in range(low, high + 1)
    ]
    numerals = {
        _place(grams, low, high): f"{grams}" + (" g" if grams == high else "")
        for grams in range(low, high + 1, step)
    }
    parts.append(level_rule(ticks, numerals, base, _ENDS))
    height = base + 40.0
    if left_out:
        parts.append(
            label(_ENDS[0], height + 14.0, f"and {left_out} more in the table", soft=True)
        )
        height += 24.0
    title = f"{len(shafts)} shafts by weight, {low} to {high} g" if shafts else "A bare rule"
    return picture(WIDTH, height, parts, title=title, prefix=prefix)


def _bounds(shafts: Sequence[HungShaft]) -> tuple[int, int]:
    grams = [one.mass / GRAM for one in shafts] or [50.0, 70.0]
    low, high = 5 * floor((min(grams) - 2.0) / 5.0), 5 * ceil((max(grams) + 2.0) / 5.0)
    return (low, high) if high - low >= 20 else (low - 5, high + 5)


def _place(grams: float, low: int, high: int) -> float:
    return _ENDS[0] + (grams - low) / (high - low) * (_ENDS[1] - _ENDS[0])


def _hung(ordered: Sequence[HungShaft], low: int, high: int) -> tuple[list[_Hung], int]:
    """Hang each shaft in the first row where its name clears its neighbours' names."""
    ends = [float("-inf")] * _MOST_ROWS
    hung: list[_Hung] = []
    for shaft in ordered:
        x = _place(shaft.mass / GRAM, low, high)
        wide = min(text_width(shaft.name), _NAME_ROOM) + 22.0
        leftwards = x + wide > WIDTH
        begin, end = (x - wide, x + 8.0) if leftwards else (x - 8.0, x + wide)
        row = next((index for index, taken in enumerate(ends) if taken <= begin), None)
        if row is None:
            continue
        ends[row] = end
        hung.append(_Hung(shaft=shaft, x=x, row=row, leftwards=leftwards))
    return hung, len(ordered) - len(hung)


def _drawn(one: _Hung, base: float) -> list[str]:
    y = _TOP + one.row * _LINE
    line = stroke(
        f"M{one.x:.1f} {y:.1f}V{base:.1f}",
        colour=INK if one.shaft.weighed else EDGE,
        width=1.4,
        dash="" if one.shaft.weighed else "2 5",
    )
    dot = (
        f'<circle cx="{one.x:.1f}" cy="{y:.1f}" r="3.4" fill="{INK}"/>'
        if one.shaft.weighed
        else stroke(f"M{one.x - 5:.1f} {y:.1f}h10", colour=INK_2, width=2.0)
    )
    name = label(
        one.x + (-10.0 if one.leftwards else 10.0),
        y + 5.0,
        fitted(one.shaft.name, _NAME_ROOM),
        anchor="end" if one.leftwards else "start",
        halo=True,
    )
    return [line, dot, name]
