"""How far a part's figures stand from the tested one's, on one rule in tolerances."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.look import ACCENT, EDGE, HAIR, INK, WASH
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke

WIDTH: Final = 880.0
FARTHEST: Final = 3.5
"""Tolerances to either side that the rule shows; what lies beyond stands at its end."""

_NAMES = 220.0
_LEFT, _RIGHT = 230.0, 660.0
_SAYS = 676.0
_TOP = 34.0
_ROW = 40.0
_FOOT = 44.0
_RADIUS = 6.5


@dataclass(frozen=True, slots=True, kw_only=True)
class ApartRow:
    """One figure.

    Attributes
    ----------
    name : str
    apart, doubt : float
        In tolerances; the doubt to either side.
    says : str
        The difference in words.
    """

    name: str
    apart: float
    doubt: float
    says: str


def apart_picture(rows: Sequence[ApartRow], *, title: str, prefix: str = "apart") -> str:
    """Draw how far figures stand from the tested ones, with their doubt, beside what is allowed.

    Parameters
    ----------
    rows : sequence of ApartRow
        At least one, from the top.
    title : str
    prefix : str
        Beginning of the picture's ids.
    """
    base = _TOP + _ROW * len(rows) + 4.0
    left, right = _x(-1.0), _x(1.0)
    parts = [
        f'<rect x="{left:.1f}" y="{_TOP - 8.0:.1f}" width="{right - left:.1f}" '
        f'height="{base - _TOP + 8.0:.1f}" fill="{WASH}"/>',
        label(_x(0.0), _TOP - 14.0, "allowed", anchor="middle", soft=True),
        *(
            stroke(f"M{x:.1f} {_TOP - 8.0:.1f}V{base:.1f}", dash="6 5", width=1.4)
            for x in (left, right)
        ),
        stroke(f"M{_x(0.0):.1f} {_TOP - 8.0:.1f}V{base:.1f}", colour=INK, width=1.6),
    ]
    for place, row in enumerate(rows):
        parts += _row(row, _TOP + _ROW * (place + 0.5))
    ticks = [(_x(half / 2.0), 7.0 if half % 2 else 11.0) for half in range(-6, 7)]
    numerals = {_x(0.0): "as tested", _x(-3.0): "3 × less", _x(3.0): "3 × more"}
    parts.append(level_rule(ticks, numerals, base, (_LEFT, _RIGHT)))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


def _x(apart: float) -> float:
    held = min(max(apart, -FARTHEST), FARTHEST)
    return _LEFT + (held + FARTHEST) / (2.0 * FARTHEST) * (_RIGHT - _LEFT)


def _row(row: ApartRow, y: float) -> Iterator[str]:
    yield label(0.0, y + 6.0, fitted(row.name, _NAMES))
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    low, high = _x(row.apart - row.doubt), _x(row.apart + row.doubt)
    ends = "".join(f"M{end:.1f} {y - 6.0:.1f}v12" for end in (low, high))
    yield stroke(f"M{low:.1f} {y:.1f}H{high:.1f}{ends}", colour=INK, width=1.6)
    at = _x(row.apart)
    if abs(row.apart) > FARTHEST:
        tip = 9.0 if row.apart > 0.0 else -9.0
        arrow = f"M{at - tip:.1f} {y - 7.0:.1f}L{at:.1f} {y:.1f}L{at - tip:.1f} {y + 7.0:.1f}"
        yield stroke(arrow, colour=INK, width=2.0)
    else:
        yield (
            f'<circle cx="{at:.1f}" cy="{y:.1f}" r="{_RADIUS}" fill="{ACCENT}" '
            f'stroke="{EDGE}" stroke-width="1.2"/>'
        )
    yield label(_SAYS, y + 6.0, fitted(row.says, WIDTH - _SAYS))
