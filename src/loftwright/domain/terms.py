"""What a shop charges, promises and holds itself to when it builds a club."""

from dataclasses import dataclass, field

from loftwright.domain.limits import USUAL_EDITION
from loftwright.domain.order import PriceKind, must_be_share
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import InputError
from loftwright.physics.build.swingweight import (
    USUAL_SCALE,
    SwingweightScale,
    calibrated_scale,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPrice:
    """A line of the shop's price list.

    Attributes
    ----------
    price : int
        Of one, without tax, in the smallest unit of money.
    usual : bool
        Whether it stands on every new quote.
    """

    what: str
    kind: PriceKind
    price: int
    usual: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Adhesive:
    """A glue and how long it cures by its own data sheet.

    Attributes
    ----------
    hours : float
        Until the club may be hit.
    """

    name: str
    hours: float

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError("a glue needs a name", place="adhesive", mend="Write its name.")
        if not 0.0 < self.hours <= 240.0:
            raise InputError(
                f"{self.hours:g} hours of cure cannot be",
                place="hours",
                mend="Give what its data sheet says, at most 240.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class CalibrationClub:
    """A club that was weighed, balanced and read on the shop's own scale [kg, m, points]."""

    mass: float
    balance: float
    reads: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What holds for every job until somebody changes it.

    Attributes
    ----------
    prices : tuple of ListedPrice
    tax, deposit : float
        Shares of the sum.
    lead_days, valid_days, follow_up_days : int
        From order to club, of a quote, and from the club to the first question.
    builder : str
        An outside builder; empty for the own workshop.
    cannot : tuple of str
        What that builder cannot do: ``tip trim``, ``tight swingweight``.
    adhesives : tuple of Adhesive
    tolerances : Tolerances
    calibration : CalibrationClub or None
    edition : str
        Of the Equipment Rules, as a person looked it up.
    """

    prices: tuple[ListedPrice, ...] = ()
    tax: float = 0.0
    deposit: float = 0.0
    lead_days: int = 14
    valid_days: int = 30
    follow_up_days: int = 45
    builder: str = ""
    cannot: tuple[str, ...] = ()
    adhesives: tuple[Adhesive, ...] = ()
    tolerances: Tolerances = field(default_factory=Tolerances)
    calibration: CalibrationClub | None = None
    edition: str = USUAL_EDITION

    def __post_init__(self) -> None:
        must_be_share("tax", self.tax)
        must_be_share("deposit", self.deposit)
        for place in ("lead_days", "valid_days", "follow_up_days"):
            if not 0 <= getattr(self, place) <= 730:
                raise InputError(
                    f"{getattr(self, place)} days cannot be", place=place, mend="Give 0 to 730."
                )

    @property
    def scale(self) -> SwingweightScale:
        """The shop's own swingweight scale; the usual one where no club calibrated it."""
        club = self.calibration
        if club is None:
            return USUAL_SCALE
        return calibrated_scale(club.mass, club.balance, club.reads)
