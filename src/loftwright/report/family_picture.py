"""A family by section: each model's difference from the reference on four graduated rules."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, exp
from typing import Final

from loftwright.domain.family import Against
from loftwright.domain.sections import Section
from loftwright.report.look import INK, INK_2, SHEET
from loftwright.report.numbers import signed
from loftwright.report.picture_parts import fitted, label, picture, stroke

WIDTH: Final = 880.0
_NAMES: Final = 292.0
_GAP: Final = 26.0
_LINE: Final = 52.0
_TOP: Final = 56.0
_STEPS: Final = (1, 2, 5, 10, 20, 50, 100)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FamilyLine:
    """One model in the picture.

    Attributes
    ----------
    found : mapping of Section to Against
        Against the reference; empty for the reference itself.
    note : str
        Samples in words.
    """

    name: str
    note: str
    found: Mapping[Section, Against]
    reference: bool = False


def family_picture(lines: Sequence[FamilyLine], *, reference: str, prefix: str = "family") -> str:
    """Draw each model's difference in bending stiffness by section.

    Parameters
    ----------
    lines : sequence of FamilyLine
    reference : str
        What the zero lines stand for.
    prefix : str
        Beginning of the picture's ids.

    Notes
    -----
    A full dot on a full line is a claim that the samples bear; a hollow one on a dashed line is
    none. The line is the range of 95 in 100 where the spread of samples is known.
    """
    most = _most(lines)
    step = next((one for one in _STEPS if one >= most / 2.5), _STEPS[-1])
    reach = float(step * ceil(most / step))
    base = _TOP + _LINE * len(lines) + 6.0
    parts = [label(24.0, 24.0, fitted(f"Per cent of {reference}", 520.0), soft=True)]
    for row, line in enumerate(lines):
        y = _TOP + _LINE * (row + 0.5)
        parts.append(label(24.0, y - 2.0, fitted(line.name, _NAMES - 30.0), bold=line.reference))
        parts.append(label(24.0, y + 20.0, line.note, soft=True))
    for column, section in enumerate(Section):
        parts += _column(lines, section, _ends(column), (reach, step), base)
    title = f"{len(lines)} models by section, in per cent of {reference}"
    return picture(WIDTH, base + 64.0, parts, title=title, prefix=prefix)


def _most(lines: Sequence[FamilyLine]) -> float:
    ends = [
        100.0 * (exp(abs(told.log) + (told.margin or 0.0)) - 1.0)
        for line in lines
        for told in line.found.values()
    ]
    # A margin of very few samples may be far wider than any difference: it is cut, not the rest.
    centres = [100.0 * abs(exp(told.log) - 1.0) for line in lines for told in line.found.values()]
    return max(5.0, min(max(ends, default=0.0), 4.0 * max(centres, default=0.0)))


def _ends(column: int) -> tuple[float, float]:
    wide = (WIDTH - _NAMES - 24.0 - 3.0 * _GAP) / 4.0
    left = _NAMES + column * (wide + _GAP)
    return left, left + wide


def _column(
    lines: Sequence[FamilyLine],
    section: Section,
    ends: tuple[float, float],
    scale: tuple[float, int],
    base: float,
) -> Iterator[str]:
    left, right = ends
    reach, step = scale
    middle = (left + right) / 2.0

    def x(percent: float) -> float:
        return middle + max(-reach, min(reach, percent)) / reach * (right - left) / 2.0

    name = section.value
    yield label(middle, _TOP - 8.0, f"{name[:1].upper()}{name[1:]}", anchor="middle", bold=True)
    yield stroke(f"M{middle:.1f} {_TOP:.1f}V{base:.1f}", colour=INK, width=1.4)
    ticks = "".join(
        f"M{x(at):.1f} {base:.1f}v{10 if at % (2 * step) == 0 else 6}"
        for at in range(-int(reach), int(reach) + 1, step)
    )
    yield stroke(ticks)
    yield stroke(f"M{left:.1f} {base:.1f}H{right:.1f}", colour=INK)
    yield label(left, base + 29.0, signed(-reach, 0), soft=True)
    yield label(middle, base + 29.0, "0", anchor="middle", soft=True)
    yield label(right, base + 29.0, f"{signed(reach, 0)} %", anchor="end", soft=True)
    yield label(left, base + 52.0, "softer", soft=True)
    yield label(right, base + 52.0, "stiffer", anchor="end", soft=True)
    for row, line in enumerate(lines):
        y = _TOP + _LINE * (row + 0.5)
        if line.reference:
            yield (
                f'<circle cx="{middle:.1f}" cy="{y:.1f}" r="6" fill="{SHEET}" stroke="{INK}" '
                'stroke-width="3"/>'
            )
        elif section in line.found:
            yield from _mark(line.found[section], x, y)
        else:
            yield label(middle, y + 5.0, "not seen", anchor="middle", soft=True, halo=True)


def _mark(told: Against, x: Callable[[float], float], y: float) -> Iterator[str]:
    best = x(100.0 * (exp(told.log) - 1.0))
    if told.margin is not None:
        low, high = (100.0 * (exp(told.log + side * told.margin) - 1.0) for side in (-1.0, 1.0))
        line = f"M{x(low):.1f} {y:.1f}H{x(high):.1f}"
        yield stroke(line, colour=INK, width=1.6, dash="" if told.claimed else "5 4")
    fill = INK if told.claimed else SHEET
    edge = INK if told.claimed else INK_2
    yield (
        f'<circle cx="{best:.1f}" cy="{y:.1f}" r="5" fill="{fill}" stroke="{edge}" '
        'stroke-width="1.6"/>'
    )
