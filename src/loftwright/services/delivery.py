"""How a head came in, from the ball that left it."""

from types import MappingProxyType
from typing import Final

from loftwright.errors import UsageError
from loftwright.physics.ball_reading import BASIC, GOOD, BallReading
from loftwright.physics.heads import Head
from loftwright.physics.inverse_impact import DeliveryEstimate, delivery_from_ball

__all__ = ["BallReading", "DeliveryEstimate", "came_in"]

DEVICES: Final = MappingProxyType({"good": GOOD, "basic": BASIC})


def came_in(ball: BallReading, head: Head, device: str) -> DeliveryEstimate:
    """Return the delivery behind a ball.

    Parameters
    ----------
    ball : BallReading
    head : Head
    device : str
        `good` or `basic`: how exactly it reads.

    Returns
    -------
    DeliveryEstimate

    Raises
    ------
    UsageError
        For an unknown device.
    ConvergenceError
        If no delivery of this head gives such a ball.
    """
    if device not in DEVICES:
        raise UsageError(
            f"{device!r} is no device", place="--device", mend=f"Give {' or '.join(DEVICES)}."
        )
    return delivery_from_ball(ball, head, errors=DEVICES[device])
