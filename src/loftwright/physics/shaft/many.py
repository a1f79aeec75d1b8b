"""Frequency, tip slope and torque of a whole rack at once.

The matrices are those of one beam at a time; here the blocks of all beams of as many elements are
factorised side by side, node after node, and the lowest mode is found by inverse iteration.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import pi
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft.beam import Beam, TipBody, mass_elements, stiffness_elements
from loftwright.physics.shaft.deflection import tip_slope, twist
from loftwright.physics.shaft.mount import Mount, Mounted, mounted
from loftwright.physics.shaft.profile import Profile

MOST_STEPS: Final = 60
CLOSE: Final = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Screened:
    """What a bench would read of many shafts, in their order.

    Attributes
    ----------
    frequencies : FloatArray
        [s^-1]
    tip_slopes : FloatArray
        Under 1 N m on the free end [rad].
    twists : FloatArray
        Under 1 N m about the shaft [rad].
    """

    frequencies: FloatArray
    tip_slopes: FloatArray
    twists: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Blocks:
    """A matrix in blocks: on the diagonal and right of it, (nodes, beams, 2, 2)."""

    diagonal: FloatArray
    right: FloatArray


def screen(profiles: Sequence[Profile], mount: Mount, weight: TipBody, reach: float) -> Screened:
    """Return what a bench would read of many shafts under one set-up.

    Parameters
    ----------
    profiles : sequence of Profile
    mount : Mount
        For frequency and tip slope; its clamp holds the butt for the twist too.
    weight : TipBody
        On the free end for the frequency.
    reach : float
        Of the twisting moment from the tip end [m].

    Returns
    -------
    Screened

    Raises
    ------
    InputError
        If there is no shaft, or one of them does not suit the set-up.
    """
    if not profiles:
        raise InputError("there is no shaft to screen", place="shafts", mend="Give at least one.")
    held = [mounted(profile, mount, weight) for profile in profiles]
    return Screened(
        frequencies=_lowest(held),
        tip_slopes=frozen_array([tip_slope(profile, mount) for profile in profiles]),
        twists=frozen_array(
            [twist(profile, mount.clamp, profile.length - reach, 1.0) for profile in profiles]
        ),
    )


def _lowest(held: Sequence[Mounted]) -> FloatArray:
    groups: dict[int, list[int]] = defaultdict(list)
    for place, one in enumerate(held):
        groups[one.beam.nodes.size].append(place)
    found = np.empty(len(held))
    for places in groups.values():
        found[places] = lowest_rates([held[place] for place in places]) / (2.0 * pi)
    return frozen_array(found)


def lowest_rates(held: Sequence[Mounted]) -> FloatArray:
    """Return the lowest angular frequency of beams that have equally many elements [rad s^-1].

    Parameters
    ----------
    held : sequence of Mounted

    Returns
    -------
    FloatArray
        Shape (beams,).

    Raises
    ------
    ConvergenceError
        If inverse iteration does not settle.
    """
    beams = Beam(
        nodes=np.stack([one.beam.nodes for one in held]),
        bending=np.stack([one.beam.bending for one in held]),
        line_density=np.stack([one.beam.line_density for one in held]),
    )
    tips = np.stack([one.body.matrix for one in held])
    stiffness = _blocks(stiffness_elements(beams), np.zeros_like(tips))
    mass = _blocks(mass_elements(beams), tips)
    factors, carried = _factorised(stiffness)
    load = np.zeros((*mass.diagonal.shape[:2], 2, 1))
    load[-1, :, 0] = 1.0
    before = np.full(len(held), np.inf)
    for _ in range(MOST_STEPS):
        moved = _solved(stiffness, factors, carried, load)
        pushed = _times(mass, moved)
        squared = _dot(moved, load) / _dot(moved, pushed)
        if (np.abs(squared - before) <= CLOSE * squared).all():
            return np.sqrt(squared)
        before = squared
        load = pushed / np.sqrt(_dot(moved, pushed))[:, None, None]
    raise ConvergenceError(
        f"the lowest mode did not settle in {MOST_STEPS} steps",
        place="frequency",
        mend="Compute this shaft alone; its first two frequencies lie together.",
    )


def _blocks(elements: FloatArray, tips: FloatArray) -> _Blocks:
    """Return the blocks of all nodes but the clamped ones."""
    by_element = np.moveaxis(elements, 1, 0)
    diagonal = by_element[..., 2:, 2:].copy()
    diagonal[:-1] += by_element[1:, :, :2, :2]
    diagonal[-1] += tips
    return _Blocks(diagonal=diagonal, right=by_element[1:, :, :2, 2:].copy())


def _factorised(matrix: _Blocks) -> tuple[FloatArray, FloatArray]:
    """Return the inverse pivots and what each row carries to the next."""
    pivots = np.empty_like(matrix.diagonal)
    carried = np.empty_like(matrix.right)
    pivots[0] = np.linalg.inv(matrix.diagonal[0])
    for node, right in enumerate(matrix.right):
        carried[node] = np.swapaxes(right, -1, -2) @ pivots[node]
        pivots[node + 1] = np.linalg.inv(matrix.diagonal[node + 1] - carried[node] @ right)
    return pivots, carried


def _solved(
    matrix: _Blocks, pivots: FloatArray, carried: FloatArray, load: FloatArray
) -> FloatArray:
    found = load.copy()
    for node in range(len(carried)):
        found[node + 1] -= carried[node] @ found[node]
    found[-1] = pivots[-1] @ found[-1]
    for node in range(len(carried) - 1, -1, -1):
        found[node] = pivots[node] @ (found[node] - matrix.right[node] @ found[node + 1])
    return found


def _times(matrix: _Blocks, vector: FloatArray) -> FloatArray:
    found = matrix.diagonal @ vector
    found[:-1] += matrix.right @ vector[1:]
    found[1:] += np.swapaxes(matrix.right, -1, -2) @ vector[:-1]
    return found


def _dot(left: FloatArray, right: FloatArray) -> FloatArray:
    found: FloatArray = np.einsum("nbki,nbki->b", left, right)
    return found
