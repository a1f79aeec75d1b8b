"""A fitting as it is opened, and the club cards, marks and conditions that its record holds."""

from dataclasses import dataclass, field
from datetime import date

from loftwright.constants import MILLIMETRE
from loftwright.domain.device import Origin
from loftwright.domain.rack import SleeveSetting
from loftwright.errors import InputError

MARK_ERROR = 1.75 * MILLIMETRE
"""Error of one mark read by a fitter (judgement, until a double reading replaces it)."""

FARTHEST_MARK = 80.0 * MILLIMETRE


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """One golfer's fitting, over as many visits as it takes; its record tells when it is closed.

    Attributes
    ----------
    opened : date
        In the shop's zone.
    bay : str
    partner : str, optional
        The fitting of a second golfer who takes turns in the same bay.
    invented : bool
        Its balls come from a virtual golfer.
    bay_check : bool
        The house's check club is hit to compare bays; nobody is fitted.
    """

    id: str
    golfer: str
    opened: date
    bay: str = "Bay 1"
    fitter: str = ""
    partner: str | None = None
    invented: bool = False
    bay_check: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubCard:
    """A club as it joined the fitting; later changes of the rack do not rewrite it.

    Attributes
    ----------
    assembly : str
        Its id in the rack.
    head, shaft : str
        Maker and model in words.
    head_piece, shaft_piece : str
        The samples' ids.
    loft, lie, face : float
        Of the head as printed or measured, before the sleeve [rad].
    setting : str
        How the sleeve is planned to sit; empty for a glued hosel.
    settings : tuple of SleeveSetting
        Every way the sleeve goes in.
    length : float
        [m]
    price : int, optional
        In the smallest unit of money.
    measured : bool
        Whether the shaft had a measured profile that stood when the club joined.
    """

    assembly: str
    head: str
    shaft: str
    head_piece: str
    shaft_piece: str
    loft: float
    lie: float
    face: float
    length: float
    setting: str = ""
    settings: tuple[SleeveSetting, ...] = ()
    grip: str = ""
    price: int | None = None
    measured: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceCard:
    """What measures the balls of a visit.

    Attributes
    ----------
    name : str
    origins : dict of str to Origin
        How the device comes by each column, by the words of the column list.
    mark_error : float
        Of the strike column, where the device has one [m].
    """

    name: str
    origins: dict[str, Origin] = field(default_factory=dict)
    mark_error: float = MARK_ERROR


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What a ball is hit from and with, besides the club; empty where nobody said.

    Attributes
    ----------
    ball : str
        Kind and state of the ball.
    tee : str
        Height, as a number of millimetres or in words.
    surface : str
        Mat or turf.
    place : str
        Indoors or outdoors.
    treatment : str
        What is on the face: nothing, spray, tape, label.
    """

    ball: str = ""
    tee: str = ""
    surface: str = ""
    place: str = ""
    treatment: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Where the ball met the face, as somebody read it; the golfer's own signs.

    Attributes
    ----------
    toe, high : float
        Towards the toe and up from the middle of the face [m].
    error : float
        Standard error of the reading, one way [m].
    words : str
        What was said when it was said in words.
    """

    toe: float
    high: float
    error: float = MARK_ERROR
    words: str = ""

    def __post_init__(self) -> None:
        if not (abs(self.toe) <= FARTHEST_MARK and abs(self.high) <= FARTHEST_MARK):
            raise InputError(
                f"a mark {self.toe / MILLIMETRE:.0f} mm to the toe and "
                f"{self.high / MILLIMETRE:.0f} mm up lies beside the head",
                place="mark",
                mend="Tap the face, or give 80 mm at most.",
            )
        if not 0.0 < self.error <= 0.05:
            raise InputError(
                f"an error of {self.error / MILLIMETRE:.1f} mm cannot be",
                place="error",
                mend="Give more than 0 and at most 50 mm.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCard:
    """The plan that a visit follows.

    Attributes
    ----------
    sets : tuple of (str, int)
        Club and balls of each set, in order.
    seconds : float, optional
        From the plan's making to the golfer's going.
    seed : int
        Gives the same order again.
    blind : bool
        Names were dealt at random and nothing is compared on the golfer's screen.
    given_up : tuple of str
        What a shorter visit leaves open, in words.
    in_order : bool
        Every set comes as it stands here; the evidence chooses none.
    """

    sets: tuple[tuple[str, int], ...]
    seconds: float | None = None
    seed: int = 0
    blind: bool = False
    given_up: tuple[str, ...] = ()
    in_order: bool = False

    @property
    def balls(self) -> int:
        """Balls in the plan."""
        return sum(count for _, count in self.sets)
