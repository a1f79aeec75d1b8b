"""A shaft lying down: its stiffness as thickness, in per cent of another shaft's."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray
from loftwright.constants import INCH, MILLIMETRE
from loftwright.domain.profile import SEEN, MeasuredProfile
from loftwright.domain.sections import Section, extent, scale_apart
from loftwright.report.look import EDGE, HAIR, INK, SHEET
from loftwright.report.numbers import fixed
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke

WIDTH: Final = 880.0
LEFT, RIGHT = 92.0, 856.0
MIDDLE: Final = 138.0
HALF: Final = 44.0
"""Half the drawn thickness of the shaft that is compared with."""

ROOM: Final = 62.0
_STEPS: Final = (1, 2, 5, 10, 20, 50, 100)
_GRID: Final = 0.01
_NINE_IN_TEN: Final = 1.645
"""Standard errors to each side of nine chances in ten."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Curve:
    """Per cent above the other shaft along both, and half the range of nine in ten."""

    place: FloatArray
    more: FloatArray
    half: FloatArray
    seen: FloatArray


def shaft_ribbon(
    one: MeasuredProfile,
    other: MeasuredProfile,
    *,
    name: str,
    reference: str,
    under: Mapping[Section, str],
    prefix: str = "ribbon",
) -> str:
    """Draw a shaft's bending stiffness along it in per cent of another's.

    Parameters
    ----------
    one, other : MeasuredProfile
    name, reference : str
        What the two are called.
    under : mapping of Section to str
        What stands under each section, such as its difference in words.
    prefix : str
        Beginning of the picture's ids.
    """
    curve = _curve(one, other)
    shown = curve.seen > 0
    tallest = float(np.max((np.abs(curve.more) + curve.half)[shown], initial=5.0))
    thinnest = float(np.max((curve.half - curve.more)[shown], initial=1.0))
    # The two edges of the softest place never meet.
    scale = min(ROOM / tallest, (HALF - 4.0) / thinnest)
    length = float(curve.place[-1])

    parts = [
        label(LEFT, 22.0, fitted(f"Per cent of {reference}", 760.0), soft=True),
        *_ribbon(curve, scale),
        *_percent_rule(tallest, scale),
        label(LEFT, 262.0, "Butt", bold=True),
        label(RIGHT, 262.0, "Tip", anchor="end", bold=True),
        length_rule(length),
        *sections_under(length, under),
    ]
    title = f"{name} in per cent of {reference}, from the butt to the tip"
    return picture(WIDTH, 432.0, parts, title=title, prefix=prefix)


def _curve(one: MeasuredProfile, other: MeasuredProfile) -> _Curve:
    length = min(one.length, other.length)
    place = np.linspace(0.0, length, 1 + round(length / _GRID))
    logs, shares = [], []
    for profile in (one, other):
        values = np.interp(place, profile.station, profile.bending)
        logs.append(np.log(values))
        shares.append(np.interp(place, profile.station, profile.bending_error) / values)
    error = np.sqrt(shares[0] ** 2 + shares[1] ** 2 + scale_apart(one, other) ** 2)
    ratio = np.exp(logs[0] - logs[1])
    half = 100.0 * ratio * _NINE_IN_TEN * error
    seen = (shares[0] <= SEEN) & (shares[1] <= SEEN)
    return _Curve(
        place=place,
        more=100.0 * (ratio - 1.0),
        # An edge is drawn up to the first place that was not seen, whose band is no one's.
        half=np.minimum(half, np.max(half[seen], initial=0.0)),
        seen=seen.astype(np.float64),
    )


def across_of(place: float, length: float) -> float:
    """Return where a place along a shaft stands in the picture.

    Parameters
    ----------
    place, length : float
        From the butt, and of the shaft [m].
    """
    return LEFT + place / length * (RIGHT - LEFT)


def runs(flags: FloatArray | BoolArray) -> Iterator[tuple[int, int, bool]]:
    """Yield stretches of one kind as first and last index, each reaching the next one's first."""
    start = 0
    for index in range(1, len(flags) + 1):
        if index == len(flags) or flags[index] != flags[start]:
            yield start, min(index, len(flags) - 1), bool(flags[start])
            start = index


def _ribbon(curve: _Curve, scale: float) -> Iterator[str]:
    across = [across_of(one, float(curve.place[-1])) for one in curve.place]

    def edge(values: FloatArray, side: float, first: int, last: int) -> list[str]:
        return [
            f"{across[at]:.1f} {MIDDLE - side * (HALF + scale * values[at]):.1f}"
            for at in range(first, last + 1)
        ]

    for first, last, seen in runs(curve.seen):
        if not seen:
            yield from not_seen(across[first], across[last])
            continue
        top, foot = (edge(curve.more, side, first, last) for side in (1.0, -1.0))
        yield f'<path d="M{"L".join([*top, *reversed(foot)])}Z" fill="{SHEET}"/>'
        for side in (1.0, -1.0):
            upper = edge(curve.more + curve.half, side, first, last)
            lower = edge(curve.more - curve.half, side, first, last)
            yield f'<path d="M{"L".join([*upper, *reversed(lower)])}Z" fill="{HAIR}"/>'
        yield stroke(f"M{'L'.join(top)}", colour=INK, width=2.6)
        yield stroke(f"M{'L'.join(foot)}", colour=INK, width=2.6)
    for side in (1.0, -1.0):
        y = MIDDLE - side * HALF
        yield stroke(f"M{LEFT:.1f} {y:.1f}H{RIGHT:.1f}", colour=INK, width=1.2, dash="8 5")


def not_seen(left: float, right: float, words: str = "not seen") -> Iterator[str]:
    """Yield a hatched stretch of which nothing is known.

    Parameters
    ----------
    left, right : float
        In the picture's units.
    words : str
        What stands in it where there is room.
    """
    top, foot = MIDDLE - HALF - 24.0, MIDDLE + HALF + 24.0
    hatch = "".join(
        f"M{max(left, at - (foot - top)):.1f} "
        f"{foot if at - (foot - top) >= left else top + (at - left):.1f}"
        f"L{min(at, right):.1f} {top if at <= right else top + (at - right):.1f}"
        for at in np.arange(left + 8.0, right + (foot - top), 12.0)
    )
    yield stroke(hatch, colour=EDGE, width=0.8)
    yield stroke(
        f"M{left:.1f} {top:.1f}H{right:.1f}V{foot:.1f}H{left:.1f}Z", colour=EDGE, dash="4 4"
    )
    if right - left > 70.0:
        yield label((left + right) / 2.0, MIDDLE + 5.0, words, anchor="middle", halo=True)


def _percent_rule(tallest: float, scale: float) -> Iterator[str]:
    step = next((one for one in _STEPS if one * scale >= 20.0), _STEPS[-1])
    most = ceil(tallest / step)
    marks = [at * step for at in range(-most, most + 1) if abs(at * step) <= 1.2 * tallest]
    path = ""
    for more in marks:
        y = MIDDLE - HALF - scale * more
        if y > MIDDLE - 6.0:
            continue
        path += f"M{LEFT - 6:.1f} {y:.1f}h-10"
        yield label(LEFT - 20.0, y + 6.0, f"{100 + more}", anchor="end", soft=True)
    yield stroke(path, colour=EDGE)


def length_rule(length: float) -> str:
    """Return the rule under a shaft, in mm from the butt.

    Parameters
    ----------
    length : float
        Of the shaft [m].
    """

    def across(place: float) -> float:
        return across_of(place, length)

    whole = int(length / MILLIMETRE)
    ticks = [
        (across(at * MILLIMETRE), 12.0 if at % 200 == 0 else 8.0 if at % 100 == 0 else 4.0)
        for at in range(0, whole + 1, 20)
    ]
    numerals = {across(at * MILLIMETRE): f"{at}" for at in range(0, whole - 80, 200)}
    numerals[across(0.0)] = "0 mm"
    numerals[across(length)] = f"{whole}"
    return level_rule(ticks, numerals, 274.0, (LEFT, RIGHT))


def sections_under(length: float, under: Mapping[Section, str]) -> Iterator[str]:
    """Yield the sections under a shaft with what is said of each.

    Parameters
    ----------
    length : float
        Of the shaft [m].
    under : mapping of Section to str
    """
    for section in Section:
        lies = extent(section, length)
        if lies is None:
            continue
        left, right = (across_of(end, length) for end in lies)
        middle = (left + right) / 2.0
        yield stroke(f"M{left + 3:.1f} 332V324H{right - 3:.1f}V332", colour=INK, width=1.6)
        low, high = (end / MILLIMETRE for end in lies)
        inches = f"{fixed(lies[0] / INCH, 1)} to {fixed(lies[1] / INCH, 1)} in"
        name = section.value
        yield label(middle, 356.0, f"{name[:1].upper()}{name[1:]}", anchor="middle", bold=True)
        yield label(middle, 378.0, f"{low:.0f} to {high:.0f} mm", anchor="middle", soft=True)
        yield label(middle, 400.0, inches, anchor="middle", soft=True)
        yield label(middle, 424.0, under.get(section, ""), anchor="middle", bold=True)
