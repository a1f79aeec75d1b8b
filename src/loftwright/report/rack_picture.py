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
    """Samples of one name in one row, from the lightest."""

    name: str
    samples: tuple[tuple[float, bool], ...]
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
    parts = [part for draw in (_lines, _dots, _names) for one in hung for part in draw(one, base)]
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
    """Hang what has one name in the first row where it clears its neighbours' names."""
    ends = [float("-inf")] * _MOST_ROWS
    hung: list[_Hung] = []
    left_out = 0
    named: dict[str, list[HungShaft]] = {}
    for shaft in ordered:
        named.setdefault(shaft.name, []).append(shaft)
    for name, shafts in named.items():
        samples = tuple((_place(one.mass / GRAM, low, high), one.weighed) for one in shafts)
        told = name if len(samples) == 1 else f"{name}, {len(samples)} samples"
        wide = min(text_width(told), _NAME_ROOM) + 22.0
        first, last = samples[0][0], samples[-1][0]
        leftwards = last + wide > WIDTH
        begin, end = (first - wide, last + 8.0) if leftwards else (first - 8.0, last + wide)
        row = next((index for index, taken in enumerate(ends) if taken <= begin), None)
        if row is None:
            left_out += len(shafts)
            continue
        ends[row] = end
        hung.append(_Hung(name=told, samples=samples, row=row, leftwards=leftwards))
    return hung, left_out


def _height(one: _Hung) -> float:
    return _TOP + one.row * _LINE


def _lines(one: _Hung, base: float) -> list[str]:
    return [
        stroke(
            f"M{x:.1f} {_height(one):.1f}V{base:.1f}",
            colour=INK if weighed else EDGE,
            width=1.4,
            dash="" if weighed else "2 5",
        )
        for x, weighed in one.samples
    ]


def _dots(one: _Hung, _: float) -> list[str]:
    y = _height(one)
    return [
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.4" fill="{INK}"/>'
        if weighed
        else stroke(f"M{x - 5:.1f} {y:.1f}h10", colour=INK_2, width=2.0)
        for x, weighed in one.samples
    ]


def _names(one: _Hung, _: float) -> list[str]:
    x = one.samples[0][0] - 10.0 if one.leftwards else one.samples[-1][0] + 10.0
    name = label(
        x,
        _height(one) + 5.0,
        fitted(one.name, _NAME_ROOM),
        anchor="end" if one.leftwards else "start",
        halo=True,
    )
    return [name]
