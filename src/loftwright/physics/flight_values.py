"""How a ball leaves the tee, and where and how it lands and stops."""

from dataclasses import dataclass, fields

from loftwright.arrays import FloatArray, frozen_array


@dataclass(frozen=True, slots=True, kw_only=True)
class Launch:
    """How a ball leaves the tee.

    Attributes
    ----------
    ball_speed : float
        [m s^-1]
    launch, direction : float
        Upwards, and to the right of the target line [rad].
    spin : float
        Spin rate [rad s^-1].
    axis : float
        Tilt of the spin axis from the horizontal in the upright plane across the start line; a
        positive tilt curves the ball to the right, a tilt beyond a quarter turn is topspin [rad].
    """

    ball_speed: float
    launch: float
    direction: float = 0.0
    spin: float
    axis: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight:
    """Where and how a ball lands and stops.

    Attributes
    ----------
    carry, total : float
        Straight from the tee to the first landing and to rest [m]. A topped shot has no total: it
        is not a number, and a warning says why.
    carry_offline, total_offline : float
        To the right of the target line [m].
    peak_height : float
        [m]
    flight_time : float
        [s]
    landing_angle : float
        Below the horizontal [rad].
    landing_speed : float
        [m s^-1]
    landing_spin : float
        [rad s^-1]
    bounces : int
        Impacts on the ground.
    warnings : tuple of str
        Where the models are less sure than usual, in sentences.
    """

    carry: float
    total: float
    carry_offline: float
    total_offline: float
    peak_height: float
    flight_time: float
    landing_angle: float
    landing_speed: float
    landing_spin: float
    bounces: int
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlightTable:
    """Flights of many balls; every attribute is an array of shape (n,), as in `Flight`."""

    carry: FloatArray
    total: FloatArray
    carry_offline: FloatArray
    total_offline: FloatArray
    peak_height: FloatArray
    flight_time: FloatArray
    landing_angle: FloatArray
    landing_speed: FloatArray
    landing_spin: FloatArray
    bounces: FloatArray

    def __post_init__(self) -> None:
        for column in fields(self):
            object.__setattr__(self, column.name, frozen_array(getattr(self, column.name)))
