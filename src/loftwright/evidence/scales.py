"""Names, order and working scales of what the model regresses on what.

The model works in numbers near one: each launch number is divided by a scale that is about one
shot's doubt, so that prior widths can be stated alike for all of them.
"""

from typing import Final

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
)

LAUNCH_NAMES: Final = ("ball_speed", "launch", "spin", "axis", "direction")
"""The five launch numbers, in the order of every array of them."""

DISTANCE: Final = frozenset({0, 1, 2})
"""The launch numbers that a total needs: ball speed, launch, spin."""

SHAPE: Final = frozenset({3, 4})
"""The launch numbers that tell where a ball starts and curves: axis, direction."""

LAUNCH_SCALE: Final[FloatArray] = frozen_array(
    [
        1.0 * MILE_PER_HOUR,
        0.8 * DEGREE,
        200.0 * REVOLUTION_PER_MINUTE,
        2.0 * DEGREE,
        1.0 * DEGREE,
    ]
)

DELIVERY_NAMES: Final = ("head_speed", "attack", "path", "face")
"""Delivery columns a device may measure, in the order of every array of them."""

PART_NAMES: Final = ("head_speed", "attack", "path", "face", "loft")
"""What a swing brings to the ball, strike apart; the loft is never a covariate."""

STRIKE_UNIT: Final = 10.0 * MILLIMETRE
"""Strike slopes are stated for ten millimetres."""

SPEED_UNIT: Final = 1.0 * MILE_PER_HOUR
ANGLE_UNIT: Final = 1.0 * DEGREE

PART_UNIT: Final[FloatArray] = frozen_array([SPEED_UNIT] + 4 * [ANGLE_UNIT])

FACE_HALF_WIDTH: Final = 35.0 * MILLIMETRE
FACE_HALF_HEIGHT: Final = 24.0 * MILLIMETRE
