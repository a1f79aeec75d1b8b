"""The equations of a swing against positions alone, and the torques against their words."""

from math import exp, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing._matrices import Work, assemble, head_across, solve
from loftwright.physics.shaft_swing._steps import NEVER_STRUCK, swing_through
from loftwright.physics.shaft_swing.equations import (
    PlayerNumbers,
    face_roll,
    gravity,
    hub_torque,
    smooth_step,
    wrist_torque,
)
from loftwright.physics.shaft_swing.players import QUICK_LATE, Player
from loftwright.physics.shaft_swing.swings import IMPACT_LINE, swing
from swung_points import energies, mass_and_forces, positions
from swung_shafts import shaft

CLUB = shaft().numbers
PLAYER = QUICK_LATE.numbers
SIZE = 2 + 2 * len(CLUB.frequencies)
NO_GRIP = shaft().numbers.shapes[:0]
unhurried = settings(deadline=None, max_examples=60)

angles = st.floats(-3.0, 3.0)
bends = st.lists(st.floats(-0.04, 0.04), min_size=SIZE - 2, max_size=SIZE - 2)
bend_rates = st.lists(st.floats(-2.0, 2.0), min_size=SIZE - 2, max_size=SIZE - 2)
turns = st.floats(-40.0, 40.0)


def work() -> Work:
    n = len(CLUB.frequencies)
    return Work(np.zeros((SIZE, SIZE)), np.zeros(SIZE), np.zeros((3, SIZE)), np.zeros((2, n)))


def assembled(place: FloatArray, rate: FloatArray) -> tuple[FloatArray, FloatArray]:
    filled = work()
    assemble(place, rate, CLUB, PLAYER, filled)
    lower = np.tril(filled.mass)
    return lower + lower.T - np.diag(np.diag(lower)), filled.force


@unhurried
@given(angles, angles, bends, turns, turns, bend_rates)
def test_masses_and_forces_follow_from_positions_alone(
    arm: float, wrist: float, bend: list[float], turn: float, roll: float, rates: list[float]
) -> None:
    place, rate = np.array([arm, wrist, *bend]), np.array([turn, roll, *rates])
    mass, force = assembled(place, rate)
    expected_mass, expected_force = mass_and_forces(place, rate, CLUB, PLAYER)
    assert mass == pytest.approx(expected_mass, rel=1e-10, abs=1e-11)
    largest = float(np.max(np.abs(expected_force)))
    assert force == pytest.approx(expected_force, rel=1e-8, abs=1e-9 * largest)


@unhurried
@given(angles, angles, bends)
def test_the_head_is_in_the_middle_of_its_six_points(
    arm: float, wrist: float, bend: list[float]
) -> None:
    place = np.array([arm, wrist, *bend])
    middle = positions(place, CLUB, PLAYER)[-6:].mean(axis=0)
    assert head_across(place, CLUB, PLAYER) == pytest.approx(middle[0], abs=1e-12)


@unhurried
@given(angles, st.floats(-2.0, 1.0))
def test_slope_and_curvature_are_those_of_the_roll(arm: float, square: float) -> None:
    def angle(wrist: float) -> float:
        roll = face_roll(wrist, square)
        return float(np.arctan2(roll.sine, roll.cosine))

    h = 1e-4
    roll = face_roll(arm, square)
    assert roll.slope == pytest.approx((angle(arm + h) - angle(arm - h)) / (2 * h), abs=1e-7)
    bent = (angle(arm + h) - 2 * angle(arm) + angle(arm - h)) / h**2
    assert roll.curvature == pytest.approx(bent, abs=1e-6)


def test_the_face_is_square_where_it_is_said_to_be() -> None:
    assert face_roll(-0.3, -0.3)[:2] == (0.0, 1.0)
    assert face_roll(-1.8, -0.3).sine > 0.9


@given(angles)
def test_gravity_has_one_length_in_every_direction_of_the_club(angle: float) -> None:
    assert np.linalg.norm(gravity(angle)) == pytest.approx(9.80665)


def test_a_smooth_step_rises_between_its_ends_only() -> None:
    assert [smooth_step(u) for u in (-1.0, 0.0, 0.25, 0.5, 1.0, 2.0)] == [
        *(0.0, 0.0, 0.15625, 0.5, 1.0, 1.0)
    ]


def test_the_body_pulls_harder_with_time_and_less_on_a_fast_arm() -> None:
    assert hub_torque(0.0, 0.0, PLAYER) == 0.0
    assert hub_torque(PLAYER.hub_rise, 0.0, PLAYER) == pytest.approx(
        PLAYER.hub_torque * (1.0 - exp(-1.0))
    )
    assert hub_torque(9.0, 40.0, PLAYER) == pytest.approx(0.0)
    assert hub_torque(9.0, 20.0, PLAYER) == pytest.approx(PLAYER.hub_torque / 2.0)


@pytest.mark.parametrize(
    ("time", "wrist", "rate", "torque"),
    [
        (0.0, PLAYER.cock, 0.0, 0.0),
        (0.0, PLAYER.cock + 0.1, 0.0, -20.0),
        (0.0, PLAYER.cock + 2.0, 0.0, -80.0),
        (0.0, PLAYER.cock - 1.0, 0.0, 200.0),
        (0.0, PLAYER.cock, 4.0, -20.0),
        (0.5, -1.5, 0.0, PLAYER.wrist_torque),
        (0.5, -1.5, 10.0, PLAYER.wrist_torque - 1.0),
        (0.5, 0.0, 0.0, PLAYER.range_torque),
        (0.155 + 0.03, -1.5, 0.0, 0.5 * (-70.0 + PLAYER.wrist_torque)),
    ],
)
def test_the_wrists_hold_then_drive_to_the_end_of_their_range(
    time: float, wrist: float, rate: float, torque: float
) -> None:
    assert wrist_torque(time, wrist, rate, PLAYER) == pytest.approx(torque)


def test_a_matrix_is_solved_in_the_block_asked_for() -> None:
    random = np.random.default_rng(3)
    root = random.normal(size=(6, 6))
    mass, force = root @ root.T + np.eye(6), random.normal(size=6)
    for first in (0, 2):
        answer = np.full(6, 7.0)
        assert solve(np.tril(mass), force.copy(), first, answer)
        assert answer[first:] == pytest.approx(
            np.linalg.solve(mass[first:, first:], force[first:])
        )
        assert answer[:first].tolist() == [7.0] * first


@pytest.mark.parametrize("entry", [-1.0, 0.0, float("nan")])
def test_a_matrix_that_is_not_positive_is_not_solved(entry: float) -> None:
    mass = np.eye(4)
    mass[3, 3] = entry
    assert not solve(mass, np.ones(4), 0, np.zeros(4))


def limp(player: Player) -> PlayerNumbers:
    """Return a player whose body and wrists do nothing."""
    return player.numbers._replace(
        hub_torque=0.0,
        wrist_torque=0.0,
        range_torque=0.0,
        wrist_damping=0.0,
        cock_stiffness=0.0,
        cock_damping=0.0,
        cock_limit=0.0,
    )


def drift(step: float) -> float:
    """Return how much energy changes in half a second when nobody pulls, of all that moves."""
    player = limp(QUICK_LATE)._replace(start=-1.6, cock=-0.7)
    club = CLUB._replace(damping=0.0)
    steps = round(0.5 / step)
    record = np.zeros((steps + 1, 3 * SIZE))
    ended = swing_through(
        *(club, player, NO_GRIP, step, steps, 1e9, 0, np.zeros(2 * SIZE), record)
    )
    assert (ended.status, ended.steps) == (NEVER_STRUCK, steps + 1)
    parts = [energies(row[:SIZE], row[SIZE : 2 * SIZE], club, player) for row in record[::50]]
    moving = max(part[0] for part in parts)
    assert moving > 5.0
    return float(np.ptp([sum(part) for part in parts])) / moving


@pytest.mark.parametrize("step", [4e-4, 1e-4, 5e-5])
def test_nothing_is_won_or_lost_when_nobody_pulls(step: float) -> None:
    """Below 1e-7 at 0.1 ms was asked; it is below 1e-11, and at the usual step below 1e-8."""
    assert drift(step) < (1e-11 if step <= 1e-4 else 1e-8)


def test_what_is_lost_shrinks_as_the_fourth_order_method_does() -> None:
    """Runge and Kutta's method loses energy with the fifth power of the step."""
    order = np.log2(drift(4e-4) / drift(2e-4))
    assert order == pytest.approx(5.0, abs=0.3)


def test_the_loop_is_the_reference_solver_on_positions_alone() -> None:
    """Dormand and Prince's adaptive method of order eight, the equations from derivatives."""
    player, numbers = QUICK_LATE, PLAYER

    def change(time: float, state: FloatArray) -> FloatArray:
        place, rate = state[:SIZE], state[SIZE:]
        mass, force = mass_and_forces(place, rate, CLUB, numbers)
        force[0] += hub_torque(time, rate[0], numbers)
        force[1] += wrist_torque(time, place[1], rate[1], numbers)
        return np.concatenate([rate, np.linalg.solve(mass, force)])

    start = np.zeros(2 * SIZE)
    start[:2] = player.start, player.cock
    made = swing(shaft(), player, step=1e-4)
    solved = solve_ivp(change, (0.0, made.time), start, method="DOP853", rtol=1e-6, atol=1e-8).y[
        :, -1
    ]
    place = solved[:SIZE]
    across = positions(place, CLUB, numbers)[-6:].mean(axis=0)[0]
    assert across == pytest.approx(IMPACT_LINE, abs=2e-5)
    assert place[1] == pytest.approx(made.wrist_angle, abs=1e-5)
    assert place[0] + place[1] == pytest.approx(made.club_angle, abs=1e-5)
    bend = float(shaft().end_slopes @ place[2 : 2 + len(CLUB.frequencies)])
    assert bend * 180.0 / pi == pytest.approx(made.bend_loft * 180.0 / pi, abs=1e-3)
