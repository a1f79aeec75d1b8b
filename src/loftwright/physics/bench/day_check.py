"""Whether a bench reads its master shaft as it always did, and what else does to EI.

A load cell, a gauge, supports or a clamp that moved make every shaft of the day too stiff or too
soft by one factor, which no reading of these shafts can tell. The master shaft can.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import log, sqrt
from typing import Final

import numpy as np

from loftwright.errors import InputError
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)

FEWEST: Final = 3
STATED_COUNTS: Final = 4.0
MOVED_CHANCE: Final = 0.003


@dataclass(frozen=True, slots=True, kw_only=True)
class DayCheck:
    """What the master shaft says of the bench today.

    Attributes
    ----------
    days : int
        Readings of the history.
    usual : float
        Their middle, in the reading's unit.
    repeat : float
        By how much one day's reading differs from another's, relative, one standard deviation.
    shift : float
        Of today's reading against the usual one, relative.
    surprise : float
        The shift in standard deviations of today's reading and of the usual one.
    moved : bool
        Whether repeating alone would do that on 3 days of 1000 at most.
    stiffness : float, optional
        By how much today's EI, or GJ of a twist, would come out too high, relative; none where
        the reading tells no stiffness.
    frequency : float, optional
        By how much a frequency foretold from that EI would come out too high, relative.
    span : float, optional
        How much longer the span would have to be to do it, three supports only [m].
    """

    days: int
    usual: float
    repeat: float
    shift: float
    surprise: float
    moved: bool
    stiffness: float | None
    frequency: float | None
    span: float | None


def day_check(today: Reading, history: Sequence[Reading]) -> DayCheck:
    """Return whether a bench reads the master shaft today as it did before.

    Parameters
    ----------
    today : Reading
        Of the master shaft.
    history : sequence of Reading
        Earlier ones in the same set-up, at least three, in any order.

    Returns
    -------
    DayCheck

    Raises
    ------
    InputError
        If there are fewer than three earlier readings, or one was read in another set-up.

    Notes
    -----
    The repeat error is the history's own, shrunk to the stated error of the reading as if that
    were known from four more days; the shift is held against a Student t with as many degrees of
    freedom as both have. EI is proportional to a frequency squared and to one over a deflection;
    GJ to one over a twist. Clamp depth, which a frequency feels as well, is not told from a
    change of scale.
    """
    if len(history) < FEWEST:
        raise InputError(
            f"{len(history)} earlier readings tell no usual one",
            place="master shaft",
            mend=f"Read it on {FEWEST} days at least before it is held against them.",
        )
    for day, one in enumerate(history, start=1):
        if _setup(one) != _setup(today):
            raise InputError(
                f"earlier reading {day} was read in another set-up",
                place="master shaft",
                mend="Give readings of one set-up: span or clamp, load or weight, station.",
            )
    logs = np.log([one.value for one in history])
    usual, freedom = float(logs.mean()), STATED_COUNTS + len(logs) - 1.0
    squares = STATED_COUNTS * today.sigma**2 + float(((logs - usual) ** 2).sum())
    repeat = sqrt(squares / freedom)
    shift = log(today.value) - usual
    surprise = shift / (repeat * sqrt(1.0 + 1.0 / len(logs)))
    stiffness = _stiffness(today, shift)
    bends = stiffness is not None and not isinstance(today, Torque)
    return DayCheck(
        days=len(history),
        usual=float(np.exp(usual)),
        repeat=repeat,
        shift=float(np.expm1(shift)),
        surprise=surprise,
        moved=_chance(surprise, freedom) <= MOVED_CHANCE,
        stiffness=stiffness,
        frequency=sqrt(1.0 + stiffness) - 1.0 if bends and stiffness is not None else None,
        span=today.span * float(np.expm1(shift / 3.0)) if isinstance(today, ThreePoint) else None,
    )


def _setup(reading: Reading) -> Reading:
    """Return a reading with all that is no set-up made alike."""
    return replace(reading, value=_SAME[type(reading)], sigma=1.0, typed="")


_SAME: Final[dict[type, float]] = {
    ThreePoint: 1e-3,
    Cantilever: 1e-2,
    Frequency: 4.0,
    Torque: 0.1,
    Mass: 0.06,
    Balance: 0.5,
}


def _stiffness(reading: Reading, shift: float) -> float | None:
    match reading:
        case Frequency():
            return float(np.expm1(2.0 * shift))
        case ThreePoint() | Cantilever() | Torque():
            return float(np.expm1(-shift))
        case Mass() | Balance():
            return None


def _chance(surprise: float, freedom: float) -> float:
    """Return how often a Student t lies so far off on either side."""
    from scipy.special import stdtr  # noqa: PLC0415 - scipy is slow to import

    return 2.0 * float(stdtr(freedom, -abs(surprise)))
