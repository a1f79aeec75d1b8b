"""What is left over of loft and face after a mend does to the ball; computed, never hit."""

from dataclasses import dataclass, replace

from loftwright.domain.order import Promise
from loftwright.physics.ball_reading import BallReading
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import Delivery, strike
from loftwright.physics.inverse_impact import delivery_from_ball


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What a change of a head's angles does to the ball; SI and radians.

    Attributes
    ----------
    launch, direction : float
        Up and to the open face's side positive [rad].
    spin : float
        [rad s^-1]
    ball_speed : float
        [m s^-1]
    """

    launch: float
    direction: float
    spin: float
    ball_speed: float


def delivery_of(promise: Promise) -> Delivery:
    """Return how the golfer brings the tested club to the ball, straight and from the middle.

    Raises
    ------
    ConvergenceError
        If no delivery gives the ball that was promised.
    """
    ball = BallReading(
        ball_speed=promise.ball_speed,
        launch=promise.launch,
        direction=0.0,
        spin=promise.spin,
        axis=0.0,
    )
    speed, attack, path, face, loft, *_ = delivery_from_ball(ball).mean.tolist()
    return Delivery(head_speed=speed, attack=attack, path=path, face=face, loft=loft)


def effect(delivery: Delivery, loft: float, face: float = 0.0) -> Effect:
    """Return what more loft and a more open face do to the ball of one delivery.

    Parameters
    ----------
    delivery : Delivery
    loft, face : float
        More of them, as they come to the ball; face open positive [rad].

    Notes
    -----
    Loft and face are taken to be delivered as they are built; golfers give part of it back or
    add to it. Struck in the middle, with the reference head.
    """
    before = strike(REFERENCE_HEAD, delivery)
    changed = replace(delivery, loft=delivery.loft + loft, face=delivery.face + face)
    after = strike(REFERENCE_HEAD, changed)
    return Effect(
        launch=after.launch - before.launch,
        direction=after.direction - before.direction,
        spin=after.spin - before.spin,
        ball_speed=after.ball_speed - before.ball_speed,
    )
