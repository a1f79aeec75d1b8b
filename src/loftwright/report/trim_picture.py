"""A shaft lying down before a cut: what goes, what is held, and what changes in each section."""

from collections.abc import Iterator, Mapping
from typing import Final

import numpy as np

from loftwright.constants import INCH, MILLIMETRE
from loftwright.domain.sections import Section, extent
from loftwright.domain.shaft_preview import FADED_AT, LARGE_TO, Trims
from loftwright.report.look import ACCENT, EDGE, INK, SHEET
from loftwright.report.numbers import fixed
from loftwright.report.picture_parts import label, level_rule, picture, stroke

WIDTH: Final = 880.0
_LEFT, _RIGHT = 24.0, 856.0
_MIDDLE: Final = 92.0
_BUTT, _TIP = 26.0, 15.0
"""Half the drawn thickness of a shaft at its ends: not to scale."""

_GRIP: Final = 10.5 * INCH
_TAPED: Final = 4.0
_LARGER: Final = 7.0
_SHOWN: Final = 1.0 * MILLIMETRE
"""A shorter cut is too thin to be drawn."""


def trim_picture(
    length: float,
    trims: Trims,
    clamp: float,
    under: Mapping[Section, str],
    *,
    name: str,
    prefix: str = "trim",
) -> str:
    """Draw a shaft with what would be cut off it and put on it.

    Parameters
    ----------
    length : float
        Of the shaft as it is [m].
    trims : Trims
    clamp : float
        How much of the new butt is held [m].
    under : mapping of Section to str
        What stands under each section of the shaft that is left.
    name : str
        Of the shaft.
    prefix : str
        Beginning of the picture's ids.
    """
    parts = [
        *_tube(length, trims),
        *_added(length, trims),
        *_held(length, trims.butt, clamp),
        label(_LEFT, 188.0, "Butt", bold=True),
        label(_RIGHT, 188.0, "Tip", anchor="end", bold=True),
        _rule(length),
        *_sections(length, trims, under),
    ]
    return picture(WIDTH, 362.0, parts, title=f"{name}, and what would be cut", prefix=prefix)


def _across(place: float, length: float) -> float:
    return _LEFT + place / length * (_RIGHT - _LEFT)


def _half(place: float, length: float) -> float:
    return _BUTT + (_TIP - _BUTT) * place / length


def _piece(length: float, start: float, end: float, more: float = 0.0) -> str:
    """Return the outline of a part of the shaft."""
    left, right = _across(start, length), _across(end, length)
    one, other = _half(start, length) + more, _half(end, length) + more
    return (
        f"M{left:.1f} {_MIDDLE - one:.1f}L{right:.1f} {_MIDDLE - other:.1f}"
        f"V{_MIDDLE + other:.1f}L{left:.1f} {_MIDDLE + one:.1f}Z"
    )


def _tube(length: float, trims: Trims) -> Iterator[str]:
    end = length - trims.tip
    left = _piece(length, trims.butt, end)
    yield f'<path d="{left}" fill="{SHEET}"/>' + stroke(left, colour=INK, width=2.6)
    for start, stop in ((0.0, trims.butt), (end, length)):
        if stop - start >= _SHOWN:
            gone = _piece(length, start, stop)
            yield stroke(gone, colour=ACCENT, width=1.6, dash="5 4")
            yield stroke(_cross(length, start, stop), colour=ACCENT, width=1.2)
    for cut, is_so in ((trims.butt, trims.butt > 0.0), (end, trims.tip > 0.0)):
        if is_so:
            x = _across(cut, length)
            yield stroke(
                f"M{x:.1f} {_MIDDLE - 44:.1f}V{_MIDDLE + 44:.1f}", colour=ACCENT, width=2.0
            )


def _cross(length: float, start: float, stop: float) -> str:
    left, right = _across(start, length), _across(stop, length)
    one, other = _half(start, length), _half(stop, length)
    return (
        f"M{left:.1f} {_MIDDLE - one:.1f}L{right:.1f} {_MIDDLE + other:.1f}"
        f"M{left:.1f} {_MIDDLE + one:.1f}L{right:.1f} {_MIDDLE - other:.1f}"
    )


def _added(length: float, trims: Trims) -> Iterator[str]:
    """Yield another butt's outline and tape, both drawn large."""
    if trims.butt_diameter is not None:
        edge = [
            (place, _half(place, length) + _LARGER * share)
            for place, share in ((trims.butt, 1.0), (LARGE_TO, 1.0), (FADED_AT, 0.0))
            if place >= trims.butt
        ]
        for side in (-1.0, 1.0):
            places = (
                f"{_across(place, length):.1f} {_MIDDLE + side * half:.1f}" for place, half in edge
            )
            yield stroke(f"M{'L'.join(places)}", colour=ACCENT, width=2.0)
    if trims.wraps > 0:
        end = min(trims.butt + _GRIP, length - trims.tip)
        more = _TAPED + (_LARGER if trims.butt_diameter is not None else 0.0)
        for at in np.arange(trims.butt, end, 15.0 * MILLIMETRE):
            x, half = _across(float(at), length), _half(float(at), length) + more
            yield stroke(f"M{x:.1f} {_MIDDLE - half:.1f}l9 {2 * half:.1f}", width=1.0)


def _held(length: float, butt: float, clamp: float) -> Iterator[str]:
    left, right = _across(butt, length), _across(min(butt + clamp, length), length)
    yield stroke(f"M{left:.1f} 38V30H{right:.1f}V38", colour=EDGE, width=1.6)
    yield label(left, 22.0, "held for the frequency", soft=True)


def _rule(length: float) -> str:
    whole = int(length / MILLIMETRE)

    def across(place: float) -> float:
        return _across(place * MILLIMETRE, length)

    ticks = [
        (across(at), 12.0 if at % 200 == 0 else 8.0 if at % 100 == 0 else 4.0)
        for at in range(0, whole + 1, 20)
    ]
    numerals = {across(at): f"{at}" for at in range(200, whole - 80, 200)}
    return level_rule(ticks, numerals, 200.0, (_LEFT, _RIGHT)) + (
        label(_LEFT, 229.0, "0 mm", soft=True)
        + label(_RIGHT, 229.0, f"{whole}", anchor="end", soft=True)
    )


def _sections(length: float, trims: Trims, under: Mapping[Section, str]) -> Iterator[str]:
    left_over = length - trims.tip - trims.butt
    for section in Section:
        lies = extent(section, left_over)
        if lies is None:
            continue
        left, right = (_across(trims.butt + end, length) for end in lies)
        middle = (left + right) / 2.0
        yield stroke(f"M{left + 3:.1f} 262V254H{right - 3:.1f}V262", colour=INK, width=1.6)
        low, high = (end / MILLIMETRE for end in lies)
        inches = f"{fixed(lies[0] / INCH, 1)} to {fixed(lies[1] / INCH, 1)} in"
        name = section.value
        yield label(middle, 286.0, f"{name[:1].upper()}{name[1:]}", anchor="middle", bold=True)
        yield label(middle, 308.0, f"{low:.0f} to {high:.0f} mm", anchor="middle", soft=True)
        yield label(middle, 330.0, inches, anchor="middle", soft=True)
        yield label(middle, 354.0, under.get(section, ""), anchor="middle", bold=True)
