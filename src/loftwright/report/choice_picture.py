"""Total against where drives finish: a marker a club, its ranges, one pattern for all."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from loftwright.constants import YARD
from loftwright.evidence.result import Pattern
from loftwright.report.choice_marks import ChoiceMark
from loftwright.report.label_places import Placed, Wanted, place_labels
from loftwright.report.look import FAIRWAY, INK, INK_2, SHEET
from loftwright.report.picture_parts import (
    Box,
    club_shape,
    label,
    level_rule,
    picture,
    stroke,
)
from loftwright.report.pictures import TWO_OF_THREE
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0
HEIGHT: Final = 440.0

_LEFT, _RIGHT, _TOP, _BASE = 64.0, 860.0, 32.0, 376.0
_RADIUS = 10.6
_NARROWEST = 16.0 * YARD


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Metres to the picture's units: longer to the right, right of the target downwards."""

    low: float
    along: float
    top: float
    across: float

    def x(self, metres: float) -> float:
        return _LEFT + (metres - self.low) * self.along

    def y(self, metres: float) -> float:
        return _TOP + (metres - self.top) * self.across


def choice_picture(
    clubs: Sequence[ChoiceMark],
    *,
    zero: str,
    pattern: Pattern | None = None,
    around: str | None = None,
    fairway: float | None = None,
    prefix: str = "choice",
    show: Show = TRADE,
) -> str:
    """Draw where the clubs' average drives finish.

    Parameters
    ----------
    clubs : sequence of ChoiceMark
        The golfer's own club among them, if there is one, stands at zero.
    zero : str
        What totals are taken against, as it is printed: `Own`, or `the mean of all`.
    pattern : Pattern, optional
        The scatter that all clubs share, drawn once.
    around : str, optional
        The club that the outline is drawn around; the first that was hit, if none is named.
    fairway : float, optional
        Full width of the fairway, drawn as a pale band [m].
    prefix : str
        Beginning of the picture's ids.
    show : Show
        The units that its rules are graduated in.
    """
    hit = [club for club in clubs if club.hit]
    centre = next((club for club in hit if club.club == around), hit[0] if hit else None)
    outlined = centre if pattern else None
    frame = _frame(clubs, pattern if outlined else None, outlined, fairway)
    clip = f"{prefix}-plot"
    parts = [
        f'<clipPath id="{clip}"><rect x="{_LEFT:.0f}" y="{_TOP - 2:.0f}" '
        f'width="{_RIGHT - _LEFT:.0f}" height="{_BASE - _TOP + 2:.0f}"/></clipPath>',
        f'<g clip-path="url(#{clip})">{"".join(_ground(frame, fairway))}',
        _outline(outlined, pattern, frame) if outlined and pattern else "",
        *(part for club in clubs for part in _ranges(club, frame)),
        "</g>",
        *_rules(frame, zero, fairway, show),
    ]
    placed = _labels(clubs, frame, pattern, outlined)
    parts += [part for one in placed for part in _lead(one)]
    parts += [_marker(club, frame) for club in hit]
    parts += [
        label(
            one.x,
            one.y,
            one.wanted.text,
            anchor=one.anchor,
            bold=one.wanted.bold,
            soft=not one.wanted.bold,
            ground=_ground_at(one, frame, fairway),
        )
        for one in placed
    ]
    if not clubs:
        parts.append(label(_LEFT + 14.0, _TOP + 34.0, "No club was hit yet.", bold=True))
    title = f"Total against {zero} and where drives finish, with ranges"
    return picture(WIDTH, HEIGHT, parts, title=title, prefix=prefix)


def _frame(
    clubs: Sequence[ChoiceMark],
    pattern: Pattern | None,
    centre: ChoiceMark | None,
    fairway: float | None,
) -> _Frame:
    along = [0.0, *(end for club in clubs for end in club.total.most)]
    across = [0.0, *(end for club in clubs for end in club.offline.most)]
    if pattern and centre:
        for values, middle, scatter in (
            (along, centre.total.mean, pattern.total),
            (across, centre.offline.mean, pattern.offline),
        ):
            values += [middle - TWO_OF_THREE * scatter, middle + TWO_OF_THREE * scatter]
    if fairway is not None:
        across += [-0.5 * fairway, 0.5 * fairway]
    low, high = _spread(along, 0.06)
    top, bottom = _spread(across, 0.05)
    return _Frame(
        low=low,
        along=(_RIGHT - _LEFT) / (high - low),
        top=top,
        across=(_BASE - _TOP) / (bottom - top),
    )


def _spread(values: Sequence[float], margin: float) -> tuple[float, float]:
    low, high = min(values), max(values)
    wide = max(high - low, _NARROWEST)
    middle = 0.5 * (low + high)
    half = wide * (0.5 + margin)
    return middle - half, middle + half


def _ground(frame: _Frame, fairway: float | None) -> Iterator[str]:
    if fairway is not None:
        top, bottom = frame.y(-0.5 * fairway), frame.y(0.5 * fairway)
        yield (
            f'<rect x="{_LEFT:.1f}" y="{top:.1f}" width="{_RIGHT - _LEFT:.1f}" '
            f'height="{bottom - top:.1f}" fill="{FAIRWAY}"/>'
        )
        yield stroke(f"M{_LEFT} {top:.1f}H{_RIGHT}M{_LEFT} {bottom:.1f}H{_RIGHT}", width=0.9)
    middle = f"M{_LEFT} {frame.y(0.0):.1f}H{_RIGHT}"
    yield stroke(middle, width=1.0, dash="1 7")
    yield stroke(f"M{frame.x(0.0):.1f} {_TOP}V{_BASE}", colour=INK, width=1.5)


def _outline(centre: ChoiceMark, pattern: Pattern, frame: _Frame) -> str:
    return (
        f'<ellipse cx="{frame.x(centre.total.mean):.1f}" '
        f'cy="{frame.y(centre.offline.mean):.1f}" '
        f'rx="{TWO_OF_THREE * pattern.total * frame.along:.1f}" '
        f'ry="{TWO_OF_THREE * pattern.offline * frame.across:.1f}" fill="none" '
        f'stroke="{INK}" stroke-width="1.4" stroke-dasharray="8 6"/>'
    )


def _ranges(club: ChoiceMark, frame: _Frame) -> Iterator[str]:
    """Draw both ranges: a band with an ink line in it, or a dashed cross for what was not hit."""
    x, y = frame.x(club.total.mean), frame.y(club.offline.mean)
    ways = (
        ([frame.x(end) for end in club.total.most], [frame.x(end) for end in club.total.half], 0),
        (
            [frame.y(end) for end in club.offline.most],
            [frame.y(end) for end in club.offline.half],
            1,
        ),
    )
    for most, half, way in ways:
        thin, thick = (
            f"M{low:.1f} {y:.1f}H{high:.1f}" if way == 0 else f"M{x:.1f} {low:.1f}V{high:.1f}"
            for low, high in (most, half)
        )
        if not club.hit:
            yield stroke(thin, colour=INK, width=1.4, dash="3 5")
        elif most[0] != most[1]:
            colour = INK if club.shape.is_ring else club.shape.colour
            yield (
                f'<path d="{thick}" fill="none" stroke="{colour}" stroke-width="6"/>'
                f"{stroke(thin, colour=INK, width=1.5)}"
            )


def _marker(club: ChoiceMark, frame: _Frame) -> str:
    x, y = frame.x(club.total.mean), frame.y(club.offline.mean)
    ground = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="8" fill="{SHEET}"/>'
    shape = club_shape(club.shape, x, y, _RADIUS, title=club.club)
    return ground + shape if club.shape.is_ring else shape


def _labels(
    clubs: Sequence[ChoiceMark],
    frame: _Frame,
    pattern: Pattern | None,
    outlined: ChoiceMark | None,
) -> list[Placed]:
    wanted, blocks, strokes = [], [], []
    for club in clubs:
        x, y = frame.x(club.total.mean), frame.y(club.offline.mean)
        left, right = (frame.x(end) for end in club.total.most)
        top, bottom = (frame.y(end) for end in club.offline.most)
        reach = _RADIUS + 1.0 if club.hit else 2.0
        blocks.append(Box(left=x - reach, top=y - reach, right=x + reach, bottom=y + reach))
        strokes.append(Box(left=left, top=y - 1.0, right=right, bottom=y + 1.0))
        strokes.append(Box(left=x - 1.0, top=top, right=x + 1.0, bottom=bottom))
        if club.hit:
            wanted.append(Wanted(text=club.club, x=x, y=y, bold=True))
        else:
            wanted.append(Wanted(text=f"{club.club}: not hit", x=right, y=y))
    zero = frame.x(0.0)
    strokes.append(Box(left=zero - 1.0, top=_TOP, right=zero + 1.0, bottom=_BASE))
    if pattern and outlined:
        x = frame.x(outlined.total.mean + 0.71 * TWO_OF_THREE * pattern.total)
        y = frame.y(outlined.offline.mean + 0.71 * TWO_OF_THREE * pattern.offline)
        wanted.append(Wanted(text="two of three balls, any club", x=x, y=y))
    inside = Box(left=_LEFT + 4.0, top=_TOP, right=_RIGHT, bottom=_BASE - 2.0)
    return place_labels(wanted, inside, blocks, strokes)


def _ground_at(one: Placed, frame: _Frame, fairway: float | None) -> str:
    """Return the colour that a label stands on."""
    half = 0.5 * fairway if fairway is not None else 0.0
    return FAIRWAY if frame.y(-half) < one.y - 5.0 < frame.y(half) else SHEET


def _lead(one: Placed) -> Iterator[str]:
    """Lead from what a label names to the label, where it stands far away."""
    if one.led:
        box, wanted = one.box, one.wanted
        x = min(max(wanted.x, box.left), box.right)
        y = min(max(wanted.y, box.top), box.bottom)
        yield stroke(f"M{wanted.x:.1f} {wanted.y:.1f}L{x:.1f} {y:.1f}", colour=INK_2)


def _rules(frame: _Frame, zero: str, fairway: float | None, show: Show) -> Iterator[str]:
    high = frame.low + (_RIGHT - _LEFT) / frame.along
    bottom = frame.top + (_BASE - _TOP) / frame.across
    unit = show.unit("distance")
    tick = 0.2 * unit.scale * _step((high - frame.low) / unit.scale, 9)
    ticks, numerals = [], {}
    for index in range(ceil(frame.low / tick), floor(high / tick) + 1):
        x = frame.x(index * tick)
        ticks.append((x, 4.0 if index % 5 else 12.0))
        if index % 5 == 0 and _LEFT + 10.0 < x < _RIGHT - 8.0:
            numerals[x] = show.signed(index * tick / unit.scale, 0)
    yield level_rule(ticks, numerals, _BASE, (_LEFT, _RIGHT))
    tick = 0.2 * unit.scale * _step((bottom - frame.top) / unit.scale, 6)
    path = ""
    for index in range(ceil(frame.top / tick), floor(bottom / tick) + 1):
        y = frame.y(index * tick)
        path += f"M{_LEFT} {y:.1f}h{-4 if index % 5 else -12}"
        if index % 5 == 0 and _TOP + 6.0 < y < _BASE - 2.0:
            yield label(_LEFT - 17.0, y + 6.0, show.side(index * tick), anchor="end", soft=True)
    yield stroke(path)
    yield stroke(f"M{_LEFT} {_TOP}V{_BASE}", colour=INK)
    words = f"Where it finishes, {unit.name}: start line and curve together"
    yield label(0.0, 16.0, words, soft=True)
    if fairway is not None:
        words = f"pale band: a fairway of {show.yards(fairway)}"
        yield label(WIDTH - 20.0, 16.0, words, anchor="end", soft=True)
    words = f"Total at home against {zero}, {unit.name}: longer →"
    yield label(WIDTH - 20.0, 434.0, words, anchor="end", soft=True)


def _step(span: float, most: int) -> float:
    """Return the distance between numerals so that there are not more than `most`."""
    return next((step for step in (1.0, 2.0, 5.0, 10.0, 20.0, 50.0) if span / step <= most), 100.0)
