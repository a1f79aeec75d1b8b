"""A bag from the longest club to the shortest: each quantity on a graduated rule of its own."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, TypeAlias

from loftwright.constants import CYCLE_PER_MINUTE
from loftwright.domain.bag import Known
from loftwright.physics.build.swingweight import letters
from loftwright.report.bag_words import INERTIA, KNOWN_WORDS, apart_words
from loftwright.report.graduated import Rule, graduate
from loftwright.report.look import EDGE, HAIR, INK, SHEET
from loftwright.report.picture_parts import Anchor, fitted, label, picture, stroke, text_width
from loftwright.report.screen_numbers import TRADE, Show

Height: TypeAlias = Callable[[float], float]

WIDTH: Final = 880.0
DRAWN: Final = (Known.LENGTH, Known.SWINGWEIGHT, Known.INERTIA, Known.FREQUENCY)
_LEFT, _RIGHT = 108.0, 852.0
_TITLE, _TALL, _APART = 22.0, 92.0, 30.0
_DOT, _RING = 4.6, 10.0
_LEAST = {
    Known.LENGTH: 0.02,
    Known.SWINGWEIGHT: 2.0,
    Known.INERTIA: 40.0 * INERTIA,
    Known.FREQUENCY: 10.0 * CYCLE_PER_MINUTE,
}
"""What a rule spans at least, so that alike clubs do not look far apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A club's figure with its doubt [SI, points]; hollow where it is compared with no other."""

    value: float
    half_width: float
    hollow: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnClub:
    """A club of the picture.

    Attributes
    ----------
    figures : mapping of Known to Drawn
        What is not known is not drawn.
    line : mapping of Known to float
        Where an even run would have it.
    out : mapping of Known to float
        By how much it stands out.
    row : str
        Clubs of one row are joined by its line.
    """

    name: str
    figures: Mapping[Known, Drawn]
    line: Mapping[Known, float] = field(default_factory=dict)
    out: Mapping[Known, float] = field(default_factory=dict)
    row: str = ""


def bag_picture(clubs: Sequence[DrawnClub], *, show: Show = TRADE, prefix: str = "bag") -> str:
    """Draw length, swingweight, club MOI and frequency over the clubs of a bag.

    Parameters
    ----------
    clubs : sequence of DrawnClub
        In the order of the bag.
    show : Show
        The units that the rules are graduated in.
    prefix : str
        Beginning of the picture's ids.
    """
    panel = _TITLE + _TALL + _APART
    base = len(DRAWN) * panel - _APART
    places = _places(clubs)
    parts = [_guides(places, base)]
    for number, known in enumerate(DRAWN):
        top = number * panel + _TITLE
        parts += _panel(known, clubs, places, top, show)
    parts += _names(clubs, places, base)
    told = [KNOWN_WORDS[known] for known in DRAWN if any(known in one.figures for one in clubs)]
    title = f"{', '.join(told) or 'nothing measured'} over {len(clubs)} clubs"
    tall = base + 36.0 + 22.0 * (_lines(clubs) - 1)
    return picture(WIDTH, tall, parts, title=title[:1].upper() + title[1:], prefix=prefix)


def _places(clubs: Sequence[DrawnClub]) -> list[float]:
    apart = (_RIGHT - _LEFT) / max(len(clubs), 1)
    return [_LEFT + (number + 0.5) * apart for number in range(len(clubs))]


def _guides(places: Sequence[float], base: float) -> str:
    return stroke("".join(f"M{x:.1f} {_TITLE:.0f}V{base + 8.0:.1f}" for x in places), colour=HAIR)


def _names(clubs: Sequence[DrawnClub], places: Sequence[float], base: float) -> Iterator[str]:
    """Name the clubs below, on as many lines in turn as leave every name room."""
    lines = _lines(clubs)
    room = lines * _room(clubs)
    for number, (club, x) in enumerate(zip(clubs, places, strict=True)):
        text = fitted(club.name, room)
        half = 0.5 * text_width(text)
        at = min(max(x, half), WIDTH - half)
        yield label(at, base + 28.0 + 22.0 * (number % lines), text, anchor="middle")


def _lines(clubs: Sequence[DrawnClub]) -> int:
    """Return on how many lines names stand, three at most."""
    widest = max((text_width(one.name) for one in clubs), default=0.0)
    return next((lines for lines in (1, 2) if widest <= lines * _room(clubs)), 3)


def _room(clubs: Sequence[DrawnClub]) -> float:
    return (_RIGHT - _LEFT) / max(len(clubs), 1) - 4.0


def _panel(
    known: Known,
    clubs: Sequence[DrawnClub],
    places: Sequence[float],
    top: float,
    show: Show,
) -> Iterator[str]:
    name = KNOWN_WORDS[known]
    there = [(one, x) for one, x in zip(clubs, places, strict=True) if known in one.figures]
    unit, size = _unit(known, show)
    title = f"{name[:1].upper()}{name[1:]}{f', {unit}' if unit else ''}"
    yield label(0.0, top - 6.0, title, bold=True)
    if not there:
        yield label(_LEFT, top + 0.5 * _TALL, "measured of no club yet", soft=True)
        return
    rule = _rule(known, [one for one, _ in there], size)

    def height(value: float) -> float:
        return top + _TALL * (rule.high - value / size) / (rule.high - rule.low)

    yield from _upright(rule, known, height, size, show)
    yield _line(known, there, height)
    for one, x in there:
        yield from _dot(one, known, x, height, show)


def _unit(known: Known, show: Show) -> tuple[str, float]:
    if known is Known.LENGTH:
        unit = show.unit("length")
        return unit.name, unit.scale
    if known is Known.INERTIA:
        return "kg cm²", INERTIA
    return ("cpm", CYCLE_PER_MINUTE) if known is Known.FREQUENCY else ("", 1.0)


def _rule(known: Known, clubs: Sequence[DrawnClub], size: float) -> Rule:
    ends = [
        value
        for one in clubs
        for value in (
            one.figures[known].value - one.figures[known].half_width,
            one.figures[known].value + one.figures[known].half_width,
            *([one.line[known]] if known in one.line else []),
        )
    ]
    low, high = min(ends), max(ends)
    middle, half = 0.5 * (low + high), 0.5 * max(high - low, _LEAST[known])
    return graduate((middle - half) / size, (middle + half) / size, 3)


def _upright(rule: Rule, known: Known, height: Height, size: float, show: Show) -> Iterator[str]:
    ticks = "".join(f"M{_LEFT - 12.0:.1f} {height(one * size):.1f}h12" for one in rule.long)
    ticks += "".join(f"M{_LEFT - 4.0:.1f} {height(one * size):.1f}h4" for one in rule.short)
    yield stroke(ticks)
    ends = f"M{_LEFT} {height(rule.high * size):.1f}V{height(rule.low * size):.1f}"
    yield stroke(ends, colour=INK)
    digits = 0 if rule.step >= 1.0 else 1 if rule.step >= 0.1 else 2
    for one in rule.long:
        text = _numeral(known, one, digits, show)
        yield label(_LEFT - 18.0, height(one * size) + 6.0, text, anchor="end", soft=True)


def _numeral(known: Known, value: float, digits: int, show: Show) -> str:
    if known is not Known.SWINGWEIGHT:
        return show.number(value, digits)
    text = letters(value)
    return show.words(text if digits else text.removesuffix(".0"))


def _line(known: Known, there: Sequence[tuple[DrawnClub, float]], height: Height) -> str:
    """Join what an even run would be, row by row."""
    path, row = "", ""
    for one, x in there:
        if known in one.line:
            path += f"{'L' if row == one.row else 'M'}{x:.1f} {height(one.line[known]):.1f}"
            row = one.row
    return stroke(path, colour=EDGE, width=1.4, dash="6 6") if path else ""


def _dot(one: DrawnClub, known: Known, x: float, height: Height, show: Show) -> Iterator[str]:
    drawn = one.figures[known]
    y = height(drawn.value)
    top, bottom = height(drawn.value + drawn.half_width), height(drawn.value - drawn.half_width)
    yield stroke(f"M{x:.1f} {top:.1f}V{bottom:.1f}", colour=INK, width=1.5)
    fill = SHEET if drawn.hollow else INK
    yield (
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{_DOT}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="1.5"/>'
    )
    if known in one.out:
        yield (
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{_RING:.0f}" fill="none" stroke="{INK}" '
            f'stroke-width="1.6"/>'
        )
        text = apart_words(known, one.out[known], show)
        beside = x + _RING + 5.0 < WIDTH - 90.0
        at = x + _RING + 5.0 if beside else x - _RING - 5.0
        anchor: Anchor = "start" if beside else "end"
        yield label(at, y + 6.0, text, anchor=anchor, bold=True, halo=True)
