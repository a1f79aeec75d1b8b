"""The pictures of a comparison, each with its words: ranges, parts, strikes and where it finishes.

They are drawn in literal colours, for paper and publishing; `for_screen` turns them into a page's.
"""

from collections.abc import Callable, Iterator, Mapping
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
from loftwright.report.choice_marks import choice_marks, choice_words
from loftwright.report.choice_picture import choice_picture
from loftwright.report.club_ranges import RangeClub, RangeColumn, club_ranges
from loftwright.report.differences import shown_parts
from loftwright.report.face_picture import FaceMark
from loftwright.report.graduated import RangeRow
from loftwright.report.marks import Mark
from loftwright.report.numbers import LIKELY_RANGE
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.stepped_bar import stepped_bar
from loftwright.report.strike_pattern import strike_pattern, strike_pattern_words
from loftwright.report.wording import reference

Figure: TypeAlias = Callable[[ClubResult], Estimate | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing and the same facts in words."""

    svg: str
    words: str


def ranges_drawing(
    decision: Decision, marks: Mapping[str, Mark], show: Show, *, out: Mapping[str, str]
) -> Drawing | None:
    """Return the differences of the clubs with their ranges: both figures where both exist.

    Parameters
    ----------
    decision : Decision
    marks : mapping of str to Mark
    show : Show
        The shop's units.
    out : mapping of str to str
        Why a club has no figure, where that is known.

    Returns
    -------
    Drawing or None
        None where nothing may be said of any club.
    """
    unit = show.unit("distance")
    own_is_zero = decision.against is Against.OWN
    zero = reference(decision) if own_is_zero else "mean of all"
    columns = [
        RangeColumn(heading=heading, under=under, rows=rows)
        for heading, under, figure in figures_of(decision)
        if (rows := _rows(decision, figure, unit.scale))
    ]
    if not columns:
        return None
    clubs = [
        RangeClub(club=one.club, balls=one.balls, why_none=_why_none(one, out))
        for one in decision.clubs
        if not (own_is_zero and one.club == decision.own)
    ]
    svg = club_ranges(
        clubs,
        columns,
        marks,
        unit=unit.name,
        zero=zero,
        zero_is_own=own_is_zero,
        show=show,
    )
    told = [
        f"{column.heading}: "
        + "; ".join(
            f"{club} {show.signed(row.most[0])} to {show.signed(row.most[1])} {unit.name}"
            for club, row in column.rows.items()
        )
        for column in columns
    ]
    words = f"Against {zero}, nine chances in ten. {'. '.join(told)}."
    return Drawing(svg=svg, words=words)


def figures_of(decision: Decision) -> tuple[tuple[str, str, Figure], ...]:
    """Return the figures that a comparison holds: name, what it serves, and where it stands."""
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return (("Carry as this device shows it", "ranked on this", _carry),)
    return (
        ("As you swing it", "ranked on this", _swung),
        ("From the same swing", "the club alone", _same),
    )


def parts_drawing(pair: Pair, show: Show) -> Drawing | None:
    """Return the stepped bar that carries one plain average to the other."""
    unit = show.unit("distance")
    shown = shown_parts(pair, unit.scale)
    if not shown:
        return None
    svg = stepped_bar(shown[:-1], a=pair.a, b=pair.b, unit=unit.name, show=show)
    told = "; ".join(f"{name} {show.signed(value)} {unit.name}" for name, value in shown)
    return Drawing(svg=svg, words=f"Plain averages of total: {told}.")


def strikes_drawing(now: FittingNow, marks: Mapping[str, Mark], hand: Hand) -> Drawing | None:
    """Return where each club was struck, with one scatter that all share."""
    told = list(_face_marks(now, marks))
    if not told:
        return None
    shown = {club: marks[club] for club in marks if any(one.club == club for one in told)}
    pattern = shared_scatter(told)
    return Drawing(
        svg=strike_pattern(shown, told, pattern, hand=hand),
        words=strike_pattern_words(shown, told, pattern),
    )


def choice_drawing(
    decision: Decision, marks: Mapping[str, Mark], show: Show = TRADE
) -> Drawing | None:
    """Return total against where the clubs' drives finish.

    Parameters
    ----------
    decision : Decision
    marks : mapping of str to Mark
    show : Show
        The shop's units.
    """
    clubs = choice_marks(decision, marks)
    if not clubs:
        return None
    own_is_zero = decision.against is Against.OWN
    zero = reference(decision) if own_is_zero else "the mean of all"
    holes = decision.home.holes
    fairway = sum(hole.fairway for hole in holes) / len(holes) if holes else None
    pattern = decision.pattern
    svg = choice_picture(clubs, zero=zero, pattern=pattern, fairway=fairway, show=show)
    return Drawing(svg=svg, words=choice_words(clubs, zero=zero, show=show))


def shared_scatter(told: list[FaceMark]) -> tuple[float, float] | None:
    """Return the scatter about each club's own middle, one for all; None of too few marks [m]."""
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


def _face_marks(now: FittingNow, marks: Mapping[str, Mark]) -> Iterator[FaceMark]:
    for swing in now.balls:
        label = set_up_of(swing, now)
        if label is not None and label in marks and swing.mark is not None:
            yield FaceMark(
                club=label,
                shape=marks[label],
                toe=swing.mark.toe,
                high=swing.mark.high,
                error=swing.mark.error,
            )


def _carry(club: ClubResult) -> Estimate | None:
    return club.device_carry


def _swung(club: ClubResult) -> Estimate | None:
    return club.as_you_swing_it.total if club.as_you_swing_it else None


def _same(club: ClubResult) -> Estimate | None:
    return club.from_the_same_swing.total if club.from_the_same_swing else None


def _why_none(club: ClubResult, out: Mapping[str, str]) -> str:
    return out.get(club.club) or ("too few balls" if club.balls < 2 else "")


def _rows(decision: Decision, figure: Figure, scale: float) -> dict[str, RangeRow]:
    own_is_zero = decision.against is Against.OWN
    found = {}
    for club in decision.clubs:
        estimate = figure(club)
        if estimate is None or (own_is_zero and club.club == decision.own):
            continue
        half, most = estimate.interval(0.5), estimate.interval(LIKELY_RANGE)
        found[club.club] = RangeRow(
            club=club.club,
            label=club.club,
            mean=estimate.mean / scale,
            half=(half[0] / scale, half[1] / scale),
            most=(most[0] / scale, most[1] / scale),
            dashed=club.balls < 2,
        )
    return found
