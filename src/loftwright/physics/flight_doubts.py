"""Where the models of flight and run are less sure than usual, in sentences for a fitter."""

from collections.abc import Iterator
from math import hypot, sqrt
from typing import Final

from loftwright.constants import (
    BALL_RADIUS,
    DEGREE,
    FOOT,
    MILE_PER_HOUR,
    REVOLUTION_PER_MINUTE,
)
from loftwright.physics.aero import (
    GREATEST_FITTED_SPIN_RATIO,
    GREATEST_REYNOLDS,
    LEAST_REYNOLDS,
)
from loftwright.physics.conditions import Conditions
from loftwright.physics.landing import STEEPEST_RUN, Outcome
from loftwright.physics.motion import State, Triple, air_flow, square
from loftwright.physics.tee import has_no_run

FLATTEST_RUN: Final = 25.0 * DEGREE
LEAST_SPIN: Final = 1000.0 * REVOLUTION_PER_MINUTE
STRONG_WIND: Final = 20.0 * MILE_PER_HOUR
THIN_AIR: Final = 6000.0 * FOOT


def doubts(start: State, axis: Triple, conditions: Conditions, flown: Outcome) -> tuple[str, ...]:
    """Return what a fitter should know before trusting a flight.

    Parameters
    ----------
    start : tuple of float
        State on the tee.
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    conditions : Conditions
    flown : Outcome

    Returns
    -------
    tuple of str
    """
    return (
        *_about_the_run(start, axis, flown),
        *_about_the_air_forces(start, axis, conditions, flown),
        *_about_the_weather(conditions),
    )


def _about_the_run(start: State, axis: Triple, flown: Outcome) -> Iterator[str]:
    if has_no_run(start, axis):
        yield "Topped: the ball starts level, downwards or with topspin, so no total is given."
    elif flown.landing_angle < FLATTEST_RUN:
        yield "The ball lands flatter than 25°: its run, and so its total, cannot be trusted."
    elif flown.landing_angle > STEEPEST_RUN:
        yield "The ball lands steeper than 60°: the total shown is the carry."
    if flown.rest_along < 0.0:
        yield "The ball ends behind the tee: carry and total are lengths without a sign."


def _about_the_air_forces(
    start: State, axis: Triple, conditions: Conditions, flown: Outcome
) -> Iterator[str]:
    medium = conditions.medium
    flow, cross = air_flow(start[3:6], axis, medium.wind_on_ground, medium)
    spin_ratio = BALL_RADIUS * start[6] * sqrt(square(cross)) / square(flow)
    fastest = medium.reynolds * sqrt(square(flow))
    slowest = medium.reynolds * min(hypot(*start[3:6]), flown.landing_speed)
    if start[6] < LEAST_SPIN:
        yield "The spin is below 1,000 rpm, where the lift of a ball was not measured."
    if spin_ratio > GREATEST_FITTED_SPIN_RATIO:
        yield "Outside driver range: so much spin for the speed that carry may be too short."
    if slowest < LEAST_REYNOLDS:
        yield "Outside driver range: so slow a ball can lose its lift, which is not modelled."
    if fastest > GREATEST_REYNOLDS:
        yield "Outside driver range: faster than the air forces on a ball were measured."


def _about_the_weather(conditions: Conditions) -> Iterator[str]:
    if hypot(conditions.wind_along, conditions.wind_across) > STRONG_WIND + 1e-9:
        yield "The wind is above 20 mph, where its effect on a ball is less certain."
    if conditions.air.pressure_altitude > THIN_AIR:
        yield (
            "The air is as thin as above 6,000 ft: the ball lands flat and fast, and the run, "
            "which is known only roughly, is a large part of the total."
        )
