"""One table of how a golfer's swings spread, and of what a club may plausibly do to a swing.

Every width the model starts from follows from this table and from the slopes of the impact
model. The spreads are a mid golfer's; the visit's own launch scatter scales them.

Notes
-----
The table is a judgement. No published paper could be read for within-golfer standard
deviations; the values are those that make a simulated golfer's angular scatter follow the order
of published driving data (Broadie 2012, Interfaces 42(2):146, from memory).
"""

from dataclasses import dataclass, field
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
)
from loftwright.evidence.scales import LAUNCH_SCALE, PART_UNIT

PART_SPREAD: Final[FloatArray] = frozen_array([1.8, 1.4, 2.2, 2.5, 1.7])
"""Head speed [mph], attack, path, face, dynamic loft [deg]: a mid golfer's sd."""

STRIKE_SPREAD: Final[FloatArray] = frozen_array([11.0 * MILLIMETRE, 7.5 * MILLIMETRE])
PATH_FACE_CORRELATION: Final = 0.4
ATTACK_LOFT_CORRELATION: Final = 0.5

CLUB_PART_SPREAD: Final[FloatArray] = frozen_array([0.3, 0.2, 0.5, 0.5, 0.5])
"""What clubs do to head speed [mph], attack, path, face and loft [deg]: sd between clubs."""

CLUB_STRIKE_SPREAD: Final[FloatArray] = frozen_array([0.75 * MILLIMETRE, 0.75 * MILLIMETRE])

CLUB_FLOOR: Final[FloatArray] = frozen_array(
    np.array(
        [
            0.15 * MILE_PER_HOUR,
            0.1 * DEGREE,
            30.0 * REVOLUTION_PER_MINUTE,
            0.3 * DEGREE,
            0.1 * DEGREE,
        ]
    )
    / LAUNCH_SCALE
)
"""What clubs do to launch beyond what they do to the swing, in scaled units: sd between clubs."""

DELIVERY_ERROR: Final = {
    "head_speed": 0.3,
    "attack": 0.3,
    "face_to_path": 0.25,
    "face": 0.25,
    "path": 0.25,
}
"""A device's error of one reading [mph, deg] (judgement)."""

LAUNCH_SCATTER_OF_MID: Final = 2.1 * DEGREE
_PRIOR_BALLS: Final = 10.0
_NARROWEST, _WIDEST = 0.45, 1.6

ABILITY_FACTOR: Final = {"tour": 0.55, "low": 0.72, "mid": 1.0, "high": 1.3}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpreadTable:
    """How a mid golfer's swings spread, and what clubs may do: judged, or learned from fittings.

    Attributes
    ----------
    parts : FloatArray, shape (5,)
        Head speed [mph], attack, path, face, dynamic loft [deg]: sd of a mid golfer's swings.
    strike : FloatArray, shape (2,)
        Heel-toe, low-high: the same [m].
    club_parts, club_strike : FloatArray, shapes (5,), (2,)
        What clubs do to them: sd between clubs, in the same units.
    club_floor : FloatArray, shape (5,)
        What clubs do to launch beyond that, in scaled units.
    """

    parts: FloatArray = field(default_factory=lambda: PART_SPREAD)
    strike: FloatArray = field(default_factory=lambda: STRIKE_SPREAD)
    club_parts: FloatArray = field(default_factory=lambda: CLUB_PART_SPREAD)
    club_strike: FloatArray = field(default_factory=lambda: CLUB_STRIKE_SPREAD)
    club_floor: FloatArray = field(default_factory=lambda: CLUB_FLOOR)

    def __post_init__(self) -> None:
        for name in ("parts", "strike", "club_parts", "club_strike", "club_floor"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))


JUDGED: Final = SpreadTable()
"""The table of this module, until fittings have taught a better one."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spreads:
    """A golfer's spreads as a multiple of the mid golfer's table.

    Attributes
    ----------
    factor : float
    table : SpreadTable
    stated : bool
        The factor is that of a stated ability, not judged from the balls.
    """

    factor: float
    table: SpreadTable = JUDGED
    stated: bool = False

    @property
    def parts(self) -> FloatArray:
        """Covariance of the delivery's parts, mph and degrees, shape (5, 5)."""
        sd = self.factor * self.table.parts
        correlation = np.eye(5)
        correlation[2, 3] = correlation[3, 2] = PATH_FACE_CORRELATION
        correlation[1, 4] = correlation[4, 1] = ATTACK_LOFT_CORRELATION
        return correlation * np.outer(sd, sd)

    @property
    def delivery(self) -> FloatArray:
        """Covariance of delivery and strike, SI and radians, shape (7, 7)."""
        parts = len(PART_UNIT)
        covariance = np.zeros((parts + 2, parts + 2))
        covariance[:parts, :parts] = self.parts * np.outer(PART_UNIT, PART_UNIT)
        covariance[parts:, parts:] = np.diag(self.strike**2)
        return covariance

    @property
    def strike(self) -> FloatArray:
        """Standard deviations of the strike, heel-toe and low-high [m]."""
        return self.factor * self.table.strike


def spread_factor(launch: FloatArray, club: IntArray) -> float:
    """Judge from the scatter of launch how wide this golfer's swings spread.

    Parameters
    ----------
    launch : FloatArray, shape (n,)
        Launch angles [rad], NaN where missing.
    club : IntArray, shape (n,)
        Club, or club and visit, of each ball.

    Returns
    -------
    float
        Multiple of the mid golfer's spreads, 0.45 to 1.6.

    Notes
    -----
    The scatter is the scaled median absolute deviation about each club's median, joined by ten
    balls' worth of the mid golfer. Head speed alone is no guide to ability.
    """
    seen = np.isfinite(launch)
    launch, club = launch[seen], club[seen]
    clubs = np.unique(club)
    freedom = len(launch) - len(clubs)
    if freedom < 1:
        return 1.0
    deviation = np.concatenate([launch[club == c] - np.median(launch[club == c]) for c in clubs])
    scatter = 1.4826 * np.median(np.abs(deviation)) * np.sqrt(len(launch) / freedom)
    mid = LAUNCH_SCATTER_OF_MID
    variance = (_PRIOR_BALLS * mid**2 + freedom * scatter**2) / (_PRIOR_BALLS + freedom)
    return float(np.clip(np.sqrt(variance) / mid, _NARROWEST, _WIDEST))
