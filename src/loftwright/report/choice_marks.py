"""The clubs of a choice with their ranges, and the words for them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

from loftwright.evidence.result import Against, Decision, Estimate
from loftwright.report.marks import Mark
from loftwright.report.numbers import LIKELY_RANGE
from loftwright.report.screen_numbers import TRADE, Show


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """A length with the two ranges that a picture draws [m].

    Attributes
    ----------
    mean : float
        Best estimate.
    half, most : (float, float)
        The range of half the chance, and that of nine chances in ten.
    """

    mean: float
    half: tuple[float, float]
    most: tuple[float, float]

    @classmethod
    def of(cls, estimate: Estimate, shift: float = 0.0) -> "Reach":
        """Return the ranges of an estimate, moved by a known length [m]."""
        ranges = (estimate.interval(share) for share in (0.5, LIKELY_RANGE))
        half, most = ((low + shift, high + shift) for low, high in ranges)
        return cls(mean=estimate.mean + shift, half=half, most=most)

    @classmethod
    def exactly(cls, value: float) -> "Reach":
        """Return a length without any doubt [m]."""
        return cls(mean=value, half=(value, value), most=(value, value))


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceMark:
    """One club of the picture.

    Attributes
    ----------
    club : str
    shape : Mark
    total : Reach
        Against what zero stands for.
    offline : Reach
        Where its drives finish, start line and curve together; right positive.
    hit : bool
        False for a set-up that was worked out and never hit.
    """

    club: str
    shape: Mark
    total: Reach
    offline: Reach
    hit: bool = True


def choice_words(clubs: Sequence[ChoiceMark], *, zero: str, show: Show = TRADE) -> str:
    """Return what the picture shows, in a sentence a club.

    Parameters
    ----------
    clubs : sequence of ChoiceMark
    zero : str
        What totals are taken against.
    show : Show
    """
    if not clubs:
        return "No club to draw yet."
    told = []
    for club in clubs:
        low, high = club.total.most
        spread = "" if low == high else f" ({show.yards_range(low, high)})"
        middle = show.side(club.offline.mean) == "0"
        finish = "in the middle" if middle else show.sideways(club.offline.mean)
        dry = "" if club.hit else ", not hit"
        told.append(
            f"{club.club} {show.yards_apart(club.total.mean)}{spread}, finishes {finish}{dry}"
        )
    return f"Total against {zero}: {'; '.join(told)}."


def choice_marks(decision: Decision, marks: Mapping[str, Mark]) -> tuple[ChoiceMark, ...]:
    """Return the clubs of a comparison that may be drawn: total, and where drives finish.

    Parameters
    ----------
    decision : Decision
    marks : mapping of str to Mark
        The fitting's clubs.

    Returns
    -------
    tuple of ChoiceMark
        In ranked order; none of a club of which total or the side is not known.
    """
    found = []
    for club in decision.clubs:
        figures, level = club.as_you_swing_it, club.level
        if level is None or not isfinite(level.offline):
            continue
        if club.club == decision.own and decision.against is Against.OWN:
            total, offline = Reach.exactly(0.0), Reach.exactly(level.offline)
        elif figures is None or figures.total is None or figures.offline is None:
            continue
        else:
            total = Reach.of(figures.total)
            offline = Reach.of(figures.offline, level.offline - figures.offline.mean)
        found.append(
            ChoiceMark(club=club.club, shape=marks[club.club], total=total, offline=offline)
        )
    return tuple(found)
