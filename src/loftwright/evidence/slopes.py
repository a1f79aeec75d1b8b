"""How launch follows delivery and strike, from the impact model at the golfer's own mean swing."""

from dataclasses import dataclass, field

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE
from loftwright.evidence.balls import Balls
from loftwright.evidence.scales import LAUNCH_SCALE, PART_UNIT, STRIKE_UNIT
from loftwright.physics.head_variation import heads_around
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many

NOMINAL_ATTACK = -0.5 * DEGREE
NOMINAL_LOFT = 14.5 * DEGREE
NOMINAL_HEAD_SPEED = 42.0

_LOFTS = np.arange(4.0, 28.5, 0.5) * DEGREE


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Slopes:
    """Launch numbers per unit of delivery and strike, all in scaled units.

    Attributes
    ----------
    origin : FloatArray, shape (5,)
        Launch numbers of a centre strike at the operating delivery, SI.
    delivery : FloatArray, shape (5,)
        The operating delivery: head speed [m/s], attack, path, face, dynamic loft [rad].
    parts : FloatArray, shape (5, 5)
        Scaled launch numbers (rows) per mph or degree of each part (columns).
    strike : FloatArray, shape (5, 2)
        Per ten millimetres right and high.
    curvature : FloatArray, shape (5, 2)
        Per square of ten millimetres.
    heads : FloatArray, shape (5, k)
        Per standard deviation of each thing in which heads differ.
    """

    origin: FloatArray
    delivery: FloatArray
    parts: FloatArray
    strike: FloatArray
    curvature: FloatArray
    heads: FloatArray = field(default_factory=lambda: np.zeros((5, 0)))


def median_or(values: FloatArray, otherwise: float) -> float:
    """Return the median of what was measured, or a stand-in where nothing was."""
    seen = values[np.isfinite(values)]
    return float(np.median(seen)) if seen.size else otherwise


def _deliveries(operating: FloatArray, count: int) -> FloatArray:
    rows = np.zeros((count, 7))
    rows[:, :5] = operating
    return rows


def operating_delivery(balls: Balls, head: Head) -> FloatArray:
    """Return the golfer's mean delivery, what was not measured being solved from the launch.

    Parameters
    ----------
    balls : Balls
    head : Head

    Returns
    -------
    FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad].

    Notes
    -----
    Medians, so that a few odd balls do not move it. Dynamic loft is always solved from the
    median launch, and head speed from the median ball speed where no device measured it.
    """
    speed, attack, path, face = (
        median_or(column, otherwise)
        for column, otherwise in zip(
            balls.delivery.T, (np.nan, NOMINAL_ATTACK, 0.0, 0.0), strict=True
        )
    )
    ball_speed = median_or(balls.launch[:, 0], np.nan)
    launch = median_or(balls.launch[:, 1], np.nan)
    solve_speed = not np.isfinite(speed)
    if solve_speed:
        speed = ball_speed / 1.43 if np.isfinite(ball_speed) else NOMINAL_HEAD_SPEED
    attack = float(np.clip(attack, -10.0 * DEGREE, 12.0 * DEGREE))
    lofts = _LOFTS[attack + 1.0 * DEGREE < _LOFTS]
    loft = NOMINAL_LOFT
    for _ in range(4 if solve_speed else 1):
        speed = float(np.clip(speed, 15.0, 75.0))
        rows = _deliveries(np.array([speed, attack, path, face, 0.0]), len(lofts))
        rows[:, 4] = lofts
        results = strike_many(head, rows)
        if np.isfinite(launch):
            loft = float(np.interp(launch, results[:, 1], lofts))
        if solve_speed and np.isfinite(ball_speed):
            speed = ball_speed / float(np.interp(loft, lofts, results[:, 0] / speed))
    return np.array([float(np.clip(speed, 15.0, 75.0)), attack, path, face, loft])


def slopes_at(operating: FloatArray, head: Head) -> Slopes:
    """Return the impact model's slopes by differences at a delivery.

    Parameters
    ----------
    operating : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad].
    head : Head

    Returns
    -------
    Slopes
    """
    rows = _deliveries(operating, 15)
    for part in range(5):
        rows[1 + 2 * part, part] += PART_UNIT[part]
        rows[2 + 2 * part, part] -= PART_UNIT[part]
    for axis in range(2):
        rows[11 + 2 * axis, 5 + axis] += STRIKE_UNIT
        rows[12 + 2 * axis, 5 + axis] -= STRIKE_UNIT
    launches = strike_many(head, rows)
    scaled = launches / LAUNCH_SCALE
    ups, downs = scaled[1::2], scaled[2::2]
    half = 0.5 * (ups - downs)
    bend = 0.5 * (ups + downs) - scaled[0]
    others = [
        0.5 * (strike_many(more, rows[:1])[0] - strike_many(less, rows[:1])[0])
        for more, less in heads_around(head)
    ]
    return Slopes(
        origin=launches[0],
        delivery=operating,
        parts=half[:5].T,
        strike=half[5:].T,
        curvature=bend[5:].T,
        heads=(np.array(others) / LAUNCH_SCALE).T,
    )
