"""How the head came in, from the ball that left: impact solved backwards, with its doubt.

The delivery, the strike and the constants of head, ball and device that nobody knows exactly are
found together: the most probable ones given the readings and what is believed beforehand. The
doubt is that of the problem made straight there. Ball data alone cannot tell where the ball met
the face, for a strike towards the toe and an open face send it to the same side; the estimate
says so instead of naming a place.

References
----------
Tarantola 2005, Inverse problem theory and methods for model parameter estimation, SIAM, section
3.2 (from memory): least squares with a prior, and its posterior covariance.
"""

from dataclasses import dataclass
from math import sqrt
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.physics.ball_reading import GOOD, BallReading, ReadingErrors
from loftwright.physics.delivery_belief import (
    DELIVERY,
    UNKNOWN_CLUB,
    ConstantsBelief,
    DeliveryBelief,
)
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.inverse_problem import prior_precision, solve, with_speed

_SIZE: Final = len(DELIVERY)
_UNLIKELY: Final = 3.0
_FACE, _PATH = DELIVERY.index("face"), DELIVERY.index("path")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DeliveryEstimate:
    """A delivery with its doubt.

    Attributes
    ----------
    mean : FloatArray, shape (7,)
        In the order of `DELIVERY`.
    covariance : FloatArray, shape (7, 7)
    believed_sd : FloatArray, shape (7,)
        Before the ball.
    strike_told : bool
        Whether the strike may be named at all: a mark was read, or attack and path were
        measured. Otherwise its numbers are no more than what was believed of face and path.
    distance : float
        Squared distance of readings and beliefs from the estimate, in their own sigmas.
    readings : int
        Numbers that were read.
    """

    mean: FloatArray
    covariance: FloatArray
    believed_sd: FloatArray
    strike_told: bool
    distance: float
    readings: int

    @property
    def sd(self) -> FloatArray:
        """Standard deviations, shape (7,)."""
        return np.sqrt(np.diag(self.covariance))

    @property
    def left(self) -> FloatArray:
        """How much of what was doubtful before the ball is left, 0 to 1, shape (7,)."""
        return self.sd / self.believed_sd

    @property
    def face_to_path(self) -> tuple[float, float]:
        """Face relative to path and its own standard deviation [rad]."""
        way = np.zeros(_SIZE)
        way[_FACE], way[_PATH] = 1.0, -1.0
        return float(way @ self.mean), sqrt(float(way @ self.covariance @ way))

    @property
    def hardly_fits(self) -> bool:
        """Whether the readings hardly go together for this head."""
        usual = self.readings + _UNLIKELY * sqrt(2.0 * self.readings)
        return self.distance > usual

    def correlation(self, first: str, second: str) -> float:
        """Return how the doubts of two of `DELIVERY` go together."""
        a, b = DELIVERY.index(first), DELIVERY.index(second)
        return float(self.covariance[a, b] / (self.sd[a] * self.sd[b]))


def delivery_from_ball(
    ball: BallReading,
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
    *,
    errors: ReadingErrors = GOOD,
    belief: DeliveryBelief | None = None,
    constants: ConstantsBelief = UNKNOWN_CLUB,
) -> DeliveryEstimate:
    """Return how the head came in, as well as a ball can tell.

    Parameters
    ----------
    ball : BallReading
    head : Head
    law : ImpactLaw, optional
    errors : ReadingErrors
    belief : DeliveryBelief, optional
        A population's without it.
    constants : ConstantsBelief

    Returns
    -------
    DeliveryEstimate

    Raises
    ------
    ConvergenceError
        If no delivery gives such a ball.
    """
    believed = with_speed(belief or DeliveryBelief(), ball)
    solution = solve(ball, head, law, errors=errors, belief=believed, constants=constants)
    precision = prior_precision(believed, constants)
    covariance = np.asarray(
        np.linalg.inv(solution.slopes.T @ solution.slopes + precision), dtype=np.float64
    )
    away = solution.unknowns - np.concatenate([believed.mean, constants.mean])
    return DeliveryEstimate(
        mean=solution.unknowns[:_SIZE],
        covariance=covariance[:_SIZE, :_SIZE],
        believed_sd=believed.sd,
        strike_told=tells_strike(ball),
        distance=float(solution.misfit @ solution.misfit + away @ precision @ away),
        readings=len(solution.misfit),
    )


def tells_strike(ball: BallReading) -> bool:
    """Return whether a ball's readings can tell where it met the face."""
    return ball.mark is not None or (ball.attack is not None and ball.path is not None)
