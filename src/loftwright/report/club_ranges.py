"""Both figures of every club with their ranges, side by side over graduated rules."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.graduated import RangeRow, Rule, graduate
from loftwright.report.look import HAIR, INK
from loftwright.report.marks import OWN_MARK, Mark
from loftwright.report.numbers import count
from loftwright.report.picture_parts import (
    club_shape,
    fitted,
    label,
    level_rule,
    picture,
    stroke,
    text_width,
)
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0

_NAMES = 190.0
_GAP = 44.0
_TOP = 74.0
_ROW = 46.0
_FOOT = 46.0
_RADIUS = 9.6


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeColumn:
    """One figure of all clubs.

    Attributes
    ----------
    heading, under : str
        What the figure is, and what it serves.
    rows : mapping of str to RangeRow
        By club; a club without one shows why in its place.
    """

    heading: str
    under: str
    rows: Mapping[str, RangeRow]


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeClub:
    """One row of the picture.

    Attributes
    ----------
    club : str
    balls : int
    why_none : str
        What stands where no figure may be said.
    """

    club: str
    balls: int
    why_none: str = ""


def club_ranges(
    clubs: Sequence[RangeClub],
    columns: Sequence[RangeColumn],
    marks: Mapping[str, Mark],
    *,
    unit: str,
    zero: str,
    zero_is_own: bool,
    prefix: str = "ranges",
    show: Show = TRADE,
) -> str:
    """Draw what is said of every club against one of them.

    Parameters
    ----------
    clubs : sequence of RangeClub
        In ranked order, the club that all are taken against left out.
    columns : sequence of RangeColumn
        One or two, each under its own heading on the same scale.
    marks : mapping of str to Mark
    unit : str
        Of the figures, as it is printed.
    zero : str
        What zero is.
    zero_is_own : bool
        Whether zero is the golfer's own club, which is drawn as a ring.
    prefix : str
        Beginning of the picture's ids.
    show : Show
        The decimal mark of the figures.
    """
    base = _TOP + _ROW * max(1, len(clubs)) + 6.0
    rule = _rule(columns)
    wide = (WIDTH - _NAMES - _GAP * (len(columns) - 1)) / max(1, len(columns))
    parts = list(_names(clubs, marks))
    for index, column in enumerate(columns):
        left = _NAMES + index * (wide + _GAP)
        frame = _Frame(left=left, right=left + wide - 24.0, base=base, rule=rule)
        parts += _column(column, clubs, marks, frame, zero, unit, show, ring=zero_is_own)
    title = f"{' and '.join(column.heading for column in columns)}, against {zero}, with ranges"
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    left: float
    right: float
    base: float
    rule: Rule

    def x(self, value: float) -> float:
        share = (value - self.rule.low) / (self.rule.high - self.rule.low)
        return self.left + share * (self.right - self.left)


def _rule(columns: Sequence[RangeColumn]) -> Rule:
    ends = [end for column in columns for row in column.rows.values() for end in row.most]
    low, high = min([0.0, *ends]), max([0.0, *ends])
    pad = 0.06 * max(high - low, 2.0)
    return graduate(low - pad, high + pad)


def _middle(index: int) -> float:
    return _TOP + _ROW * (index + 0.5)


def _names(clubs: Sequence[RangeClub], marks: Mapping[str, Mark]) -> Iterator[str]:
    for index, one in enumerate(clubs):
        y = _middle(index)
        balls = count(one.balls, "ball")
        room = _NAMES - 40.0 - text_width(balls)
        yield club_shape(marks[one.club], 14.0, y, _RADIUS)
        yield label(32.0, y + 6.0, fitted(one.club, room, bold=True), bold=True)
        yield label(_NAMES - 14.0, y + 6.0, balls, anchor="end", soft=True)
        if index + 1 < len(clubs):
            yield stroke(f"M0 {y + 0.5 * _ROW:.1f}H{WIDTH}", colour=HAIR, width=1.0)


def _column(
    column: RangeColumn,
    clubs: Sequence[RangeClub],
    marks: Mapping[str, Mark],
    frame: _Frame,
    zero: str,
    unit: str,
    show: Show,
    *,
    ring: bool,
) -> Iterator[str]:
    yield label(frame.left, 17.0, column.heading, bold=True)
    yield label(frame.left, 38.0, column.under, soft=True)
    x = frame.x(0.0)
    yield stroke(f"M{x:.1f} {_TOP - 12:.1f}V{frame.base:.1f}", colour=INK, width=1.5)
    yield from _zero(zero, x, frame, ring=ring)
    yield _steel(frame, unit, show)
    for index, one in enumerate(clubs):
        row = column.rows.get(one.club)
        y = _middle(index)
        if row is None:
            why = fitted(one.why_none or "–", frame.right - frame.left)
            yield label(frame.left, y + 6.0, why, soft=True, halo=True)
        else:
            yield from _range(row, marks[one.club], y, frame, show)


def _zero(zero: str, x: float, frame: _Frame, *, ring: bool) -> Iterator[str]:
    """Name zero beside its line, on the side that has more room."""
    shift = 12.0 if ring else 6.0
    right = frame.right - x >= x - frame.left
    room = (frame.right - x if right else x - frame.left) - shift
    at = x + shift if right else x - shift
    y = _TOP - 18.0
    if ring:
        yield club_shape(OWN_MARK, x, y, 7.4)
    yield label(at, y + 6.0, fitted(zero, room), anchor="start" if right else "end", soft=True)
    longer = "longer →"
    if right and room > text_width(zero) + text_width(longer) + 16.0:
        yield label(frame.right, y + 6.0, longer, anchor="end", soft=True)


def _steel(frame: _Frame, unit: str, show: Show) -> str:
    rule = frame.rule
    ticks = [(frame.x(place), 5.0) for place in rule.short]
    ticks += [(frame.x(place), 12.0) for place in rule.long]
    digits = 0 if rule.step >= 1.0 else 1
    kept: dict[float, str] = {}
    free = frame.left - 10.0
    for place in rule.long:
        words = f"0 {unit}" if place == 0.0 else show.signed(place, digits)
        x, half = frame.x(place), 0.5 * text_width(words)
        if x - half > free and x + half < frame.right + 18.0:
            kept[x] = words
            free = x + half + 6.0
    return level_rule(ticks, kept, frame.base, (frame.left, frame.right))


def _range(row: RangeRow, mark: Mark, y: float, frame: _Frame, show: Show) -> Iterator[str]:
    """Draw both ranges, the marker on them and its figure; a dash alone where balls are few."""
    low, high = (frame.x(end) for end in row.most)
    if row.dashed:
        yield stroke(f"M{low:.1f} {y + 6:.1f}H{high:.1f}", colour=INK, width=1.4, dash="4 4")
        return
    left, right = (frame.x(end) for end in row.half)
    colour = INK if mark.is_ring else mark.colour
    x = frame.x(row.mean)
    yield (
        f'<path d="M{left:.1f} {y + 6:.1f}H{right:.1f}" fill="none" stroke="{colour}" '
        'stroke-width="7"/>'
    )
    yield stroke(f"M{low:.1f} {y + 6:.1f}H{high:.1f}", colour=INK, width=1.5)
    yield club_shape(mark, x, y + 6.0, _RADIUS)
    yield label(x, y - 7.0, show.signed(row.mean), anchor="middle", bold=True, halo=True)
