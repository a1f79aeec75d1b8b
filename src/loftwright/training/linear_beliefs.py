"""What is believed in the linear bay before the first ball: the constants printed for it."""

from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.evidence.scales import LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.visit import Setup
from loftwright.training.linear import (
    BASE_HEAD_SPEED,
    BASE_LAUNCH,
    BENDS,
    CLUB_EFFECT,
    LAUNCH_UNITS,
    RESIDUAL,
    SLOPES,
)

RESIDUAL_DF: Final = 12.0
_MARKED_VARIANCE: Final = 2.8 * MILLIMETRE**2
_RMS_STRIKE: Final = (8.9 * MILLIMETRE, 6.7 * MILLIMETRE)
_DELIVERY_ERROR: Final = (0.3, 0.3, 0.25, 0.25)

_TO_SCALED: Final = LAUNCH_UNITS / LAUNCH_SCALE


def printed_slopes() -> Slopes:
    """Return the linear bay's mean slopes as the comparison's prior means.

    Face and path stand in for face to path and face: their slopes are such that the regression
    on the two printed columns has the printed coefficients.
    """
    scaled = SLOPES * _TO_SCALED[:, None]
    speed, attack, face_to_path, face = scaled[:, 2:].T
    return Slopes(
        origin=BASE_LAUNCH * LAUNCH_UNITS,
        delivery=np.array([BASE_HEAD_SPEED * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0]),
        parts=np.column_stack([speed, attack, -face_to_path, face + face_to_path, 0.0 * speed]),
        strike=scaled[:, :2],
        curvature=BENDS * _TO_SCALED[:, None],
    )


def printed_residual(slopes: Slopes) -> FloatArray:
    """Return the printed residual scale matrix, scaled: at the expected strike given a mark."""
    total = np.diag((RESIDUAL * _TO_SCALED) ** 2)
    for axis, rms in enumerate(_RMS_STRIKE):
        slope = slopes.strike[:, axis] + 2.0 * slopes.curvature[:, axis] * rms / STRIKE_UNIT
        total += np.outer(slope, slope) * _MARKED_VARIANCE / STRIKE_UNIT**2
    delivery = SLOPES[:, 2:] * _TO_SCALED[:, None]
    return total + (delivery * np.square(_DELIVERY_ERROR)) @ delivery.T


def printed_setup(setup: Setup) -> Setup:
    """Return a visit's set-up with the printed constants, ranked on the same swing alone."""
    clubs = len(setup.balls.clubs)
    between: FloatArray = np.diag((CLUB_EFFECT * _TO_SCALED) ** -2.0)
    prior = replace(
        setup.launch_prior,
        residual=printed_residual(setup.slopes),
        residual_df=RESIDUAL_DF,
        effect_precisions=np.asarray(np.kron(between, np.eye(clubs))[None], dtype=np.float64),
        scale_grid=np.array([0.35, 0.6, 1.0, 1.7, 2.9]),
    )
    expected = np.diag(_PATTERN**2) / np.outer(LAUNCH_SCALE, LAUNCH_SCALE)
    return replace(
        setup, launch_prior=prior, swing_rows=None, swing_prior=None, ball_scatter=expected
    )


_PATTERN: Final = np.array(
    [
        2.5 * MILE_PER_HOUR,
        1.2 * DEGREE,
        380.0 * REVOLUTION_PER_MINUTE,
        5.0 * DEGREE,
        1.2 * DEGREE,
    ]
)
"""Ten balls' worth of scatter that join a visit's own."""
