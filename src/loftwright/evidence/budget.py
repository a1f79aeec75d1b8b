"""Balls and minutes that are left."""

from dataclasses import dataclass
from typing import Final

from loftwright.errors import InputError

SECONDS_A_BALL: Final = 35.0
SECONDS_A_CHANGE: Final = 60.0
SET_OF_BALLS: Final = 3
"""Balls hit before the club is changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """What is left of the visit; `None` where nobody counts.

    Attributes
    ----------
    balls : int, optional
    seconds : float, optional
    """

    balls: int | None = None
    seconds: float | None = None

    def __post_init__(self) -> None:
        if self.balls is not None and self.balls < 0:
            raise InputError(f"{self.balls} balls left cannot be", place="balls left")
        if self.seconds is not None and self.seconds < 0.0:
            raise InputError(f"{self.seconds / 60.0:.0f} minutes left cannot be", place="minutes")


def balls_left(budget: Budget) -> int | None:
    """Return how many balls fit, the changes between sets counted; nothing if nobody counts."""
    fits = budget.balls
    if budget.seconds is not None:
        set_seconds = SECONDS_A_CHANGE + SET_OF_BALLS * SECONDS_A_BALL
        sets, rest = divmod(budget.seconds, set_seconds)
        loose = max(rest - SECONDS_A_CHANGE, 0.0) // SECONDS_A_BALL
        in_time = int(sets) * SET_OF_BALLS + int(loose)
        fits = in_time if fits is None else min(fits, in_time)
    return fits


def enough_left(budget: Budget) -> bool:
    """Return whether another ball fits."""
    fits = balls_left(budget)
    return fits is None or fits > 0
