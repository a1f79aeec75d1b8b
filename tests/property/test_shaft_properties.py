"""What must hold for every shaft, in the clamp and on its supports."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench_shafts import WEIGHT
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import cantilever, three_point, tip_slope, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.many import screen
from loftwright.physics.shaft.mount import End, Mount
from loftwright.physics.shaft.profile import Profile, stiffened, trimmed

STATIONS = 9


@st.composite
def shafts(draw: st.DrawFn) -> Profile:
    """Draw a shaft that tapers, with waves that no maker would dare."""
    length = draw(st.floats(0.95, 1.2))
    waves = draw(st.lists(st.floats(0.75, 1.35), min_size=2 * STATIONS, max_size=2 * STATIONS))
    along = np.linspace(0.0, 1.0, STATIONS)
    taper = 75.0 * (22.0 / 75.0) ** along
    return Profile(
        stations=along * length,
        bending=taper * waves[:STATIONS],
        torsion=0.45 * taper * waves[STATIONS:],
        line_density=np.full(STATIONS, draw(st.floats(0.040, 0.075))),
    )


clamps = st.floats(0.05, 0.25)
ends = st.sampled_from(End)


@settings(max_examples=40, deadline=None)
@given(shafts(), clamps, ends, st.floats(0.7, 1.4))
def test_frequency_goes_with_the_root_of_stiffness(
    shaft: Profile, clamp: float, held: End, factor: float
) -> None:
    mount = Mount(clamp=clamp, held=held)
    base = frequency(shaft, mount, WEIGHT)
    assert frequency(stiffened(shaft, factor), mount, WEIGHT) == pytest.approx(
        base * sqrt(factor), rel=1e-9
    )


@settings(max_examples=40, deadline=None)
@given(shafts(), clamps, ends, st.integers(0, STATIONS - 1))
def test_stiffer_anywhere_is_nowhere_softer(
    shaft: Profile, clamp: float, held: End, place: int
) -> None:
    """Rayleigh: no reading on the bench tells a shaft softer for being stiffer somewhere."""
    mount = Mount(clamp=clamp, held=held)
    firmer = stiffened(shaft, 1.0 + 0.1 * (np.arange(STATIONS) == place))
    assert frequency(firmer, mount, WEIGHT) >= frequency(shaft, mount, WEIGHT) * (1.0 - 1e-9)
    assert tip_slope(firmer, mount) <= tip_slope(shaft, mount) * (1.0 + 1e-12)
    middle = shaft.length / 2.0
    assert three_point(firmer, middle, 0.3, 50.0) <= three_point(shaft, middle, 0.3, 50.0) * (
        1.0 + 1e-12
    )


@settings(max_examples=40, deadline=None)
@given(shafts(), clamps, st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_a_shorter_shaft_swings_faster_and_twists_less(
    shaft: Profile, clamp: float, tip: float, butt: float
) -> None:
    cut = trimmed(shaft, tip=tip * MILLIMETRE, butt=butt * MILLIMETRE)
    mount = Mount(clamp=clamp)
    assert cut.mass <= shaft.mass * (1.0 + 1e-12)
    if butt == 0.0:
        assert frequency(cut, mount, WEIGHT) >= frequency(shaft, mount, WEIGHT) * (1.0 - 1e-6)
        assert twist(cut, clamp, cut.length, 1.0) <= twist(shaft, clamp, shaft.length, 1.0)


@settings(max_examples=40, deadline=None)
@given(shafts(), clamps, st.floats(1.0, 80.0))
def test_more_on_the_end_swings_slower(shaft: Profile, clamp: float, grams: float) -> None:
    mount = Mount(clamp=clamp)
    heavier = TipBody(mass=WEIGHT.mass + grams * GRAM)
    further = TipBody(mass=WEIGHT.mass, reach=grams * MILLIMETRE)
    base = frequency(shaft, mount, WEIGHT)
    assert frequency(shaft, mount, heavier) < base
    assert frequency(shaft, mount, further) < base


@settings(max_examples=40, deadline=None)
@given(shafts(), clamps, ends, st.floats(0.05, 0.95), st.floats(0.05, 0.95))
def test_load_and_gauge_may_change_places_on_any_shaft(
    shaft: Profile, clamp: float, held: End, first: float, second: float
) -> None:
    mount = Mount(clamp=clamp, held=held)
    free = shaft.length - clamp
    start = clamp if held is End.BUTT else 0.0
    at, to = start + first * free, start + second * free
    assert cantilever(shaft, mount, 5.0, at, to) == pytest.approx(
        cantilever(shaft, mount, 5.0, to, at), rel=1e-11
    )


@settings(max_examples=15, deadline=None)
@given(st.lists(shafts(), min_size=1, max_size=5), clamps)
def test_any_rack_is_read_as_its_shafts_are(rack: list[Profile], clamp: float) -> None:
    mount = Mount(clamp=clamp)
    found = screen(rack, mount, WEIGHT, 0.0)
    for shaft, read in zip(rack, found.frequencies, strict=True):
        assert read == pytest.approx(frequency(shaft, mount, WEIGHT), rel=1e-8)
