"""What readings say of a frequency, a torque and the sections, with all that they left open."""

import numpy as np
import pytest

from bench_readings import LENGTH, PLAIN, noisy, swing, three_points, torque, weighed
from bench_shafts import FIVE_INCHES, WEIGHT
from loftwright.constants import CYCLE_PER_MINUTE, FOOT_POUND
from loftwright.domain.bench_figures import USUAL, SetUp
from loftwright.domain.read_figures import read_figures
from loftwright.domain.sections import Section
from loftwright.physics.bench.measure import measure
from loftwright.physics.bench.readings import Reading
from loftwright.physics.shaft.deflection import twist
from loftwright.physics.shaft.frequency import frequency

ACROSS = noisy(three_points(PLAIN), np.random.default_rng(1))
ALL: list[Reading] = [*ACROSS, *weighed(PLAIN), torque(PLAIN)]


def test_the_figures_hold_the_truth_within_their_spread() -> None:
    found = read_figures(measure(LENGTH, ALL))
    assert found.frequency is not None
    assert found.torque is not None
    assert found.mass is not None
    assert found.balance is not None
    true = frequency(PLAIN, FIVE_INCHES, WEIGHT)
    turned = twist(PLAIN, USUAL.clamp, LENGTH - USUAL.reach, FOOT_POUND)
    for estimate, truth in (
        (found.frequency, true),
        (found.torque, turned),
        (found.mass, PLAIN.mass),
        (found.balance, PLAIN.balance),
    ):
        assert abs(estimate.value - truth) < 3.0 * estimate.spread
    assert found.frequency.spread < 3.0 * CYCLE_PER_MINUTE
    assert found.length == LENGTH


def test_a_frequency_that_was_read_is_as_sure_as_its_reading() -> None:
    guessed = read_figures(measure(LENGTH, ALL)).frequency
    read = read_figures(measure(LENGTH, [*ALL, swing(PLAIN)])).frequency
    assert guessed is not None
    assert read is not None
    assert read.spread < 0.6 * guessed.spread
    assert read.spread / read.value < 0.005


def test_nothing_is_told_that_was_not_read() -> None:
    bent = read_figures(measure(LENGTH, ACROSS))
    assert (bent.frequency, bent.torque, bent.mass, bent.balance) == (None, None, None, None)
    swung = read_figures(measure(LENGTH, [*ACROSS, swing(PLAIN)]))
    assert swung.frequency is not None
    assert swung.mass is None
    part = read_figures(measure(LENGTH, ALL), whole=False)
    assert (part.frequency, part.torque, part.mass, part.balance) == (None, None, None, None)
    assert Section.BUTT in part.bending


def test_sections_that_were_not_read_have_no_mean() -> None:
    assert read_figures(measure(LENGTH, [swing(PLAIN)])).bending == {}
    found = read_figures(measure(LENGTH, ALL)).bending
    middle = found[Section.UPPER_MIDDLE]
    inside = (PLAIN.stations >= 0.4) & (PLAIN.stations <= 0.7)
    assert PLAIN.bending[inside].min() < middle.value < PLAIN.bending[inside].max()
    assert 0.005 < middle.spread / middle.value < 0.03


def test_another_set_up_swings_otherwise() -> None:
    found = measure(LENGTH, ALL)
    usual, light = read_figures(found).frequency, read_figures(found, SetUp(weight=0.1)).frequency
    assert usual is not None
    assert light is not None
    assert light.value == pytest.approx(usual.value * (0.205 / 0.1) ** 0.5, rel=0.05)
