"""Parts of a build and how they refuse what cannot be."""

from dataclasses import replace

import numpy as np
import pytest

from bench_shafts import even_shaft
from builds import DRIVER, club_at
from loftwright.constants import GRAM, INCH
from loftwright.errors import InputError
from loftwright.physics.build.club import (
    assembled,
    check_club,
    cuts_for,
    head_reach,
    kept_length,
    longest,
)
from loftwright.physics.build.parts import (
    ButtWeight,
    FittedGrip,
    RawShaft,
    SeatedHead,
    SmallPart,
    Tape,
)
from loftwright.physics.build.rods import Rod, rod_from_tip, straight_rod


def test_a_rod_of_a_measured_shaft_counts_from_its_tip() -> None:
    profile = even_shaft()
    rod = rod_from_tip(profile)
    assert rod.length == pytest.approx(profile.length)
    assert rod.whole.mass == pytest.approx(profile.mass)
    assert rod.length - rod.whole.balance == pytest.approx(profile.balance)


def test_a_stretch_without_weight_balances_in_its_middle() -> None:
    rod = Rod(stations=np.array([0.0, 1.0]), density=np.array([0.0, 0.0]))
    stretch = rod.between(0.2, 0.6)
    assert (stretch.mass, stretch.balance, stretch.inertia) == (0.0, 0.4, 0.0)


@pytest.mark.parametrize(
    ("stations", "density", "place"),
    [
        ([0.0], [0.1], "stations"),
        ([0.0, 1.0], [0.1], "stations"),
        ([0.1, 1.0], [0.1, 0.1], "stations"),
        ([0.0, 1.0, 1.0], [0.1, 0.1, 0.1], "stations"),
        ([0.0, 1.0], [0.1, -0.1], "density"),
        ([0.0, float("nan")], [0.1, 0.1], "stations"),
    ],
)
def test_a_rod_that_cannot_be_is_refused(
    stations: list[float], density: list[float], place: str
) -> None:
    with pytest.raises(InputError) as caught:
        Rod(stations=np.array(stations), density=np.array(density))
    assert caught.value.place == place


@pytest.mark.parametrize("balance", [15.0, 31.0])
def test_a_shaft_balanced_outside_its_middle_third_is_refused(balance: float) -> None:
    with pytest.raises(InputError, match="does not balance"):
        straight_rod(62.0 * GRAM, 46.0 * INCH, balance * INCH, "shaft")


def test_a_stretch_beyond_the_end_is_refused() -> None:
    with pytest.raises(InputError, match="not within"):
        DRIVER.shaft.rod.between(0.0, 2.0)


@pytest.mark.parametrize("length", [0.0, float("nan")])
def test_a_part_without_a_length_is_refused(length: float) -> None:
    with pytest.raises(InputError, match="length"):
        straight_rod(0.05, length, 0.1)


def test_a_mass_in_the_wrong_unit_is_named_as_one() -> None:
    with pytest.raises(InputError, match="ounces or kilograms"):
        replace(DRIVER.head, mass=195.0)


@pytest.mark.parametrize("part", ["head", "grip"])
def test_a_part_that_was_not_weighed_is_not_guessed(part: str) -> None:
    with pytest.raises(InputError, match="Weigh it"):
        replace(getattr(DRIVER, part), mass=0.0)


@pytest.mark.parametrize(
    "change",
    [{"reach": 0.6}, {"to_plane": 1.75}, {"toe": float("nan")}, {"inertia": -1.0}],
)
def test_a_head_with_impossible_places_is_refused(change: dict[str, float]) -> None:
    with pytest.raises(InputError):
        replace(DRIVER.head, **change)


def test_a_tip_trim_that_leaves_no_shaft_is_refused() -> None:
    with pytest.raises(InputError, match="tip trim"):
        RawShaft(rod=DRIVER.shaft.rod, tip_trim=40.0 * INCH)


def test_a_thick_cap_tape_of_no_length_and_a_nameless_part_are_refused() -> None:
    with pytest.raises(InputError, match="cap"):
        FittedGrip(mass=0.05, length=0.27, balance=0.12, cap=0.05)
    with pytest.raises(InputError, match="tape"):
        Tape(mass=0.001, length=0.0)
    with pytest.raises(InputError, match="name"):
        SmallPart(name=" ", mass=0.001, reach=0.0)
    with pytest.raises(InputError, match="counterweight"):
        ButtWeight(below_cap=0.5)


@pytest.mark.parametrize("name", ["grip", "screw"])
def test_two_parts_of_one_name_are_refused(name: str) -> None:
    again = SmallPart(name=name, mass=0.001, reach=0.0)
    with pytest.raises(InputError, match="two parts are called"):
        replace(DRIVER, small=(*DRIVER.small, again))


def test_a_shaft_that_is_too_short_says_by_how_much() -> None:
    with pytest.raises(InputError, match=r"too short by 25\.4 mm"):
        cuts_for(DRIVER, DRIVER.shaft.rod.length + 1.0 * INCH)


def test_a_club_of_next_to_no_shaft_is_refused() -> None:
    with pytest.raises(InputError, match="too little"):
        cuts_for(DRIVER, 0.2)


def test_a_tip_trim_comes_off_the_tip_and_the_rest_off_the_butt() -> None:
    trimmed = replace(DRIVER, shaft=replace(DRIVER.shaft, tip_trim=1.0 * INCH))
    cuts = cuts_for(trimmed, kept_length(trimmed, 45.0 * INCH))
    assert cuts.butt_cut / INCH == pytest.approx(1.875)
    assert cuts.tip_piece.mass / GRAM == pytest.approx(1.26184, abs=5e-6)
    assert longest(trimmed) == pytest.approx(longest(DRIVER) - 1.0 * INCH)


def test_a_driver_passes_and_a_light_one_is_asked_for_its_units() -> None:
    check_club(club_at(45.0 * INCH))
    light = replace(DRIVER, head=replace(DRIVER.head, mass=100.0 * GRAM))
    with pytest.raises(InputError, match="units of the parts"):
        check_club(club_at(45.0 * INCH, light))


def test_a_dry_fit_without_grip_counts_from_the_shafts_own_top() -> None:
    kept = kept_length(DRIVER, 45.5 * INCH)
    without = frozenset({"grip", "tape", "epoxy"})
    parts = [part for part in assembled(DRIVER, kept).parts if part.name not in without]
    mass = sum(part.mass for part in parts)
    balance = sum(part.mass * part.along for part in parts) / mass - DRIVER.grip.cap
    found = head_reach(DRIVER, kept, mass, balance, without)
    assert found == pytest.approx(DRIVER.head.reach)


def test_a_dry_fit_that_does_not_weigh_its_parts_is_refused() -> None:
    club = club_at(45.5 * INCH)
    with pytest.raises(InputError, match="dry fit weighs"):
        head_reach(DRIVER, kept_length(DRIVER, 45.5 * INCH), club.mass + 0.003, club.balance)


def test_a_heads_mass_that_is_no_number_is_refused() -> None:
    with pytest.raises(InputError):
        SeatedHead(mass=float("nan"), reach=0.0, to_plane=0.04)
