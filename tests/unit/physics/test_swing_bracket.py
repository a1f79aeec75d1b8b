"""What another shaft changes: differences only, and scatter with the same swings."""

from dataclasses import replace
from math import degrees
from pathlib import Path

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing import swings
from loftwright.physics.shaft_swing.bracket import (
    adapted,
    brackets,
    change,
    scatter_ratio,
)
from loftwright.physics.shaft_swing.players import QUICK_LATE, SMOOTH_EARLY
from loftwright.physics.shaft_swing.scatter import swing_to_swing
from loftwright.physics.shaft_swing.swings import swing
from swung_shafts import shaft


def test_the_own_shaft_changes_nothing() -> None:
    found = adapted(shaft(), shaft(), SMOOTH_EARLY)
    assert degrees(found.bend_loft) == pytest.approx(0.0, abs=1e-4)
    assert found.head_speed == pytest.approx(0.0, abs=1e-4)


def test_each_shaft_of_several_is_that_shaft_alone() -> None:
    both = brackets([shaft("t"), shaft("a")], shaft(), QUICK_LATE)
    assert both == tuple(brackets([shaft(case)], shaft(), QUICK_LATE)[0] for case in ("t", "a"))


def test_a_shaft_that_cannot_be_swung_is_named_by_its_number() -> None:
    limber = replace(shaft(), frequencies=0.3 * shaft().frequencies)
    with pytest.raises(ConvergenceError, match=r"^shaft 2 of 2: "):
        brackets([shaft("t"), limber], shaft(), QUICK_LATE)


def test_a_change_is_the_other_less_the_own() -> None:
    other, own = swing(shaft("t"), QUICK_LATE), swing(shaft(), QUICK_LATE)
    forth, back = change(other, own), change(own, other)
    assert forth.head_speed == other.head_speed - own.head_speed == -back.head_speed
    assert forth.delivered_loft == pytest.approx(other.delivered_loft - own.delivered_loft)
    assert forth.attack == other.attack_above_ground - own.attack_above_ground


def test_the_middle_lies_between_both() -> None:
    found = brackets([shaft("a")], shaft(), QUICK_LATE)[0]
    ends = sorted((found.held_torques.delivered_loft, found.held_motion.delivered_loft))
    assert ends[0] < found.delivered_loft < ends[1]
    assert found.delivered_loft == pytest.approx(sum(ends) / 2.0)
    droops = found.held_torques.droop_angle + found.held_motion.droop_angle
    assert found.droop_angle == pytest.approx(droops / 2.0)


def test_swings_without_differences_are_the_swing_itself() -> None:
    same = swing_to_swing(shaft(), QUICK_LATE, np.zeros((2, 5)))
    own = swing(shaft(), QUICK_LATE)
    assert same.tolist() == [[own.delivered_loft, own.head_speed]] * 2


def test_a_shaft_scatters_like_itself() -> None:
    draws = np.random.default_rng(1).normal(size=(5, 5))
    assert scatter_ratio(shaft(), shaft(), QUICK_LATE, draws) == 1.0


def test_a_softer_shaft_scatters_more_for_a_quick_late_player() -> None:
    draws = np.random.default_rng(1).normal(size=(12, 5))
    assert scatter_ratio(shaft("a"), shaft(), QUICK_LATE, draws) > 1.1


@pytest.mark.parametrize("draws", [np.zeros((1, 5)), np.zeros((3, 4)), np.zeros(5)])
def test_draws_that_are_no_swings_are_refused(draws: FloatArray) -> None:
    with pytest.raises(InputError):
        scatter_ratio(shaft(), shaft(), QUICK_LATE, draws)


SOURCE = Path(swings.__file__).resolve().parents[2]


def test_nothing_that_people_read_takes_a_bend_of_one_club_alone() -> None:
    """Only differences leave the computing floors: the model's own bend hangs on its damping."""
    floors = ("report", "services", "web", "cli", "intake", "store")
    files = [path for floor in floors for path in (SOURCE / floor).rglob("*.py")]
    assert len(files) > 100
    taken = ("bend_loft", "shaft_swing.struck", "shaft_swing.swings")
    found = [path.name for path in files if any(word in path.read_text("utf-8") for word in taken)]
    assert found == []
