"""What a shaft is after its readings, with ranges, and where only the prior speaks of it."""

from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.physics.bench.beliefs import Unknowns, hats
from loftwright.physics.bench.fit import Solution
from loftwright.physics.bench.readings import Diameter, Frequency
from loftwright.physics.shaft.mount import End
from loftwright.physics.shaft.profile import Profile

WITHIN: Final = 1.96
SEEN_TO: Final = 0.10
SEEN_BY: Final = 0.5
TIP_FROM: Final = 950.0 * MILLIMETRE


class Estimate(NamedTuple):
    """A figure and one standard deviation of it."""

    value: float
    spread: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Field:
    """A stiffness along a shaft.

    Attributes
    ----------
    values : FloatArray
        Most probable, at the piece's stations [N m^2].
    covariance : FloatArray
        Of their logarithms.
    seen : BoolArray
        Whether readings speak there; elsewhere the figure is what shafts usually have.
    """

    values: FloatArray
    covariance: FloatArray
    seen: BoolArray

    @property
    def spread(self) -> FloatArray:
        """Return one standard deviation of the logarithm at each station."""
        return np.sqrt(np.diag(self.covariance))

    def low(self, times: float = WITHIN) -> FloatArray:
        """Return the lower end of the range at each station [N m^2]."""
        return self.values * np.exp(-times * self.spread)

    def high(self, times: float = WITHIN) -> FloatArray:
        """Return the upper end of the range at each station [N m^2]."""
        return self.values * np.exp(times * self.spread)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """One measured shaft.

    Attributes
    ----------
    stations : FloatArray
        From the butt, the last the tip end [m].
    bending, torsion : Field
        EI and GJ.
    line_density : FloatArray
        At the stations [kg m^-1]; a straight line from butt to tip.
    mass, balance : Estimate
        Of the bare shaft; from the butt [kg, m].
    diameters : tuple of Diameter
        As they were read.
    """

    stations: FloatArray
    bending: Field
    torsion: Field
    line_density: FloatArray
    mass: Estimate
    balance: Estimate
    diameters: tuple[Diameter, ...] = ()

    @property
    def length(self) -> float:
        """Return the length [m]."""
        return float(self.stations[-1])

    def profile(self) -> Profile:
        """Return the most probable shaft, to trim it and put it on the bench again.

        Raises
        ------
        InputError
            If a figure is outside what shafts have.
        """
        return Profile(
            stations=self.stations,
            bending=self.bending.values,
            torsion=self.torsion.values,
            line_density=self.line_density,
        )


def piece_of(solution: Solution, diameters: tuple[Diameter, ...] = ()) -> Piece:
    """Return the shaft that a solution describes.

    Parameters
    ----------
    solution : Solution
    diameters : tuple of Diameter

    Notes
    -----
    A place is seen if the readings that work on it would alone tell a stretch of 50 mm about it
    to within 10 %, all else known, and if all of them halved the spread of how it differs from
    the whole shaft. Frequencies with the butt held do not count for the tip section, which they
    hardly see. All three are judgements.
    """
    layout = solution.layout
    inner = layout.knots[layout.knots < layout.length - 1e-9]
    stations = np.append(inner, layout.length)
    level, change = solution.unknown[layout.density]
    return Piece(
        stations=frozen_array(stations),
        bending=_field(solution, layout.bending, stations),
        torsion=_field(solution, layout.torsion, stations),
        line_density=frozen_array(level + change * (stations / layout.length - 0.5)),
        mass=_mass(solution),
        balance=_balance(solution),
        diameters=diameters,
    )


def _field(solution: Solution, part: slice, stations: FloatArray) -> Field:
    knots = solution.layout.knots
    at = hats(stations, knots)
    seen = _seen(solution, part).astype(np.float64)
    flags = at @ seen > 1.0 - 1e-9
    flags.flags.writeable = False
    return Field(
        values=frozen_array(np.exp(at @ solution.unknown[part])),
        covariance=frozen_array(at @ solution.covariance[part, part] @ at.T),
        seen=flags,
    )


def _seen(solution: Solution, part: slice) -> BoolArray:
    """Return at which knots the readings speak."""
    knots = solution.layout.knots
    patch = hats(knots, knots) + 0.5 * (np.eye(knots.size, k=1) + np.eye(knots.size, k=-1))
    reached = (knots > solution.reaches[:, :1]) & (knots < solution.reaches[:, 1:])
    told = np.where(reached, _information(solution, part, knots) @ patch.T, 0.0)
    closely = (told**2).sum(axis=0) > SEEN_TO**-2
    apart = patch / patch.sum(axis=1, keepdims=True) - _whole(solution.layout)
    after = _variances(apart, solution.covariance[part, part])
    before = _variances(apart, solution.layout.covariance[part, part])
    found: BoolArray = closely & (after < SEEN_BY**2 * before)
    return found


def _information(solution: Solution, part: slice, knots: FloatArray) -> FloatArray:
    """Return the slopes in units of each reading's error, none where it is blind."""
    errors = np.array([reading.sigma for reading in solution.readings])
    slopes = (
        solution.slopes[:, part] / errors[:, None] if errors.size else np.zeros((0, knots.size))
    )
    blind = [
        isinstance(reading, Frequency) and reading.mount.held is End.BUTT
        for reading in solution.readings
    ]
    hidden = np.array(blind, dtype=bool)[:, None] & (knots >= TIP_FROM)
    found: FloatArray = np.where(hidden, 0.0, slopes)
    return found


def _whole(layout: Unknowns) -> FloatArray:
    on_it = (layout.knots <= layout.length).astype(np.float64)
    return frozen_array(on_it / on_it.sum())


def _variances(sums: FloatArray, covariance: FloatArray) -> FloatArray:
    return frozen_array(np.einsum("ij,jk,ik->i", sums, covariance, sums))


def _mass(solution: Solution) -> Estimate:
    layout = solution.layout
    level, _ = solution.unknown[layout.density]
    variance = solution.covariance[layout.density, layout.density][0, 0]
    return Estimate(float(level) * layout.length, float(np.sqrt(variance)) * layout.length)


def _balance(solution: Solution) -> Estimate:
    layout = solution.layout
    level, change = solution.unknown[layout.density]
    slopes = layout.length / 12.0 * np.array([-change / level**2, 1.0 / level])
    covariance = solution.covariance[layout.density, layout.density]
    return Estimate(
        layout.length * (0.5 + float(change / level) / 12.0),
        float(np.sqrt(slopes @ covariance @ slopes)),
    )
