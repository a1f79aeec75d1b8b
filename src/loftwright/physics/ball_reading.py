"""One ball as a device read it, to be solved backwards, and how far its numbers stray."""

from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from loftwright.constants import DEGREE, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.errors import InputError

BALL: Final = ("ball_speed", "launch", "direction", "back_spin", "side_spin")
"""What is compared of a ball, in the order of every array of it."""

MEASURED: Final = ("head_speed", "attack", "path", "face", "loft")
"""What a device may measure of the delivery."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingErrors:
    """Standard deviations of what a device reads, SI and radians.

    Those of a good device, unless told; all are assumptions.
    """

    ball_speed: float = 0.2
    launch: float = 0.25 * DEGREE
    direction: float = 0.25 * DEGREE
    back_spin: float = 60.0 * REVOLUTION_PER_MINUTE
    side_spin: float = 50.0 * REVOLUTION_PER_MINUTE
    head_speed: float = 0.45
    attack: float = 0.7 * DEGREE
    path: float = 0.7 * DEGREE
    face: float = 0.7 * DEGREE
    loft: float = 0.7 * DEGREE
    mark: float = 2.0 * MILLIMETRE

    def __post_init__(self) -> None:
        for one in fields(self):
            if not getattr(self, one.name) > 0.0:
                raise InputError(
                    "an error must be more than zero", place=one.name, mend="Give its size."
                )


GOOD: Final = ReadingErrors()
BASIC: Final = ReadingErrors(
    ball_speed=0.45,
    launch=0.5 * DEGREE,
    direction=0.6 * DEGREE,
    back_spin=150.0 * REVOLUTION_PER_MINUTE,
    side_spin=150.0 * REVOLUTION_PER_MINUTE,
    head_speed=0.9,
)
"""A device that reads less exactly (assumption)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BallReading:
    """One ball as it was read, in the golfer's own signs; SI and radians.

    Attributes
    ----------
    ball_speed, launch, direction, spin, axis : float
        The axis as its tilt from the horizontal.
    head_speed, attack, path, face, loft : float, optional
        Where a device measured them; a calculated number is no measurement.
    mark : (float, float), optional
        Strike towards the toe and up.
    """

    ball_speed: float
    launch: float
    direction: float
    spin: float
    axis: float
    head_speed: float | None = None
    attack: float | None = None
    path: float | None = None
    face: float | None = None
    loft: float | None = None
    mark: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        numbers = [getattr(self, one.name) for one in fields(self) if one.name != "mark"]
        told = [number for number in (*numbers, *(self.mark or ())) if number is not None]
        if not np.isfinite(told).all():
            raise InputError(
                "a ball without its five launch numbers cannot be solved backwards",
                place="ball",
                mend="Give ball speed, launch, direction, spin and axis.",
            )
        if not 5.0 < self.ball_speed < 110.0:
            raise InputError(
                f"a ball speed of {self.ball_speed:.0f} m/s is no driver's",
                place="ball_speed",
                mend="Give 5 to 110 m/s (11 to 246 mph).",
            )
