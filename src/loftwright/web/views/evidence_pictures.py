"""The pictures of what was seen, each with its twin in words."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from loftwright.bay.now import FittingNow
from loftwright.bay.setups import set_up_of
from loftwright.domain.golfer import Hand
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Pair,
    RankedOn,
)
from loftwright.report.chart_layers import chart_svg
from loftwright.report.charts import ChartSize, RangeRow, parts_chart, ranges_chart
from loftwright.report.differences import shown_parts
from loftwright.report.face_picture import FaceMark
from loftwright.report.marks import Mark
from loftwright.report.numbers import signed, yards_range
from loftwright.report.screen_numbers import Show
from loftwright.report.strike_pattern import strike_pattern, strike_pattern_words
from loftwright.report.theme_svg import for_screen
from loftwright.report.wording import reference

Figure: TypeAlias = Callable[[ClubResult], Estimate | None]

_SIZE = ChartSize(width=420.0, row=36.0, names=110.0)
_PARTS = ChartSize(width=620.0, row=30.0, names=110.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing and the same facts in words."""

    heading: str
    svg: str
    words: str


def ranges_picture(
    decision: Decision, marks: Mapping[str, Mark], show: Show
) -> tuple[Picture, ...]:
    """Return the differences of the clubs with their ranges: both figures where both exist.

    Parameters
    ----------
    decision : Decision
    marks : mapping of str to Mark
    show : Show
        The shop's units.
    """
    unit = show.unit("distance")
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        told: list[tuple[str, Figure]] = [("Carry as this device shows it", _carry)]
    else:
        told = [("Total as you swing it", _swung), ("Total from the same swing", _same)]
    found = []
    for heading, figure in told:
        rows = _rows(decision, figure, unit.scale)
        if rows:
            found.append(_ranges(decision, marks, f"{heading}, {unit.name}", rows, figure))
    return tuple(found)


def parts_picture(pair: Pair) -> Picture:
    """Return the stepped bar that carries one plain average to the other."""
    if pair.parts is None:
        return Picture(heading="", svg="", words="")
    chart = parts_chart(pair.parts, a=pair.a, b=pair.b, size=_PARTS)
    told = "; ".join(f"{name} {signed(value)} yd" for name, value in shown_parts(pair))
    return Picture(
        heading=f"{pair.a} against {pair.b}, plain averages of total, yd",
        svg=for_screen(chart_svg(chart)),
        words=f"{pair.a} less {pair.b}: {told}.",
    )


def strikes_picture(now: FittingNow, marks: Mapping[str, Mark], hand: Hand) -> Picture:
    """Return where each club was struck, with one scatter that all share."""
    told = [
        FaceMark(
            club=label,
            shape=marks[label],
            toe=swing.mark.toe,
            high=swing.mark.high,
            error=swing.mark.error,
        )
        for swing in now.balls
        if swing.mark is not None and (label := set_up_of(swing, now) or "") in marks
    ]
    shown = {club: marks[club] for club in marks if any(one.club == club for one in told)}
    pattern = _shared(told)
    return Picture(
        heading="Where each club was struck",
        svg=for_screen(strike_pattern(shown, told, pattern, hand=hand)),
        words=strike_pattern_words(shown, told, pattern),
    )


def _shared(told: list[FaceMark]) -> tuple[float, float] | None:
    """Return the scatter about each club's own middle, one for all; None of too few marks."""
    clubs = {mark.club for mark in told}
    freedom = len(told) - len(clubs)
    if freedom < 3:
        return None
    sums = [0.0, 0.0]
    for club in clubs:
        own = [(mark.toe, mark.high) for mark in told if mark.club == club]
        for axis in (0, 1):
            middle = sum(one[axis] for one in own) / len(own)
            sums[axis] += sum((one[axis] - middle) ** 2 for one in own)
    return (sums[0] / freedom) ** 0.5, (sums[1] / freedom) ** 0.5


def _carry(club: ClubResult) -> Estimate | None:
    return club.device_carry


def _swung(club: ClubResult) -> Estimate | None:
    return club.as_you_swing_it.total if club.as_you_swing_it else None


def _same(club: ClubResult) -> Estimate | None:
    return club.from_the_same_swing.total if club.from_the_same_swing else None


def _rows(decision: Decision, figure: Figure, scale: float) -> list[RangeRow]:
    own_is_zero = decision.against is Against.OWN
    found = []
    for club in decision.clubs:
        estimate = figure(club)
        if estimate is None or (own_is_zero and club.club == decision.own):
            continue
        half, most = estimate.interval(0.5), estimate.interval(0.9)
        found.append(
            RangeRow(
                club=club.club,
                label=club.club,
                mean=estimate.mean / scale,
                half=(half[0] / scale, half[1] / scale),
                most=(most[0] / scale, most[1] / scale),
                dashed=club.balls < 2,
            )
        )
    return found


def _ranges(
    decision: Decision,
    marks: Mapping[str, Mark],
    heading: str,
    rows: list[RangeRow],
    figure: Figure,
) -> Picture:
    own_is_zero = decision.against is Against.OWN
    zero = reference(decision) if own_is_zero else "mean of all"
    chart = ranges_chart(rows, marks, zero=zero, zero_is_own=own_is_zero, size=_SIZE)
    told = [
        f"{club.club} {yards_range(estimate)} yd"
        for club in decision.clubs
        if (estimate := figure(club)) is not None
        and not (own_is_zero and club.club == decision.own)
    ]
    return Picture(
        heading=heading,
        svg=for_screen(chart_svg(chart)),
        words=f"{heading}, against {reference(decision)}, nine chances in ten: {'; '.join(told)}.",
    )
