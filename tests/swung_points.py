"""The swing told from positions alone, by derivatives of a complex step: no line is shared.

Every point of the club is placed in the world, with the six points of the head as masses of their
own and the face roll as a function; velocities, mass matrix and forces follow from derivatives.
"""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from loftwright.arrays import FloatArray
from loftwright.constants import GRAVITY
from loftwright.physics.shaft_swing.equations import PLANE, ClubNumbers, PlayerNumbers

Numbers: TypeAlias = NDArray[np.float64] | NDArray[np.complex128]
TINY = 1e-30
DOWN = np.array([0.0, -GRAVITY * np.sin(PLANE), -GRAVITY * np.cos(PLANE)])


def point_masses(club: ClubNumbers) -> FloatArray:
    """Return the masses of the shaft's places and of six points of the head."""
    return np.concatenate([club.masses, np.full(6, club.head_mass / 6.0)])


def positions(place: Numbers, club: ClubNumbers, player: PlayerNumbers) -> Numbers:
    """Return where every point is: to the target, up the plane, normal to it."""
    n = len(club.frequencies)
    theta, phi, q, p = place[0], place[1], place[2 : 2 + n], place[2 + n :]
    psi = theta + phi
    e_r = np.array([np.sin(psi), -np.cos(psi), 0.0 * psi])
    e_t = np.array([np.cos(psi), np.sin(psi), 0.0 * psi])
    e_z = np.array([0.0, 0.0, 1.0])
    wrist = player.arm_length * np.array([np.sin(theta), -np.cos(theta), 0.0 * theta])
    found = []
    for k, at in enumerate(club.places):
        short = 0.5 * (q @ club.shortening[k] @ q + p @ club.shortening[k] @ p)
        found.append(
            wrist + (at - short) * e_r + (club.shapes[k] @ q) * e_t + (club.shapes[k] @ p) * e_z
        )
    return np.array(found + head_points(place, club, player, wrist, (e_r, e_t, e_z)))


def head_points(
    place: Numbers,
    club: ClubNumbers,
    player: PlayerNumbers,
    wrist: Numbers,
    axes: tuple[Numbers, Numbers, Numbers],
) -> list[Numbers]:
    """Return where the six points of the head are."""
    n = len(club.frequencies)
    phi, q, p = place[1], place[2 : 2 + n], place[2 + n :]
    alpha, beta = club.end_slopes @ q, club.end_slopes @ p
    short = 0.5 * (q @ club.end_shortening @ q + p @ club.end_shortening @ p)
    radius = np.sqrt(1.5 * club.head_inertia / club.head_mass)
    centre = np.array([club.head_back, club.head_toe, club.head_beyond])
    found = []
    for axis in range(3):
        for side in (-radius, radius):
            forward, toe, beyond = centre + side * np.eye(3)[axis]
            angle = -1.45 * np.tanh((phi - player.square) / 0.8)
            across = forward * np.cos(angle) - toe * np.sin(angle)
            normal = forward * np.sin(angle) + toe * np.cos(angle)
            reach = club.end + beyond - 0.5 * beyond * (alpha**2 + beta**2)
            reach = reach - across * alpha - normal * beta - short
            found.append(
                wrist
                + reach * axes[0]
                + (across + beyond * alpha + club.end_shapes @ q) * axes[1]
                + (normal + beyond * beta + club.end_shapes @ p) * axes[2]
            )
    return found


def velocities_by_place(place: FloatArray, club: ClubNumbers, player: PlayerNumbers) -> FloatArray:
    """Return the derivative of every point by every coordinate, shape (points, 3, coordinates)."""
    columns = []
    for i in range(len(place)):
        moved = place.astype(complex)
        moved[i] += 1j * TINY
        columns.append(np.imag(positions(moved, club, player)) / TINY)
    return np.stack(columns, axis=-1)


def velocities(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers
) -> FloatArray:
    """Return the velocity of every point."""
    moved = place + 1j * TINY * rate
    return np.imag(positions(moved, club, player)) / TINY


def convective(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers
) -> FloatArray:
    """Return the acceleration of every point at steady rates, by differences of fourth order."""
    h = 1e-3 / (1.0 + float(np.max(np.abs(rate))))
    speeds = [velocities(place + k * h * rate, rate, club, player) for k in (-2, -1, 1, 2)]
    return (speeds[0] - 8.0 * speeds[1] + 8.0 * speeds[2] - speeds[3]) / (12.0 * h)


def mass_and_forces(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers
) -> tuple[FloatArray, FloatArray]:
    """Return the mass matrix, and the forces but those of body and wrists."""
    masses = point_masses(club)
    by_place = velocities_by_place(place, club, player)
    mass = np.einsum("k,kci,kcj->ij", masses, by_place, by_place)
    mass[0, 0] += player.arm_inertia
    mass[:2, :2] += player.hand_inertia
    bent = convective(place, rate, club, player) - DOWN
    force = -np.einsum("k,kci,kc->i", masses, by_place, bent)
    force[0] += player.arm_moment * DOWN[1] * np.sin(place[0])
    omega = np.tile(club.frequencies, 2)
    force[2:] -= omega**2 * place[2:] + 2.0 * club.damping * omega * rate[2:]
    return mass, force


def energies(
    place: FloatArray, rate: FloatArray, club: ClubNumbers, player: PlayerNumbers
) -> tuple[float, float]:
    """Return the energy of motion, and that of weight and bending [J]."""
    masses = point_masses(club)
    speeds = velocities(place, rate, club, player)
    moving = 0.5 * float(masses @ np.sum(speeds**2, axis=1))
    moving += 0.5 * player.arm_inertia * float(rate[0]) ** 2
    moving += 0.5 * player.hand_inertia * float(rate[0] + rate[1]) ** 2
    high = -float(masses @ (np.real(positions(place, club, player)) @ DOWN))
    high += player.arm_moment * float(DOWN[1] * np.cos(place[0]))
    bent = 0.5 * float(np.sum((np.tile(club.frequencies, 2) * place[2:]) ** 2))
    return moving, high + bent
