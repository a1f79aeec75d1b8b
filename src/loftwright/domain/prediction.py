"""What was predicted of a ball before it was hit."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Final

from loftwright.domain.home import Home
from loftwright.errors import InputError

PROBABILITIES: Final = (0.50, 0.80, 0.95)
"""What share of balls each range of a forecast is to hold, the narrowest first."""

QUANTITIES: Final = ("ball_speed", "launch", "spin", "axis", "direction", "carry", "total")
"""What is predicted: the launch numbers as the device reads them, and their flight at home."""


class Rests(StrEnum):
    """What a prediction rests on."""

    BALLS = "balls"
    OTHER_CLUBS = "other_clubs"
    STATED = "stated"


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """One quantity of the next ball.

    Attributes
    ----------
    quantity : str
        One of `QUANTITIES`.
    mean : float
        In SI and radians.
    ranges : tuple of (float, float)
        The central ranges that are to hold it half the time, 80 % and 95 % of the time.
    """

    quantity: str
    mean: float
    ranges: tuple[tuple[float, float], tuple[float, float], tuple[float, float]]

    def __post_init__(self) -> None:
        if self.quantity not in QUANTITIES:
            raise InputError(f"{self.quantity!r} is not predicted", place="quantity")
        inner, middle, outer = self.ranges
        ordered = (outer[0], middle[0], inner[0], inner[1], middle[1], outer[1])
        if list(ordered) != sorted(ordered):
            raise InputError("a wider range must hold the narrower one", place=self.quantity)

    def holds(self, value: float) -> tuple[bool, bool, bool]:
        """Return which of the ranges hold a value, the narrowest first."""
        inner, middle, outer = (low <= value <= high for low, high in self.ranges)
        return inner, middle, outer


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """The ball that comes next, as it was predicted.

    Attributes
    ----------
    after : int
        Sequence of the last entry of the fitting's record that was known.
    set_up : str
        The club in hand with its setting, as the comparison calls it.
    bay, device : str
    at : datetime
        When it was made.
    rests : Rests
    home : Home
        Whose air, wind and turf carry and total were flown in; its holes are of no matter.
    forecasts : tuple of Forecast
    program : str
        Version of the program that made it.
    """

    after: int
    set_up: str
    bay: str
    device: str
    at: datetime
    rests: Rests
    home: Home
    forecasts: tuple[Forecast, ...]
    program: str

    def __post_init__(self) -> None:
        told = [one.quantity for one in self.forecasts]
        if not told or len(set(told)) != len(told):
            raise InputError(
                "it must name each quantity once, and at least one", place="forecasts"
            )
        if self.after < 1:
            raise InputError("it must rest on a record that was begun", place="after")

    def forecast(self, quantity: str) -> Forecast | None:
        """Return what was predicted of a quantity, if anything."""
        return next((one for one in self.forecasts if one.quantity == quantity), None)
