"""What the frequency of a shaft does when set-up, trims or stiffness change.

Self-consistent: sizes computed with an independent program for the same invented profile.
"""

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from bench_shafts import FIVE_INCHES, REFERENCE, SECTIONS, WEIGHT, cycles, section_firmer
from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Dressing, End, Mount, mounted, total_mass
from loftwright.physics.shaft.profile import stiffened, trimmed, uniform_mass_profile
from loftwright.physics.shaft.vibration import modes, ritz_basis

BASE = cycles(REFERENCE)


def test_the_reference_shaft_has_its_frequency() -> None:
    assert pytest.approx(258.3, abs=0.05) == BASE


@pytest.mark.parametrize(
    ("tip_inch", "butt_inch", "change"),
    [(0.5, 0.0, 5.6), (1.0, 0.0, 11.4), (2.0, 0.0, 23.6), (0.0, 1.0, 7.8)],
)
def test_trims_raise_the_frequency(tip_inch: float, butt_inch: float, change: float) -> None:
    cut = trimmed(REFERENCE, tip=tip_inch * INCH, butt=butt_inch * INCH)
    assert cycles(cut) - BASE == pytest.approx(change, abs=0.05)


def test_head_clamp_and_weight_of_the_shaft_move_the_frequency() -> None:
    heavier = uniform_mass_profile(
        REFERENCE.stations, REFERENCE.bending, REFERENCE.torsion, 72.0 * GRAM
    )
    assert cycles(REFERENCE, weight=TipBody(mass=215.0 * GRAM)) - BASE == pytest.approx(
        -5.8, abs=0.05
    )
    assert cycles(REFERENCE, Mount(clamp=132.0 * MILLIMETRE)) - BASE == pytest.approx(
        1.5, abs=0.05
    )
    assert cycles(heavier) - BASE == pytest.approx(-1.1, abs=0.05)


@pytest.mark.parametrize(
    ("section", "change"),
    [("butt", 6.4), ("upper middle", 4.2), ("lower middle", 1.4), ("tip", 0.2)],
)
def test_the_frequency_hardly_sees_the_tip(section: str, change: float) -> None:
    """To a unit of the last digit: the other program's elements do not end with the sections."""
    assert cycles(section_firmer(REFERENCE, section)) - BASE == pytest.approx(change, abs=0.1)


@pytest.mark.parametrize("factor", [0.5, 0.85, 1.3])
def test_the_frequency_goes_with_the_root_of_stiffness(factor: float) -> None:
    assert cycles(stiffened(REFERENCE, factor)) == pytest.approx(BASE * sqrt(factor), rel=1e-10)


def test_held_by_the_tip_the_frequency_sees_the_tip() -> None:
    by_tip = Mount(clamp=127.0 * MILLIMETRE, held=End.TIP)
    base = cycles(REFERENCE, by_tip)
    seen = {name: cycles(section_firmer(REFERENCE, name), by_tip) - base for name in SECTIONS}
    assert seen["tip"] > 1.0
    assert seen["lower middle"] > seen["upper middle"] > seen["butt"] > 0.0


def test_an_even_shaft_swings_alike_by_either_end() -> None:
    even = uniform_mass_profile((0.0, 1.1), (45.0, 45.0), (20.0, 20.0), 60.0 * GRAM)
    assert cycles(even, replace(FIVE_INCHES, held=End.TIP)) == pytest.approx(
        cycles(even), rel=1e-10
    )


def test_a_grip_within_the_clamp_changes_nothing_and_beyond_it_little() -> None:
    short = Dressing(grip_mass=50.0 * GRAM, grip_length=120.0 * MILLIMETRE)
    long = Dressing(grip_mass=50.0 * GRAM, grip_length=270.0 * MILLIMETRE)
    assert cycles(REFERENCE, replace(FIVE_INCHES, dressing=short)) == pytest.approx(BASE, rel=1e-9)
    assert -0.2 < cycles(REFERENCE, replace(FIVE_INCHES, dressing=long)) - BASE < 0.0


def test_the_whole_grip_swings_when_the_tip_is_held() -> None:
    grip = Dressing(grip_mass=50.0 * GRAM, grip_length=270.0 * MILLIMETRE)
    by_tip = Mount(clamp=100.0 * MILLIMETRE, held=End.TIP)
    bare = mounted(REFERENCE, by_tip, WEIGHT)
    dressed = mounted(REFERENCE, replace(by_tip, dressing=grip), WEIGHT)
    assert total_mass(dressed) - total_mass(bare) == pytest.approx(50.0 * GRAM, rel=1e-9)
    assert cycles(REFERENCE, replace(by_tip, dressing=grip)) < cycles(REFERENCE, by_tip) - 10.0


def test_a_sleeve_makes_the_end_rigid_and_carries_its_weight() -> None:
    """Nothing of the mass is lost; a rigid end is firmer, its weight softer in turn."""
    sleeve = Dressing(
        sleeve_mass=6.0 * GRAM, sleeve_length=38.0 * MILLIMETRE, sleeve_balance=19.0 * MILLIMETRE
    )
    held = mounted(REFERENCE, replace(FIVE_INCHES, dressing=sleeve), WEIGHT)
    free = 62.0 * GRAM * (1.143 - 0.127) / 1.143
    assert total_mass(held) == pytest.approx(free + 211.0 * GRAM, rel=1e-9)
    assert held.beam.length == pytest.approx(1.143 - 0.127 - 0.038)
    rigid_only = Dressing(sleeve_length=38.0 * MILLIMETRE)
    assert cycles(REFERENCE, replace(FIVE_INCHES, dressing=rigid_only)) > BASE
    assert cycles(REFERENCE, replace(FIVE_INCHES, dressing=sleeve)) < cycles(
        REFERENCE, replace(FIVE_INCHES, dressing=rigid_only)
    )


def test_a_step_in_stiffness_gets_a_node_of_its_own() -> None:
    """The exact frequency of a stepped beam needs no fine mesh once the step is a node."""
    stations = (0.0, 0.6163, 0.6164, 1.143)
    stepped = uniform_mass_profile(
        stations, (70.0, 70.0, 30.0, 30.0), (30.0, 30.0, 12.0, 12.0), 62.0 * GRAM
    )
    held = mounted(stepped, FIVE_INCHES, WEIGHT)
    assert np.abs(held.beam.nodes - 0.48935).min() < 1e-9
    fine = mounted(stepped, FIVE_INCHES, WEIGHT, elements=400)
    coarse_rate = modes(held.beam, held.body).rates[0]
    assert coarse_rate == pytest.approx(modes(fine.beam, fine.body).rates[0], rel=1e-8)


def test_two_steps_near_one_node_both_get_nodes() -> None:
    places = (0.6163, 0.6263)
    stations = (0.0, places[0], places[0] + 1e-4, places[1], places[1] + 1e-4, 1.143)
    stepped = uniform_mass_profile(
        stations, (70.0, 70.0, 50.0, 50.0, 30.0, 30.0), (20.0,) * 6, 62.0 * GRAM
    )
    nodes = mounted(stepped, FIVE_INCHES, WEIGHT).beam.nodes + 0.127
    for place in places:
        assert np.abs(nodes - place - 5e-5).min() < 1e-9
    assert (np.diff(nodes) > 0.0).all()


def test_the_basis_of_a_swing_has_its_frequencies() -> None:
    """Hands hold 0.18 m, the head begins 35 mm from the tip; the mass counts between them."""
    sleeve = Dressing(sleeve_length=35.0 * MILLIMETRE)
    held = mounted(REFERENCE, Mount(clamp=0.18, dressing=sleeve), TipBody())
    head = TipBody(mass=0.2, inertia=3.2e-4, reach=0.042)
    basis = ritz_basis(held.beam, head)
    assert basis.rates / (2.0 * np.pi) == pytest.approx([4.594, 63.7, 169.6], rel=4e-4)
    assert basis.rates[0] == pytest.approx(modes(held.beam, head).rates[0], rel=1e-9)


def test_a_weight_in_grams_is_called_a_slip_of_units() -> None:
    with pytest.raises(InputError, match="g instead of kg"):
        frequency(REFERENCE, FIVE_INCHES, TipBody(mass=205.0))


def test_a_frequency_no_shaft_has_is_refused() -> None:
    even = uniform_mass_profile((0.0, 1.4), (5.0, 5.0), (3.0, 3.0), 60.0 * GRAM)
    with pytest.raises(InputError, match="outside 100 to 2500 cpm"):
        frequency(even, Mount(clamp=0.05), TipBody(mass=0.5))
