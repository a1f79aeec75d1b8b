"""The open table of balls, and what of it goes into the sums, from fixed origins in fixed units.

A column is measured from a published origin before anything is multiplied: sums of raw squares
lose digits, and an origin that moved with the data could not be added up over partial runs.
"""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Scaled:
    """A column of the table of balls as the sums take it: (value - origin) / unit."""

    column: str
    origin: float
    unit: float


RESPONSES: Final = (
    Scaled(column="ball_speed", origin=150.0 * MILE_PER_HOUR, unit=MILE_PER_HOUR),
    Scaled(column="launch", origin=12.5 * DEGREE, unit=0.8 * DEGREE),
    Scaled(
        column="spin",
        origin=2600.0 * REVOLUTION_PER_MINUTE,
        unit=200.0 * REVOLUTION_PER_MINUTE,
    ),
    Scaled(column="axis", origin=0.0, unit=2.0 * DEGREE),
    Scaled(column="direction", origin=0.0, unit=DEGREE),
)
"""The five launch numbers, in the golfer's signs."""

DELIVERY: Final = (
    Scaled(column="head_speed", origin=101.0 * MILE_PER_HOUR, unit=MILE_PER_HOUR),
    Scaled(column="attack", origin=0.0, unit=DEGREE),
    Scaled(column="face_to_path", origin=0.0, unit=DEGREE),
    Scaled(column="face", origin=0.0, unit=DEGREE),
)

STRIKE_UNIT: Final = 10.0 * MILLIMETRE
WARM_UP: Final = 8.0
"""Swings over which warming up fades to 1/e."""
LONG: Final = 60.0
"""Swings in which a slow drift is counted."""

FEATURES: Final = (
    "one",
    *("toe", "high", "toe_squared", "high_squared"),
    *(one.column for one in DELIVERY),
    *("warm_up", "drift"),
)
"""What the launch numbers are regressed on, in order."""

MARKS: Final = ("toe_mark", "high_mark")
"""Marks as they were read, within the face, per ten millimetres."""

SWING_RESPONSES: Final = (
    *DELIVERY,
    *(Scaled(column=name, origin=0.0, unit=STRIKE_UNIT) for name in MARKS),
)
"""What a swing is made of: delivery, and where the ball was struck."""

SWING_FEATURES: Final = ("one", "warm_up", "drift")
"""On what the swing is regressed, in order."""

PARTS: Final = (
    Scaled(column="shift_head_speed", origin=0.0, unit=MILE_PER_HOUR),
    *(
        Scaled(column=f"shift_{part}", origin=0.0, unit=DEGREE)
        for part in ("attack", "path", "face", "loft")
    ),
)
"""What physics and bench expect a club to change in the delivery."""

KEYS: Final = (
    *("fitting", "golfer", "visit", "bay", "device"),
    *("head", "club", "marked"),
)
"""Sums are taken over the balls of one club on one visit, marked ones and others apart."""
