"""A rack of shafts on one core, beside one shaft at a time, and a shaft from its readings."""

import time
from collections.abc import Callable
from functools import partial
from math import pi

import numpy as np

from loftwright.constants import GRAM, INCH
from loftwright.physics.bench.measure import measure
from loftwright.physics.bench.readings import Frequency, Reading, ThreePoint
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import three_point, tip_slope, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.many import screen
from loftwright.physics.shaft.mount import Mount, mounted
from loftwright.physics.shaft.profile import Profile
from loftwright.physics.shaft.vibration import Modes, modes, ritz_basis

SHAFTS = 2_000
ALONE = 100
REPEATS = 5
LIMIT = 2.0
MOUNT = Mount(clamp=5.0 * INCH)
WEIGHT = TipBody(mass=205.0 * GRAM)
REACH = 1.0 * INCH


def main() -> None:
    shafts = _shafts(SHAFTS)
    rack = _least(lambda: screen(shafts, MOUNT, WEIGHT, REACH))
    found = screen(shafts[:ALONE], MOUNT, WEIGHT, REACH)
    one = _least(lambda: [_alone(shaft) for shaft in shafts[:ALONE]]) / ALONE
    error = max(
        abs(modes_rate / rack_rate - 1.0)
        for modes_rate, rack_rate in zip(
            [_alone(shaft) for shaft in shafts[:ALONE]], found.frequencies, strict=True
        )
    )
    basis = _least(lambda: [_basis(shaft) for shaft in shafts[:ALONE]]) / ALONE
    print(f"Frequency, tip slope and torque of {SHAFTS:,} shafts, 40 elements, one core:")
    print(
        f"  the rack at once: {rack:.2f} s; against its limit of {LIMIT:g} s: {rack / LIMIT:.2f}"
    )
    print(
        f"  one shaft alone: {1e3 * one:.2f} ms; the rack {SHAFTS * one / rack:.1f} times as fast"
    )
    print(f"  greatest difference in frequency: {error:.1e}")
    print(f"  two loaded modes and the bend under a moment, one shaft: {1e3 * basis:.2f} ms")
    readings = _three_points(shafts[0])
    swings = [_swing(shafts[0], clamp) for clamp in np.linspace(0.1, 0.7, 8)]
    for what, table in (
        ("22 three-point readings", readings),
        ("8 frequencies more", [*readings, *swings]),
    ):
        spent = _least(partial(measure, shafts[0].length, table))
        print(f"  a shaft from {what}: {1e3 * spent:.1f} ms")


def _shafts(count: int) -> list[Profile]:
    rng = np.random.default_rng(4)
    along = np.linspace(0.0, 1.0, 13)
    taper = np.exp(np.log(70.0) + along * np.log(23.0 / 70.0))
    return [
        Profile(
            stations=along * rng.uniform(1.10, 1.18),
            bending=taper * np.exp(rng.normal(0.0, 0.1) + rng.normal(0.0, 0.05, 13)),
            torsion=0.45 * taper * np.exp(rng.normal(0.0, 0.1)),
            line_density=np.full(13, rng.uniform(0.045, 0.065)),
        )
        for _ in range(count)
    ]


def _three_points(shaft: Profile) -> list[Reading]:
    stations = np.linspace(0.15, shaft.length - 0.15, 22)
    return [
        ThreePoint(
            station=at, span=0.3, force=50.0, value=three_point(shaft, at, 0.3, 50.0), sigma=0.01
        )
        for at in stations.tolist()
    ]


def _swing(shaft: Profile, clamp: float) -> Reading:
    mount = Mount(clamp=clamp)
    return Frequency(mount=mount, weight=WEIGHT, value=frequency(shaft, mount, WEIGHT))


def _alone(shaft: Profile) -> float:
    held = mounted(shaft, MOUNT, WEIGHT)
    tip_slope(shaft, MOUNT)
    twist(shaft, MOUNT.clamp, shaft.length - REACH, 1.0)
    return float(modes(held.beam, held.body).rates[0]) / (2.0 * pi)


def _basis(shaft: Profile) -> Modes:
    held = mounted(shaft, MOUNT, WEIGHT)
    return ritz_basis(held.beam, held.body)


def _least(call: Callable[[], object]) -> float:
    call()
    times = []
    for _ in range(REPEATS):
        begin = time.process_time()
        call()
        times.append(time.process_time() - begin)
    return min(times)


if __name__ == "__main__":
    main()
