"""Minutes and balls that are left, when to rest and when enough is enough."""

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from loftwright.bay.now import FittingNow

REST_EVERY: Final = 18
"""Swings between rests (judgement)."""

CAP: Final = 90
"""Swings of one visit, warm-up and unread ones included (judgement)."""

CAP_WITH_CARE: Final = 60
"""The same for juniors, seniors and those who come back after a break (judgement)."""

LONG_PAUSE: Final = 40.0
"""Seconds without a ball after which the club in hand is asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """Where a visit stands.

    Attributes
    ----------
    balls_left : int, optional
        Of the plan, and never past the cap; None without a plan.
    seconds_left : float, optional
        None where nobody counts.
    swings, cap : int
        Every swing of the visit so far, and how many it may have.
    rest_in : int
        Swings until a rest is due; 0 when it is.
    """

    balls_left: int | None
    seconds_left: float | None
    swings: int
    cap: int
    rest_in: int


def pace_of(now: FittingNow, at: datetime, *, care: bool) -> Pace:
    """Return where the newest visit stands at an instant.

    Parameters
    ----------
    now : FittingNow
    at : datetime
    care : bool
        Whether the lower cap applies.

    Returns
    -------
    Pace
    """
    swings = now.swings_today
    cap = CAP_WITH_CARE if care else CAP
    left = seconds = None
    if now.plan is not None:
        hit = len(now.balls) - now.plan.swings_before
        left = max(min(now.plan.plan.balls - hit, cap - swings), 0)
        if now.plan.plan.seconds is not None:
            # A clock that was set back leaves no more minutes than the plan had.
            gone = max((at - now.plan.made).total_seconds(), 0.0)
            seconds = max(now.plan.plan.seconds - gone, 0.0)
    return Pace(
        balls_left=left,
        seconds_left=seconds,
        swings=swings,
        cap=cap,
        rest_in=max(REST_EVERY - (swings - now.rested), 0),
    )


def asks_for_club(now: FittingNow) -> bool:
    """Return whether the newest ball came after a long pause in which nobody named the club."""
    mine = [one for one in now.swings if not one.not_ours]
    if len(mine) < 2 or now.confirmed is None:
        return False
    before, newest = mine[-2], mine[-1]
    if before.club != newest.club or before.visit != newest.visit:
        return False
    paused = (newest.at - before.at).total_seconds() > LONG_PAUSE
    return paused and not before.at <= now.confirmed
