"""A column that follows others more exactly than a device reads is doubted, and no other."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE
from loftwright.evidence.balls import Balls
from loftwright.evidence.column_doubts import (
    FEWEST_BALLS,
    calculated_columns,
    column_alarms,
)
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.truth_study import ABILITIES
from loftwright.training.world import World, simulate_fitting

FULL = World(device=DEVICES["full"])


def hit(world: World, ability: str, seed: int, count: int = 40) -> Balls:
    order = shuffled_blocks(world.clubs, count, np.random.default_rng(seed))
    return simulate_fitting(world, ability, seed).play(order)


@pytest.mark.parametrize("count", [FEWEST_BALLS, 20, 60])
@pytest.mark.parametrize("ability", ABILITIES)
def test_measured_columns_are_not_doubted(ability: str, count: int) -> None:
    """None in 500 simulated fittings of 12 to 60 balls; here 10 of each kind."""
    for seed in range(10):
        assert calculated_columns(hit(FULL, ability, seed, count)) == ()


@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize(
    ("disturbed", "column"), [("derived_speed", "head speed"), ("formula_spin", "spin")]
)
def test_a_calculated_column_is_named(disturbed: str, column: str, ability: str) -> None:
    """All of 500 simulated fittings of 12 balls and more; misread balls among them."""
    world = replace(FULL, **{disturbed: True})  # type: ignore[arg-type]
    for seed in range(5):
        (found,) = calculated_columns(hit(world, ability, seed, FEWEST_BALLS))
        assert found.column == column


def test_an_axis_and_a_face_that_follow_are_named() -> None:
    balls = hit(FULL, "mid", 3)
    launch, delivery = balls.launch.copy(), balls.delivery.copy()
    launch[:, 3] = 3.0 * launch[:, 4] + 1.0 * DEGREE
    delivery[:, 3] = 1.2 * launch[:, 4] - 0.2 * delivery[:, 2]
    found = calculated_columns(replace(balls, launch=launch, delivery=delivery))
    assert {(one.column, one.others) for one in found} >= {
        ("spin axis", "start direction"),
        ("face angle", "start direction and path"),
    }


def test_a_column_that_never_changes_is_no_formula() -> None:
    balls = hit(FULL, "mid", 3)
    launch = balls.launch.copy()
    launch[:, 2] = 260.0
    assert calculated_columns(replace(balls, launch=launch)) == ()


def test_missing_columns_and_few_balls_raise_no_doubt() -> None:
    assert calculated_columns(hit(World(device=DEVICES["ball-only"]), "mid", 1)) == ()
    few = hit(replace(FULL, derived_speed=True), "mid", 1, FEWEST_BALLS - 1)
    assert calculated_columns(few) == ()


def test_the_doubt_says_what_to_do() -> None:
    (alarm,) = column_alarms(hit(replace(FULL, derived_speed=True), "mid", 1))
    assert alarm.kind == "calculated_column"
    assert "head speed follows ball speed" in alarm.say
    assert "where the device's columns are listed" in alarm.say
