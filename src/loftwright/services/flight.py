"""Fly one ball in the air and on the turf of a place."""

from loftwright.domain.home import Turf
from loftwright.physics.air import air
from loftwright.physics.conditions import LIFT_SCALE, Conditions
from loftwright.physics.flight import Flight, Launch, fly
from loftwright.physics.turf import GROUNDS

__all__ = ["Flight", "Launch", "fly_ball"]


def fly_ball(
    launch: Launch,
    *,
    temperature: float,
    altitude: float,
    humidity: float,
    turf: Turf = Turf.NORMAL,
    wind_along: float = 0.0,
    wind_across: float = 0.0,
    roughness: float = 0.03,
    drag_scale: float = 1.0,
    lift_scale: float = LIFT_SCALE,
) -> Flight:
    """Fly one ball with the reference method.

    Parameters
    ----------
    launch : Launch
    temperature : float
        [K]
    altitude : float
        Above the sea [m].
    humidity : float
        Relative, 0 to 1.
    turf : Turf
    wind_along, wind_across : float
        At 10 m; from behind and to the right positive [m s^-1].
    roughness : float
        Roughness length of the ground [m]; 0 for the same wind at every height.
    drag_scale, lift_scale : float
        Of the ball.

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        For a value that cannot be, or that lies outside the model.
    """
    conditions = Conditions(
        air=air(temperature, altitude, humidity),
        wind_along=wind_along,
        wind_across=wind_across,
        roughness=roughness,
        ground=GROUNDS[turf.value],
        drag_scale=drag_scale,
        lift_scale=lift_scale,
    )
    return fly(launch, conditions)
