"""Every reading of a finished club on one rule, counted in its own tolerance."""

from collections.abc import Iterator
from typing import Final

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import TargetLine
from loftwright.domain.verdict import Fit
from loftwright.report.build_words import CHECKED_WORDS
from loftwright.report.final_words import FIT_WORDS, apart, sentence
from loftwright.report.look import EDGE, HAIR, INK
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0
REACH: Final = 3.0
"""Tolerances to either side of the target; what lies beyond is an arrow at the edge."""

_NAMES: Final = 220.0
_RIGHT: Final = 740.0
_TOP: Final = 34.0
_ROW: Final = 34.0


def final_picture(checked: CheckedBuild, show: Show = TRADE, *, prefix: str = "final") -> str:
    """Draw every reading with its range between the ends of its tolerance.

    Parameters
    ----------
    checked : CheckedBuild
        With a target line at least.
    show : Show
    prefix : str
        Beginning of the picture's ids.
    """
    lines = checked.targets
    base = _TOP + _ROW * len(lines) + 4.0
    parts = [*_frame(base)]
    for index, line in enumerate(lines):
        parts += _line(line, _TOP + _ROW * (index + 0.5), show)
    said = "; ".join(f"{CHECKED_WORDS[one.checked]} {FIT_WORDS[one.fit]}" for one in lines)
    title = f"Readings between the ends of their tolerances: {said}"
    return picture(WIDTH, base + 40.0, parts, title=title, prefix=prefix)


def _x(tolerances: float) -> float:
    middle, half = 0.5 * (_NAMES + _RIGHT), 0.5 * (_RIGHT - _NAMES)
    return middle + half * max(-REACH, min(REACH, tolerances)) / REACH


def _frame(base: float) -> Iterator[str]:
    for place in (-1.0, 1.0):
        yield stroke(f"M{_x(place):.1f} {_TOP - 10.0:.1f}V{base:.1f}", colour=EDGE, dash="4 4")
    yield stroke(f"M{_x(0.0):.1f} {_TOP - 10.0:.1f}V{base:.1f}", colour=INK, width=1.5)
    yield label(_x(0.0), _TOP - 17.0, "target", anchor="middle", soft=True)
    ticks = [(_x(0.5 * half), 12.0 if half % 2 == 0 else 5.0) for half in range(-6, 7)]
    numerals = {_x(float(one)): f"{one:+d}".replace("-", "−") for one in (-2, -1, 1, 2)}
    numerals[_x(0.0)] = "0"
    numerals[_x(REACH)] = "+3 tolerances"
    yield level_rule(ticks, numerals, base, (_NAMES, _RIGHT))


def _line(line: TargetLine, y: float, show: Show) -> Iterator[str]:
    off = (line.reading.value - line.target) / line.tolerance
    doubt = line.reading.half_width / line.tolerance
    name = fitted(sentence(CHECKED_WORDS[line.checked]), _NAMES - 12.0, bold=True)
    yield label(0.0, y + 6.0, name, bold=True)
    yield stroke(f"M0 {y + 0.5 * _ROW:.1f}H{WIDTH}", colour=HAIR, width=1.0)
    left, right = _x(off - doubt), _x(off + doubt)
    if right - left >= 1.0:
        dash = "3 4" if line.fit is Fit.CANNOT_TELL else ""
        yield stroke(f"M{left:.1f} {y:.1f}H{right:.1f}", colour=INK, width=2.0, dash=dash)
    yield _mark(off, y, line.fit)
    far = apart(line.checked, line.reading.value - line.target, show)
    yield label(WIDTH, y + 6.0, far, anchor="end", soft=True)


def _mark(off: float, y: float, fit: Fit) -> str:
    """Return a reading's mark: a dot, a cross where it is out, an arrow beyond the rule."""
    x = _x(off)
    if abs(off) > REACH:
        way = 7.0 if off > 0.0 else -7.0
        path = f"M{x - way:.1f} {y - 6.0:.1f}L{x:.1f} {y:.1f}L{x - way:.1f} {y + 6.0:.1f}"
        return stroke(path, colour=INK, width=2.4)
    if fit is Fit.OUT:
        path = f"M{x - 6:.1f} {y - 6:.1f}l12 12M{x + 6:.1f} {y - 6:.1f}l-12 12"
        return stroke(path, colour=INK, width=2.4)
    path = f"M{x:.1f} {y - 7.0:.1f}v14"
    return stroke(path, colour=INK, width=3.0)
