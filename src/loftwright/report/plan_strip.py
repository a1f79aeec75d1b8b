"""A visit before its first ball: its shuffled sets along a rule of minutes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import Final

from loftwright.report.look import EDGE
from loftwright.report.marks import Mark
from loftwright.report.picture_parts import club_shape, label, level_rule, picture, stroke

WIDTH: Final = 880.0
_ENDS = (12.0, 866.0)
_MARKS = 34.0
_BASE = 76.0
_LEAST = 6.0
_LARGEST = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StripSet:
    """Some balls with one club.

    Attributes
    ----------
    start, end : float
        Minutes from now.
    done : bool
        Whether its balls were hit.
    in_hand : bool
        Whether it is being hit.
    """

    club: str
    mark: Mark
    balls: int
    start: float
    end: float
    done: bool = False
    in_hand: bool = False


def plan_strip(
    sets: Sequence[StripSet], *, before: float, whole: float, prefix: str = "plan"
) -> str:
    """Draw the sets of a plan in their order, each as its club's shape over its minutes.

    Parameters
    ----------
    sets : sequence of StripSet
    before : float
        Minutes until the first ball that counts.
    whole : float
        Minutes until the golfer goes.
    prefix : str
        Beginning of the picture's ids.
    """
    end = max(whole, 10.0)
    scale = (_ENDS[1] - _ENDS[0]) / end
    parts = [_level(sets, scale)]
    starts = [one.start for one in sets]
    apart = [after - before for before, after in pairwise(starts)]
    narrow = min(apart, default=end) * scale
    radius = max(min(0.4 * narrow, _LARGEST), _LEAST)
    parts += [_set(one, scale, radius, narrow) for one in sets]
    if before > 0.0:
        parts += _ahead(before, scale)
    step = 10 if end > 30.0 else 5
    ticks = [
        (_ENDS[0] + minute * scale, 12.0 if minute % step == 0 else 4.0)
        for minute in range(ceil(end) + 1)
        if minute <= end
    ]
    last = max(minute for minute in range(0, ceil(end) + 1, step) if minute <= end)
    numerals = {
        _ENDS[0] + minute * scale: f"{minute}" + (" min" if minute == last else "")
        for minute in range(0, last + 1, step)
    }
    parts.append(level_rule(ticks, numerals, _BASE, _ENDS))
    balls = sum(one.balls for one in sets)
    title = f"{len(sets)} sets, {balls} balls, {whole:.0f} minutes, in shuffled order"
    return picture(WIDTH, _BASE + 40.0, parts, title=title, prefix=prefix)


def _level(sets: Sequence[StripSet], scale: float) -> str:
    if not sets:
        return ""
    left, right = (_ENDS[0] + minute * scale for minute in (sets[0].start, sets[-1].end))
    return stroke(f"M{left:.1f} {_MARKS:.1f}H{right:.1f}", width=1.0)


def _set(one: StripSet, scale: float, radius: float, narrow: float) -> str:
    middle = _ENDS[0] + 0.5 * (one.start + one.end) * scale
    state = ", hit" if one.done else ", in hand" if one.in_hand else ""
    title = f"{one.club}, {one.balls} balls{state}"
    shape = club_shape(one.mark, middle, _MARKS, radius, past=one.done, title=title)
    if one.in_hand:
        # A stroke under the shape, so that it does not rest on the shape's own colour.
        line = f"M{middle - radius:.1f} {_MARKS + radius + 4.0:.1f}h{2.0 * radius:.1f}"
        shape += stroke(line, width=2.4)
    if narrow < 14.0:
        return shape
    return shape + label(middle, _MARKS + 26.0, f"{one.balls}", anchor="middle", soft=True)


def _ahead(before: float, scale: float) -> list[str]:
    """Draw what comes before the first ball that counts: a bracket, in words if they fit."""
    right = _ENDS[0] + before * scale
    bracket = f"M{_ENDS[0]:.1f} {_MARKS + 6:.1f}v-12H{right - 6.0:.1f}v12"
    parts = [stroke(bracket, colour=EDGE, width=1.4)]
    words = "talk, warm-up, own club" if before * scale > 210.0 else "warm-up"
    if before * scale > 80.0:
        parts.append(label(_ENDS[0] + 8.0, _MARKS + 14.0, words, soft=True))
    return parts
