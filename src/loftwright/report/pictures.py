"""Where drives finish, drawn in pencil on the golfer's own hole from above."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import log, sqrt

from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.evidence.result import Level, Pattern
from loftwright.report.look import EDGE, FAIRWAY, INK, SHEET
from loftwright.report.marks import Mark
from loftwright.report.pencil import (
    LETTER,
    bunker,
    drawing,
    letters,
    marker,
    pencil,
    scattered,
    steel_rule,
    tree,
    tuft,
)
from loftwright.report.screen_numbers import TRADE, Show

TWO_OF_THREE = sqrt(-2.0 * log(1.0 / 3.0))
"""Standard deviations at which the outline of a two-way normal scatter holds two of three."""

_SCALES = (
    (1.0, "the same"),
    (1.0 / 2.0, "half"),
    (1.0 / 3.0, "a third of the"),
    (1.0 / 4.0, "a quarter of the"),
    (1.0 / 5.0, "a fifth of the"),
    (1.0 / 8.0, "an eighth of the"),
)
_WIDTH = 660.0
_NARROW = 46.0
_LABEL_ABOVE, _LABEL_BELOW = 16.0, 6.0
"""How far a label with its cleared ground reaches above and below its foot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """A club whose average drive is drawn.

    Attributes
    ----------
    club : str
        The name in full.
    label : str
        The name as the picture prints it.
    mark : Mark
        Its marker.
    level : Level
        Where its average drive goes at home.
    """

    club: str
    label: str
    mark: Mark
    level: Level


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """The picture of where drives finish.

    Attributes
    ----------
    svg : str
        The drawing.
    scale : str
        How the width is drawn against the length, for the line under it.
    hole : Hole
        The hole that is drawn.
    number : int
        Its place on the card, from 1.
    """

    svg: str
    scale: str
    hole: Hole
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Yards or metres to picture: along to the right, right of the target downwards."""

    unit: float
    low: float
    along: float
    across: float
    middle: float
    height: float

    def x(self, metres: float) -> float:
        return (metres / self.unit - self.low) * self.along

    def y(self, metres: float) -> float:
        return self.middle + metres / self.unit * self.across


def typical_hole(home: Home) -> tuple[int, Hole]:
    """Return the hole to draw: of those with trouble, if any, the one of most usual width.

    Returns
    -------
    int
        Its place on the card, from 1.
    Hole
        The hole.
    """
    holes = home.holes or (Hole(),)
    width = sorted(hole.fairway for hole in holes)[(len(holes) - 1) // 2]
    best = min(
        range(len(holes)),
        key=lambda index: (
            holes[index].trouble is Trouble.NONE,
            abs(holes[index].fairway - width),
            index,
        ),
    )
    return best + 1, holes[best]


def finish_strip(
    home: Home,
    drives: Sequence[Drive],
    pattern: Pattern,
    *,
    height: float = 186.0,
    show: Show = TRADE,
) -> Strip:
    """Draw where drives finish on the golfer's own hole, one shared outline for all.

    Parameters
    ----------
    home : Home
        Its typical hole is drawn to scale.
    drives : sequence of Drive
        One or two clubs, the last drawn strongest.
    pattern : Pattern
        The scatter that all clubs share; its outline is slid from club to club.
    height : float
        Of the strip, without its rule, in the picture's units.
    show : Show
        The units that its rule is graduated in.
    """
    number, hole = typical_hole(home)
    frame, scale = _frame(hole, drives, pattern, height, show.unit("distance").scale)
    parts = [
        f'<clipPath id="strip"><rect width="{_WIDTH:.0f}" height="{height:.0f}"/></clipPath>',
        '<g clip-path="url(#strip)">',
        *_ground(hole, frame),
        *_outlines(drives, pattern, frame),
        "</g>",
        *_labels(hole, drives, pattern, frame, show),
        *_sides(hole, frame),
    ]
    parts.append(steel_rule(frame.low, frame.along, _WIDTH, height + 4.0))
    return Strip(svg=drawing(_WIDTH, height + 36.0, parts), scale=scale, hole=hole, number=number)


def _frame(
    hole: Hole, drives: Sequence[Drive], pattern: Pattern, height: float, unit: float
) -> tuple[_Frame, str]:
    yard = YARD / unit
    reach = TWO_OF_THREE * pattern.total / unit
    side = TWO_OF_THREE * pattern.offline / unit
    totals = [drive.level.total / unit for drive in drives]
    room = max(len(drive.label) + 5 for drive in drives) * LETTER + 24.0
    span = max(totals) - min(totals) + 2.0 * reach + 12.0 * yard
    along = min((_WIDTH - 2.0 * room) / span, _WIDTH / (92.0 * yard))
    middle_along = (max(totals) + min(totals)) / 2.0
    low = middle_along - _WIDTH / along / 2.0
    half = hole.fairway / unit / 2.0
    offsides = [drive.level.offline / unit for drive in drives]
    edge, rough = hole.trouble_from / unit + 9.0 * yard, half + 9.0 * yard
    left = edge if hole.trouble in {Trouble.LEFT, Trouble.BOTH} else rough
    right = edge if hole.trouble in {Trouble.RIGHT, Trouble.BOTH} else rough
    top = min(-left, *(value - side - 3.0 * yard for value in offsides))
    bottom = max(right, *(value + side + 3.0 * yard for value in offsides))
    ratio, words = next(
        (pair for pair in _SCALES if pair[0] * along * (bottom - top) <= height), _SCALES[-1]
    )
    across = ratio * along
    centre = height / 2.0 - across * (bottom + top) / 2.0
    frame = _Frame(unit=unit, low=low, along=along, across=across, middle=centre, height=height)
    return frame, words


def _ground(hole: Hole, frame: _Frame) -> Iterator[str]:
    top, bottom = frame.y(-hole.fairway / 2.0), frame.y(hole.fairway / 2.0)
    yield (
        f'<rect y="{top:.1f}" width="{_WIDTH:.0f}" height="{bottom - top:.1f}" fill="{FAIRWAY}"/>'
    )
    for edge in (top, bottom):
        yield pencil(
            f"M0 {edge - 1:.1f}C160 {edge + 1.6:.1f} 300 {edge - 2.4:.1f} {_WIDTH:.0f} "
            f"{edge + 0.6:.1f}"
        )
    yield (
        f'<path d="M0 {frame.y(0.0):.1f}H{_WIDTH:.0f}" stroke="{EDGE}" stroke-width="0.9" '
        'stroke-dasharray="1 6" fill="none"/>'
    )
    for side, sign in ((Trouble.LEFT, -1.0), (Trouble.RIGHT, 1.0)):
        troubled = hole.trouble in (side, Trouble.BOTH)
        edge = frame.y(sign * hole.fairway / 2.0)
        wall = frame.y(sign * hole.trouble_from) if troubled else frame.height * (sign + 1.0) / 2.0
        yield from _rough(edge, wall if troubled else edge + 400.0 * sign, frame.height)
        if troubled:
            yield from _trouble(wall, sign, hole.trouble_lie, frame.height)


def _rough(edge: float, wall: float, height: float) -> Iterator[str]:
    low, high = sorted((edge, wall))
    for row in range(9):
        y = edge + (12.0 if wall > edge else -6.0) + (22.0 if wall > edge else -22.0) * row
        if not (low + 4.0 <= y <= high - 2.0 and 6.0 <= y <= height):
            continue
        for column in range(12):
            seed = 31 * row + column
            x = (column + 0.2 + 0.6 * scattered(seed)) * _WIDTH / 12.0
            yield tuft(x, y + 4.0 * scattered(seed + 7), seed)


def _trouble(wall: float, sign: float, lie: Lie, height: float) -> Iterator[str]:
    """Draw bunkers for sand and trees for all else, from where the trouble begins."""
    radius, columns = (9.0, 9) if lie is Lie.SAND else (11.0, 24)
    draw = bunker if lie is Lie.SAND else tree
    for row in range(8):
        y = wall + sign * (radius + 2.0 + 2.3 * radius * row)
        if row and not radius < y < height - radius:
            return
        for column in range(columns):
            seed = 97 * row + column
            x = (column + 0.15 + 0.7 * scattered(seed)) * _WIDTH / columns
            size = radius * (0.8 + 0.35 * scattered(seed + 3))
            yield draw(x, y + sign * 0.45 * radius * scattered(seed + 5), size, seed)


def _outlines(drives: Sequence[Drive], pattern: Pattern, frame: _Frame) -> Iterator[str]:
    rx = TWO_OF_THREE * pattern.total / frame.unit * frame.along
    ry = TWO_OF_THREE * pattern.offline / frame.unit * frame.across
    for index, drive in enumerate(drives):
        strong = index == len(drives) - 1
        line = 'stroke-width="2.2"' if strong else 'stroke-width="1.5" stroke-dasharray="6 5"'
        yield (
            f'<ellipse cx="{frame.x(drive.level.total):.1f}" '
            f'cy="{frame.y(drive.level.offline):.1f}" rx="{rx:.1f}" ry="{ry:.1f}" fill="none" '
            f'stroke="{INK}" {line}/>'
        )
    for drive in drives:
        x, y = frame.x(drive.level.total), frame.y(drive.level.offline)
        yield marker(drive.mark, x, y, 10.2)


def _sides(hole: Hole, frame: _Frame) -> Iterator[str]:
    """Name the sides on the fairway, or at the edges of the strip where it is too narrow."""
    top, bottom = frame.y(-hole.fairway / 2.0), frame.y(hole.fairway / 2.0)
    ground = FAIRWAY
    if bottom - top < _NARROW:
        top, bottom, ground = 0.0, frame.height, SHEET
    yield letters(8.0, top + 19.0, "left", ground=ground, soft=True)
    yield letters(8.0, bottom - 8.0, "right", ground=ground, soft=True)


def _labels(
    hole: Hole, drives: Sequence[Drive], pattern: Pattern, frame: _Frame, show: Show
) -> Iterator[str]:
    rx = TWO_OF_THREE * pattern.total / frame.unit * frame.along
    by_total = sorted(drives, key=lambda drive: drive.level.total)
    for drive in by_total:
        left = len(by_total) > 1 and drive is by_total[0]
        shift = -rx - 9.0 if left else rx + 9.0
        text = f"{drive.label}, {show.figure('distance', drive.level.total)}"
        y, ground = _beside_edges(frame.y(drive.level.offline) + 5.0, hole, frame)
        yield letters(
            frame.x(drive.level.total) + shift,
            y,
            text,
            ground=ground,
            bold=True,
            anchor="end" if left else "start",
        )


def _beside_edges(y: float, hole: Hole, frame: _Frame) -> tuple[float, str]:
    """Return where the foot of a label stands, on no edge of the fairway, and its ground."""
    top, bottom = frame.y(-hole.fairway / 2.0), frame.y(hole.fairway / 2.0)
    for edge in (top, bottom):
        if y - _LABEL_ABOVE < edge < y + _LABEL_BELOW:
            above, below = edge - _LABEL_BELOW, edge + _LABEL_ABOVE
            y = above if y - above < below - y else below
    return y, FAIRWAY if top < y - 5.0 < bottom else SHEET
