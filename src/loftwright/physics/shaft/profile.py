"""What a shaft is along its length: bending and torsional stiffness and weight by station."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import (
    BENDING,
    LENGTH,
    LINE_DENSITY,
    TORSION,
    all_within,
    not_negative,
    within,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Profile:
    """A bare shaft by stations from the butt end, linear between them.

    Attributes
    ----------
    stations : FloatArray
        From the butt, the first 0, the last the shaft's length, strictly increasing [m].
    bending : FloatArray
        EI at the stations [N m^2].
    torsion : FloatArray
        GJ at the stations [N m^2].
    line_density : FloatArray
        Mass a length at the stations [kg m^-1].

    Raises
    ------
    InputError
        If the stations do not run from butt to tip, or a figure is outside what shafts have.
    """

    stations: FloatArray
    bending: FloatArray
    torsion: FloatArray
    line_density: FloatArray

    def __post_init__(self) -> None:
        stations = frozen_array(self.stations)
        _check_stations(stations)
        object.__setattr__(self, "stations", stations)
        for name, limit in (
            ("bending", BENDING),
            ("torsion", TORSION),
            ("line_density", LINE_DENSITY),
        ):
            values = frozen_array(getattr(self, name))
            if values.shape != stations.shape:
                raise InputError(
                    f"{len(stations)} stations have {values.size} figures of {limit.name}",
                    place=limit.name,
                    mend="Give one figure for every station.",
                )
            all_within(values, limit, stations)
            object.__setattr__(self, name, values)

    @property
    def length(self) -> float:
        """Return the length from butt to tip end [m]."""
        return float(self.stations[-1])

    @property
    def mass(self) -> float:
        """Return the mass of the bare shaft [kg]."""
        return float(_trapezoids(self.stations, self.line_density).sum())

    @property
    def balance(self) -> float:
        """Return the distance of the balance point from the butt [m]."""
        return _moment(self.stations, self.line_density) / self.mass


def uniform_mass_profile(
    stations: ArrayLike, bending: ArrayLike, torsion: ArrayLike, mass: float
) -> Profile:
    """Return a profile whose mass is spread evenly.

    Parameters
    ----------
    stations : array_like
        From the butt [m].
    bending, torsion : array_like
        EI and GJ at the stations [N m^2].
    mass : float
        Of the bare shaft [kg].
    """
    along = np.asarray(stations, dtype=np.float64)
    _check_stations(along)
    return Profile(
        stations=along,
        bending=np.asarray(bending, dtype=np.float64),
        torsion=np.asarray(torsion, dtype=np.float64),
        line_density=np.full(along.shape, mass / along[-1]),
    )


def trimmed(profile: Profile, tip: float = 0.0, butt: float = 0.0) -> Profile:
    """Return a shaft with a piece cut off its tip, its butt or both.

    Parameters
    ----------
    profile : Profile
    tip, butt : float
        Lengths cut off [m].

    Returns
    -------
    Profile
        Stations count from the new butt end.

    Raises
    ------
    InputError
        If a trim is negative or what is left is no shaft.
    """
    not_negative(tip, "tip trim")
    not_negative(butt, "butt cut")
    left = profile.length - tip - butt
    if left < LENGTH.low:
        raise InputError(
            f"trims of {(tip + butt) / MILLIMETRE:g} mm leave {left / MILLIMETRE:g} mm of shaft",
            place="trims",
            mend=f"Cut less, or check the unit; {LENGTH.low / MILLIMETRE:g} mm must stay.",
        )
    end = profile.length - tip
    inner = profile.stations[(profile.stations > butt) & (profile.stations < end)]
    along = np.concatenate([[butt], inner, [end]])
    return Profile(
        stations=along - butt,
        bending=np.interp(along, profile.stations, profile.bending),
        torsion=np.interp(along, profile.stations, profile.torsion),
        line_density=np.interp(along, profile.stations, profile.line_density),
    )


def stiffened(profile: Profile, factor: ArrayLike) -> Profile:
    """Return a shaft with its EI times a factor, one for all or one for every station."""
    return Profile(
        stations=profile.stations,
        bending=profile.bending * np.asarray(factor, dtype=np.float64),
        torsion=profile.torsion,
        line_density=profile.line_density,
    )


def mass_between(
    stations: FloatArray, line_density: FloatArray, start: float, end: float
) -> tuple[float, float]:
    """Return the mass of a stretch and its balance point from the butt [kg, m].

    Parameters
    ----------
    stations : FloatArray
        From the butt [m].
    line_density : FloatArray
        At the stations [kg m^-1].
    start, end : float
        Of the stretch, from the butt [m].
    """
    inner = stations[(stations > start) & (stations < end)]
    along = np.concatenate([[start], inner, [end]])
    density = np.interp(along, stations, line_density)
    mass = float(_trapezoids(along, density).sum())
    return (mass, _moment(along, density) / mass) if mass > 0.0 else (0.0, start)


def _moment(stations: FloatArray, density: FloatArray) -> float:
    start, end = stations[:-1], stations[1:]
    light, heavy = density[:-1], density[1:]
    parts = np.diff(stations) * (light * (2.0 * start + end) + heavy * (start + 2.0 * end))
    return float(parts.sum()) / 6.0


def _trapezoids(stations: FloatArray, values: FloatArray) -> FloatArray:
    return np.diff(stations) * 0.5 * (values[:-1] + values[1:])


def _check_stations(stations: FloatArray) -> None:
    if stations.ndim != 1 or stations.size < 2:
        raise InputError(
            "a profile needs at least two stations",
            place="stations",
            mend="Give the butt end, 0, and the tip end, and stations between them.",
        )
    if not np.isfinite(stations).all() or not (np.diff(stations) > 0.0).all():
        raise InputError(
            "stations are not finite and strictly increasing",
            place="stations",
            mend="Order them from butt to tip, each once.",
        )
    if stations[0] != 0.0:
        raise InputError(
            f"the first station is {stations[0] / MILLIMETRE:g} mm from the butt",
            place="stations",
            mend="Begin at the butt end, 0, so that the profile reaches from clamp to tip.",
        )
    within(float(stations[-1]), LENGTH)
