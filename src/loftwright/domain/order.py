"""The club that a golfer wants, what it costs, and what it was said to do."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loftwright.constants import INCH
from loftwright.domain.golfer import Hand
from loftwright.domain.rack import LONGEST_CLUB, SHORTEST_CLUB, SleeveSetting
from loftwright.errors import InputError


class Kept(StrEnum):
    """What of the golfer's own club stays in the one that is wanted."""

    NOTHING = "nothing"
    HEAD = "head"
    """A new shaft in the own head."""
    SHAFT = "shaft"
    """A new head on the own shaft."""
    CLUB = "club"
    """The own club with its sleeve turned, or made longer or shorter."""

    @property
    def own_head(self) -> bool:
        """Whether the golfer's own head is in it."""
        return self in {Kept.HEAD, Kept.CLUB}

    @property
    def own_shaft(self) -> bool:
        """Whether the golfer's own shaft is in it."""
        return self in {Kept.SHAFT, Kept.CLUB}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A figure that the balls gave for a club, with the range that holds it 9 times in 10."""

    mean: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """What a club was said to do at the golfer's home when it was chosen; SI and radians.

    Attributes
    ----------
    home : str
        Whose course it was said of.
    fairways_in_14 : float or None
        None where direction and axis were not measured.
    value : Told or None
        Worth against the own club [m of total].
    """

    home: str
    ball_speed: float
    launch: float
    spin: float
    carry: float
    total: float
    fairways_in_14: float | None
    value: Told | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubSpec:
    """The whole club that is wanted; later changes of rack and fitting do not rewrite it.

    Attributes
    ----------
    label : str
        The row of the choice it was taken from, such as ``Ash, L1``.
    club : str
        Name of the club in the fitting that it is told from: the tested one.
    assembly : str
        Id of the tested club in the rack.
    head_piece, shaft_piece : str
        Ids of the tested samples.
    loft, lie, face : float
        Of the head as printed or measured, before the sleeve [rad].
    setting : str
        How the sleeve sits; empty for a glued hosel.
    settings : tuple of SleeveSetting
    length : float
        [m]
    hit : bool
        Whether balls were hit with just this club.
    promise : Promise or None
        None where nothing may be told.
    why : tuple of str
        One line a choice from the fitting.
    """

    label: str
    club: str
    assembly: str
    hand: Hand
    kept: Kept
    head: str
    shaft: str
    grip: str
    head_piece: str
    shaft_piece: str
    loft: float
    lie: float
    face: float
    setting: str
    settings: tuple[SleeveSetting, ...]
    length: float
    hit: bool
    promise: Promise | None
    why: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not SHORTEST_CLUB <= self.length <= LONGEST_CLUB:
            raise InputError(
                f"a club of {self.length / INCH:.2f} in cannot be built",
                place="length",
                mend=f"Give {SHORTEST_CLUB / INCH:g} to {LONGEST_CLUB / INCH:g} in.",
            )


class PriceKind(StrEnum):
    """What a line of a quote is for."""

    PART = "part"
    LABOUR = "labour"


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLine:
    """One line of a quote.

    Attributes
    ----------
    price : int or None
        Of one, in the smallest unit of money, without tax; None where nobody set one.
    """

    what: str
    kind: PriceKind
    price: int | None
    count: int = 1

    def __post_init__(self) -> None:
        if not self.what.strip():
            raise InputError("a line needs a name", place="what", mend="Write what it is for.")
        if self.price is not None and not 0 <= self.price < 2**53:
            raise InputError(
                f"a price of {self.price} cannot be", place="price", mend="Give nought or more."
            )
        if not 1 <= self.count <= 100:
            raise InputError(f"{self.count} of it cannot be", place="count", mend="Give 1 to 100.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What a club costs and when it is ready.

    Attributes
    ----------
    spec : ClubSpec
    lines : tuple of PriceLine
        Without tax.
    tax, deposit : float
        Shares of the sum: 0.2 for a fifth.
    currency : str
    lead_days : int
        From the order to the finished club.
    valid_until : date
    builder : str
        An outside builder; empty for the own workshop.
    note : str
    few_balls_known : bool
        Whether the golfer knows that fewer balls than are asked for were hit with just this club.
    """

    spec: ClubSpec
    lines: tuple[PriceLine, ...]
    tax: float
    deposit: float
    currency: str
    lead_days: int
    valid_until: date
    builder: str = ""
    note: str = ""
    few_balls_known: bool = False

    def __post_init__(self) -> None:
        must_be_share("tax", self.tax)
        must_be_share("deposit", self.deposit)
        if not 0 <= self.lead_days <= 730:
            raise InputError(
                f"{self.lead_days} days cannot be", place="lead_days", mend="Give 0 to 730."
            )


def must_be_share(place: str, share: float) -> None:
    """Demand that a share lies between nothing and the whole.

    Parameters
    ----------
    place : str
        What the error calls it.
    share : float
        0 to 1.

    Raises
    ------
    InputError
        If it does not.
    """
    if not 0.0 <= share <= 1.0:
        raise InputError(
            f"a {place} of {100.0 * share:g} % cannot be", place=place, mend="Give 0 to 100 %."
        )
