"""A golfer: who it is, kept apart from what the golfer wants and hits."""

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.physics.shaft_swing.players import Change, Loading, Release, loadings

SLOWEST_HEAD = 40.0 * MILE_PER_HOUR
FASTEST_HEAD = 150.0 * MILE_PER_HOUR


class Hand(StrEnum):
    """On which side of the ball the golfer stands; `right` is a right-hander."""

    RIGHT = "right"
    LEFT = "left"


class Wish(StrEnum):
    """What another club should do, as far as a club can be sought by it."""

    DISTANCE = "distance"
    HIGHER = "higher"
    LOWER = "lower"
    STRAIGHTER = "straighter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Identity:
    """What names a golfer; kept under the golfer's own key and gone with it.

    Attributes
    ----------
    name : str
    contact : str
        How to reach the golfer, or the guardian of a minor.
    guardian : str
        Who consents for a minor.
    agreed_to_fit : date, optional
        When the guardian agreed to the fitting of a minor.
    growth_check : date, optional
        When it is to be looked whether a minor has outgrown the clubs.
    """

    name: str
    contact: str = ""
    guardian: str = ""
    agreed_to_fit: date | None = None
    growth_check: date | None = None

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError(
                "a golfer needs a name", place="name", mend="Give a name; initials will do."
            )

    @property
    def initials(self) -> str:
        """The name on sheets that hang in the workshop."""
        words = self.name.split()
        named = [word for word in words if word[0].isalnum()]
        return "".join(f"{word[0].upper()}." for word in named or words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Consents:
    """What the golfer, or a minor's guardian, agreed to; nothing until ticked.

    Attributes
    ----------
    keep : bool
        The fitting stays after the visit.
    contact : bool
        The studio may ask how the club does.
    publish : bool
        Figures without a name may be shown to others.
    shop_record : bool
        The balls join what the shop learns from.
    given_on : date, optional
    """

    keep: bool = False
    contact: bool = False
    publish: bool = False
    shop_record: bool = False
    given_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Golfer:
    """What a fitting needs to know of a golfer, without a name.

    Attributes
    ----------
    id : str
    hand : Hand
    goal : str
        In the golfer's own words.
    wish : Wish
        The same as clubs are sought by it.
    looks : str
        What the golfer likes to look at and feel.
    change, release : Change, Release, optional
        How the direction changes at the top and when the wrists let go; None where nobody looked.
    ability : str, optional
        A stated ability; else it is judged from the scatter of launch.
    head_speed : float, optional
        As the golfer states it [m/s]; balls replace it.
    minor : bool
        A guardian consents, and nothing is published.
    own : str, optional
        The assembly that is the golfer's own club.
    merged_into : str, optional
        Id of the record that this one is a second record of.
    """

    id: str
    hand: Hand = Hand.RIGHT
    goal: str = ""
    wish: Wish = Wish.DISTANCE
    looks: str = ""
    change: Change | None = None
    release: Release | None = None
    ability: str | None = None
    head_speed: float | None = None
    minor: bool = False
    home: Home = field(default_factory=Home)
    own: str | None = None
    consents: Consents = field(default_factory=Consents)
    merged_into: str | None = None

    def __post_init__(self) -> None:
        if self.head_speed is not None and not SLOWEST_HEAD <= self.head_speed <= FASTEST_HEAD:
            raise InputError(
                f"a head speed of {self.head_speed / MILE_PER_HOUR:.0f} mph cannot be used",
                place="head_speed",
                mend="Give 40 to 150 mph, or leave it blank: balls will tell.",
            )
        if self.merged_into is not None and self.merged_into == self.id:
            raise InputError(
                "a record cannot be a second one of itself",
                place="merged_into",
                mend="Choose the other record.",
            )
        if self.minor and self.consents.publish:
            raise InputError(
                "a minor's figures are not published",
                place="consents",
                mend="Untick publishing.",
            )

    @property
    def loadings(self) -> tuple[Loading, ...]:
        """How the golfer may load a shaft; both ways where the two answers do not settle it."""
        if self.change is None or self.release is None:
            return tuple(Loading)
        return loadings(self.change, self.release)
