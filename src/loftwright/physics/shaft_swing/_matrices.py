"""The compiled loops over a shaft's places and over the matrix of a swing."""

from math import cos, sin, sqrt
from typing import NamedTuple

from numba import njit

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing.equations import (
    ClubNumbers,
    FaceRoll,
    PlayerNumbers,
    Triple,
    arm_weight,
    face_roll,
    gravity,
    head_offset,
    tilted_reach,
    turning_acceleration,
    wrist_acceleration,
)


class Work(NamedTuple):
    """Arrays that the steps of one swing share."""

    mass: FloatArray
    force: FloatArray
    columns: FloatArray
    shortened: FloatArray


@njit(cache=True, error_model="numpy")
def dot(one: FloatArray, two: FloatArray, first: int, n: int) -> float:
    """Return the product of `n` entries of one with those of another from `first` on."""
    total = 0.0
    for i in range(n):
        total += one[i] * two[first + i]
    return total


@njit(cache=True, error_model="numpy")
def _shorten(shortening: FloatArray, place: FloatArray, rate: FloatArray, work: Work) -> Triple:
    """Store the shortening times q and p, and return its sum, rate and convective part."""
    n = shortening.shape[0]
    total = changing = convective = 0.0
    for i in range(n):
        by_q = by_p = by_q_rate = by_p_rate = 0.0
        for j in range(n):
            entry = shortening[i, j]
            by_q += entry * place[2 + j]
            by_p += entry * place[2 + n + j]
            by_q_rate += entry * rate[2 + j]
            by_p_rate += entry * rate[2 + n + j]
        work.shortened[0, i] = by_q
        work.shortened[1, i] = by_p
        total += place[2 + i] * by_q + place[2 + n + i] * by_p
        changing += rate[2 + i] * by_q + rate[2 + n + i] * by_p
        convective += rate[2 + i] * by_q_rate + rate[2 + n + i] * by_p_rate
    return -0.5 * total, -changing, -convective


@njit(cache=True, error_model="numpy")
def _add(weight: float, along: float, across: float, normal: float, work: Work) -> None:
    """Add a point of a mass and an acceleration less gravity, whose columns are stored."""
    columns = work.columns
    for i in range(columns.shape[1]):
        r, t, z = weight * columns[0, i], weight * columns[1, i], weight * columns[2, i]
        for j in range(i + 1):
            work.mass[i, j] += r * columns[0, j] + t * columns[1, j] + z * columns[2, j]
        work.force[i] -= r * along + t * across + z * normal


@njit(cache=True, error_model="numpy")
def _add_shaft(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers, work: Work
) -> None:
    n = club.frequencies.shape[0]
    turn = rate[0] + rate[1]
    down = gravity(place[0] + place[1])
    hand = wrist_acceleration(player.arm_length, place[1], rate[0])
    hand_r, hand_t = player.arm_length * sin(place[1]), player.arm_length * cos(place[1])
    columns = work.columns
    for k in range(club.places.shape[0]):
        less, less_rate, less_convective = _shorten(club.shortening[k], place, rate, work)
        shapes = club.shapes[k]
        reach = club.places[k] + less
        bend, bend_rate = dot(shapes, place, 2, n), dot(shapes, rate, 2, n)
        columns[0, 1] = -bend
        columns[1, 1] = reach
        columns[2, 1] = 0.0
        columns[0, 0] = hand_r - bend
        columns[1, 0] = hand_t + reach
        columns[2, 0] = 0.0
        for i in range(n):
            columns[0, 2 + i] = -work.shortened[0, i]
            columns[1, 2 + i] = shapes[i]
            columns[2, 2 + i] = 0.0
            columns[0, 2 + n + i] = -work.shortened[1, i]
            columns[1, 2 + n + i] = 0.0
            columns[2, 2 + n + i] = shapes[i]
        r, t, z = turning_acceleration(
            turn, (reach, less_rate, less_convective), (bend, bend_rate, 0.0), 0.0
        )
        _add(club.masses[k], hand[0] + r - down[0], hand[1] + t - down[1], z - down[2], work)


@njit(cache=True, error_model="numpy")
def _fill_bends(
    beyond: float,
    whole: float,
    sides: tuple[float, float],
    slopes: tuple[float, float],
    club: ClubNumbers,
    work: Work,
) -> None:
    """Fill the columns of q and p for a part of the head; the shortening is stored."""
    n = club.frequencies.shape[0]
    columns = work.columns
    for i in range(n):
        slope = club.end_slopes[i]
        moved = whole * club.end_shapes[i] + beyond * slope
        for side in range(2):
            lever = beyond * slopes[side] + sides[side]
            column = 2 + side * n + i
            columns[0, column] = -whole * work.shortened[side, i] - lever * slope
            columns[1 + side, column] = moved
            columns[2 - side, column] = 0.0


@njit(cache=True, error_model="numpy")
def _add_head_part(
    part: Triple,
    weight: float,
    whole: float,
    roll: FaceRoll,
    short: Triple,
    place: FloatArray,
    rate: FloatArray,
    club: ClubNumbers,
    player: PlayerNumbers,
    work: Work,
) -> None:
    """Add the head's mass at its centre (whole = 1), or half its inertia along an axis (0)."""
    n = club.frequencies.shape[0]
    ends, shapes, beyond = club.end_slopes, club.end_shapes, part[2]
    slopes = (dot(ends, place, 2, n), dot(ends, place, 2 + n, n))
    slope_rates = (dot(ends, rate, 2, n), dot(ends, rate, 2 + n, n))
    offset = head_offset(part[0], part[1], roll, rate[1])
    tilt = tilted_reach(beyond, offset, slopes, slope_rates)
    reach = whole * (club.end + short[0]) + tilt[0]
    across = offset.across + beyond * slopes[0] + whole * dot(shapes, place, 2, n)
    across_rate = offset.across_rate + beyond * slope_rates[0] + whole * dot(shapes, rate, 2, n)
    columns, arm = work.columns, whole * player.arm_length
    columns[0, 0] = arm * sin(place[1]) - across
    columns[1, 0] = arm * cos(place[1]) + reach
    columns[2, 0] = 0.0
    twist = offset.normal * slopes[0] - offset.across * slopes[1]
    columns[0, 1] = -across + twist * roll.slope
    columns[1, 1] = reach - offset.normal * roll.slope
    columns[2, 1] = offset.across * roll.slope
    _fill_bends(beyond, whole, (offset.across, offset.normal), slopes, club, work)
    along = (reach, whole * short[1] + tilt[1], whole * short[2] + tilt[2])
    beside = (across, across_rate, offset.across_convective)
    turn = rate[0] + rate[1]
    r, t, z = turning_acceleration(turn, along, beside, offset.normal_convective)
    down = gravity(place[0] + place[1])
    hand = wrist_acceleration(arm, place[1], rate[0])
    along_total = hand[0] + r - whole * down[0]
    across_total = hand[1] + t - whole * down[1]
    _add(weight, along_total, across_total, z - whole * down[2], work)


@njit(cache=True, error_model="numpy")
def assemble(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers, work: Work
) -> None:
    """Fill the lower half of the mass matrix, and the forces but those of body and wrists."""
    work.mass[:, :] = 0.0
    work.force[:] = 0.0
    _add_shaft(place, rate, club, player, work)
    roll = face_roll(place[1], player.square)
    centre = (club.head_back, club.head_toe, club.head_beyond)
    half = 0.5 * club.head_inertia
    short = _shorten(club.end_shortening, place, rate, work)
    _add_head_part(centre, club.head_mass, 1.0, roll, short, place, rate, club, player, work)
    for axis in range(3):
        along_axis = (1.0 * (axis == 0), 1.0 * (axis == 1), 1.0 * (axis == 2))
        _add_head_part(along_axis, half, 0.0, roll, short, place, rate, club, player, work)
    work.mass[0, 0] += player.arm_inertia + player.hand_inertia
    work.mass[1, 0] += player.hand_inertia
    work.mass[1, 1] += player.hand_inertia
    work.force[0] += arm_weight(player.arm_moment, place[0])
    n = club.frequencies.shape[0]
    for i in range(2 * n):
        omega = club.frequencies[i % n]
        work.force[2 + i] -= omega * (omega * place[2 + i] + 2.0 * club.damping * rate[2 + i])


@njit(cache=True, error_model="numpy")
def solve(mass: FloatArray, force: FloatArray, first: int, answer: FloatArray) -> bool:
    """Solve the block from `first` on by Cholesky in place; return whether it is positive."""
    size = force.shape[0]
    for j in range(first, size):
        for i in range(j, size):
            entry = mass[i, j]
            for k in range(first, j):
                entry -= mass[i, k] * mass[j, k]
            if i == j:
                if not entry > 0.0:
                    return False
                mass[j, j] = sqrt(entry)
            else:
                mass[i, j] = entry / mass[j, j]
    for i in range(first, size):
        entry = force[i]
        for k in range(first, i):
            entry -= mass[i, k] * answer[k]
        answer[i] = entry / mass[i, i]
    for i in range(size - 1, first - 1, -1):
        entry = answer[i]
        for k in range(i + 1, size):
            entry -= mass[k, i] * answer[k]
        answer[i] = entry / mass[i, i]
    return True


@njit(cache=True, error_model="numpy")
def head_across(place: FloatArray, club: ClubNumbers, player: PlayerNumbers) -> float:
    """Return how far the head's centre is towards the target from the hub [m]."""
    n = club.frequencies.shape[0]
    alpha, beta = dot(club.end_slopes, place, 2, n), dot(club.end_slopes, place, 2 + n, n)
    roll = face_roll(place[1], player.square)
    offset = head_offset(club.head_back, club.head_toe, roll, 0.0)
    reach = club.end + tilted_reach(club.head_beyond, offset, (alpha, beta), (0.0, 0.0))[0]
    for i in range(n):
        for j in range(n):
            both = place[2 + i] * place[2 + j] + place[2 + n + i] * place[2 + n + j]
            reach -= 0.5 * club.end_shortening[i, j] * both
    across = offset.across + club.head_beyond * alpha + dot(club.end_shapes, place, 2, n)
    club_angle = place[0] + place[1]
    return player.arm_length * sin(place[0]) + reach * sin(club_angle) + across * cos(club_angle)
