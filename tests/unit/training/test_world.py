"""A simulated fitting's balls are its own, whatever the order in which the clubs are hit."""

import numpy as np
import pytest

from loftwright.evidence.balls import Balls
from loftwright.training.chance import HANDOVER_SHIFT
from loftwright.training.device import DEVICES
from loftwright.training.scenarios import Scenario
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

FULL = World(device=DEVICES["full"])


def of_club(balls: Balls, club: int) -> np.ndarray:
    return np.asarray(balls.launch[balls.club == club])


def test_a_club_s_third_ball_is_the_same_in_every_order_but_for_the_warm_up() -> None:
    fitting = simulate_fitting(FULL, "mid", 7)
    apart = fitting.play(np.array([0, 0, 0, 1, 1, 1]))
    mixed = fitting.play(np.array([1, 0, 1, 0, 1, 0]))
    assert apart.launch[0] != pytest.approx(mixed.launch[1], rel=1e-9)
    late = np.full(30, 2)
    one = fitting.play(np.concatenate([late, [0, 0, 0, 1, 1, 1]]))
    other = fitting.play(np.concatenate([late, [1, 0, 1, 0, 1, 0]]))
    for club in (0, 1):
        # Thirty balls on, the warm-up is worth less than a twentieth of a mile an hour.
        assert of_club(one, club) == pytest.approx(of_club(other, club), rel=1e-3)


def test_two_plays_of_one_order_are_the_same() -> None:
    order = shuffled_blocks(6, 60, np.random.default_rng(1))
    first, second = (simulate_fitting(FULL, "low", 3).play(order) for _ in range(2))
    assert np.array_equal(first.launch, second.launch)
    assert np.array_equal(first.marks, second.marks, equal_nan=True)


def test_a_longer_play_begins_as_the_shorter_one() -> None:
    fitting = simulate_fitting(FULL, "high", 5)
    order = shuffled_blocks(6, 60, np.random.default_rng(2))
    assert np.array_equal(fitting.play(order[:20]).launch, fitting.play(order).launch[:20])


def test_with_the_own_club_best_its_true_total_is_the_longest() -> None:
    for seed in range(1, 6):
        fitting = simulate_fitting(World(device=DEVICES["full"], own_best=True), "mid", seed)
        assert int(np.argmax(fitting.truth.as_you_swing_it.total)) == 0


def test_equal_clubs_are_equal_in_truth() -> None:
    fitting = simulate_fitting(World(device=DEVICES["full"], no_difference=True), "mid", 1)
    assert np.ptp(fitting.truth.as_you_swing_it.total) == 0.0


def test_every_second_club_has_another_head() -> None:
    fitting = simulate_fitting(World(device=DEVICES["full"], two_heads=True), "mid", 1)
    assert [head is fitting.heads[0] for head in fitting.heads] == [True, False] * 3
    assert fitting.heads[1] is fitting.heads[3]


def test_a_hidden_shift_stays_until_the_club_changes() -> None:
    calm, shifted = (
        simulate_fitting(World(device=DEVICES["full"], handovers=size), "mid", 4)
        for size in (0.0, 1.0)
    )
    order = np.array([0, 0, 1, 1, 0])
    moved = (shifted.play(order).launch - calm.play(order).launch) / HANDOVER_SHIFT
    assert moved[0] == pytest.approx(moved[1])
    assert moved[2] == pytest.approx(moved[3])
    assert moved[0] != pytest.approx(moved[2])
    assert moved[0] != pytest.approx(moved[4])


def test_a_device_shows_what_it_has_and_nothing_else() -> None:
    order = np.array([0, 1, 2])
    bare = simulate_fitting(World(device=DEVICES["ball-only"]), "mid", 1).play(order)
    assert np.isnan(bare.delivery).all()
    assert np.isnan(bare.marks).all()
    assert np.isfinite(bare.launch).all()


def test_a_derived_head_speed_follows_ball_speed_exactly() -> None:
    fitting = simulate_fitting(World(device=DEVICES["full"], derived_speed=True), "mid", 1)
    balls = fitting.play(np.arange(6))
    assert np.ptp(balls.launch[:, 0] / balls.delivery[:, 0]) < 1e-12


def test_marks_of_unknown_order_are_shuffled_within_their_set_alone() -> None:
    order = np.repeat([0, 1, 0], 3)
    known, mixed = (
        simulate_fitting(World(device=DEVICES["full"], unordered_marks=size), "mid", 2).play(order)
        for size in (0, 3)
    )
    assert np.array_equal(known.launch, mixed.launch)
    assert (known.mark_set == -1).all()
    assert [len(set(mixed.mark_set[start : start + 3])) for start in (0, 3, 6)] == [1, 1, 1]
    assert len(set(mixed.mark_set)) == 3
    assert not np.array_equal(known.marks, mixed.marks, equal_nan=True)
    for start in (0, 3, 6):
        one, other = (balls.marks[start : start + 3, 0] for balls in (known, mixed))
        assert np.sort(one) == pytest.approx(np.sort(other), nan_ok=True)


def test_a_calculated_head_speed_that_is_left_out_changes_the_comparison_only_where_found() -> (
    None
):
    order = shuffled_blocks(6, 60, np.random.default_rng(3))
    for derived in (True, False):
        world = World(device=DEVICES["full"], derived_speed=derived)
        kept = Scenario(world=world).draw("mid", 5)
        left = Scenario(world=world, leaves_out=True).draw("mid", 5)
        balls = kept.play(order)
        same = np.array_equal(kept.compare(balls).value, left.compare(balls).value)
        assert same is not derived
