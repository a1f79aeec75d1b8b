"""The bench of the invented studio: an invented shaft read on it, with its errors, and kept."""

from datetime import date
from typing import Final

import numpy as np

from loftwright.constants import FOOT_POUND, GRAM, INCH, MILLIMETRE
from loftwright.domain.kept_profile import profile_of
from loftwright.domain.profile import MeasuredProfile
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.fit import solve
from loftwright.physics.bench.piece import piece_of
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Diameter,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
    reads,
)
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import cantilever, three_point, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import End, Mount
from loftwright.physics.shaft.profile import Profile
from loftwright.services.demo_shafts import DemoShaft

BENCH: Final = "The bench by the window (invented)"
CONDITIONS: Final = (
    "bare and uncut; three points 300 mm apart, 50 N, every 1.5 in from 150 mm; tip held 30 mm, "
    "10 N; 5 in clamp and 205 g for the frequency"
)
CLAMP: Final = Mount(clamp=5.0 * INCH)
TIP_CLAMP: Final = Mount(clamp=30.0 * MILLIMETRE, held=End.TIP)
_SPAN: Final = 300.0 * MILLIMETRE
_STEP: Final = 1.5 * INCH


def demo_profile(shaft: DemoShaft, *, piece: str, day: date, seed: int) -> MeasuredProfile:
    """Return what the invented bench finds of an invented shaft.

    Parameters
    ----------
    shaft : DemoShaft
    piece : str
        Id of the sample.
    day : date
    seed : int
        Of the errors of reading: 1 % of a deflection, 0.3 % of a frequency, 0.2 % of a weight.
    """
    rng = np.random.default_rng(seed)
    readings = [
        reads(one, one.value * float(np.exp(one.sigma * rng.standard_normal())))
        for one in _readings(shaft.profile)
    ]
    length = shaft.profile.length
    diameters = (
        Diameter(station=0.0, value=float(shaft.diameter[0])),
        Diameter(station=length, value=float(shaft.diameter[-1])),
    )
    solution = solve(unknowns(length, Beliefs()), readings)
    found = piece_of(solution, diameters)
    return profile_of(found, solution, piece=piece, day=day, bench=BENCH, conditions=CONDITIONS)


def _readings(shaft: Profile) -> list[Reading]:
    """Return what the bench would read without an error."""
    length = shaft.length
    last = length - 0.5 * _SPAN
    stations = np.arange(0.5 * _SPAN, last + 1e-9, _STEP)
    across = [
        ThreePoint(
            station=float(at), span=_SPAN, force=50.0, value=three_point(shaft, at, _SPAN, 50.0)
        )
        for at in stations
    ]
    levers = [length - 150.0 * MILLIMETRE, length - 250.0 * MILLIMETRE]
    by_the_tip = [
        Cantilever(
            mount=TIP_CLAMP,
            force=10.0,
            force_at=at,
            read_at=at,
            value=cantilever(shaft, TIP_CLAMP, 10.0, at, at),
        )
        for at in levers
    ]
    weight = TipBody(mass=205.0 * GRAM)
    load_at = length - INCH
    turned = twist(shaft, CLAMP.clamp, load_at, FOOT_POUND)
    return [
        *across,
        *by_the_tip,
        Frequency(mount=CLAMP, weight=weight, value=frequency(shaft, CLAMP, weight)),
        Torque(clamp=CLAMP.clamp, load_at=load_at, moment=FOOT_POUND, value=turned),
        Mass(value=shaft.mass),
        Balance(value=shaft.balance),
    ]
