"""Long parts: weight along a length, and what a stretch of it weighs and where."""

from dataclasses import dataclass
from math import isfinite

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import not_negative
from loftwright.physics.shaft.profile import Profile


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a long part.

    Attributes
    ----------
    mass : float
        [kg]
    balance : float
        Of its centre of gravity from the end that the part counts from [m].
    inertia : float
        About its own centre of gravity, across its length [kg m^2].
    """

    mass: float
    balance: float
    inertia: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rod:
    """A long part by stations from one end, its line density straight between them.

    Attributes
    ----------
    stations : FloatArray
        The first 0, strictly increasing, the last the length [m].
    density : FloatArray
        Mass a length at the stations, nowhere below nothing [kg m^-1].
    """

    stations: FloatArray
    density: FloatArray

    def __post_init__(self) -> None:
        stations, density = frozen_array(self.stations), frozen_array(self.density)
        object.__setattr__(self, "stations", stations)
        object.__setattr__(self, "density", density)
        if stations.ndim != 1 or stations.size < 2 or stations.shape != density.shape:
            raise InputError(
                "a long part needs a line density at two stations or more",
                place="stations",
                mend="Give one figure for every station, from end to end.",
            )
        rising = bool(np.isfinite(stations).all() and (np.diff(stations) > 0.0).all())
        if not rising or stations[0] != 0.0:
            raise InputError(
                "the stations do not rise from 0 to the far end",
                place="stations",
                mend="Order them from one end to the other, each once, the first 0.",
            )
        if not (np.isfinite(density).all() and (density >= 0.0).all()):
            raise InputError(
                "a line density below nothing cannot be",
                place="density",
                mend="Check weight, length and balance point of the part.",
            )

    @property
    def length(self) -> float:
        """Return the length [m]."""
        return float(self.stations[-1])

    @property
    def whole(self) -> Stretch:
        """Return all of it."""
        return self.between(0.0, self.length)

    def between(self, start: float, end: float) -> Stretch:
        """Return the stretch between two places.

        Parameters
        ----------
        start, end : float
            From the end it counts from [m].

        Raises
        ------
        InputError
            If the places lie outside it or in the wrong order.

        Notes
        -----
        The integrals of a straight density over each step are exact: with length h and end
        densities u and v, mass h (u + v) / 2, first moment h^2 (u + 2 v) / 6 and second moment
        h^3 (u + 3 v) / 12 about the step's first end.
        """
        if not 0.0 <= start <= end <= self.length:
            raise InputError(
                f"the stretch from {start / MILLIMETRE:.2f} to {end / MILLIMETRE:.2f} mm is not "
                f"within a part of {self.length / MILLIMETRE:.2f} mm",
                place="stretch",
                mend="Cut less of it.",
            )
        inner = self.stations[(self.stations > start) & (self.stations < end)]
        along = np.concatenate([[start], inner, [end]])
        density = np.interp(along, self.stations, self.density)
        step, light, heavy, first = np.diff(along), density[:-1], density[1:], along[:-1] - start
        masses = step * (light + heavy) / 2.0
        firsts = step**2 * (light + 2.0 * heavy) / 6.0
        seconds = step**3 * (light + 3.0 * heavy) / 12.0
        mass = float(masses.sum())
        if mass == 0.0:
            return Stretch(mass=0.0, balance=0.5 * (start + end), inertia=0.0)
        centre = float((firsts + masses * first).sum()) / mass
        second = float((seconds + 2.0 * first * firsts + first**2 * masses).sum())
        return Stretch(
            mass=mass, balance=start + centre, inertia=max(0.0, second - mass * centre**2)
        )


def straight_rod(mass: float, length: float, balance: float, name: str = "part") -> Rod:
    """Return a long part of which weight, length and balance point are known.

    Parameters
    ----------
    mass, length : float
        [kg, m]
    balance : float
        From the end it counts from [m].
    name : str
        What the part is called in an error.

    Raises
    ------
    InputError
        If no straight line density has this balance point.

    Notes
    -----
    The density is a + b s with b = 12 (m / L^2)(c / L - 1/2) and a = m / L - b L / 2. It is
    nowhere below nothing while the balance point lies in the middle third.
    """
    not_negative(mass, f"{name} mass")
    if not (isfinite(length) and length > 0.0):
        raise InputError(
            f"a {name} of {length / MILLIMETRE:g} mm cannot be",
            place=f"{name} length",
            mend="Give its length.",
        )
    if not length / 3.0 <= balance <= 2.0 * length / 3.0:
        raise InputError(
            f"a {name} of {mass / GRAM:g} g and {length / MILLIMETRE:.1f} mm does not balance at "
            f"{balance / MILLIMETRE:.1f} mm with a weight that changes evenly along it",
            place=f"{name} balance",
            mend=f"Measure the balance point again, and from which end; it must lie between "
            f"{length / 3.0 / MILLIMETRE:.1f} and {2.0 * length / 3.0 / MILLIMETRE:.1f} mm.",
        )
    lean = 12.0 * mass / length**2 * (balance / length - 0.5)
    level = mass / length - lean * length / 2.0
    density = np.maximum(np.array([level, level + lean * length]), 0.0)
    return Rod(stations=np.array([0.0, length]), density=density)


def rod_from_tip(profile: Profile) -> Rod:
    """Return a measured shaft as a long part that counts from its tip."""
    return Rod(
        stations=(profile.length - profile.stations)[::-1],
        density=profile.line_density[::-1],
    )
