"""Drives and conditions for tests, from figures as the trade and the sources print them."""

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Launch, fly
from loftwright.physics.turf import GROUNDS


def drive(
    ball_speed: float, launch: float, spin: float, *, axis: float = 0.0, direction: float = 0.0
) -> Launch:
    """Return a launch from mph, degrees and rpm."""
    return Launch(
        ball_speed=ball_speed * MILE_PER_HOUR,
        launch=launch * DEGREE,
        spin=spin * REVOLUTION_PER_MINUTE,
        axis=axis * DEGREE,
        direction=direction * DEGREE,
    )


def conditions(
    *,
    fahrenheit: float = 75.0,
    altitude: float = 0.0,
    humidity: float = 0.5,
    tail: float = 0.0,
    cross: float = 0.0,
    roughness: float = 0.03,
    ground: str = "normal",
    drag_scale: float = 1.0,
    lift_scale: float = 1.1,
) -> Conditions:
    """Return conditions from degrees Fahrenheit, feet and mph."""
    return Conditions(
        air=air((fahrenheit - 32.0) / 1.8 + 273.15, altitude * FOOT, humidity),
        wind_along=tail * MILE_PER_HOUR,
        wind_across=cross * MILE_PER_HOUR,
        roughness=roughness,
        ground=GROUNDS[ground],
        drag_scale=drag_scale,
        lift_scale=lift_scale,
    )


def carry_and_total(launch: Launch, where: Conditions) -> tuple[float, float]:
    """Return carry and total by the reference method, in yards."""
    flight = fly(launch, where)
    return flight.carry / YARD, flight.total / YARD
