"""Carry, total and offline near the golfer's mean launch: a quadratic map of flights at home."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.home import Home
from loftwright.errors import EvidenceError
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, fly_many
from loftwright.physics.turf import GROUNDS

OUTCOMES: Final = ("carry", "total", "offline")
CARRY, TOTAL, OFFLINE = range(3)

OWN_SCATTER: Final = np.array([1.0, 1.0, 1.5]) * YARD
"""Scatter of one ball's flight beyond its launch numbers (judgement)."""

_CALM_STEP: Final = 0.1
_WINDY_STEP: Final = 0.05
"""Time steps of the flight [s]; only the wind's profile near the ground asks for short ones."""

_STEPS: Final = np.array(
    [
        4.0 * MILE_PER_HOUR,
        2.0 * DEGREE,
        400.0 * REVOLUTION_PER_MINUTE,
        4.0 * DEGREE,
        2.0 * DEGREE,
    ]
)


def conditions_at(home: Home) -> Conditions:
    """Return the flight's conditions at the golfer's home."""
    return Conditions(
        air=air(home.temperature, home.altitude, home.humidity),
        wind_along=home.wind_along,
        wind_across=home.wind_across,
        ground=GROUNDS[home.turf.value],
    )


def outcomes(launches: FloatArray, conditions: Conditions) -> FloatArray:
    """Return carry, total and total offline of each launch [m], shape (n, 3).

    A launch without axis or direction flies straight along the target line; without ball speed,
    launch or spin there is no outcome.
    """
    filled = launches.copy()
    filled[:, 3:] = np.nan_to_num(filled[:, 3:], nan=0.0)
    calm = conditions.wind_along == 0.0 and conditions.wind_across == 0.0
    flights = fly_many(filled, conditions, _CALM_STEP if calm else _WINDY_STEP)
    return np.column_stack([flights.carry, flights.total, flights.total_offline])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlightMap:
    """A quadratic map about one launch.

    Attributes
    ----------
    centre : FloatArray, shape (5,)
    at_centre : FloatArray, shape (3,)
        Carry, total, offline [m].
    gradient : FloatArray, shape (3, 5)
    hessian : FloatArray, shape (3, 5, 5)
    """

    centre: FloatArray
    at_centre: FloatArray
    gradient: FloatArray
    hessian: FloatArray

    def mean(self, launches: FloatArray, scatter: FloatArray) -> FloatArray:
        """Return the mean outcome of balls about mean launches, shape (S, 3).

        Parameters
        ----------
        launches : FloatArray, shape (S, 5)
        scatter : FloatArray, shape (5, 5)
            Covariance of single balls.
        """
        d = launches - self.centre
        bend = 0.5 * np.einsum("si,oij,sj->so", d, self.hessian, d)
        drift = 0.5 * np.einsum("oij,ij->o", self.hessian, scatter)
        return self.at_centre + d @ self.gradient.T + bend + drift

    def gradients(self, launches: FloatArray) -> FloatArray:
        """Return the gradient at each launch, shape (S, 3, 5)."""
        d = launches - self.centre
        return self.gradient + np.einsum("oij,sj->soi", self.hessian, d)

    def spread(self, scatter: FloatArray) -> FloatArray:
        """Return the sd of single balls' outcomes [m], shape (3,)."""
        linear = np.einsum("oi,ij,oj->o", self.gradient, scatter, self.gradient)
        product = self.hessian @ scatter
        bend = 0.5 * np.einsum("oij,oji->o", product, product)
        return np.sqrt(np.maximum(linear + bend, 0.0) + OWN_SCATTER**2)


def flight_map(centre: FloatArray, present: list[int], conditions: Conditions) -> FlightMap:
    """Return the map about a launch by differences of whole flights.

    Parameters
    ----------
    centre : FloatArray, shape (5,)
        Mean launch of the clubs; numbers the device does not give stand at zero.
    present : list of int
        Launch numbers that the device gives; the map is flat in the others.
    conditions : Conditions

    Returns
    -------
    FlightMap

    Raises
    ------
    EvidenceError
        If drives about this launch have no total: they never rise.
    """
    steps = _STEPS.copy()
    steps[1] = min(steps[1], 0.8 * centre[1]) if centre[1] > 0.0 else steps[1]
    steps[2] = min(steps[2], 0.8 * centre[2]) if centre[2] > 0.0 else steps[2]
    shifts = [np.zeros(5)]
    for i in present:
        shifts += [_unit(i, steps), -_unit(i, steps)]
    pairs = [(i, j) for i in present for j in present if i < j]
    for i, j in pairs:
        up, across = _unit(i, steps), _unit(j, steps)
        shifts += [up + across, up - across, across - up, -up - across]
    results = outcomes(centre + np.array(shifts), conditions)
    if not np.isfinite(results).all():
        raise EvidenceError(
            f"a mean launch of {centre[1] / DEGREE:.1f} degrees has no total: such balls hardly "
            "rise",
            place="launch",
            mend="Check the launch column and its unit.",
        )
    gradient = np.zeros((3, 5))
    hessian = np.zeros((3, 5, 5))
    for place, i in enumerate(present):
        above, below = results[1 + 2 * place], results[2 + 2 * place]
        gradient[:, i] = (above - below) / (2.0 * steps[i])
        hessian[:, i, i] = (above - 2.0 * results[0] + below) / steps[i] ** 2
    for place, (i, j) in enumerate(pairs):
        first = 1 + 2 * len(present) + 4 * place
        plus, minus = results[first] + results[first + 3], results[first + 1] + results[first + 2]
        mixed = (plus - minus) / (4.0 * steps[i] * steps[j])
        hessian[:, i, j] = hessian[:, j, i] = mixed
    return FlightMap(
        centre=np.array(centre, dtype=np.float64),
        at_centre=results[0],
        gradient=gradient,
        hessian=hessian,
    )


def _unit(index: int, steps: FloatArray) -> FloatArray:
    shift = np.zeros(5)
    shift[index] = steps[index]
    return shift
