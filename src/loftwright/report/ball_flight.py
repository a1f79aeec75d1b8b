"""The last ball: from the side over a rule, and from above over the golfer's own hole."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import Final

from loftwright.constants import FOOT, YARD
from loftwright.domain.home import Hole
from loftwright.report.flown_ball import FlownBall, Outline, height_text, length_text
from loftwright.report.hole_ground import Ground, hole_ground
from loftwright.report.look import INK, INK_2
from loftwright.report.pencil import pencil
from loftwright.report.picture_parts import (
    Box,
    club_shape,
    label,
    level_rule,
    picture,
    stroke,
    text_box,
)
from loftwright.report.pictures import TWO_OF_THREE

WIDTH: Final = 776.0
HEIGHT: Final = 268.0
GABLE: Final = 36.0 * FOOT
"""Height of the clubhouse gable that flights are judged by."""

_LEFT, _RIGHT = 46.0, 748.0
_BASE, _PEAK = 104.0, 74.0
_TOP, _BOTTOM = 146.0, 266.0
_SHORTEST = 228.0 * YARD
_SCALES = (
    (1.0, ""),
    (3.0 / 4.0, "¾"),
    (1.0 / 2.0, "½"),
    (1.0 / 3.0, "⅓"),
    (1.0 / 4.0, "¼"),
    (1.0 / 6.0, "⅙"),
    (1.0 / 8.0, "⅛"),
)
"""How the hole's width may be drawn against its length, as it is printed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Metres to the picture's units: along to the right, right of the target downwards."""

    along: float
    across: float
    middle: float
    end: float
    words: str

    def x(self, metres: float) -> float:
        return _LEFT + metres * self.along

    def y(self, metres: float) -> float:
        return self.middle + metres * self.across


def ball_flight(
    ball: FlownBall | None,
    hole: Hole,
    *,
    earlier: Sequence[tuple[float, float]] = (),
    outline: Outline | None = None,
    hole_name: str = "",
    metres: bool = False,
    prefix: str = "flight",
) -> str:
    """Draw the last ball from the side and from above, lengths to one scale.

    Parameters
    ----------
    ball : FlownBall, optional
        None while no ball was read: the rule is drawn bare.
    hole : Hole
        Its fairway and trouble are drawn.
    earlier : sequence of (float, float)
        Where earlier balls finished: total and offline [m].
    outline : Outline, optional
        The shared pattern, dashed.
    hole_name : str
        As the golfer calls the hole, such as `3rd at Farrow Links`.
    metres : bool
        Print metres, else yards and feet.
    prefix : str
        Beginning of the picture's ids.
    """
    frame = _frame(ball, hole, earlier, outline)
    ground = Ground(
        left=_LEFT,
        right=_RIGHT,
        top=_TOP,
        bottom=_BOTTOM,
        begins=frame.x(0.58 * frame.end),
        middle=frame.middle,
        across=frame.across,
    )
    width = f"fairway {length_text(hole.fairway, metres)} {'m' if metres else 'yd'}"
    notes = [f"{hole_name}, {width}" if hole_name else width.capitalize()]
    notes += ["dashed: two of three balls, any club"] if outline else []
    notes += ["ticks: earlier balls"] if earlier else []
    notes += [f"width at {frame.words} scale"] if frame.words else []
    clip = f"{prefix}-hole"
    parts = [
        _gable(frame, ball, metres=metres),
        _length_rule(frame.along, frame.end, metres),
        f'<clipPath id="{clip}"><rect x="0" y="{_TOP - 10:.0f}" width="{WIDTH:.0f}" '
        f'height="{_BOTTOM - _TOP + 12:.0f}"/></clipPath>',
        f'<g clip-path="url(#{clip})">{hole_ground(hole, ground)}</g>',
        *_side_rule(frame, hole, metres),
        *_earlier(earlier, frame),
        *_outline(outline, frame),
        *_notes(notes, frame, ball),
        *(_flown(ball, frame, metres) if ball else _bare()),
    ]
    title = f"The last ball, with {ball.club}" if ball else "No ball yet"
    return picture(WIDTH, HEIGHT, parts, title=title, prefix=prefix)


def _frame(
    ball: FlownBall | None,
    hole: Hole,
    earlier: Sequence[tuple[float, float]],
    outline: Outline | None,
) -> _Frame:
    """Choose the scales: height and length share theirs, the hole's width may have a smaller."""
    finishes = [*earlier]
    longest = [_SHORTEST]
    if ball:
        finishes.append((ball.total, ball.offline))
        longest += [ball.carry, ball.peak * (_RIGHT - _LEFT) / _PEAK - 12.0 * YARD]
    half = 0.5 * hole.fairway + 4.0 * YARD
    sides = [-half, half, *(offline for _, offline in finishes)]
    if outline:
        reach = TWO_OF_THREE * outline.pattern.offline
        sides += [outline.offline - reach, outline.offline + reach]
        longest.append(outline.total + TWO_OF_THREE * outline.pattern.total)
    longest += [total for total, _ in finishes]
    end = 20.0 * YARD * ceil((max(longest) / YARD + 12.0) / 20.0)
    along = (_RIGHT - _LEFT) / end
    top, bottom = min(sides), max(sides)
    room = _BOTTOM - _TOP
    fitting = (pair for pair in _SCALES if pair[0] * along * (bottom - top) <= room)
    ratio, words = next(fitting, (room / (along * (bottom - top)), "a smaller"))
    across = ratio * along
    middle = 0.5 * (_TOP + _BOTTOM) - 0.5 * across * (bottom + top)
    return _Frame(along=along, across=across, middle=middle, end=end, words=words)


@lru_cache(maxsize=64)
def _length_rule(along: float, end: float, metres: bool) -> str:
    unit = 1.0 if metres else YARD
    ticks, numerals = [], {}
    for tens in range(int(end / unit / 10.0 + 1e-6) + 1):
        x = _LEFT + 10.0 * tens * unit * along
        ticks.append((x, 6.0 if tens % 5 else 12.0))
        if tens % 5 == 0:
            numerals[x] = f"{10 * tens}" if tens else f"0 {'m' if metres else 'yd'}"
    return level_rule(ticks, numerals, _BASE, (_LEFT, _RIGHT))


def _gable(frame: _Frame, ball: FlownBall | None, *, metres: bool) -> str:
    """Draw the gable where the flight does not hide it: at the far end, or under the flight."""
    roof = GABLE * frame.along
    x = _RIGHT - 46.0
    under = ball is not None and frame.x(ball.carry) > x - 40.0
    if under:
        x = frame.x(0.62 * frame.end)
    top, wall = _BASE - roof, _BASE - 0.62 * roof
    left, right = f"{x - 24:.1f}", f"{x + 24:.1f}"
    walls = f"M{left} {_BASE:.1f}V{wall:.1f}L{x:.1f} {top:.1f}L{right} {wall:.1f}V{_BASE:.1f}"
    door = stroke(f"M{x - 4:.1f} {_BASE:.1f}v-{0.3 * roof:.1f}h8v{0.3 * roof:.1f}", width=0.8)
    words = f"gable, {height_text(GABLE, metres)}"
    if under:
        told = label(x + 32.0, _BASE - 8.0, words, soft=True, halo=True)
    else:
        told = label(x, top - 9.0, words, anchor="middle", soft=True, halo=True)
    return pencil(walls) + door + told


def _flown(ball: FlownBall, frame: _Frame, metres: bool) -> Iterator[str]:
    side = "L".join(f"{frame.x(x):.1f} {_BASE - y * frame.along:.1f}" for x, y, _ in ball.path)
    yield pencil(f"M{side}", INK)
    peak_x, peak_y, _ = max(ball.path, key=lambda point: point[1])
    x, y = frame.x(peak_x), _BASE - peak_y * frame.along
    yield stroke(f"M{x:.1f} {y - 5:.1f}v-7", colour=INK_2)
    words = height_text(ball.peak, metres)
    yield label(max(x, 40.0), y - 16.0, words, anchor="middle", bold=True, halo=True)
    above = "L".join(f"{frame.x(x):.1f} {frame.y(z):.1f}" for x, _, z in ball.path)
    yield pencil(f"M{above}", INK)
    finish = frame.x(ball.total), frame.y(ball.offline)
    landed = frame.x(ball.carry), frame.y(ball.path[-1][2])
    yield stroke(
        f"M{landed[0]:.1f} {landed[1]:.1f}L{finish[0]:.1f} {finish[1]:.1f}", colour=INK, dash="3 4"
    )
    yield f'<g class="arrive">{club_shape(ball.shape, *finish, 11.6, title=ball.club)}</g>'


def _bare() -> Iterator[str]:
    yield label(_LEFT + 14.0, _BASE - 40.0, "No ball yet.", bold=True)
    words = "Its flight is drawn here as soon as one is read."
    yield label(_LEFT + 14.0, _BASE - 18.0, words, soft=True)


def _side_rule(frame: _Frame, hole: Hole, metres: bool) -> Iterator[str]:
    """Draw a rule across the tee: the fairway's edges, ticks every ten, and the sides."""
    half = 0.5 * hole.fairway
    unit = 10.0 * (1.0 if metres else YARD)
    top, bottom = frame.y(-half), frame.y(half)
    path = f"M{_LEFT - 10:.1f} {top:.1f}H{_LEFT:.1f}M{_LEFT - 10:.1f} {bottom:.1f}H{_LEFT:.1f}"
    for tens in range(1, int(half / unit) + 1):
        for sign in (-1.0, 1.0):
            path += f"M{_LEFT - 5:.1f} {frame.y(sign * tens * unit):.1f}h5"
    yield stroke(path)
    yield stroke(f"M{_LEFT:.1f} {top:.1f}V{bottom:.1f}", colour=INK)
    yield stroke(f"M{_LEFT - 5:.1f} {frame.middle - 5:.1f}h10v10h-10z")
    edge = length_text(half, metres)
    apart = bottom - top > 22.0
    if apart:
        yield label(_LEFT - 15.0, top + 6.0, edge, anchor="end", soft=True)
        yield label(_LEFT - 15.0, bottom + 6.0, edge, anchor="end", soft=True)
    middle = 0.5 * (top + bottom)
    up, down = (top + 5.0, bottom + 7.0) if bottom - top > 60.0 else (middle - 24.0, middle + 36.0)
    yield label(_LEFT + 14.0, max(up, _TOP + 12.0), "left", soft=True, halo=True)
    yield label(_LEFT + 14.0, min(down, _BOTTOM - 2.0), "right", soft=True, halo=True)


def _earlier(earlier: Sequence[tuple[float, float]], frame: _Frame) -> Iterator[str]:
    path = "".join(f"M{frame.x(x):.1f} {frame.y(z) - 5:.1f}v10" for x, z in earlier)
    if path:
        yield (
            f'<path d="{path}" fill="none" stroke="{INK_2}" stroke-width="1.6" '
            'stroke-opacity="0.75"/>'
        )


def _outline(outline: Outline | None, frame: _Frame) -> Iterator[str]:
    if outline:
        yield (
            f'<ellipse cx="{frame.x(outline.total):.1f}" cy="{frame.y(outline.offline):.1f}" '
            f'rx="{TWO_OF_THREE * outline.pattern.total * frame.along:.1f}" '
            f'ry="{TWO_OF_THREE * outline.pattern.offline * frame.across:.1f}" fill="none" '
            f'stroke="{INK}" stroke-width="1.4" stroke-dasharray="8 6"/>'
        )


def _notes(words: Sequence[str], frame: _Frame, ball: FlownBall | None) -> Iterator[str]:
    """Say on the hole what is drawn, where neither the ball nor its path stands."""
    x = _LEFT + 66.0
    middle = min(max(frame.middle, _TOP + 34.0), _BOTTOM - 42.0)
    heights = [middle - 17.0, middle + 25.0, middle + 47.0, middle - 39.0, _TOP + 10.0]
    heights += [_BOTTOM - 3.0, _BOTTOM - 25.0, _TOP + 32.0]
    places = [
        (left, y) for left in (x, x + 300.0) for y in heights if _TOP < y - 5.0 < _BOTTOM - 6.0
    ]
    taken = _trodden(ball, frame) if ball else []
    for line in words:
        free = (
            (place, box)
            for place, box in ((place, text_box(*place, line)) for place in places)
            if not any(box.meets(other) for other in taken)
        )
        place, box = next(free, (places[0], text_box(*places[0], line)))
        taken.append(box)
        yield label(*place, line, soft=True, halo=True)


def _trodden(ball: FlownBall, frame: _Frame) -> list[Box]:
    """Return boxes along the path from above, and that of the ball's shape."""
    finish = (ball.total, ball.offline)
    points = [(x, z) for x, _, z in ball.path]
    (x0, z0), (x1, z1) = points[-1], finish
    points += [(x0 + share * (x1 - x0), z0 + share * (z1 - z0)) for share in (0.25, 0.5, 0.75)]
    boxes = [_around(frame.x(x), frame.y(z), 3.0) for x, z in points]
    return [*boxes, _around(frame.x(x1), frame.y(z1), 14.0)]


def _around(x: float, y: float, reach: float) -> Box:
    return Box(left=x - reach, top=y - reach, right=x + reach, bottom=y + reach)
