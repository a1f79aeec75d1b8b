"""What can happen after a club was taken: it is asked after, played, and complained of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TypeAlias

from loftwright.errors import InputError


class StillPlayed(StrEnum):
    """Whether a golfer still plays a club."""

    KEPT = "kept"
    CHANGED = "changed"
    """Kept, and something of it was changed since."""
    PUT_AWAY = "put_away"
    RETURNED = "returned"
    NO_ANSWER = "no_answer"


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowedUp:
    """A golfer was asked how the club does.

    Attributes
    ----------
    again : date or None
        When to ask again.
    """

    day: date
    answer: StillPlayed
    words: str = ""
    again: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """Drives of a round with the new club.

    Attributes
    ----------
    drives, fairways : int
        How many were hit with it on holes with a fairway to hit, and how many stayed in it.
    total : float or None
        Average length of those measured [m].
    measured : int
        How many of them were measured.
    """

    day: date
    course: str
    drives: int
    fairways: int
    total: float | None = None
    measured: int = 0

    def __post_init__(self) -> None:
        if not 1 <= self.drives <= 60:
            raise InputError(
                f"{self.drives} drives in a round cannot be", place="drives", mend="Give 1 to 60."
            )
        if not 0 <= self.fairways <= self.drives:
            raise InputError(
                f"{self.fairways} fairways of {self.drives} drives cannot be",
                place="fairways",
                mend=f"Give 0 to {self.drives}.",
            )
        if self.total is not None and not 50.0 <= self.total <= 450.0:
            raise InputError(
                f"an average drive of {self.total:.0f} m cannot be",
                place="total",
                mend="Check the unit.",
            )
        if (self.total is None) != (self.measured == 0) or not 0 <= self.measured <= self.drives:
            raise InputError(
                f"{self.measured} measured of {self.drives} drives do not go with this average",
                place="measured",
                mend="Say how many drives the average is of, or leave both out.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """Rounds came in; a round of the same day and course takes the place of the one before."""

    rounds: tuple[Round, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Complained:
    """A golfer says that the club does not do what it did."""

    day: date
    words: str


class Look(StrEnum):
    """What a complaint goes through, in order."""

    MEASURED = "measured"
    BALL = "ball"
    PLACE = "place"
    WARM_UP = "warm_up"
    SETTINGS = "settings"
    HIT_AGAIN = "hit_again"


class Found(StrEnum):
    """What a look at a complaint found."""

    SAME = "same"
    DIFFERENT = "different"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedAt:
    """One of the looks of a complaint was taken."""

    look: Look
    found: Found
    words: str = ""


class Ending(StrEnum):
    """How a complaint ended."""

    CLUB = "club"
    """The club changed."""
    CONDITIONS = "conditions"
    """Place, ball or wind."""
    SWING = "swing"
    """The swing differs."""
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class ComplaintEnded:
    """A complaint was settled; it stays on record."""

    ending: Ending
    words: str = ""


AfterAct: TypeAlias = FollowedUp | Played | Complained | LookedAt | ComplaintEnded
