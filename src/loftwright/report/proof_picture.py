"""How often balls fell in the ranges that were predicted for them, over one rule of shares."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.look import ACCENT, EDGE, HAIR, INK
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke

WIDTH: Final = 880.0

_NAMES = 190.0
_LEFT, _RIGHT = 200.0, 840.0
_TOP = 46.0
_ROW = 40.0
_FOOT = 44.0
_RADIUS = 7.0
_SURE = 1.96


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofMark:
    """What one range was to hold and what it held.

    Attributes
    ----------
    said, held : float
        0 to 1.
    error : float, optional
        Standard error of what it held.
    """

    said: float
    held: float
    error: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofRow:
    """One quantity."""

    name: str
    marks: tuple[ProofMark, ...]


def proof_picture(rows: Sequence[ProofRow], *, title: str, prefix: str = "proof") -> str:
    """Draw what each range held beside the upright that says what it was to hold.

    Parameters
    ----------
    rows : sequence of ProofRow
        At least one, from the top.
    title : str
    prefix : str
        Beginning of the picture's ids.
    """
    base = _TOP + _ROW * len(rows) + 4.0
    said = sorted({mark.said for row in rows for mark in row.marks})
    parts = [
        stroke(f"M{_x(one):.1f} {_TOP - 8.0:.1f}V{base:.1f}", dash="6 5", width=1.6)
        for one in said
    ]
    parts += [
        label(_x(one), _TOP - 18.0, f"{100.0 * one:.0f} %", anchor="middle", bold=True)
        for one in said
    ]
    for place, row in enumerate(rows):
        parts += _row(row, _TOP + _ROW * (place + 0.5))
    ticks = [(_x(share / 20.0), 7.0 if share % 2 else 11.0) for share in range(21)]
    numerals = {_x(share / 5.0): f"{20 * share}" for share in range(6)}
    parts.append(level_rule(ticks, numerals, base, (_LEFT, _RIGHT)))
    return picture(WIDTH, base + _FOOT, parts, title=title, prefix=prefix)


def proof_words(rows: Sequence[ProofRow]) -> str:
    """Return the picture in words."""
    told = []
    for row in rows:
        held = ", ".join(
            f"{100.0 * mark.held:.0f} % in the {100.0 * mark.said:.0f} % range"
            for mark in row.marks
        )
        told.append(f"{row.name}: {held}.")
    return " ".join(told)


def _x(share: float) -> float:
    return _LEFT + share * (_RIGHT - _LEFT)


def _row(row: ProofRow, y: float) -> Iterator[str]:
    yield label(0.0, y + 6.0, fitted(row.name, _NAMES))
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    for mark in row.marks:
        if mark.error is not None:
            low = max(mark.held - _SURE * mark.error, 0.0)
            high = min(mark.held + _SURE * mark.error, 1.0)
            ends = "".join(f"M{_x(end):.1f} {y - 6.0:.1f}v12" for end in (low, high))
            line = f"M{_x(low):.1f} {y:.1f}H{_x(high):.1f}{ends}"
            yield stroke(line, colour=INK, width=1.6)
        yield (
            f'<circle cx="{_x(mark.held):.1f}" cy="{y:.1f}" r="{_RADIUS}" fill="{ACCENT}" '
            f'stroke="{EDGE}" stroke-width="1.2"/>'
        )
