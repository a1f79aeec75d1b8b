"""The flight and run of a golf ball, from its launch to where it stops.

World axes are X along the target line, Y up and Z to the right of the target. Launch tables hold
ball speed, launch, spin, axis and direction, in this order.
"""

from dataclasses import fields
from math import isfinite
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics._kernels import fly_each, fly_one
from loftwright.physics._lanes import fly_in_lanes
from loftwright.physics.conditions import Conditions
from loftwright.physics.flight_doubts import doubts
from loftwright.physics.flight_path import FlightPath, trace
from loftwright.physics.flight_values import Flight, FlightTable, Launch
from loftwright.physics.landing import LONGEST_FLIGHT, Outcome
from loftwright.physics.motion import State, Triple
from loftwright.physics.reference_flight import integrate
from loftwright.physics.tee import has_no_run, spin_axis, start_state

__all__ = [
    "Conditions",
    "Flight",
    "FlightPath",
    "FlightTable",
    "Launch",
    "fly",
    "fly_from_vectors",
    "fly_many",
    "fly_quickly",
    "follow",
]

_START_HALVINGS: Final = 4
_FEWEST_FOR_LANES: Final = 64


def fly(launch: Launch, conditions: Conditions) -> Flight:
    """Fly one ball with an adaptive method of high order; the reference for the fast loops.

    Parameters
    ----------
    launch : Launch
    conditions : Conditions

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        If a launch number is missing or cannot be.
    ConvergenceError
        If the ball does not come down.

    Notes
    -----
    Made for drivers: measured at Reynolds numbers 0.8 to 2.0e5 and spin ratios 0.044 to 0.22,
    landings at 25 to 50 degrees. Air density is that of the tee throughout.

    References
    ----------
    Hairer, Norsett and Wanner 1993, Solving ordinary differential equations I, DOP853.
    """
    start, axis = _tee_up(launch)
    return _report(start, axis, conditions, integrate(start, axis, conditions))


def fly_quickly(launch: Launch, conditions: Conditions, step: float = 0.05) -> Flight:
    """Fly one ball with a compiled loop.

    Parameters
    ----------
    launch : Launch
    conditions : Conditions
    step : float
        Longest time step [s].

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        If a launch number is missing or cannot be.
    ConvergenceError
        If the ball does not come down.
    """
    start, axis = _tee_up(launch)
    return _report(start, axis, conditions, _step_through(start, axis, conditions, step))


def follow(launch: Launch, conditions: Conditions, step: float = 0.05) -> FlightPath:
    """Follow one ball through the air, point by point.

    Parameters
    ----------
    launch : Launch
    conditions : Conditions
    step : float
        Time between points [s].

    Returns
    -------
    FlightPath

    Raises
    ------
    InputError
        If a launch number is missing or cannot be.
    """
    return trace(*_tee_up(launch), conditions, step)


def fly_from_vectors(
    velocity: FloatArray, spin: FloatArray, conditions: Conditions, step: float = 0.05
) -> Flight:
    """Fly a ball whose spin is given as a vector, as an impact gives it.

    Parameters
    ----------
    velocity : FloatArray, shape (3,)
        Along X, Y and Z [m s^-1].
    spin : FloatArray, shape (3,)
        Right-handed about X, Y and Z [rad s^-1].
    conditions : Conditions
    step : float
        Longest time step [s].

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        If a number is missing.
    ConvergenceError
        If the ball does not come down.

    Notes
    -----
    Exact for any axis, where a single tilt angle has no place for spin about the line of flight.
    """
    _demand_finite("velocity", *map(float, velocity))
    _demand_finite("spin", *map(float, spin))
    rate = float(np.linalg.norm(spin))
    vx, vy, vz = map(float, velocity)
    ax, ay, az = map(float, np.asarray(spin) / rate) if rate > 0.0 else spin_axis(0.0, 0.0)
    start, axis = (0.0, 0.0, 0.0, vx, vy, vz, rate), (ax, ay, az)
    return _report(start, axis, conditions, _step_through(start, axis, conditions, step))


def fly_many(launches: FloatArray, conditions: Conditions, step: float = 0.1) -> FlightTable:
    """Fly many balls with a compiled loop.

    Parameters
    ----------
    launches : FloatArray, shape (n, 5)
        Ball speed [m s^-1], launch [rad], spin [rad s^-1], axis [rad], direction [rad].
    conditions : Conditions
    step : float
        Longest time step [s].

    Returns
    -------
    FlightTable
        A row that holds a number that is missing or cannot be is not a number throughout; a
        topped shot has no total.

    Raises
    ------
    InputError
        If the table has not five columns.

    Notes
    -----
    From 64 rows on the balls fly side by side in vector lanes, with elementary functions good to
    a few parts in 1e7.
    """
    rows = np.ascontiguousarray(launches, dtype=np.float64)
    if rows.ndim != 2 or rows.shape[1] != 5:
        raise InputError(
            f"a launch table of shape {rows.shape} cannot be flown",
            place="launches",
            mend="Give ball speed, launch, spin, axis and direction in five columns.",
        )
    table = np.full((len(rows), len(Outcome._fields)), np.nan)
    _fill(table, rows, conditions, _steps(conditions, step))
    columns = dict(zip(Outcome._fields, table.T, strict=True))
    return FlightTable(**{column.name: columns[column.name] for column in fields(FlightTable)})


def _fill(
    table: FloatArray, rows: FloatArray, conditions: Conditions, steps: tuple[float, float]
) -> None:
    """Fly every row that can be flown, each in the loop that suits it."""
    ball_speed, launch, spin, axis = rows[:, :4].T
    possible = np.isfinite(rows).all(axis=1) & (ball_speed >= 0.0) & (spin >= 0.0)
    struck = possible & (ball_speed > 0.0)
    table[possible & ~struck] = 0.0
    # Lanes take only balls that surely leave the ground and have a run.
    driven = struck & (launch > 0.0) & (launch < 0.5 * np.pi) & (np.abs(axis) < 0.5 * np.pi)
    if np.count_nonzero(driven) < _FEWEST_FOR_LANES:
        driven = np.zeros_like(struck)
    for chosen, loop in ((driven, fly_in_lanes), (struck & ~driven, fly_each)):
        if chosen.any():
            flown = np.empty((np.count_nonzero(chosen), table.shape[1]))
            loop(rows[chosen], conditions.medium, conditions.ground, *steps, flown)
            table[chosen] = flown


def _tee_up(launch: Launch) -> tuple[State, Triple]:
    ball_speed, rise, spin = float(launch.ball_speed), float(launch.launch), float(launch.spin)
    axis, direction = float(launch.axis), float(launch.direction)
    _demand_finite("launch", ball_speed, rise, spin, axis, direction)
    if ball_speed < 0.0 or spin < 0.0:
        raise InputError(
            "ball speed and spin rate cannot be negative",
            place="launch",
            mend="Give topspin as a spin axis beyond 90 degrees.",
        )
    return start_state(ball_speed, rise, spin, direction), spin_axis(axis, direction)


def _steps(conditions: Conditions, step: float) -> tuple[float, float]:
    """Return the first and the longest step: wind that grows with height asks for a fine start."""
    if not 1e-4 <= step <= 0.5:
        raise InputError(
            f"a time step of {step:g} s cannot be used",
            place="step",
            mend="Give 0.0001 to 0.5 s; 0.05 s is usual.",
        )
    calm = conditions.wind_along == 0.0 and conditions.wind_across == 0.0
    return (step if calm or conditions.roughness == 0.0 else step / 2.0**_START_HALVINGS), step


def _step_through(start: State, axis: Triple, conditions: Conditions, step: float) -> Outcome:
    steps = _steps(conditions, step)
    refused = has_no_run(start, axis)
    return Outcome(*fly_one(start, axis, conditions.medium, conditions.ground, *steps, refused))


def _report(start: State, axis: Triple, conditions: Conditions, flown: Outcome) -> Flight:
    if not any(start[3:6]):
        flown = Outcome(*[0.0] * len(Outcome._fields))
    if not isfinite(flown.carry):
        raise ConvergenceError(
            f"the ball is still in the air after {LONGEST_FLIGHT:.0f} s",
            place="flight",
            mend="Check ball speed, spin and lift scale.",
        )
    return Flight(
        carry=flown.carry,
        total=flown.total,
        carry_offline=flown.carry_offline,
        total_offline=flown.total_offline,
        peak_height=flown.peak_height,
        flight_time=flown.flight_time,
        landing_angle=flown.landing_angle,
        landing_speed=flown.landing_speed,
        landing_spin=flown.landing_spin,
        bounces=int(flown.bounces),
        warnings=doubts(start, axis, conditions, flown) if any(start[3:6]) else (),
    )


def _demand_finite(place: str, *values: float) -> None:
    if not all(map(isfinite, values)):
        raise InputError("a number is missing or infinite", place=place, mend="Give every number.")
