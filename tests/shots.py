"""Drives in trade units, for the checks of ball flight."""

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Flight, Launch, fly

STANDARD_AIR = air((75.0 - 32.0) / 1.8 + 273.15, 0.0, 0.5)
CALM = Conditions(air=STANDARD_AIR)


def shot(
    ball_speed: float, launch: float, spin: float, axis: float = 0.0, direction: float = 0.0
) -> Launch:
    """Return a launch from mph, degrees and rpm."""
    return Launch(
        ball_speed=ball_speed * MILE_PER_HOUR,
        launch=launch * DEGREE,
        direction=direction * DEGREE,
        spin=spin * REVOLUTION_PER_MINUTE,
        axis=axis * DEGREE,
    )


def flown(ball_speed: float, launch: float, spin: float, axis: float = 0.0) -> Flight:
    """Fly in standard air by the reference method."""
    return fly(shot(ball_speed, launch, spin, axis), CALM)


def total_yd(ball_speed: float, launch: float, spin: float) -> float:
    """Return the total in yards."""
    return flown(ball_speed, launch, spin).total / YARD


def vectors_of(launch: Launch) -> tuple[FloatArray, FloatArray]:
    """Return velocity and spin vectors of a launch whose axis lies in the upright plane."""
    level = launch.ball_speed * np.cos(launch.launch)
    velocity = np.array(
        [
            level * np.cos(launch.direction),
            launch.ball_speed * np.sin(launch.launch),
            level * np.sin(launch.direction),
        ]
    )
    spin = launch.spin * np.array(
        [
            -np.cos(launch.axis) * np.sin(launch.direction),
            -np.sin(launch.axis),
            np.cos(launch.axis) * np.cos(launch.direction),
        ]
    )
    return velocity, spin
