"""What trims and cuts do to a shaft's frequency, from its own measured profile.

No rule of so many cycles an inch is used: what a cut does depends on the shaft, the clamp and the
weight, and the rules of the trade contradict one another.
"""

from dataclasses import dataclass
from math import hypot
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.limits import not_negative
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import Profile, stiffened, trimmed

CLAMP_ERROR: Final = 2.0 * MILLIMETRE
"""Standard error of how much a clamp holds (judgement)."""

_STEP: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """A shaft's frequency before and after its cuts, in one clamp with one weight.

    Attributes
    ----------
    raw, tip_trimmed, cut : float
        Of the raw shaft, after the tip trim, after the butt cut as well [s^-1].
    error : float
        Standard error of the last [s^-1].
    change_error : float
        Standard error of the last less the first, in which most of the clamp's drops out [s^-1].
    """

    raw: float
    tip_trimmed: float
    cut: float
    error: float
    change_error: float


def forecast(
    profile: Profile,
    mount: Mount,
    weight: TipBody,
    *,
    tip_trim: float,
    butt_cut: float,
    covariance: FloatArray | None = None,
    clamp_error: float = CLAMP_ERROR,
) -> Forecast:
    """Return what a shaft's frequency comes to as it is cut.

    Parameters
    ----------
    profile : Profile
        Of the raw shaft.
    mount : Mount
        The same clamp before and after, which holds as much of it.
    weight : TipBody
        The same on the free end.
    tip_trim, butt_cut : float
        [m]
    covariance : FloatArray, optional
        Of the logarithms of EI at the profile's stations; without it only the clamp adds doubt.
    clamp_error : float
        Standard error of how much the clamp holds [m].

    Returns
    -------
    Forecast

    Raises
    ------
    InputError
        If the cuts leave no shaft, or the clamp too little of it.
    """
    not_negative(clamp_error, "clamp error")
    size = profile.stations.size
    if covariance is not None and covariance.shape != (size, size):
        raise InputError(
            f"{size} stations need a covariance of {size} by {size}",
            place="covariance",
            mend="Give that of the logarithms of EI at the profile's stations.",
        )

    def figures(shaft: Profile, held: Mount) -> FloatArray:
        states = (shaft, trimmed(shaft, tip_trim), trimmed(shaft, tip_trim, butt_cut))
        return np.array([frequency(state, held, weight) for state in states])

    found = figures(profile, mount)
    deeper = Mount(clamp=mount.clamp + _STEP, held=mount.held, dressing=mount.dressing)
    by_clamp = (figures(profile, deeper) - found) / _STEP * clamp_error
    spread, changed = 0.0, 0.0
    if covariance is not None:
        slopes = np.empty((size, 3))
        for station in range(size):
            factor = np.ones(size)
            factor[station] += _STEP
            slopes[station] = (figures(stiffened(profile, factor), mount) - found) / _STEP
        apart = slopes[:, 2] - slopes[:, 0]
        spread = float(np.sqrt(slopes[:, 2] @ covariance @ slopes[:, 2]))
        changed = float(np.sqrt(apart @ covariance @ apart))
    return Forecast(
        raw=float(found[0]),
        tip_trimmed=float(found[1]),
        cut=float(found[2]),
        error=hypot(spread, float(by_clamp[2])),
        change_error=hypot(changed, float(by_clamp[2] - by_clamp[0])),
    )
