"""Columns that a device seems to calculate though it is said to measure them.

A column that follows others more exactly than any device reads carries nothing of its own. Taken
for measured it explains away what it was calculated from, and what it says of clubs is a formula's
opinion.
"""

from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.balls import Balls

FEWEST_BALLS: Final = 12
"""Fewer balls may lie on a line by chance (judgement)."""

SPEED_RATIO_SPREAD: Final = 0.0015
"""Strikes alone spread ball speed per head speed by a hundredth; two devices' errors by 0.004."""
SPIN_SPREAD: Final = 15.0 * REVOLUTION_PER_MINUTE
AXIS_SPREAD: Final = 0.2 * DEGREE
FACE_SPREAD: Final = 0.1 * DEGREE
"""A quarter of what a good device strays by in spin, less than half in axis and face
(assumptions)."""

_ROBUST: Final = 1.4826
_ROUNDS: Final = 3
_OUTSIDE: Final = 4.0
_FAR: Final = 10.0
_BALL_SPEED, _LAUNCH, _SPIN, _AXIS, _DIRECTION = range(5)
_HEAD_SPEED, _, _PATH, _FACE = range(4)


HEAD_SPEED_COLUMN: Final = "head speed"
"""As a finding names it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Follows:
    """A column that follows others exactly.

    Attributes
    ----------
    column, others : str
        In words.
    """

    column: str
    others: str

    @property
    def say(self) -> str:
        """What to tell the fitter."""
        return (
            f"{self.column} follows {self.others} more exactly than a device reads: it seems to "
            "be calculated, so say so where the device's columns are listed"
        )


def calculated_columns(balls: Balls) -> tuple[Follows, ...]:
    """Return the columns that follow others more exactly than a device reads.

    Parameters
    ----------
    balls : Balls
    """
    launch, delivery = balls.launch, balls.delivery
    speed, face, axis = delivery[:, _HEAD_SPEED], delivery[:, _FACE], launch[:, _AXIS]
    ratio = np.log(launch[:, _BALL_SPEED] / speed)
    start_and_path = np.column_stack([launch[:, _DIRECTION], delivery[:, _PATH]])
    spin, strength = launch[:, _SPIN], launch[:, [_LAUNCH, _BALL_SPEED]]
    asked = (
        _Asked(HEAD_SPEED_COLUMN, "ball speed", speed, ratio, launch[:, :0], SPEED_RATIO_SPREAD),
        _Asked("spin", "launch and ball speed", spin, spin, strength, SPIN_SPREAD),
        _Asked("spin axis", "start direction", axis, axis, launch[:, [_DIRECTION]], AXIS_SPREAD),
        _Asked("spin axis", "face and path", axis, axis, delivery[:, [_FACE, _PATH]], AXIS_SPREAD),
        _Asked("face angle", "start direction and path", face, face, start_and_path, FACE_SPREAD),
    )
    return tuple(
        Follows(column=one.column, others=one.others)
        for one in asked
        if _varies(one.own) and _spread(one.target, _curve(one.by), one.least) < one.least
    )


class _Asked(NamedTuple):
    """A column, what it may follow, and below which spread about that it seems calculated."""

    column: str
    others: str
    own: FloatArray
    target: FloatArray
    by: FloatArray
    least: float


def column_alarms(balls: Balls) -> tuple[Alarm, ...]:
    """Return the same as doubts for the bay's page."""
    return tuple(
        Alarm(kind="calculated_column", say=one.say, rows=()) for one in calculated_columns(balls)
    )


def _varies(column: FloatArray) -> bool:
    seen = column[np.isfinite(column)]
    return bool(seen.size and np.ptp(seen) > 0.0)


def _curve(columns: FloatArray) -> FloatArray:
    """Return a constant, the columns and their squares."""
    return np.hstack([np.ones((len(columns), 1)), columns, columns**2])


def _spread(target: FloatArray, others: FloatArray, least: float) -> float:
    """Return the robust spread of a column about what others say of it; infinite if too few.

    A spread far above the least one is not looked at more closely.
    """
    kept = np.isfinite(target) & np.isfinite(others).all(axis=1)
    if kept.sum() < FEWEST_BALLS:
        return float("inf")
    target, others = target[kept], others[kept]
    inside = np.ones(len(target), dtype=np.bool_)
    spread = float("inf")
    for _ in range(_ROUNDS):
        found = np.linalg.lstsq(others[inside], target[inside], rcond=None)[0]
        away = np.abs(target - others @ found)
        # As many balls as unknowns lie on any curve; the rest must tell.
        freedom = max(int(inside.sum()) - others.shape[1], 1)
        spread = _ROBUST * float(np.median(away)) * np.sqrt(len(target) / freedom)
        if spread > _FAR * least:
            break
        inside = away <= _OUTSIDE * spread if spread > 0.0 else inside
    return spread
