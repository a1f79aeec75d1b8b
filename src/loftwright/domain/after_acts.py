"""What can happen after a club was taken: it is asked after, played, and complained of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TypeAlias

from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Turf
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
    """A golfer says that the club does not do what it did.

    Attributes
    ----------
    short : float or None
        By how much drives are said to be shorter than was said [m].
    """

    day: date
    words: str
    short: float | None = None

    def __post_init__(self) -> None:
        if self.short is not None and not 0.0 < self.short <= 100.0:
            raise InputError(
                f"drives shorter by {self.short:.0f} m cannot be",
                place="short",
                mend="Give by how much they are shorter, or leave it empty.",
            )


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
class Where:
    """Where and in what air a club was complained of; None where nobody said.

    Attributes
    ----------
    temperature, altitude : float or None
        [K, m]
    turf : Turf or None
    wind_along : float or None
        From behind positive, at 10 m [m s^-1].
    surface, place : str
        Mat or turf, indoors or outdoors; empty where nobody said.
    """

    temperature: float | None = None
    altitude: float | None = None
    turf: Turf | None = None
    wind_along: float | None = None
    surface: str = ""
    place: str = ""

    def __post_init__(self) -> None:
        if self.temperature is not None and not 263.15 <= self.temperature <= 318.15:
            raise InputError(
                "this temperature lies outside the flight model",
                place="temperature",
                mend="Give -10 to 45 degrees Celsius (14 to 113 degrees Fahrenheit).",
            )
        if self.altitude is not None and not -500.0 <= self.altitude <= 4000.0:
            raise InputError(
                "this altitude lies outside the flight model",
                place="altitude",
                mend="Give -500 to 4000 m (-1600 to 13,000 ft).",
            )
        strongest = 30.0 * MILE_PER_HOUR
        if self.wind_along is not None and not abs(self.wind_along) <= strongest + 1e-9:
            raise InputError(
                "this wind lies outside the flight model",
                place="wind_along",
                mend="Give 30 mph (13.4 m/s) at most.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedAt:
    """One of the looks of a complaint was taken; a later one takes the place of an earlier one.

    Attributes
    ----------
    measured : str
        Readings of the club as text of a file of measurements; empty where none were taken.
    where : Where or None
        Of a look at the place.
    """

    look: Look
    found: Found
    words: str = ""
    measured: str = ""
    where: Where | None = None


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
