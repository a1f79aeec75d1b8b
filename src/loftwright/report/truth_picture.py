"""What was true of every club beside what two ways of averaging said of it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from loftwright.errors import InputError
from loftwright.report.look import HAIR, INK
from loftwright.report.marks import Mark
from loftwright.report.picture_parts import club_shape, label, level_rule, picture, stroke
from loftwright.report.screen_numbers import TRADE, Show

WIDTH: Final = 880.0

_LEFT, _RIGHT = 150.0, 840.0
_TOP, _LANE = 24.0, 52.0
_STEPS: Final = (1, 2, 5, 10, 20, 50)
_MOST_NUMERALS: Final = 9
_RADIUS: Final = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TruthLane:
    """One club, every figure against the same zero [m].

    Attributes
    ----------
    club : str
    truth : float
    plain : float, optional
        By plain averages; None where it was not hit.
    low, high : float, optional
        The range of the comparison; None where it may not be ranked.
    """

    club: str
    truth: float
    plain: float | None = None
    low: float | None = None
    high: float | None = None

    def figures(self) -> tuple[float, ...]:
        """Return what the lane shows."""
        told = (self.truth, self.plain, self.low, self.high)
        return tuple(one for one in told if one is not None)


def truth_picture(
    lanes: Sequence[TruthLane],
    marks: Mapping[str, Mark],
    *,
    zero: str,
    show: Show = TRADE,
    prefix: str = "truth",
) -> str:
    """Draw the truth of every club, plain averages and the range of the comparison.

    Parameters
    ----------
    lanes : sequence of TruthLane
        From the top.
    marks : mapping of str to Mark
    zero : str
        What all figures are taken against.
    show : Show
        Units of the rule.
    prefix : str
        Beginning of the picture's ids.

    Raises
    ------
    InputError
        Without a club.
    """
    if not lanes:
        raise InputError("no club is there to be drawn", place="clubs", mend="Hit one first.")
    unit = show.unit("distance")
    told = [one / unit.scale for lane in lanes for one in (*lane.figures(), 0.0)]
    step = next(
        (one for one in _STEPS if (max(told) - min(told)) / one <= _MOST_NUMERALS - 2), _STEPS[-1]
    )
    low, high = step * floor(min(told) / step), step * max(ceil(max(told) / step), 1)

    def x(figure: float) -> float:
        return _LEFT + (figure / unit.scale - low) / (high - low) * (_RIGHT - _LEFT)

    base = _TOP + _LANE * len(lanes) + 4.0
    parts = [stroke(f"M{x(0.0):.1f} {_TOP - 14:.1f}V{base:.1f}", colour=INK, dash="2 5")]
    for place, lane in enumerate(lanes):
        y = _TOP + _LANE * (place + 0.5)
        spots = {key: x(value) for key, value in _named(lane)}
        parts += _lane(lane.club, spots, marks[lane.club], y)
    numerals = range(low, high + step, step)
    ticks = [(x(one * unit.scale), 10.0) for one in numerals]
    words = {x(one * unit.scale): show.signed(float(one), 0) for one in numerals}
    parts.append(level_rule(ticks, words, base, (_LEFT, _RIGHT)))
    parts.append(label(_LEFT - 34.0, base + 29.0, unit.name, anchor="end", soft=True))
    title = f"What was true of every club against {zero}, and what was said of it"
    return picture(WIDTH, base + 40.0, parts, title=title, prefix=prefix)


def truth_words(lanes: Sequence[TruthLane], *, zero: str, show: Show = TRADE) -> str:
    """Return the picture in sentences, one a club."""
    told = []
    for lane in lanes:
        parts = [f"truly {show.yards_apart(lane.truth)}"]
        if lane.plain is not None:
            parts.append(f"plain averages {show.yards_apart(lane.plain)}")
        if lane.low is not None and lane.high is not None:
            parts.append(f"the comparison {show.yards_range(lane.low, lane.high)}")
        told.append(f"{lane.club}: {', '.join(parts)}.")
    return f"Against {zero}. {' '.join(told)}"


def _named(lane: TruthLane) -> Iterator[tuple[str, float]]:
    for key in ("truth", "plain", "low", "high"):
        value = getattr(lane, key)
        if value is not None:
            yield key, value


def _lane(club: str, spots: Mapping[str, float], mark: Mark, y: float) -> Iterator[str]:
    """Draw a name, the range as a bar, the average as a cross and the truth as the shape."""
    yield label(0.0, y + 6.0, club, bold=True)
    yield stroke(f"M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0)
    if "low" in spots and "high" in spots:
        bar = f"M{spots['low']:.1f} {y - 9:.1f}v18M{spots['low']:.1f} {y:.1f}"
        yield stroke(f"{bar}H{spots['high']:.1f}M{spots['high']:.1f} {y - 9:.1f}v18", width=2.4)
    if "plain" in spots:
        cross = f"M{spots['plain'] - 7:.1f} {y - 7:.1f}l14 14m0 -14l-14 14"
        yield stroke(cross, colour=INK, width=2.4)
    yield club_shape(mark, spots["truth"], y, _RADIUS, title=f"{club}, truly")
