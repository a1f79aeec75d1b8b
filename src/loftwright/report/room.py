"""How much a page holds: less of everything for fittings with much to say."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The measures of a page.

    Attributes
    ----------
    air : float
        Space above a section [mm].
    clubs : int
        Clubs in the chart of ranges.
    row : float
        Height of its rows in the picture's units.
    strip : float
        Height of the hole in the picture's units.
    flight : bool
        Whether the flight from the side is drawn.
    sure : int
        Lines on certainty.
    small : float
        Size of notes on the fitter's page [pt].
    table_row : float
        Space above and below a row of its table [mm].
    gap : float
        Space between two entries of a list on it [mm].
    listed : int
        Rows of any list on it.
    reasons : bool
        Whether the claims carry their reasons.
    """

    air: float
    clubs: int
    row: float
    strip: float
    flight: bool
    sure: int
    small: float
    table_row: float
    gap: float
    listed: int
    reasons: bool


ROOMS = (
    Room(
        air=5.4,
        clubs=8,
        row=33.0,
        strip=224.0,
        flight=True,
        sure=5,
        small=8.5,
        table_row=1.7,
        gap=2.6,
        listed=8,
        reasons=True,
    ),
    Room(
        air=4.6,
        clubs=8,
        row=30.0,
        strip=190.0,
        flight=True,
        sure=5,
        small=8.5,
        table_row=1.25,
        gap=2.4,
        listed=7,
        reasons=True,
    ),
    Room(
        air=4.0,
        clubs=8,
        row=27.0,
        strip=160.0,
        flight=True,
        sure=5,
        small=8.0,
        table_row=1.0,
        gap=2.2,
        listed=5,
        reasons=True,
    ),
    Room(
        air=3.6,
        clubs=8,
        row=25.0,
        strip=136.0,
        flight=False,
        sure=4,
        small=8.0,
        table_row=0.8,
        gap=2.0,
        listed=4,
        reasons=True,
    ),
    Room(
        air=3.0,
        clubs=5,
        row=24.0,
        strip=112.0,
        flight=False,
        sure=3,
        small=7.5,
        table_row=0.6,
        gap=1.8,
        listed=3,
        reasons=False,
    ),
)
"""From the widest to the tightest."""
