"""A flight integrated by an adaptive method of high order, as the truth for the fast loops.

References
----------
Hairer, Norsett and Wanner 1993, Solving ordinary differential equations I, section II.5, DOP853.
"""

from math import nan
from typing import Literal, TypeAlias

from loftwright.arrays import FloatArray
from loftwright.physics.conditions import Conditions
from loftwright.physics.landing import LONGEST_FLIGHT, Outcome, come_to_rest, falls_at_once
from loftwright.physics.motion import State, Triple, rates
from loftwright.physics.tee import has_no_run

Method: TypeAlias = Literal["DOP853", "RK45", "RK23"]


def integrate(
    start: State,
    axis: Triple,
    conditions: Conditions,
    method: Method = "DOP853",
    tolerance: float = 1e-12,
) -> Outcome:
    """Return the outcome of a flight, all but exactly unless told otherwise.

    Parameters
    ----------
    start : tuple of float
        State on the tee.
    axis : tuple of float
        Unit vector about which the ball turns right-handed.
    conditions : Conditions
    method : {"DOP853", "RK45", "RK23"}
    tolerance : float
        Of the method, relative and absolute.

    Returns
    -------
    Outcome
        Not a number throughout when the ball does not come down.
    """
    from scipy.integrate import solve_ivp  # noqa: PLC0415 - scipy is slow to import

    medium = conditions.medium
    refused = has_no_run(start, axis)
    if falls_at_once(start, axis, medium):
        return come_to_rest(start, 0.0, 0.0, axis, conditions.ground, refused)

    solution = solve_ivp(
        lambda _, state: rates(_state(state), axis, medium),
        (0.0, LONGEST_FLIGHT),
        start,
        method=method,
        events=(_landing, _peak),
        rtol=tolerance,
        atol=tolerance,
    )
    times, states = solution.t_events, solution.y_events
    if times is None or states is None or not len(times[0]):
        return Outcome(*[nan] * len(Outcome._fields))
    highest = max((float(state[1]) for state in states[1]), default=0.0)
    ended = _state(states[0][0])
    return come_to_rest(ended, float(times[0][0]), highest, axis, conditions.ground, refused)


def _landing(_: float, state: FloatArray) -> float:
    return float(state[1])


def _peak(_: float, state: FloatArray) -> float:
    return float(state[4])


_landing.terminal, _landing.direction = True, -1.0  # type: ignore[attr-defined]
_peak.terminal, _peak.direction = False, -1.0  # type: ignore[attr-defined]


def _state(values: FloatArray) -> State:
    x, y, z, vx, vy, vz, spin = map(float, values)
    return x, y, z, vx, vy, vz, spin
