"""Measured delivery columns that steadily contradict the balls.

The mean ball of a visit is solved backwards with the marks, but without any delivery column. A
column that stands off it by more than the inverse itself is in doubt was read by a device that is
turned, moved or calibrated otherwise than it was; or the head, the marks or the launch numbers are
not what they are taken for. Which of them, the balls cannot say.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray
from loftwright.constants import DEGREE
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.balls import Balls
from loftwright.evidence.scales import DELIVERY_NAMES
from loftwright.evidence.visit import Setup
from loftwright.physics.delivery_belief import DELIVERY
from loftwright.physics.inverse_impact import DeliveryEstimate
from loftwright.physics.usual_ball import compared, usual_delivery

FEWEST_BALLS: Final = 20
"""Fewer balls leave the mean to chance (judgement)."""

STANDS_OFF: Final = 3.4
"""Standard deviations of the inverse, settled on simulated golfers: fewer than one right fitting
in a hundred comes to it in any column."""

SPEED_SCALE: Final = 0.01
"""By how much devices differ in what they call head speed (assumption)."""

_WORDS: Final = {
    "head_speed": "Head speed",
    "attack": "Attack angle",
    "path": "Club path",
    "face": "Face angle",
}
_ASK: Final = {
    "head_speed": "where on the head does the device take it?",
    "attack": "does the device stand level?",
    "path": "is the device aimed at the target?",
    "face": "is the device aimed at the target?",
}
_ROBUST: Final = 1.4826
_OUTSIDE: Final = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StandsOff:
    """A delivery column against what the balls say of it, on one visit.

    Attributes
    ----------
    column : str
        One of head_speed, attack, path, face.
    read, told, doubt : float
        Mean as read, mean as the balls tell it, and how well they do [m/s or rad].
    marked : bool
        Whether marks went into what the balls tell.
    rows : tuple of int
        Balls that went into it.
    """

    column: str
    read: float
    told: float
    doubt: float
    marked: bool
    rows: tuple[int, ...]

    @property
    def offset(self) -> float:
        """As read less as told [m/s or rad]."""
        return self.read - self.told

    @property
    def score(self) -> float:
        """The offset in standard deviations of what the balls tell."""
        return self.offset / self.doubt

    @property
    def say(self) -> str:
        """What to tell the fitter."""
        whose = "balls and marks" if self.marked else "balls"
        if self.column == "head_speed":
            share, doubt = (100.0 * one / self.told for one in (self.offset, self.doubt))
            way = "higher" if share > 0.0 else "lower"
            much, well = f"{abs(share):.0f} % {way}", f"{doubt:.0f} %"
        else:
            ways = ("up", "down") if self.column == "attack" else ("right", "left")
            way = ways[0] if self.offset > 0.0 else ways[1]
            much = f"{abs(self.offset) / DEGREE:.1f}° further {way}"
            well = f"{self.doubt / DEGREE:.1f}°"
        return (
            f"{_WORDS[self.column]} reads {much} than {len(self.rows)} {whose} tell, which they "
            f"do to {well} either way: {_ASK[self.column]}"
        )


def delivery_alarms(setup: Setup) -> tuple[Alarm, ...]:
    """Doubt the delivery columns that the balls contradict, the farthest off first.

    Parameters
    ----------
    setup : Setup
        Of the newest state; it need not be fitted.
    """
    found = [one for one in standings(setup) if abs(one.score) >= STANDS_OFF]
    found.sort(key=lambda one: -abs(one.score))
    return tuple(Alarm(kind="delivery_column", say=one.say, rows=one.rows) for one in found)


def standings(setup: Setup) -> tuple[StandsOff, ...]:
    """Return every measured delivery column against what the balls of its visit tell.

    Parameters
    ----------
    setup : Setup

    Notes
    -----
    Balls that lie far outside the visit in any number are left out. Where twenty balls or more,
    and half of all, are marked, the marked ones tell; else all, which is far less.
    """
    balls = setup.balls
    return tuple(
        one
        for visit in balls.visits
        for one in _on_visit(setup, balls.take(np.flatnonzero(balls.visit == visit)))
    )


def _on_visit(setup: Setup, balls: Balls) -> list[StandsOff]:
    numbers = np.hstack([compared(balls.launch), balls.delivery])
    inside = np.isfinite(balls.launch).all(axis=1) & _inside(numbers)
    marked = inside & np.isfinite(balls.marks).all(axis=1)
    by_marks = marked.sum() >= max(FEWEST_BALLS, 0.5 * inside.sum())
    used = marked if by_marks else inside
    found: list[StandsOff] = []
    known: dict[bytes, DeliveryEstimate | None] = {}
    for place, column in enumerate(DELIVERY_NAMES):
        which = used & np.isfinite(balls.delivery[:, place])
        if which.sum() < FEWEST_BALLS:
            continue
        key = which.tobytes()
        if key not in known:
            known[key] = _told(setup, balls, which, by_marks=bool(by_marks))
        told = known[key]
        if told is not None:
            found.append(_standing(balls, which, place, column, told))
    return found


def _standing(
    balls: Balls, which: BoolArray, place: int, column: str, told: DeliveryEstimate
) -> StandsOff:
    at = DELIVERY.index(column)
    doubt = float(told.sd[at])
    if column == "head_speed":
        doubt = float(np.hypot(doubt, SPEED_SCALE * told.mean[at]))
    return StandsOff(
        column=column,
        read=float(balls.delivery[which, place].mean()),
        told=float(told.mean[at]),
        doubt=doubt,
        marked=told.strike_told,
        rows=tuple(balls.row[which].tolist()),
    )


def _inside(numbers: FloatArray) -> BoolArray:
    """Return which balls lie near the middle of all in every number that was read of them."""
    inside = np.ones(len(numbers), dtype=np.bool_)
    for column in numbers.T:
        seen = np.isfinite(column)
        if not seen.any():
            continue
        away = np.abs(column - np.median(column[seen]))
        inside &= ~(away > _OUTSIDE * _ROBUST * np.median(away[seen]))
    return inside


def _told(
    setup: Setup, balls: Balls, which: BoolArray, *, by_marks: bool
) -> DeliveryEstimate | None:
    """Return what balls tell of their mean delivery; None if hardly any gives such balls."""
    mark = None
    if by_marks:
        across, high = balls.marks[which].mean(axis=0)
        mark = (float(across), float(high))
    try:
        found = usual_delivery(balls.launch[which], setup.spreads.delivery, setup.head, mark=mark)
    except (ConvergenceError, InputError):
        return None
    return None if found.hardly_fits else found
