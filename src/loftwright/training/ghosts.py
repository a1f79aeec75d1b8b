"""Rows that a device writes although the golfer did not swing."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE

_LAUNCH_UNITS: Final[FloatArray] = frozen_array(
    [MILE_PER_HOUR, DEGREE, REVOLUTION_PER_MINUTE, DEGREE, DEGREE]
)
_DELIVERY_UNITS: Final[FloatArray] = frozen_array([MILE_PER_HOUR, DEGREE, DEGREE, DEGREE])

# Ranges of ball speed, launch, spin, axis and direction; judgement.
_WAGGLE_LAUNCH: Final = ((12.0, 45.0), (1.0, 20.0), (200.0, 2500.0), (-25.0, 25.0), (-15.0, 15.0))
_WAGGLE_DELIVERY: Final = ((10.0, 35.0), (-6.0, 4.0), (-12.0, 12.0), (-15.0, 15.0))
_NEIGHBOUR_LAUNCH: Final = (
    (95.0, 125.0),
    (16.0, 24.0),
    (4500.0, 7500.0),
    (-8.0, 8.0),
    (6.0, 15.0),
)


def _between(
    ranges: tuple[tuple[float, float], ...], count: int, rng: np.random.Generator
) -> FloatArray:
    low, high = np.array(ranges).T
    return rng.uniform(low, high, (count, len(ranges)))


def ghost_readings(count: int, rng: np.random.Generator) -> tuple[FloatArray, FloatArray]:
    """Draw readings of waggles and of a neighbour's balls.

    Parameters
    ----------
    count : int
    rng : numpy.random.Generator

    Returns
    -------
    launch : FloatArray, shape (count, 5)
        A waggle's made-up launch, slow and low; or an iron shot from the next bay, high in spin
        and well to one side.
    delivery : FloatArray, shape (count, 4)
        NaN for a neighbour's ball: the device saw no head.
    """
    waggle = rng.random(count) < 0.5
    slow = _between(_WAGGLE_LAUNCH, count, rng)
    iron = _between(_NEIGHBOUR_LAUNCH, count, rng)
    iron[:, 4] *= np.where(rng.random(count) < 0.5, -1.0, 1.0)
    launch = np.where(waggle[:, None], slow, iron) * _LAUNCH_UNITS
    delivery = _between(_WAGGLE_DELIVERY, count, rng) * _DELIVERY_UNITS
    delivery[~waggle] = np.nan
    return launch, delivery
