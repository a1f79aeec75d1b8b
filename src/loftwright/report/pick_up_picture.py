"""Differences of a built club from the tested one as strokes, each against its own margin."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.look import ACCENT, HAIR, INK, SHEET, WASH
from loftwright.report.picture_parts import fitted, label, picture, stroke

WIDTH: Final = 776.0
FARTHEST: Final = 2.0
"""Margins to either side that are drawn; a range that goes on ends in an arrow."""

_NAMES, _LEFT, _RIGHT = 148.0, 156.0, 596.0
_TOP, _ROW, _FOOT = 58.0, 42.0, 10.0
_RADIUS, _END = 7.0, 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """One difference, its range and what the build explains, all in margins.

    Attributes
    ----------
    name, words : str
        What it is, and the difference in its unit.
    """

    name: str
    words: str
    best: float
    low: float
    high: float
    explained: float
    within: bool


def pick_up_picture(
    rows: Sequence[Apart], *, title: str, built: str, tested: str, prefix: str = "apart"
) -> str:
    """Draw every difference over its margin.

    Parameters
    ----------
    rows : sequence of Apart
        At least one, from the top.
    title : str
    built, tested : str
        Names of the clubs.
    prefix : str
        Beginning of the picture's ids.
    """
    base = _TOP + _ROW * len(rows)
    parts = list(_frame(base, tested, built))
    for place, row in enumerate(rows):
        parts += _row(row, _TOP + _ROW * (place + 0.5))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


def _x(value: float) -> float:
    share = (min(max(value, -FARTHEST), FARTHEST) + FARTHEST) / (2.0 * FARTHEST)
    return _LEFT + share * (_RIGHT - _LEFT)


def _frame(base: float, tested: str, built: str) -> Iterator[str]:
    """Draw zero and the margins with what they are."""
    yield (
        f'<rect x="{_x(-1.0):.1f}" y="{_TOP - 8.0:.1f}" width="{_x(1.0) - _x(-1.0):.1f}" '
        f'height="{base - _TOP + 8.0:.1f}" fill="{WASH}"/>'
    )
    for edge in (-1.0, 1.0):
        x = _x(edge)
        yield stroke(f"M{x:.1f} {_TOP - 8.0:.1f}V{base:.1f}", colour=INK, width=1.2, dash="5 4")
    yield label(_x(-1.0), _TOP - 14.0, "margin", anchor="middle", soft=True)
    yield label(_x(1.0), _TOP - 14.0, "margin", anchor="middle", soft=True)
    yield stroke(f"M{_x(0.0):.1f} {_TOP - 8.0:.1f}V{base:.1f}", colour=INK, width=1.6)
    yield label(_x(0.0), _TOP - 14.0, fitted(tested, 110.0), anchor="middle", bold=True)
    yield label(_RIGHT + 14.0, _TOP - 14.0, fitted(f"{built} differs by", 160.0), soft=True)
    # How the strokes read, above everything.
    yield label(_LEFT, 20.0, "←", soft=True)
    yield label(_LEFT + 22.0, 20.0, "less, or left", soft=True)
    yield label(_RIGHT - 22.0, 20.0, "more, or right", anchor="end", soft=True)
    yield label(_RIGHT, 20.0, "→", anchor="end", soft=True)


def _row(row: Apart, y: float) -> Iterator[str]:
    """Draw what the build explains, the range over it, and the difference in figures."""
    yield label(0.0, y + 6.0, fitted(row.name, _NAMES))
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    explained = min(row.explained, FARTHEST)
    left, right = _x(-explained), _x(explained)
    yield (
        f'<rect x="{left:.1f}" y="{y - 5.0:.1f}" width="{right - left:.1f}" height="10" '
        f'fill="{SHEET}" stroke="{INK}" stroke-width="1"/>'
    )
    low, high = _x(row.low), _x(row.high)
    yield stroke(f"M{low:.1f} {y:.1f}H{high:.1f}", colour=INK, width=2.4)
    yield _end(low, y, beyond=row.low < -FARTHEST, way=-1.0)
    yield _end(high, y, beyond=row.high > FARTHEST, way=1.0)
    yield (
        f'<circle cx="{_x(row.best):.1f}" cy="{y:.1f}" r="{_RADIUS}" '
        f'fill="{ACCENT if row.within else SHEET}" stroke="{INK}" stroke-width="1.8"/>'
    )
    yield label(_RIGHT + 14.0, y + 6.0, fitted(row.words, WIDTH - _RIGHT - 14.0), bold=True)


def _end(x: float, y: float, *, beyond: bool, way: float) -> str:
    if beyond:
        path = (
            f"M{x - 8.0 * way:.1f} {y - 6.0:.1f}L{x:.1f} {y:.1f}L{x - 8.0 * way:.1f} {y + 6.0:.1f}"
        )
    else:
        path = f"M{x:.1f} {y - _END:.1f}v{2.0 * _END:g}"
    return stroke(path, colour=INK, width=1.8)
