"""What parts need, what stands in the way, and what they can make instead."""

from dataclasses import replace

import pytest

from builds import DRIVER, TOLERANCES, club_at, points
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.build.club import longest
from loftwright.physics.build.solve import Free, Obstacle, Quantity, Target, amounts, solve
from loftwright.physics.build.swingweight import calibrated_scale
from loftwright.physics.build.trades import Trade, nearest_trades

INERTIA = KILOGRAM_SQUARE_CENTIMETRE


def test_one_target_sets_the_head_alone() -> None:
    answer = solve(DRIVER, Target(length=45.0 * INCH, swingweight=33.0))
    assert answer.feasible
    assert answer.butt_added == 0.0
    assert answer.club is not None
    assert points(answer.club) == pytest.approx(33.0)


def test_inertia_sets_the_head_and_the_counterweight_the_swingweight() -> None:
    target = Target(length=45.0 * INCH, swingweight=32.0, inertia=2880.0 * INERTIA)
    answer = solve(DRIVER, target)
    alone = solve(DRIVER, Target(length=45.0 * INCH, inertia=2880.0 * INERTIA))
    assert answer.club is not None
    assert answer.feasible
    assert points(answer.club) == pytest.approx(32.0)
    assert answer.club.inertia / INERTIA == pytest.approx(2880.0)
    assert answer.head_added == pytest.approx(alone.head_added, rel=1e-2)


def test_mass_and_inertia_are_met_together() -> None:
    target = Target(length=45.0 * INCH, mass=325.0 * GRAM, inertia=2880.0 * INERTIA)
    answer = solve(DRIVER, target)
    assert answer.club is not None
    assert answer.club.mass / GRAM == pytest.approx(325.0)
    assert answer.club.inertia / INERTIA == pytest.approx(2880.0)


def test_three_masses_meet_three_targets() -> None:
    base = club_at(45.0 * INCH)
    head = next(part for part in base.parts if part.name == "head")
    places = (
        Free(along=head.along, across=head.across),
        Free(along=0.875 * INCH),
        Free(along=30.0 * INCH),
    )
    wanted = {
        Quantity.SWINGWEIGHT: base.moment_about(14.0 * INCH) * 1.02,
        Quantity.MASS: base.mass + 8.0 * GRAM,
        Quantity.INERTIA: base.inertia * 1.01,
    }
    masses = amounts(base, wanted, places)
    assert base.mass + masses.sum() == pytest.approx(wanted[Quantity.MASS])
    inertia = sum(
        mass * (place.along**2 + place.across**2)
        for mass, place in zip(masses, places, strict=True)
    )
    assert base.inertia + inertia == pytest.approx(wanted[Quantity.INERTIA])


def test_targets_that_say_the_same_twice_are_refused() -> None:
    base = club_at(45.0 * INCH)
    wanted = {Quantity.MASS: 0.325, Quantity.SWINGWEIGHT: 0.155}
    same = Free(along=44.0 * INCH)
    with pytest.raises(ConvergenceError, match="cannot be told apart"):
        amounts(base, wanted, (same, same))
    with pytest.raises(InputError, match="2 targets need 2 places"):
        amounts(base, wanted, (same,))


def test_a_shaft_that_is_too_short_gives_its_longest_club_instead() -> None:
    answer = solve(DRIVER, Target(length=48.5 * INCH, swingweight=44.0))
    assert not answer.feasible
    assert answer.club is None
    (reason,) = answer.reasons
    assert reason.obstacle is Obstacle.SHAFT_SHORT
    assert reason.amount == pytest.approx(48.5 * INCH - longest(DRIVER))
    trades = nearest_trades(DRIVER, answer, TOLERANCES)
    assert trades
    assert all(one.club.length <= longest(DRIVER) + 1e-9 for one in trades)


def test_more_than_there_is_room_for_is_said_with_how_much() -> None:
    full = replace(DRIVER, head=replace(DRIVER.head, most_added=4.0 * GRAM))
    answer = solve(full, Target(length=45.0 * INCH, swingweight=33.0, mass=325.0 * GRAM))
    (reason,) = answer.reasons
    assert reason.obstacle is Obstacle.HEAD_FULL
    assert reason.amount / GRAM == pytest.approx(2.8655, abs=5e-5)
    little = replace(DRIVER, butt_weight=replace(DRIVER.butt_weight, most=2.0 * GRAM))
    answer = solve(little, Target(length=45.0 * INCH, swingweight=33.0, mass=325.0 * GRAM))
    (reason,) = answer.reasons
    assert reason.obstacle is Obstacle.BUTT_FULL
    assert reason.amount / GRAM == pytest.approx(1.2465, abs=5e-5)


def test_a_lighter_head_by_what_is_said_makes_it_possible() -> None:
    target = Target(length=46.0 * INCH, swingweight=30.0, mass=312.0 * GRAM)
    answer = solve(DRIVER, target)
    lighter = DRIVER.head.mass - answer.reasons[0].amount
    better = replace(DRIVER, head=replace(DRIVER.head, mass=lighter))
    solved = solve(better, target)
    assert solved.feasible
    assert solved.head_added == pytest.approx(0.0, abs=1e-9)


def test_a_lighter_grip_by_what_is_said_makes_it_possible() -> None:
    target = Target(length=45.0 * INCH, swingweight=38.0, mass=318.0 * GRAM)
    answer = solve(DRIVER, target)
    grip = answer.reasons[0].grip
    assert grip is not None
    lighter = replace(DRIVER, grip=replace(DRIVER.grip, mass=DRIVER.grip.mass - grip))
    solved = solve(lighter, target)
    assert solved.feasible
    assert solved.butt_added == pytest.approx(0.0, abs=1e-8)


def test_each_trade_says_what_it_holds() -> None:
    answer = solve(DRIVER, Target(length=45.0 * INCH, swingweight=38.0, mass=318.0 * GRAM))
    trades = {(one.trade, one.held): one for one in nearest_trades(DRIVER, answer, TOLERANCES)}
    swing = trades[Trade.HELD, Quantity.SWINGWEIGHT]
    assert points(swing.club) == pytest.approx(38.0)
    assert swing.club.mass / GRAM == pytest.approx(328.636, abs=5e-4)
    mass = trades[Trade.HELD, Quantity.MASS]
    assert mass.club.mass / GRAM == pytest.approx(318.0)
    assert points(mass.club) < 38.0
    length = trades[Trade.LENGTH, None]
    assert length.club.length / INCH == pytest.approx(46.625)
    assert points(length.club) == pytest.approx(38.0)
    assert length.club.mass / GRAM == pytest.approx(318.0)


def test_a_club_that_can_be_built_has_no_trades() -> None:
    answer = solve(DRIVER, Target(length=45.0 * INCH, swingweight=33.0))
    assert nearest_trades(DRIVER, answer, TOLERANCES) == ()


def test_a_shops_own_scale_moves_the_head_mass() -> None:
    base = club_at(45.0 * INCH)
    own = calibrated_scale(base.mass, base.balance, points(base) - 1.0)
    usual = solve(DRIVER, Target(length=45.0 * INCH, swingweight=33.0))
    by_own = solve(DRIVER, Target(length=45.0 * INCH, swingweight=33.0, scale=own))
    more = (by_own.head_added or 0.0) - (usual.head_added or 0.0)
    assert more / GRAM == pytest.approx(1.66, abs=0.01)


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"length": 45.0}, "length"),
        ({"length": 45.0 * INCH, "mass": 325.0}, "mass"),
        ({"length": 45.0 * INCH, "inertia": 2850.0}, "inertia"),
        ({"length": 45.0 * INCH, "swingweight": 71.0}, "swingweight"),
        ({"length": 45.0 * INCH}, "swingweight, mass, inertia"),
        (
            {"length": 45.0 * INCH, "swingweight": 33.0, "mass": 0.325, "inertia": 0.285},
            "swingweight, mass, inertia",
        ),
    ],
)
def test_a_target_that_cannot_be_is_refused(change: dict[str, float], place: str) -> None:
    with pytest.raises(InputError) as caught:
        Target(**change)  # type: ignore[arg-type]
    assert caught.value.place == place
    assert caught.value.mend
