"""Benches that read invented shafts, with noise and slips where a test asks for them."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bench_shafts import BENDING, REFERENCE, STATIONS, WEIGHT
from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.physics.shaft.deflection import cantilever, three_point, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import End, Mount
from loftwright.physics.shaft.profile import Profile, uniform_mass_profile

LENGTH = REFERENCE.length
SPAN = 300.0 * MILLIMETRE
FORCE = 50.0
KNOTS = frozen_array(25.0 * MILLIMETRE * np.arange(47))
FREE_LENGTHS = np.linspace(41.0, 13.0, 8) * INCH

_FINE = np.linspace(0.0, LENGTH, 1144)
_PLAIN = np.interp(_FINE, STATIONS, BENDING)
_STEPS = np.interp(
    _FINE,
    [0.0, 0.30, 0.48, 0.62, 0.74, 0.88, 0.98, LENGTH],
    [1.0, 1.0, 1.15, 1.15, 0.85, 0.85, 1.15, 1.15],
)


def shaft(bending: FloatArray, mass: float = 62.0 * GRAM) -> Profile:
    return uniform_mass_profile(_FINE, bending, 0.42 * bending, mass)


TRUTHS = {
    "plain": shaft(_PLAIN),
    "wave": shaft(_PLAIN * np.exp(0.12 * np.sin(2.0 * np.pi * _FINE / 0.8))),
    "steps": shaft(_PLAIN * _STEPS),
}
PLAIN = TRUTHS["plain"]


def three_points(
    truth: Profile, count: int = 22, step: float = 38.1 * MILLIMETRE, sigma: float = 0.01
) -> list[Reading]:
    return [
        ThreePoint(
            station=station,
            span=SPAN,
            force=FORCE,
            value=three_point(truth, station, SPAN, FORCE),
            sigma=sigma,
        )
        for station in 0.15 + step * np.arange(count)
    ]


def swing(truth: Profile, clamp: float = 127.0 * MILLIMETRE, held: End = End.BUTT) -> Frequency:
    mount = Mount(clamp=clamp, held=held)
    return Frequency(mount=mount, weight=WEIGHT, value=frequency(truth, mount, WEIGHT))


def swings(truth: Profile, held: End = End.BUTT) -> list[Reading]:
    return [swing(truth, truth.length - free, held) for free in FREE_LENGTHS]


def lever(
    truth: Profile, arm: float, clamp: float = 30.0 * MILLIMETRE, held: End = End.TIP
) -> Cantilever:
    mount = Mount(clamp=clamp, held=held)
    at = truth.length - clamp - arm if held is End.TIP else clamp + arm
    bent = cantilever(truth, mount, 10.0, at, at)
    return Cantilever(mount=mount, force=10.0, force_at=at, read_at=at, value=bent)


def torque(truth: Profile, load_at: float = 1.1, clamp: float = 127.0 * MILLIMETRE) -> Torque:
    turned = twist(truth, clamp, load_at, 1.0)
    return Torque(clamp=clamp, load_at=load_at, moment=1.0, value=turned)


def weighed(truth: Profile) -> list[Reading]:
    return [Mass(value=truth.mass), Balance(value=truth.balance)]


def noisy(readings: Sequence[Reading], rng: np.random.Generator) -> list[Reading]:
    """Return readings with their own errors, rounded to thousandths of a mm where typed."""
    found: list[Reading] = []
    for one in readings:
        value = one.value * float(np.exp(one.sigma * rng.standard_normal()))
        if isinstance(one, ThreePoint):
            digits = f"{value / MILLIMETRE:.3f}"
            found.append(replace(one, value=float(digits) * MILLIMETRE, typed=digits))
        else:
            found.append(replace(one, value=value))
    return found


def retyped(reading: Reading, digits: str) -> Reading:
    """Return a three-point reading as somebody typed it [mm]."""
    return replace(reading, value=float(digits) * MILLIMETRE, typed=digits)


def swapped_digits(digits: str) -> str:
    """Return 0.541 as 0.451."""
    return digits[:2] + digits[3] + digits[2] + digits[4:]


def bending_at(truth: Profile, stations: FloatArray) -> FloatArray:
    return np.interp(np.minimum(stations, truth.length), truth.stations, truth.bending)
