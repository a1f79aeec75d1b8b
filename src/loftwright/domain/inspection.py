"""Inspections of pieces: when, after how many balls, and what was found."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Final

from loftwright.errors import InputError

USUAL_BALLS: Final = 500
"""Balls between two inspections where the piece does not say (judgement)."""


class Finding(StrEnum):
    """What an inspection found."""

    SOUND = "sound"
    WORN = "worn"
    CRACKED = "cracked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """A look at a piece.

    Attributes
    ----------
    balls : int
        That it had hit by then, as the fittings' records count them.
    words : str
        What was seen; needed unless it is sound.
    by : str
        Who looked.
    """

    piece: str
    at: datetime
    balls: int
    finding: Finding
    words: str = ""
    by: str = ""

    def __post_init__(self) -> None:
        if self.finding is not Finding.SOUND and not self.words.strip():
            raise InputError(
                f"a {self.finding} piece needs a word on what was seen",
                place="words",
                mend="Write where: hairline at the hosel, paint worn at the tip.",
            )
        if self.balls < 0:
            raise InputError(f"{self.balls} balls cannot be", place="balls", mend="Count them.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wear:
    """How much a piece has been hit, and how long since anybody looked at it.

    Attributes
    ----------
    balls : int
        Over all fittings, warm-up and unread balls among them.
    since : int
        Balls since the newest inspection; all of them without one.
    every : int
        Balls after which it is to be looked at again.
    newest : Inspection, optional
    """

    balls: int
    since: int
    every: int
    newest: Inspection | None = None

    @property
    def due(self) -> bool:
        """Whether it is to be looked at before it is hit again."""
        return self.since >= self.every


def wear_of(balls: int, inspections: tuple[Inspection, ...], every: int | None) -> Wear:
    """Return a piece's wear.

    Parameters
    ----------
    balls : int
        That the records count now.
    inspections : tuple of Inspection
        Of this piece, in the order in which they came.
    every : int, optional
        The usual number without it.

    Notes
    -----
    A correction may take balls from a club after an inspection; what was hit since is then counted
    as none, never below.
    """
    newest = inspections[-1] if inspections else None
    since = balls if newest is None else max(0, balls - newest.balls)
    return Wear(
        balls=balls,
        since=since,
        every=USUAL_BALLS if every is None else every,
        newest=newest,
    )
