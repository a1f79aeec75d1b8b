"""A shaft's measured profile: stiffness and mass along it, each with its error."""

from dataclasses import dataclass, fields
from datetime import date
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import BENDING, LENGTH, LINE_DENSITY, TORSION

SEEN: Final = 0.05
"""Where the stiffness is known no better than to this share, one sigma, it is not seen."""

_LIMITS: Final = {
    "bending": (BENDING.low, BENDING.high, "N m2"),
    "twisting": (TORSION.low, TORSION.high, "N m2"),
    "density": (LINE_DENSITY.low, LINE_DENSITY.high, "kg/m"),
}
_SINGLE: Final = {
    "mass": (0.025, 0.150),
    "balance": (0.3, 0.9),
    "butt_diameter": (12.0 * MILLIMETRE, 18.0 * MILLIMETRE),
    "tip_diameter": (6.0 * MILLIMETRE, 12.0 * MILLIMETRE),
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredProfile:
    """What a bench found of one shaft, and how sure it is.

    Attributes
    ----------
    piece : str
        Id of the sample.
    bench : str
        Where it was measured; profiles of one bench share its scale error.
    conditions : str
        How: spans, clamps, grip and sleeve on or off, temperature.
    station : ndarray
        Places from the butt end, rising, the first 0 and the last the shaft's length [m].
    bending, bending_error : ndarray
        EI and its standard error at each station [N m^2].
    twisting, twisting_error : ndarray, optional
        GJ and its standard error [N m^2].
    density, density_error : ndarray, optional
        Mass per length and its standard error [kg m^-1].
    scale_error : float
        Standard error that every stiffness of this bench shares, as a share of it.
    mass, mass_error : float, optional
        Weighed [kg].
    balance, balance_error : float, optional
        Balance point from the butt end [m].
    butt_diameter, tip_diameter : float, optional
        Outside [m].
    set_aside : str
        Why it does not stand; empty while it does.
    """

    id: str
    piece: str
    day: date
    bench: str
    conditions: str
    station: FloatArray
    bending: FloatArray
    bending_error: FloatArray
    twisting: FloatArray | None = None
    twisting_error: FloatArray | None = None
    density: FloatArray | None = None
    density_error: FloatArray | None = None
    scale_error: float = 0.0
    mass: float | None = None
    mass_error: float | None = None
    balance: float | None = None
    balance_error: float | None = None
    butt_diameter: float | None = None
    tip_diameter: float | None = None
    set_aside: str = ""

    def __post_init__(self) -> None:
        for one in fields(self):
            value = getattr(self, one.name)
            if one.name in _ARRAYS and value is not None:
                object.__setattr__(self, one.name, frozen_array(value))
        for place in ("bench", "conditions"):
            if not getattr(self, place).strip():
                raise InputError(
                    f"a profile needs its {place}",
                    place=place,
                    mend="Say where and how it was measured: spans, clamps, grip on or off.",
                )
        _check_stations(self.station)
        for name in _LIMITS:
            _check_along(self, name)
        if not 0.0 <= self.scale_error <= 0.2:
            raise InputError(
                f"a scale error of {self.scale_error:g} cannot be",
                place="scale_error",
                mend="Give it as a share of the stiffness, 0 to 0.2.",
            )
        for name, (least, most) in _SINGLE.items():
            _check_single(self, name, least, most)
        if self.balance is not None and self.balance >= self.length:
            raise InputError(
                "the balance point lies beyond the tip", place="balance", mend="Measure it again."
            )

    @property
    def length(self) -> float:
        """Length of the shaft as it was measured [m]."""
        return float(self.station[-1])


_ARRAYS: Final = frozenset(
    {"station"} | {f"{name}{end}" for name in _LIMITS for end in ("", "_error")}
)


def _check_stations(station: FloatArray) -> None:
    mend = "Give places from the butt end in rising order, from 0 to the tip."
    if station.ndim != 1 or station.size < 2 or not np.all(np.isfinite(station)):
        raise InputError("a profile needs two stations or more", place="station", mend=mend)
    if station[0] != 0.0 or not np.all(np.diff(station) > 0.0):
        raise InputError("the stations do not rise from the butt end", place="station", mend=mend)
    if not LENGTH.low <= station[-1] <= LENGTH.high:
        raise InputError(
            f"a shaft of {station[-1] / INCH:.1f} in cannot be: is the unit right?",
            place="station",
            mend="Give the last station at the tip, 500 to 1400 mm from the butt.",
        )


def _check_along(profile: MeasuredProfile, name: str) -> None:
    values, errors = getattr(profile, name), getattr(profile, f"{name}_error")
    if values is None and errors is None and name != "bending":
        return
    least, most, unit = _LIMITS[name]
    for place, array in ((name, values), (f"{name}_error", errors)):
        if array is None or array.shape != profile.station.shape:
            raise InputError(
                f"{place} needs one figure a station",
                place=place,
                mend=f"Give {profile.station.size} figures.",
            )
    wrong = ~((values >= least) & (values <= most))
    if np.any(wrong):
        index = int(np.argmax(wrong))
        raise InputError(
            f"{values[index]:g} {unit} at {profile.station[index] / MILLIMETRE:.0f} mm cannot be: "
            "is the unit right?",
            place=name,
            mend=f"Give {least:g} to {most:g} {unit}.",
        )
    if not np.all((errors > 0.0) & np.isfinite(errors)):
        raise InputError(
            "a measurement without an error cannot be",
            place=f"{name}_error",
            mend="Give the standard error at each station, more than 0.",
        )


def _check_single(profile: MeasuredProfile, name: str, least: float, most: float) -> None:
    value = getattr(profile, name)
    error = getattr(profile, f"{name}_error", None)
    unit, scale = ("g", GRAM) if name == "mass" else ("mm", MILLIMETRE)
    if value is not None and not least <= value <= most:
        raise InputError(
            f"{value / scale:.1f} {unit} cannot be",
            place=name,
            mend=f"Give {least / scale:.0f} to {most / scale:.0f} {unit}.",
        )
    if name in {"mass", "balance"} and (value is None) != (error is None):
        raise InputError(
            f"{name} and its error go together", place=f"{name}_error", mend="Give both, or none."
        )
    if error is not None and not 0.0 < error < most:
        raise InputError(
            f"an error of {error / scale:g} {unit} cannot be",
            place=f"{name}_error",
            mend="Give the standard error, more than 0.",
        )
