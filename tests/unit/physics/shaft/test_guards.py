"""Every guard of the bench and the swing refuses with its reason, and just outside its limit."""

from collections.abc import Callable
from dataclasses import replace
from math import inf, nan

import numpy as np
import pytest

from bench_readings import LENGTH, PLAIN, noisy, swings, three_points, torque, weighed
from bench_shafts import BENDING, REFERENCE, STATIONS, TORSION, WEIGHT
from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, MILLIMETRE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.bench import fit
from loftwright.physics.bench.measure import measure
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    ThreePoint,
    Torque,
)
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import three_point
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount, mounted
from loftwright.physics.shaft.profile import Profile, trimmed
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD, swing_basis
from loftwright.physics.shaft_swing.players import QUICK_LATE, SMOOTH_EARLY, Player
from loftwright.physics.shaft_swing.swings import swing
from swung_shafts import beam_shapes, profile_of

CLAMPED = Mount(clamp=0.127)
READINGS: dict[str, Callable[[float], object]] = {
    "three points": lambda sigma: ThreePoint(
        station=0.5, span=0.3, force=50.0, value=6e-4, sigma=sigma
    ),
    "cantilever": lambda sigma: Cantilever(
        mount=CLAMPED, force=10.0, force_at=0.9, read_at=0.9, value=0.03, sigma=sigma
    ),
    "frequency": lambda sigma: Frequency(mount=CLAMPED, weight=WEIGHT, value=4.3, sigma=sigma),
    "torque": lambda sigma: Torque(
        clamp=0.127, load_at=1.1, moment=1.356, value=0.07, sigma=sigma
    ),
    "mass": lambda sigma: Mass(value=0.062, sigma=sigma),
    "balance": lambda sigma: Balance(value=0.577, sigma=sigma),
}


@pytest.mark.parametrize("sigma", [0.0, -0.01, nan, inf])
@pytest.mark.parametrize("kind", READINGS)
def test_a_reading_without_an_error_is_refused(kind: str, sigma: float) -> None:
    READINGS[kind](0.01)
    with pytest.raises(InputError, match="cannot be used") as caught:
        READINGS[kind](sigma)
    assert caught.value.place == "sigma"


def profile(name: str, values: FloatArray) -> Profile:
    figures = {
        "stations": np.array(STATIONS),
        "bending": np.array(BENDING),
        "torsion": np.array(TORSION),
        "line_density": np.full(len(STATIONS), 54.0) * GRAM,
    }
    return Profile(**(figures | {name: values}))


LIMITS = {
    "bending": ("EI", 5.0, 200.0),
    "torsion": ("GJ", 3.0, 80.0),
    "line_density": ("line density", 20.0 * GRAM, 200.0 * GRAM),
}


@pytest.mark.parametrize("name", LIMITS)
def test_a_figure_on_its_limit_is_taken_and_beyond_it_refused(name: str) -> None:
    called, low, high = LIMITS[name]
    for value in (low, high):
        profile(name, np.full(len(STATIONS), value))
    for value in (low * 0.999, high * 1.001, 0.0, -high, nan, inf, -inf):
        values = np.full(len(STATIONS), low)
        values[4] = value
        with pytest.raises(InputError, match=f"{called} at 400 mm from the butt") as caught:
            profile(name, values)
        assert caught.value.mend.startswith("Check the unit")


@pytest.mark.parametrize("grams", [-0.001, 500.1, 205e3, nan, inf])
def test_a_weight_that_no_bench_hangs_on_a_shaft_is_refused(grams: float) -> None:
    weight = TipBody(mass=grams * GRAM)
    with pytest.raises(InputError, match=r"weight at the free end .* outside 0 to 0\.5 kg"):
        mounted(REFERENCE, CLAMPED, weight)
    with pytest.raises(InputError, match="weight at the free end"):
        Frequency(mount=CLAMPED, weight=weight, value=4.3)
    assert frequency(REFERENCE, CLAMPED, TipBody()) > frequency(REFERENCE, CLAMPED, WEIGHT)


@pytest.mark.parametrize("cpm", [99.9, 2500.1, 258.0 / CYCLE_PER_MINUTE, nan])
def test_a_frequency_that_no_bench_reads_asks_for_the_unit(cpm: float) -> None:
    with pytest.raises(InputError, match="outside 100 to 2500 cpm") as caught:
        Frequency(mount=CLAMPED, weight=WEIGHT, value=cpm * CYCLE_PER_MINUTE)
    assert "unit" in caught.value.mend
    Frequency(mount=CLAMPED, weight=WEIGHT, value=258.0 * CYCLE_PER_MINUTE)


@pytest.mark.parametrize("mm", [0.049, 10.01, 600.0, nan])
def test_a_deflection_that_no_bench_reads_asks_for_the_unit(mm: float) -> None:
    with pytest.raises(InputError, match=r"outside 0\.05 to 10 mm") as caught:
        ThreePoint(station=0.5, span=0.3, force=50.0, value=mm * MILLIMETRE)
    assert "unit" in caught.value.mend


def test_clamp_and_trims_together_leave_three_hundred_millimetres() -> None:
    cut = trimmed(REFERENCE, tip=0.2, butt=0.1)
    left = cut.length - 0.3
    mounted(cut, Mount(clamp=left - 1e-6))
    with pytest.raises(InputError, match="more than 300 mm must be free"):
        mounted(cut, Mount(clamp=left))


@pytest.mark.parametrize("station", [0.1499, REFERENCE.length - 0.1499])
def test_a_span_that_reaches_beyond_either_end_is_refused(station: float) -> None:
    with pytest.raises(InputError, match="beyond the shaft"):
        three_point(REFERENCE, station, 0.3, 50.0)
    inside = min(max(station, 0.15), REFERENCE.length - 0.15)
    assert three_point(REFERENCE, inside, 0.3, 50.0) > 0.0


def test_clean_readings_settle_within_eight_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """The other steps up to two dozen are for a wrong reading, which makes them overshoot."""
    monkeypatch.setattr(fit, "MOST_STEPS", 8)
    clean = [*three_points(PLAIN), *swings(PLAIN), *weighed(PLAIN), torque(PLAIN)]
    for seed in (1, 2, 3):
        assert measure(LENGTH, noisy(clean, np.random.default_rng(seed))).doubts == ()


@pytest.mark.parametrize("player", [QUICK_LATE, SMOOTH_EARLY], ids=["late", "steady"])
@pytest.mark.parametrize(
    "offsets", [{"toe": 0.09}, {"toe": 0.0, "back": 0.09}], ids=["droop alone", "bend alone"]
)
def test_a_tip_that_is_bent_too_far_in_either_plane_is_refused(
    player: Player, offsets: dict[str, float]
) -> None:
    """An offset to the toe bends it down, one to the back forwards; small slopes end there."""
    head = replace(REFERENCE_SWUNG_HEAD, **offsets)
    with pytest.raises(ConvergenceError, match=r"bent by 0\.\d\d rad at impact.* end at 0\.25"):
        swing(swing_basis(beam_shapes(profile_of("reference"), head), head), player)
    half = replace(head, toe=0.5 * head.toe, back=0.5 * head.back)
    made = swing(swing_basis(beam_shapes(profile_of("reference"), half), half), player)
    assert max(abs(made.bend_loft), abs(made.droop_angle)) < 0.25
    down = abs(made.droop_angle) > abs(made.bend_loft)
    assert down == (offsets["toe"] > 0.0)
