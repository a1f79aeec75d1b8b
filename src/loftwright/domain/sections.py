"""The four sections of a shaft, and what a measured profile says of each."""

from dataclasses import dataclass
from enum import StrEnum
from math import exp, hypot
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.profile import SEEN, MeasuredProfile


class Section(StrEnum):
    """A part of a shaft, from the butt end to the tip."""

    BUTT = "butt"
    UPPER_MIDDLE = "upper middle"
    LOWER_MIDDLE = "lower middle"
    TIP = "tip"


BOUNDS: Final = {
    Section.BUTT: (0.0, 0.40),
    Section.UPPER_MIDDLE: (0.40, 0.70),
    Section.LOWER_MIDDLE: (0.70, 0.95),
    Section.TIP: (0.95, None),
}
"""From where to where from the butt end; the tip runs to the end [m] (our own division)."""

_STEP: Final = 0.001
_SHORTEST: Final = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """How much more or less one shaft has of something than another, with its noise.

    Attributes
    ----------
    log : float
        Natural logarithm of the ratio; 0 for the same.
    noise : float
        Standard error of that logarithm, as the bench gives it.
    """

    log: float
    noise: float

    @property
    def share(self) -> float:
        """The difference as a share of the second shaft's, such as -0.09."""
        return exp(self.log) - 1.0

    @property
    def told(self) -> bool:
        """Whether it stands out of the noise, at two standard errors."""
        return abs(self.log) > 2.0 * self.noise


def extent(section: Section, length: float) -> tuple[float, float] | None:
    """Return where a section of a shaft of some length lies [m]; None if it ends before."""
    low, high = BOUNDS[section]
    end = length if high is None else min(high, length)
    return (low, end) if end - low >= _SHORTEST else None


def bending_apart(
    one: MeasuredProfile, other: MeasuredProfile, section: Section
) -> Difference | None:
    """Return how much stiffer in bending one shaft is than another in a section.

    Parameters
    ----------
    one, other : MeasuredProfile
    section : Section

    Returns
    -------
    Difference or None
        None where either shaft was mostly not seen.

    Notes
    -----
    The figure is the mean of the logarithm of EI over the part of the section that both shafts
    have, so that a shaft that is stiffer throughout by one factor differs by it in every section.
    Errors within a section are taken as fully correlated, the largest that the noise can be; those
    of two shafts as independent; a scale error that both share, as measured on one bench, leaves
    their ratio untouched.
    """
    return _apart(one, other, section, "bending")


def twisting_apart(
    one: MeasuredProfile, other: MeasuredProfile, section: Section
) -> Difference | None:
    """Return how much stiffer in twist one shaft is than another in a section, as for bending."""
    return _apart(one, other, section, "twisting")


def density_apart(
    one: MeasuredProfile, other: MeasuredProfile, section: Section
) -> Difference | None:
    """Return how much heavier along its length one shaft is than another, as for bending."""
    return _apart(one, other, section, "density")


def scale_apart(one: MeasuredProfile, other: MeasuredProfile) -> float:
    """Return the error of two shafts' ratio that repeated looks on their benches never lessen."""
    return 0.0 if one.bench == other.bench else hypot(one.scale_error, other.scale_error)


def seen_share(profile: MeasuredProfile, section: Section) -> float:
    """Return the share of a section in which the bending stiffness was seen."""
    lies = extent(section, profile.length)
    if lies is None:
        return 0.0
    places = _places(*lies)
    _, errors = _logs(profile, "bending", places)
    return float(np.mean(errors <= SEEN))


def _apart(
    one: MeasuredProfile, other: MeasuredProfile, section: Section, what: str
) -> Difference | None:
    lies = extent(section, min(one.length, other.length))
    if lies is None or getattr(one, what) is None or getattr(other, what) is None:
        return None
    places = _places(*lies)
    logs, noises = [], []
    for profile in (one, other):
        values, errors = _logs(profile, what, places)
        if np.mean(errors <= SEEN) < 0.5:
            return None
        logs.append(float(np.mean(values)))
        noises.append(float(np.mean(errors)))
    noise = hypot(*noises)
    if what != "density":
        noise = hypot(noise, scale_apart(one, other))
    return Difference(log=logs[0] - logs[1], noise=noise)


def _places(low: float, high: float) -> FloatArray:
    return np.linspace(low, high, 1 + max(1, round((high - low) / _STEP)))


def _logs(
    profile: MeasuredProfile, what: str, places: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return logarithms and their errors at places; both are straight between stations."""
    values = np.interp(places, profile.station, getattr(profile, what))
    errors = np.interp(places, profile.station, getattr(profile, f"{what}_error"))
    return np.log(values), errors / values
