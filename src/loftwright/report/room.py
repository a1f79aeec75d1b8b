"""How much a page holds: less of everything for fittings with much to say."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferRoom:
    """The measures of the golfer's page.

    Attributes
    ----------
    air : float
        Space above a section [mm].
    clubs : int
        Clubs in a chart of ranges.
    row : float
        Height of its rows in the picture's units.
    strip : float
        Height of the hole in the picture's units.
    flight : bool
        Whether the flight from the side is drawn.
    sure : int
        Lines on certainty.
    """

    air: float
    clubs: int
    row: float
    strip: float
    flight: bool
    sure: int


class Reasons(StrEnum):
    """Which claims carry their reasons."""

    ALL = "all"
    MAY_NOT = "may_not"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitterRoom:
    """The measures of the fitter's page.

    Attributes
    ----------
    air : float
        Space above a section [mm].
    small : float
        Size of its notes [pt]; its text is half a point larger.
    row : float
        Space above and below the words of a row of its table [mm].
    gap : float
        Space between two entries of a list [mm].
    listed : int
        Entries of any list.
    reasons : Reasons
        Which claims carry their reasons.
    """

    air: float
    small: float
    row: float
    gap: float
    listed: int
    reasons: Reasons = Reasons.ALL


GOLFER_ROOMS = (
    GolferRoom(air=5.4, clubs=8, row=33.0, strip=224.0, flight=True, sure=5),
    GolferRoom(air=4.8, clubs=8, row=31.0, strip=206.0, flight=True, sure=5),
    GolferRoom(air=4.4, clubs=8, row=29.0, strip=180.0, flight=True, sure=5),
    GolferRoom(air=4.0, clubs=8, row=27.0, strip=156.0, flight=True, sure=5),
    GolferRoom(air=3.6, clubs=8, row=25.0, strip=136.0, flight=False, sure=4),
    GolferRoom(air=3.0, clubs=5, row=24.0, strip=112.0, flight=False, sure=3),
)
"""From the widest to the tightest."""

FITTER_ROOMS = (
    FitterRoom(air=5.0, small=8.5, row=1.6, gap=2.6, listed=8),
    FitterRoom(air=4.4, small=8.5, row=1.2, gap=2.3, listed=7),
    FitterRoom(air=3.8, small=8.0, row=1.0, gap=2.1, listed=6),
    FitterRoom(air=3.6, small=8.0, row=0.9, gap=2.0, listed=5, reasons=Reasons.MAY_NOT),
    FitterRoom(air=3.2, small=7.5, row=0.7, gap=1.9, listed=4, reasons=Reasons.MAY_NOT),
    FitterRoom(air=2.8, small=7.5, row=0.5, gap=1.7, listed=3, reasons=Reasons.NONE),
)
"""From the widest to the tightest."""

MOST_ON_ONE_PAGE = 8
"""Clubs of a fitting whose fitter's page must be one page; with more it may go on."""
