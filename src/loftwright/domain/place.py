"""Where the parts of the rack are: in a bay, on a bench, in the workshop, away with a golfer."""

from dataclasses import dataclass
from datetime import datetime
from typing import Final

AWAY: Final = "Away with a golfer"
WORKSHOP: Final = "Workshop"
BENCH: Final = "Bench"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceMove:
    """A part that went from one place to another.

    Attributes
    ----------
    piece : str
    was, place : str
        Where it was said to be before, and where it is; empty if nobody knows.
    at : datetime
    by : str
        Who said so: a fitter, a device, the bay it was scanned in.
    golfer : str, optional
        Id of the golfer who has it away.
    number : int
        Grows with every move of any part; given by the store.
    """

    piece: str
    was: str
    place: str
    at: datetime
    by: str = ""
    golfer: str | None = None
    number: int = 0
