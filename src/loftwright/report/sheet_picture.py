"""A shaft lying down as its sheet cuts it: what goes, what stays, what is bonded."""

from collections.abc import Iterator
from typing import Final

from loftwright.constants import INCH, MILLIMETRE
from loftwright.physics.build.club import Cuts
from loftwright.report.look import EDGE, INK, SHEET
from loftwright.report.picture_parts import label, level_rule, picture, stroke
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_words import cut_length

WIDTH: Final = 880.0
HEIGHT: Final = 214.0
_LEFT, _RIGHT = 24.0, 856.0
_MIDDLE: Final = 84.0
_BUTT, _TIP = 22.0, 12.0
"""Half the drawn thickness of a shaft at its ends: not to scale."""

_RULE: Final = 150.0
_LEAST: Final = 0.5 * MILLIMETRE
"""A shorter cut is not drawn."""


def cut_picture(
    cuts: Cuts, show: Show, *, kept: float | None = None, insertion: float | None = None
) -> str:
    """Draw a raw shaft with its cuts, the butt to the left, counted from the raw butt.

    Parameters
    ----------
    cuts : Cuts
        As the sheet solves them.
    show : Show
    kept : float, optional
        What stays instead, where it was cut otherwise [m].
    insertion : float, optional
        How much of the tip sits in the hosel [m].
    """
    length = cuts.raw
    end = length - cuts.tip_trim
    start = end - (cuts.kept if kept is None else kept)
    parts = [
        *_tube(length, start, end),
        *_told(length, start, end, show),
        *_bonded(length, end, insertion, show),
        _rule(length, show),
    ]
    return picture(WIDTH, HEIGHT, parts, title="The shaft with its cuts", prefix="cuts")


def _across(place: float, length: float) -> float:
    return _LEFT + place / length * (_RIGHT - _LEFT)


def _half(place: float, length: float) -> float:
    return _BUTT + (_TIP - _BUTT) * place / length


def _outline(length: float, start: float, end: float) -> str:
    left, right = _across(start, length), _across(end, length)
    one, other = _half(start, length), _half(end, length)
    return (
        f"M{left:.1f} {_MIDDLE - one:.1f}L{right:.1f} {_MIDDLE - other:.1f}"
        f"V{_MIDDLE + other:.1f}L{left:.1f} {_MIDDLE + one:.1f}Z"
    )


def _tube(length: float, start: float, end: float) -> Iterator[str]:
    stays = _outline(length, start, end)
    yield f'<path d="{stays}" fill="{SHEET}"/>' + stroke(stays, colour=INK, width=2.6)
    for low, high in ((0.0, start), (end, length)):
        if high - low >= _LEAST:
            left, right = _across(low, length), _across(high, length)
            one, other = _half(low, length), _half(high, length)
            crossed = (
                f"M{left:.1f} {_MIDDLE - one:.1f}L{right:.1f} {_MIDDLE + other:.1f}"
                f"M{left:.1f} {_MIDDLE + one:.1f}L{right:.1f} {_MIDDLE - other:.1f}"
            )
            yield stroke(_outline(length, low, high), colour=INK, width=1.4, dash="5 4")
            yield stroke(crossed, colour=INK, width=1.0)
    for cut, there in ((start, start >= _LEAST), (end, length - end >= _LEAST)):
        if there:
            x = _across(cut, length)
            yield stroke(f"M{x:.1f} {_MIDDLE - 40:.1f}V{_MIDDLE + 40:.1f}", colour=INK, width=2.0)


def _told(length: float, start: float, end: float, show: Show) -> Iterator[str]:
    middle = (_across(start, length) + _across(end, length)) / 2.0
    yield label(
        middle, _MIDDLE + 6.0, f"{cut_length(end - start, show)} stays", anchor="middle", bold=True
    )
    butt = cut_length(start, show) if start >= _LEAST else "nothing"
    tip = cut_length(length - end, show) if length - end >= _LEAST else "nothing"
    yield label(_LEFT, 26.0, f"Off the butt: {butt}", bold=True)
    yield label(_RIGHT, 26.0, f"Off the tip: {tip}", anchor="end", bold=True)


def _bonded(length: float, end: float, insertion: float | None, show: Show) -> Iterator[str]:
    if insertion is None or not 0.0 < insertion < end:
        return
    left, right = _across(end - insertion, length), _across(end, length)
    yield stroke(f"M{left:.1f} 112V120H{right:.1f}V112", colour=EDGE, width=1.6)
    yield label(
        left - 8.0, 124.0, f"bonded {cut_length(insertion, show)}", anchor="end", soft=True
    )


def _rule(length: float, show: Show) -> str:
    metric = show.units == "metric"
    unit, step, long, middle = (MILLIMETRE, 20, 200, 100) if metric else (INCH, 1, 10, 5)
    whole = int(length / unit)
    ticks = [
        (
            _across(at * unit, length),
            12.0 if at % long == 0 else 8.0 if at % middle == 0 else 4.0,
        )
        for at in range(0, whole + 1, step)
    ]
    last = whole - 8 * long // 10
    numerals = {_across(at * unit, length): f"{at}" for at in range(long, last, long)}
    name = show.unit("length").name
    ends = label(_LEFT, _RULE + 29.0, f"0 {name}", soft=True) + label(
        _RIGHT, _RULE + 29.0, f"{cut_length(length, show)} raw", anchor="end", soft=True
    )
    return level_rule(ticks, numerals, _RULE, (_LEFT, _RIGHT)) + ends
