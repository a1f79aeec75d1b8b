"""What is believed of a delivery, and of the constants of head, ball and device, beforehand."""

from dataclasses import dataclass, field
from math import sqrt
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE

DELIVERY: Final = ("head_speed", "attack", "path", "face", "loft", "toe", "high")
"""What is asked of a ball: head speed [m/s], four angles [rad], strike [m]."""

CONSTANTS: Final = (
    "restitution",
    "spin_factor",
    "tangential_restitution",
    "depth",
    "height",
    "toe",
    "inertia",
    "bulge",
    "roll",
    "speed_scale",
)
"""What nobody knows exactly, as departures from head and law: restitution, spin factor and
tangential restitution as numbers, the centre of gravity [m], inertia and the scale of head speed
as shares, the face's radii [m]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DeliveryBelief:
    """What is believed of a delivery before the ball.

    Attributes
    ----------
    mean, sd : FloatArray, shape (7,)
        In the order of `DELIVERY`; a population's, unless a golfer's own are known. A mean that
        is no number stands for what the ball speed suggests.
    """

    mean: FloatArray = field(
        default_factory=lambda: np.array(
            [np.nan, -0.5 * DEGREE, 0.0, 0.0, 14.0 * DEGREE, 0.0, 0.0]
        )
    )
    sd: FloatArray = field(
        default_factory=lambda: np.array(
            [
                10.0 * MILE_PER_HOUR,
                3.0 * DEGREE,
                4.0 * DEGREE,
                4.0 * DEGREE,
                3.0 * DEGREE,
                11.0 * MILLIMETRE,
                8.5 * MILLIMETRE,
            ]
        )
    )

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", frozen_array(self.mean))
        object.__setattr__(self, "sd", frozen_array(self.sd))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ConstantsBelief:
    """What is believed of the constants: departures from head and law, and their covariance.

    Attributes
    ----------
    mean : FloatArray, shape (10,)
        In the order of `CONSTANTS`.
    covariance : FloatArray, shape (10, 10)
    """

    mean: FloatArray
    covariance: FloatArray

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", frozen_array(self.mean))
        object.__setattr__(self, "covariance", frozen_array(self.covariance))

    def sd(self, name: str) -> float:
        """Return the standard deviation of one constant."""
        place = CONSTANTS.index(name)
        return sqrt(self.covariance[place, place])


def _independent(sd: list[float]) -> ConstantsBelief:
    return ConstantsBelief(mean=np.zeros(len(sd)), covariance=np.diag(np.square(sd)))


_MM: Final = MILLIMETRE
UNKNOWN_CLUB: Final = _independent(
    [0.012, 0.08, 0.06, 3 * _MM, 2 * _MM, 2 * _MM, 0.08, 25 * _MM, 25 * _MM, 0.01]
)
"""A head and ball of which nothing is known but the kind (assumption)."""
CALIBRATED_CLUB: Final = _independent(
    [0.004, 0.02, 0.02, 1 * _MM, 0.7 * _MM, 0.7 * _MM, 0.03, 8 * _MM, 8 * _MM, 0.003]
)
"""A club whose head was measured and whose spin factor is known well (assumption)."""
