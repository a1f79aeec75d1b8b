"""Beams and shafts that the bench's tests share; the shafts are invented."""

from collections.abc import Callable

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, MILLIMETRE
from loftwright.physics.shaft.beam import Beam, TipBody, gauss_points
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import Profile, stiffened, uniform_mass_profile

STATIONS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.08, 1.143)
BENDING = (78.0, 74.0, 69.0, 63.0, 57.0, 51.0, 45.5, 40.0, 34.5, 29.0, 24.5, 22.0, 21.0)
TORSION = tuple(0.42 * one for one in BENDING)
REFERENCE = uniform_mass_profile(STATIONS, BENDING, TORSION, 62.0 * GRAM)
FIVE_INCHES = Mount(clamp=127.0 * MILLIMETRE)
WEIGHT = TipBody(mass=205.0 * GRAM)
SECTIONS = {
    "butt": (0.0, 0.4),
    "upper middle": (0.4, 0.7),
    "lower middle": (0.7, 0.95),
    "tip": (0.95, 1.143),
}

Field = Callable[[FloatArray], FloatArray]


def ones(along: FloatArray) -> FloatArray:
    return np.ones_like(along)


def beam_of(
    bending: Field, line_density: Field = ones, length: float = 1.0, elements: int = 40
) -> Beam:
    nodes = np.linspace(0.0, length, elements + 1)
    points = gauss_points(nodes)
    return Beam(nodes=nodes, bending=bending(points), line_density=line_density(points))


def even_shaft(bending: float = 45.0, torsion: float = 20.0, length: float = 1.0) -> Profile:
    return uniform_mass_profile((0.0, length), (bending,) * 2, (torsion,) * 2, 60.0 * GRAM)


def cycles(profile: Profile, mount: Mount = FIVE_INCHES, weight: TipBody = WEIGHT) -> float:
    """Return a frequency in cycles a minute."""
    return frequency(profile, mount, weight) / CYCLE_PER_MINUTE


def finely(profile: Profile, corners: tuple[float, ...] = ()) -> Profile:
    """Return the same shaft with a station every few millimetres and at corners."""
    along = np.union1d(np.linspace(0.0, profile.length, 401), [*profile.stations, *corners])
    return Profile(
        stations=along,
        bending=np.interp(along, profile.stations, profile.bending),
        torsion=np.interp(along, profile.stations, profile.torsion),
        line_density=np.interp(along, profile.stations, profile.line_density),
    )


def section_firmer(profile: Profile, section: str, by: float = 0.1) -> Profile:
    """Return a shaft with the EI of one section raised, from its first station to its last."""
    start, end = SECTIONS[section]
    fine = finely(profile, (max(start - 1e-4, 0.0), start, end - 1e-4, end))
    inside = (fine.stations >= start) & (fine.stations < end)
    return stiffened(fine, np.where(inside, 1.0 + by, 1.0))
