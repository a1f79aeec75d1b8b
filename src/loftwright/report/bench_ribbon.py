"""A shaft on the bench lying down: its EI as thickness, as far as it was read."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.domain.sections import Section, extent
from loftwright.physics.bench.piece import Piece
from loftwright.report.graduated import graduate
from loftwright.report.look import EDGE, HAIR, INK, SHEET
from loftwright.report.numbers import fixed
from loftwright.report.picture_parts import label, picture, stroke
from loftwright.report.shaft_ribbon import (
    LEFT,
    MIDDLE,
    RIGHT,
    WIDTH,
    across_of,
    length_rule,
    not_seen,
    runs,
    sections_under,
)

NINE_IN_TEN: Final = 1.645
NOT_READ: Final = "not read"
_HALF: Final = 92.0
_FINE: Final = 5.0 * MILLIMETRE
_CROSS: Final = 7.0
_TICKS: Final = 22.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAt:
    """Where a reading was taken.

    Attributes
    ----------
    station : float
        From the butt [m].
    name : str
        What its row is called.
    doubted : bool
    """

    station: float
    name: str
    doubted: bool = False


def bench_ribbon(
    length: float,
    piece: Piece | None,
    marks: Sequence[ReadAt],
    *,
    whole: Piece | None = None,
    prefix: str = "bench",
) -> str:
    """Draw what the bench has read of a shaft so far.

    Parameters
    ----------
    length : float
        Of the shaft [m].
    piece : Piece, optional
        None while nothing is read; the whole shaft is then hatched.
    marks : sequence of ReadAt
    whole : Piece, optional
        With the readings that are doubted, dashed; none if none is.
    prefix : str
        Beginning of the picture's ids.

    Notes
    -----
    Thickness is EI, the band at both edges nine chances in ten.
    """
    parts = [
        *(not_seen(LEFT, RIGHT, NOT_READ) if piece is None else _shaft(piece, whole)),
        *_marks(marks, length),
        label(LEFT, 262.0, "Butt", bold=True),
        label(RIGHT, 262.0, "Tip", anchor="end", bold=True),
        length_rule(length),
        *sections_under(length, _under(piece)),
    ]
    title = "EI along the shaft from the butt to the tip, hatched where it is not read"
    return picture(WIDTH, 432.0, parts, title=title, prefix=prefix)


def section_level(piece: Piece, section: Section) -> tuple[float, float] | None:
    """Return the mean EI of a section and the standard error of its logarithm.

    None if half of it or more is not read.
    """
    lies = extent(section, piece.length)
    if lies is None:
        return None
    within = (piece.stations >= lies[0] - 1e-9) & (piece.stations <= lies[1] + 1e-9)
    seen = within & piece.bending.seen
    if not within.any() or 2 * int(seen.sum()) <= int(within.sum()):
        return None
    share = seen / seen.sum()
    level = float(np.exp(share @ np.log(piece.bending.values)))
    return level, float(np.sqrt(share @ piece.bending.covariance @ share))


def _under(piece: Piece | None) -> dict[Section, str]:
    found = {}
    for section in Section:
        level = None if piece is None else section_level(piece, section)
        found[section] = NOT_READ if level is None else f"{fixed(level[0], 1)} N m²"
    return found


def _shaft(piece: Piece, whole: Piece | None) -> Iterator[str]:
    field = piece.bending
    place = np.linspace(0.0, piece.length, 1 + round(piece.length / _FINE))
    values, low, high = (
        np.interp(place, piece.stations, one)
        for one in (field.values, field.low(NINE_IN_TEN), field.high(NINE_IN_TEN))
    )
    seen = _between(place, piece.stations, field.seen)
    if not seen.any():
        yield from not_seen(LEFT, RIGHT, NOT_READ)
        return
    most = float(high[seen].max())
    scale = _HALF / most
    across = [across_of(float(one), piece.length) for one in place]
    for first, last, read in runs(seen):
        if not read:
            yield from not_seen(across[first], across[last], NOT_READ)
            continue
        span = slice(first, last + 1)
        yield from _stretch(across[span], [scale * one[span] for one in (values, low, high)])
    if whole is not None:
        # A doubted reading may make any bulge; the picture's frame cuts it.
        half = np.minimum(scale * np.interp(place, whole.stations, whole.bending.values), _HALF)
        for first, last, read in runs(seen):
            if read:
                span = slice(first, last + 1)
                for side in (1.0, -1.0):
                    line = "L".join(_edge(across[span], half[span], side))
                    yield stroke(f"M{line}", colour=EDGE, width=1.6, dash="8 5")
    yield from _stiffness_rule(most, scale)


def _between(place: FloatArray, stations: FloatArray, seen: BoolArray) -> BoolArray:
    """Return where both stations beside a place are read."""
    found: BoolArray = np.interp(place, stations, seen.astype(np.float64)) > 1.0 - 1e-9
    return found


def _edge(across: Sequence[float], half: FloatArray, side: float) -> list[str]:
    return [f"{x:.1f} {MIDDLE - side * one:.1f}" for x, one in zip(across, half, strict=True)]


def _stretch(across: Sequence[float], edges: Sequence[FloatArray]) -> Iterator[str]:
    def edge(half: FloatArray, side: float) -> list[str]:
        return [f"{x:.1f} {MIDDLE - side * one:.1f}" for x, one in zip(across, half, strict=True)]

    values, low, high = edges
    top, foot = edge(values, 1.0), edge(values, -1.0)
    yield f'<path d="M{"L".join([*top, *reversed(foot)])}Z" fill="{SHEET}"/>'
    for side in (1.0, -1.0):
        band = [*_edge(across, high, side), *reversed(_edge(across, low, side))]
        yield f'<path d="M{"L".join(band)}Z" fill="{HAIR}"/>'
    yield stroke(f"M{'L'.join(top)}", colour=INK, width=2.2)
    yield stroke(f"M{'L'.join(foot)}", colour=INK, width=2.2)


def _stiffness_rule(most: float, scale: float) -> Iterator[str]:
    """Yield the rule at the butt: EI from the middle line up."""
    rule = graduate(0.0, most, 4)
    path = f"M{LEFT - 6:.1f} {MIDDLE:.1f}V{MIDDLE - scale * most:.1f}"
    for mark in rule.long:
        y = MIDDLE - scale * mark
        if mark <= most:
            path += f"M{LEFT - 6:.1f} {y:.1f}h-10"
            yield label(LEFT - 20.0, y + 6.0, fixed(mark), anchor="end", soft=True)
    for mark in rule.short:
        if mark <= most:
            path += f"M{LEFT - 6:.1f} {MIDDLE - scale * mark:.1f}h-5"
    yield stroke(path, colour=EDGE)
    yield label(16.0, 22.0, "EI, N m²", soft=True)


def _marks(marks: Sequence[ReadAt], length: float) -> Iterator[str]:
    """Yield a tick at each reading, a cross at one that is doubted."""
    path = cross = ""
    for one in marks:
        if not 0.0 <= one.station <= length:
            continue
        x = across_of(one.station, length)
        if one.doubted:
            cross += (
                f"M{x - _CROSS:.1f} {_TICKS + 6.0 - _CROSS:.1f}l{2 * _CROSS} {2 * _CROSS}"
                f"M{x - _CROSS:.1f} {_TICKS + 6.0 + _CROSS:.1f}l{2 * _CROSS} {-2 * _CROSS}"
            )
            yield label(x, 14.0, one.name, anchor="middle", bold=True)
        else:
            path += f"M{x:.1f} {_TICKS:.1f}v12"
    if path:
        yield stroke(path, colour=INK, width=1.6)
    if cross:
        yield stroke(cross, colour=INK, width=2.6)
