"""The golfer's home: its air, turf, wind and holes."""

from dataclasses import dataclass
from enum import StrEnum

from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.errors import InputError

STANDARD_TEMPERATURE = 297.0388888888889
"""75 degrees Fahrenheit in kelvin."""


class Turf(StrEnum):
    """How the ground answers a landing ball."""

    NORMAL = "normal"
    FIRM = "firm"
    SOFT = "soft"


class Trouble(StrEnum):
    """The side of the hole where a drive is lost or punished."""

    NONE = "none"
    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class Lie(StrEnum):
    """From where the next shot is played."""

    FAIRWAY = "fairway"
    ROUGH = "rough"
    SAND = "sand"
    RECOVERY = "recovery"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One driving hole.

    Attributes
    ----------
    length : float
        From tee to hole [m].
    fairway : float
        Full width of the fairway where drives land [m].
    trouble : Trouble
        Which side is worse than rough.
    trouble_from : float
        Distance from the middle at which the trouble begins [m].
    trouble_lie : Lie
        From where the next shot is played in the trouble.
    """

    length: float = 430.0 * YARD
    fairway: float = 32.0 * YARD
    trouble: Trouble = Trouble.NONE
    trouble_from: float = 40.0 * YARD
    trouble_lie: Lie = Lie.RECOVERY

    def __post_init__(self) -> None:
        if not 80.0 * YARD <= self.length <= 800.0 * YARD:
            raise InputError(
                f"a hole of {self.length / YARD:.0f} yd cannot be used",
                place="length_yd",
                mend="Give a length of 80 to 800 yd.",
            )
        if not 5.0 * YARD <= self.fairway <= 150.0 * YARD:
            raise InputError(
                f"a fairway {self.fairway / YARD:.0f} yd wide cannot be used",
                place="fairway_yd",
                mend="Give the full width, 5 to 150 yd.",
            )
        if self.trouble is not Trouble.NONE and not self.trouble_from >= self.fairway / 2.0:
            raise InputError(
                f"trouble {self.trouble_from / YARD:.0f} yd from the middle begins inside a "
                f"fairway {self.fairway / YARD:.0f} yd wide",
                place="trouble_from_yd",
                mend="Measure it from the middle of the fairway.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """The course a club is chosen for.

    Attributes
    ----------
    altitude : float
        [m]
    temperature : float
        [K]
    humidity : float
        Relative, 0 to 1.
    wind_along, wind_across : float
        At 10 m above ground [m/s]; from behind and towards the right positive, for every golfer.
    re_aim : bool
        Whether each club is aimed so that it scores best.
    holes : tuple of Hole
        Empty for the standard hole, which is shortened for a shorter hitter.
    """

    name: str = "Standard hole"
    altitude: float = 0.0
    temperature: float = STANDARD_TEMPERATURE
    humidity: float = 0.5
    turf: Turf = Turf.NORMAL
    wind_along: float = 0.0
    wind_across: float = 0.0
    re_aim: bool = True
    holes: tuple[Hole, ...] = ()

    def __post_init__(self) -> None:
        if not 263.15 <= self.temperature <= 318.15:
            raise InputError(
                f"{self.temperature - 273.15:.0f} degrees Celsius lies outside the flight model",
                place="temperature",
                mend="Give -10 to 45 degrees Celsius (14 to 113 degrees Fahrenheit).",
            )
        if not -500.0 <= self.altitude <= 4000.0:
            raise InputError(
                f"an altitude of {self.altitude:.0f} m lies outside the flight model",
                place="altitude",
                mend="Give -500 to 4000 m (-1600 to 13,000 ft).",
            )
        if not 0.0 <= self.humidity <= 1.0:
            raise InputError(
                f"a relative humidity of {100.0 * self.humidity:.0f} % cannot be",
                place="humidity",
                mend="Give 0 to 100 %.",
            )
        wind = (self.wind_along**2 + self.wind_across**2) ** 0.5
        if not wind <= 30.0 * MILE_PER_HOUR + 1e-9:
            raise InputError(
                f"a wind of {wind / MILE_PER_HOUR:.0f} mph lies outside the flight model",
                place="wind",
                mend="Give the wind at 10 m height, 30 mph at most.",
            )
