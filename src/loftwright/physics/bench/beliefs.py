"""What is believed of a shaft before anything is read, and how the unknowns are laid out.

The natural logarithms of EI and GJ are linear between knots 25 mm apart. Before any reading they
are a driver shaft's taper, give or take a level, a slope, a smooth wave and a rough one; the rough
one keeps ranges honest where stiffness steps within 0.1 m, and makes them a little wide elsewhere.
"""

from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import LENGTH, within

KNOT: Final = 25.0 * MILLIMETRE
SCALES: Final = ("three_point", "cantilever", "frequency", "torque")
_JITTER: Final = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Beliefs:
    """Spreads before any reading; one standard deviation each. All are judgements.

    Attributes
    ----------
    bending_ends, torsion_ends : tuple of float
        EI and GJ at butt and tip of the mean taper [N m^2].
    level, slope : float
        Of ln EI: as a whole, and from one end to the other.
    smooth, smooth_over : float
        Of a wave, and the length over which it changes [1, m].
    rough, rough_over : float
        Of steps, and the length over which they change [1, m].
    line_density, density_slope : float
        Spreads of the line density and of its change from butt to tip [kg m^-1].
    mean_density : float
        [kg m^-1]
    static_scale, frequency_scale : float
        Relative error common to all readings of one kind: load cell, gauge, span; clamp.
    """

    bending_ends: tuple[float, float] = (70.0, 23.0)
    torsion_ends: tuple[float, float] = (36.0, 10.0)
    level: float = 0.3
    slope: float = 0.3
    smooth: float = 0.15
    smooth_over: float = 0.20
    rough: float = 0.04
    rough_over: float = 0.10
    mean_density: float = 55.0 * GRAM
    line_density: float = 25.0 * GRAM
    density_slope: float = 20.0 * GRAM
    static_scale: float = 0.0125
    frequency_scale: float = 0.003

    def __post_init__(self) -> None:
        for one in fields(self):
            values = np.atleast_1d(getattr(self, one.name))
            if not (np.isfinite(values).all() and (values > 0.0).all()):
                raise InputError(
                    f"a belief of {getattr(self, one.name)} cannot be used",
                    place=one.name,
                    mend="Give a positive figure.",
                )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Unknowns:
    """Where each unknown stands in the one vector of them, with mean and covariance.

    Attributes
    ----------
    length : float
        Of the shaft [m].
    knots : FloatArray
        From the butt, the last at or beyond the tip end, shape (knots,) [m].
    mean : FloatArray
        ln EI and ln GJ at the knots, line density in the middle and its change from butt to tip,
        ln of the scale of each kind, shape (2 knots + 2 + kinds,).
    covariance : FloatArray
    """

    length: float
    knots: FloatArray
    mean: FloatArray
    covariance: FloatArray

    @property
    def bending(self) -> slice:
        """Return where ln EI stands."""
        return slice(0, self.knots.size)

    @property
    def torsion(self) -> slice:
        """Return where ln GJ stands."""
        return slice(self.knots.size, 2 * self.knots.size)

    @property
    def density(self) -> slice:
        """Return where the line density and its change stand."""
        return slice(2 * self.knots.size, 2 * self.knots.size + 2)

    def scale(self, kind: str) -> int:
        """Return where the common error of a kind of reading stands."""
        return 2 * self.knots.size + 2 + SCALES.index(kind)


def unknowns(length: float, beliefs: Beliefs) -> Unknowns:
    """Return the unknowns of a shaft before any reading.

    Parameters
    ----------
    length : float
        Of the shaft as it is measured [m].
    beliefs : Beliefs

    Raises
    ------
    InputError
        If no shaft is so long.
    """
    within(length, LENGTH)
    knots = frozen_array(KNOT * np.arange(int(np.ceil(length / KNOT - 1e-9)) + 1))
    waves = _covariance(knots, length, beliefs)
    along = frozen_array(knots / length)
    scales = np.full(len(SCALES), beliefs.static_scale)
    scales[SCALES.index("frequency")] = beliefs.frequency_scale
    rest = np.concatenate([[beliefs.line_density, beliefs.density_slope], scales])
    size = knots.size
    covariance = np.zeros((2 * size + rest.size, 2 * size + rest.size))
    covariance[:size, :size] = waves
    covariance[size : 2 * size, size : 2 * size] = waves
    covariance[2 * size :, 2 * size :] = np.diag(rest**2)
    mean = np.concatenate(
        [
            _taper(along, beliefs.bending_ends),
            _taper(along, beliefs.torsion_ends),
            [beliefs.mean_density, 0.0],
            np.zeros(len(SCALES)),
        ]
    )
    return Unknowns(
        length=length,
        knots=knots,
        mean=frozen_array(mean),
        covariance=frozen_array(covariance),
    )


def hats(points: FloatArray, knots: FloatArray) -> FloatArray:
    """Return how much of each knot's value a point has, shape (..., knots)."""
    steps = np.clip((points - knots[0]) / (knots[1] - knots[0]), 0.0, knots.size - 1.0)
    found: FloatArray = np.maximum(0.0, 1.0 - np.abs(steps[..., None] - np.arange(knots.size)))
    return found


def _covariance(knots: FloatArray, length: float, beliefs: Beliefs) -> FloatArray:
    apart = np.abs(knots[:, None] - knots[None, :])
    lean = knots / length - 0.5
    found: FloatArray = (
        beliefs.smooth**2 * np.exp(-0.5 * (apart / beliefs.smooth_over) ** 2)
        + beliefs.level**2
        + beliefs.slope**2 * np.outer(lean, lean)
        + beliefs.rough**2 * np.exp(-apart / beliefs.rough_over)
        + _JITTER * np.eye(knots.size)
    )
    return found


def _taper(along: FloatArray, ends: tuple[float, float]) -> FloatArray:
    found: FloatArray = np.log(ends[0]) + along * np.log(ends[1] / ends[0])
    return found
