"""The delivery that a golfer's balls have in common, from their mean.

What nobody knows of head and ball is the same for every ball of a fitting, so many balls tell
their usual delivery hardly better than one does: doubts that balls share do not shrink with their
number. Solving each ball backwards and averaging would claim that they do, and would let how balls
differ from each other teach the constants, which the errors of readings spoil. So the mean ball is
solved backwards once, with the errors of a single reading for what a device or a mark is off by in
all balls alike.

References
----------
Julier and Uhlmann 1997, A new extension of the Kalman filter to nonlinear systems, Proceedings of
SPIE 3068:182 (from memory): the mean of a function over a spread, from points on its contour.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError, EvidenceError
from loftwright.physics.ball_reading import BALL, GOOD, BallReading, ReadingErrors
from loftwright.physics.delivery_belief import DELIVERY, UNKNOWN_CLUB, ConstantsBelief
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.physics.impact import strike_many
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.inverse_impact import DeliveryEstimate, delivery_from_ball

BEND_DOUBT: Final = 0.4
"""Share of what the spread adds to the mean ball that is doubtful: a golfer's strikes may spread a
fifth wider or narrower than is believed (judgement)."""

_SIZE: Final = len(DELIVERY)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualBall:
    """The ball that the mean delivery of some balls would have given.

    Attributes
    ----------
    reading : BallReading
    errors : ReadingErrors
        What it may be off by: a single reading's, and the doubt of what the spread adds.
    """

    reading: BallReading
    errors: ReadingErrors


def usual_delivery(
    launch: FloatArray,
    spread: FloatArray,
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
    *,
    mark: tuple[float, float] | None = None,
    errors: ReadingErrors = GOOD,
    constants: ConstantsBelief = UNKNOWN_CLUB,
) -> DeliveryEstimate:
    """Return the mean delivery of some balls, as well as balls and marks can tell.

    Parameters
    ----------
    launch, spread, head, law, mark, errors, constants
        As for `usual_ball`.

    Returns
    -------
    DeliveryEstimate

    Raises
    ------
    EvidenceError
        If there is no ball, or a ball lacks a launch number.
    ConvergenceError
        If no delivery of this head gives such balls.
    """
    usual = usual_ball(launch, spread, head, law, mark=mark, errors=errors, constants=constants)
    return delivery_from_ball(usual.reading, head, law, errors=usual.errors, constants=constants)


def usual_ball(
    launch: FloatArray,
    spread: FloatArray,
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
    *,
    mark: tuple[float, float] | None = None,
    errors: ReadingErrors = GOOD,
    constants: ConstantsBelief = UNKNOWN_CLUB,
) -> UsualBall:
    """Return the ball that the mean delivery of some balls would have given.

    Parameters
    ----------
    launch : FloatArray, shape (n, 5)
        Ball speed [m/s], launch [rad], spin [rad/s], axis, direction [rad] of each ball.
    spread : FloatArray, shape (7, 7)
        Covariance of the deliveries about their mean, in the order of `DELIVERY`.
    head : Head
        Whose signs the balls have.
    law : ImpactLaw, optional
    mark : (float, float), optional
        Mean of the same balls' marks, across and up [m].
    errors : ReadingErrors
        By how much a device, or who reads the marks, may be off in all balls alike.
    constants : ConstantsBelief

    Returns
    -------
    UsualBall

    Raises
    ------
    EvidenceError
        If there is no ball, or a ball lacks a launch number.
    ConvergenceError
        If no delivery of this head gives such balls.

    Notes
    -----
    The mean of balls is not the ball of the mean delivery: off-centre strikes all lose speed. So
    the mean is freed from what the spread adds to it, and solved again.
    """
    if not len(launch) or not np.isfinite(launch).all():
        raise EvidenceError(
            "a mean ball needs balls with all five launch numbers",
            place="launch",
            mend="Leave out balls that were not read whole.",
        )
    told = compared(launch).mean(axis=0)
    ball = replace(_reading(told), mark=mark)
    found = delivery_from_ball(ball, head, law, errors=errors, constants=constants)
    bend = _bend(found.mean, spread, head, law)
    doubts = {
        name: float(np.hypot(getattr(errors, name), BEND_DOUBT * by))
        for name, by in zip(BALL, bend, strict=True)
    }
    return UsualBall(
        reading=replace(_reading(told - bend), mark=mark), errors=replace(errors, **doubts)
    )


def compared(launch: FloatArray) -> FloatArray:
    """Return ball speed, launch, direction, back and side spin of balls, shape (n, 5).

    Parameters
    ----------
    launch : FloatArray, shape (n, 5)
        Ball speed [m/s], launch [rad], spin [rad/s], axis, direction [rad].
    """
    speed, rise, spin, axis, direction = launch.T
    return np.column_stack([speed, rise, direction, spin * np.cos(axis), spin * np.sin(axis)])


def _reading(told: FloatArray) -> BallReading:
    speed, rise, direction, back, side = (float(one) for one in told)
    return BallReading(
        ball_speed=speed,
        launch=rise,
        direction=direction,
        spin=float(np.hypot(back, side)),
        axis=float(np.arctan2(side, back)),
    )


def _bend(mean: FloatArray, spread: FloatArray, head: Head, law: ImpactLaw | None) -> FloatArray:
    """Return by how much the mean ball of a spread differs from the ball of its mean."""
    reach = np.sqrt(_SIZE) * np.linalg.cholesky(spread).T
    deliveries = np.vstack([mean[None], mean + reach, mean - reach])
    balls = compared(strike_many(head, deliveries, law or ImpactLaw()))
    if not np.isfinite(balls).all():
        raise ConvergenceError(
            "no delivery of this head gives such balls",
            place="balls",
            mend="Check the units and signs of their numbers, and the head.",
        )
    return np.asarray(balls[1:].mean(axis=0) - balls[0])
