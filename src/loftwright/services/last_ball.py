"""Balls as they fly at the golfer's home, each flown once."""

from dataclasses import dataclass
from functools import lru_cache
from math import isfinite, tan
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.outside import rule_of
from loftwright.domain.club_kind import Told
from loftwright.domain.home import Hole, Home
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import LoftwrightError
from loftwright.evidence.flight_map import conditions_at
from loftwright.evidence.result import Decision
from loftwright.physics.conditions import Conditions
from loftwright.physics.flight import Launch, fly_quickly, follow

PATH_STEP: Final = 0.2
"""Seconds between the points of a drawn flight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FlownSwing:
    """A ball at home: carry, total and what lies to the side [m], right positive.

    Attributes
    ----------
    has_side : bool
        Whether start direction and axis were both measured; else it was flown straight.
    """

    carry: float
    total: float
    carry_offline: float
    total_offline: float
    peak_height: float
    start_offline: float
    has_side: bool

    @property
    def curve(self) -> float:
        """How far it curved from its start line where it landed [m]."""
        return self.carry_offline - self.start_offline


def last_ball(now: FittingNow) -> Swing | None:
    """Return the golfer's newest swing that a device read, warm-up included."""
    read = (one for one in reversed(now.swings) if one.numbers and not one.not_ours)
    return next(read, None)


def flown(numbers: ShotNumbers | None, home: Home) -> FlownSwing | None:
    """Return a ball flown at home; None without speed, launch and spin, or if it cannot fly."""
    launch = None if numbers is None else _launch(numbers)
    if launch is None or numbers is None:
        return None
    return _fly(launch, _conditions(home), _has_side(numbers))


def flight_path(numbers: ShotNumbers, home: Home) -> tuple[tuple[float, float, float], ...]:
    """Return a ball's path at home: points along, up and to the right [m]; empty if none."""
    launch = _launch(numbers)
    return () if launch is None else _path(launch, _conditions(home))


def earlier_finishes(now: FittingNow, home: Home) -> tuple[tuple[float, float], ...]:
    """Return where the balls before the last one finished, along and to the right [m]."""
    newest = last_ball(now)
    found = [
        flown(one.numbers, home)
        for one in now.balls
        if (newest is None or one.sequence != newest.sequence)
        and rule_of(now, one.club, Told.FLIGHT).may
    ]
    return tuple((one.total, one.total_offline) for one in found if one is not None)


def hole_of(home: Home, decision: Decision | None) -> Hole:
    """Return the hole that flights are drawn over: the golfer's first, else the standard one."""
    holes = home.holes or (decision.home.holes if decision is not None else ())
    return holes[0] if holes else Hole()


def _has_side(numbers: ShotNumbers) -> bool:
    return numbers.direction is not None and numbers.axis is not None


def _launch(numbers: ShotNumbers) -> Launch | None:
    if numbers.ball_speed is None or numbers.launch is None or numbers.spin is None:
        return None
    return Launch(
        ball_speed=numbers.ball_speed,
        launch=numbers.launch,
        direction=numbers.direction or 0.0,
        spin=numbers.spin,
        axis=numbers.axis or 0.0,
    )


@lru_cache(maxsize=64)
def _conditions(home: Home) -> Conditions:
    # One value for equal homes: flights are kept under it, and a home is read anew at every look.
    return conditions_at(home)


@lru_cache(maxsize=4096)
def _fly(launch: Launch, conditions: Conditions, has_side: bool) -> FlownSwing | None:
    try:
        flight = fly_quickly(launch, conditions)
    except LoftwrightError:
        return None
    if not (isfinite(flight.carry) and isfinite(flight.total)):
        return None
    return FlownSwing(
        carry=flight.carry,
        total=flight.total,
        carry_offline=flight.carry_offline,
        total_offline=flight.total_offline,
        peak_height=flight.peak_height,
        start_offline=flight.carry * tan(launch.direction),
        has_side=has_side,
    )


@lru_cache(maxsize=64)
def _path(launch: Launch, conditions: Conditions) -> tuple[tuple[float, float, float], ...]:
    try:
        path = follow(launch, conditions, PATH_STEP)
    except LoftwrightError:
        return ()
    return tuple((float(x), float(y), float(z)) for x, y, z in path.position)
