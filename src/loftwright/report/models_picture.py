"""Models against one reference: every difference twice, with its ranges, told apart or not."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Final

from loftwright.report.look import EDGE, INK, INK_2, SHEET
from loftwright.report.picture_parts import fitted, label, picture, stroke
from loftwright.report.screen_numbers import Show

WIDTH: Final = 880.0
NOT_APART: Final = "not told apart"
_ROW: Final = 44.0
_TOP: Final = 46.0
_HEAD: Final = 66.0
_FOOT: Final = 62.0
_RULES: Final = ((252.0, 402.0), (566.0, 716.0))
_WORDS: Final = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelName:
    """A model in the picture.

    Attributes
    ----------
    note : str
        What stands behind it.
    """

    name: str
    note: str
    reference: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A difference from the reference, in the unit of its block.

    Attributes
    ----------
    best : float
    likely, wide : tuple of float
        Ranges of 80 and 95 in 100.
    """

    best: float
    likely: tuple[float, float]
    wide: tuple[float, float]

    @property
    def apart(self) -> bool:
        """Whether the wide range leaves zero out."""
        return self.wide[0] > 0.0 or self.wide[1] < 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class QuantityBlock:
    """One quantity of all models.

    Attributes
    ----------
    name, unit : str
    less, more : str
        What lies left and right of zero.
    digits : int
    ways : tuple of tuple of (Difference or None)
        One a way, then one a model; None for the reference.
    """

    name: str
    unit: str
    less: str
    more: str
    digits: int
    ways: tuple[tuple[Difference | None, ...], ...]


def models_picture(
    names: Sequence[ModelName],
    blocks: Sequence[QuantityBlock],
    *,
    ways: tuple[str, str],
    title: str,
    show: Show,
    note: str = "",
    prefix: str = "models",
) -> str:
    """Draw what models do against the reference, a quantity below the other.

    Parameters
    ----------
    names : sequence of ModelName
    blocks : sequence of QuantityBlock
    ways : tuple of str
        What the left and the right column show.
    title : str
        The picture's name.
    show : Show
        How figures are written.
    note : str
        One line under all.
    prefix : str
        Beginning of the picture's ids.

    Notes
    -----
    A full dot on a full line can be told from the reference; a hollow one on a dashed line cannot,
    and no figure stands beside it.
    """
    tall = _HEAD + _ROW * len(names) + _FOOT
    parts = [label(24.0, 26.0, fitted(title, WIDTH - 48.0, bold=True), bold=True)]
    for place, block in enumerate(blocks):
        parts += _block(block, names, ways, _TOP + place * tall, show)
    height = _TOP + tall * len(blocks)
    if note:
        parts.append(label(24.0, height + 18.0, fitted(note, WIDTH - 48.0)))
        height += 34.0
    return picture(WIDTH, height, parts, title=title, prefix=prefix)


def reach_of(block: QuantityBlock) -> float:
    """Return how far a block's rules reach to both sides: 1, 2 or 5 times a power of ten.

    A very wide range is cut; no difference and no likely range is.
    """
    told = [one for way in block.ways for one in way if one is not None]
    likely = max((max(abs(one.likely[0]), abs(one.likely[1])) for one in told), default=0.0)
    wide = max((max(abs(one.wide[0]), abs(one.wide[1])) for one in told), default=0.0)
    most = max(likely, min(wide, 2.0 * likely), 10.0**-block.digits)
    power = 10.0 ** floor(log10(most))
    return next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= most)


def _block(
    block: QuantityBlock,
    names: Sequence[ModelName],
    ways: tuple[str, str],
    top: float,
    show: Show,
) -> Iterator[str]:
    first = top + _HEAD
    yield stroke(f"M24 {top:.1f}H{WIDTH - 24:.1f}", colour=INK, width=1.6)
    yield label(24.0, top + 28.0, block.name, bold=True)
    yield label(24.0, top + 50.0, block.unit, soft=True)
    for row, one in enumerate(names):
        y = first + _ROW * (row + 0.5)
        yield label(24.0, y - 3.0, fitted(one.name, 208.0, bold=one.reference), bold=one.reference)
        yield label(24.0, y + 16.0, fitted(one.note, 208.0), soft=True)
    reach = reach_of(block)
    for ends, way, differences in zip(_RULES, ways, block.ways, strict=True):
        yield from _column(block, way, differences, (ends, reach, first), show)


def _column(
    block: QuantityBlock,
    way: str,
    differences: Sequence[Difference | None],
    frame: tuple[tuple[float, float], float, float],
    show: Show,
) -> Iterator[str]:
    (left, right), reach, first = frame
    middle, base = (left + right) / 2.0, first + _ROW * len(differences)

    def x(value: float) -> float:
        return middle + max(-reach, min(reach, value)) / reach * (right - left) / 2.0

    yield label(left, first - 12.0, way, bold=True)
    yield stroke(f"M{middle:.1f} {first:.1f}V{base:.1f}", colour=INK, width=1.4)
    ticks = "".join(
        f"M{x(reach * at / 4):.1f} {base:.1f}v{6 if at % 2 else 10}" for at in range(-4, 5)
    )
    yield stroke(ticks)
    yield stroke(f"M{left:.1f} {base:.1f}H{right:.1f}", colour=INK)
    digits = 0 if reach >= 4.0 else ceil(-log10(reach / 2.0))
    yield label(left, base + 27.0, show.signed(-reach, max(0, digits)), anchor="middle", soft=True)
    yield label(middle, base + 27.0, "0", anchor="middle", soft=True)
    yield label(right, base + 27.0, show.signed(reach, max(0, digits)), anchor="middle", soft=True)
    yield label(left - 16.0, base + 48.0, block.less, soft=True)
    yield label(right + 16.0, base + 48.0, block.more, anchor="end", soft=True)
    for row, told in enumerate(differences):
        y = first + _ROW * (row + 0.5)
        if told is None:
            yield (
                f'<circle cx="{middle:.1f}" cy="{y:.1f}" r="6" fill="{SHEET}" stroke="{INK}" '
                'stroke-width="3"/>'
            )
            yield label(right + _WORDS, y + 5.0, "reference", soft=True)
            continue
        ends = [x(told.wide[0]), x(told.likely[0]), x(told.likely[1]), x(told.wide[1])]
        yield from _mark(told, x(told.best), y, ends)
        words = show.signed(told.best, block.digits) if told.apart else NOT_APART
        yield label(right + _WORDS, y + 5.0, words, bold=told.apart, soft=not told.apart)


def _mark(told: Difference, best: float, y: float, ends: Sequence[float]) -> Iterator[str]:
    low, likely_low, likely_high, high = ends
    yield stroke(f"M{likely_low:.1f} {y:.1f}H{likely_high:.1f}", colour=EDGE, width=9.0)
    yield stroke(
        f"M{low:.1f} {y:.1f}H{high:.1f}",
        colour=INK,
        width=1.6,
        dash="" if told.apart else "5 4",
    )
    fill, edge = (INK, INK) if told.apart else (SHEET, INK_2)
    yield (
        f'<circle cx="{best:.1f}" cy="{y:.1f}" r="5" fill="{fill}" stroke="{edge}" '
        'stroke-width="1.6"/>'
    )
