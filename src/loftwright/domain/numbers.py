"""The numbers of one ball, without its place in a fitting."""

from dataclasses import dataclass, fields
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotNumbers:
    """What a device or person gave for one ball, SI and radians; `None` where not measured.

    Direction, axis and offline are world signs (right of the target positive) for every golfer;
    path (in-to-out), face (open) and strike (toe, high) are the golfer's own signs.

    Attributes
    ----------
    axis : float, optional
        Tilt of the spin axis from the horizontal [rad], positive curves right.
    strike_toe, strike_high : float, optional
        The device's own strike [m]; a mark read on the face comes before it.
    """

    ball_speed: float | None = None
    launch: float | None = None
    direction: float | None = None
    spin: float | None = None
    axis: float | None = None
    head_speed: float | None = None
    attack: float | None = None
    path: float | None = None
    face: float | None = None
    dynamic_loft: float | None = None
    strike_toe: float | None = None
    strike_high: float | None = None
    carry: float | None = None
    total: float | None = None
    offline: float | None = None
    peak_height: float | None = None
    landing_angle: float | None = None
    flight_time: float | None = None


FIELDS: Final = tuple(one.name for one in fields(ShotNumbers))
"""Every quantity a ball may carry, in the order of its fields."""
