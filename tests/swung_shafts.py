"""Shafts for swings, by a small finite-element beam of the tests' own.

Cubic elements from the hands to the hosel, mass and stiffness linear between stations. It shares
no line with the product's beam. The reference profile and its factors are nobody's shafts.
"""

from collections.abc import Callable
from functools import cache
from itertools import pairwise

import numpy as np
from scipy.linalg import eigh

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing.basis import (
    HANDS,
    HOSEL,
    REFERENCE_SWUNG_HEAD,
    BeamShapes,
    ShaftBasis,
    SwungHead,
    swing_basis,
)

LENGTH = 1.143
SHAFT_MASS = 0.062
STATIONS = np.array(
    [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.08, LENGTH],
)
STIFFNESS = np.array(
    [78.0, 74.0, 69.0, 63.0, 57.0, 51.0, 45.5, 40.0, 34.5, 29.0, 24.5, 22.0, 21.0]
)
CORNERS = np.array([0.30, 0.48, 0.62, 0.74, 0.88, 0.98])
FACTORS = {
    "reference": (1.0, 1.0, 1.0, 1.0),
    "b": (1.15, 1.0, 1.0, 1.0),
    "u": (1.0, 0.85, 1.0, 1.0),
    "l": (1.0, 1.0, 1.15, 1.0),
    "t": (1.0, 1.0, 1.0, 1.25),
    "a": (0.85, 0.85, 0.85, 0.85),
}
CLAMP = 0.127
CLAMPED_TIP_MASS = 0.205

Profile = Callable[[FloatArray], FloatArray]
GAUSS, WEIGHTS = np.polynomial.legendre.leggauss(4)


def profile_of(case: str) -> Profile:
    """Return EI by distance from the butt; a primed case has the reference's frequency."""
    butt, upper, lower, tip = FACTORS[case.removesuffix("'")]
    factors = np.array([butt, upper, upper, lower, lower, tip])
    scale = 1.0
    if case.endswith("'"):
        scale = (frequency_cpm("reference") / frequency_cpm(case[:-1])) ** 2

    def stiffness(x: FloatArray) -> FloatArray:
        return np.asarray(
            scale * np.interp(x, CORNERS, factors) * np.interp(x, STATIONS, STIFFNESS)
        )

    return stiffness


def beam_matrices(
    nodes: FloatArray, stiffness: Profile, density: float
) -> tuple[FloatArray, FloatArray]:
    """Return the stiffness and mass matrices of a free beam, unknowns (w, w') by node."""
    size = 2 * len(nodes)
    big_k, big_m = np.zeros((size, size)), np.zeros((size, size))
    for e, (first, last) in enumerate(pairwise(nodes)):
        h = last - first
        for point, weight in zip(GAUSS, WEIGHTS, strict=True):
            u = 0.5 * (point + 1.0)
            shape = np.array(
                [
                    1 - 3 * u**2 + 2 * u**3,
                    h * (u - 2 * u**2 + u**3),
                    3 * u**2 - 2 * u**3,
                    h * (u**3 - u**2),
                ]
            )
            bend = np.array([-6 + 12 * u, h * (6 * u - 4), 6 - 12 * u, h * (6 * u - 2)]) / h**2
            part = 0.5 * h * weight
            rows = slice(2 * e, 2 * e + 4)
            at = float(stiffness(np.array([first + u * h]))[0])
            big_k[rows, rows] += part * at * np.outer(bend, bend)
            big_m[rows, rows] += part * density * np.outer(shape, shape)
    return big_k, big_m


@cache
def frequency_cpm(case: str) -> float:
    """Return the frequency of a clamped butt with a point mass on the tip."""
    nodes = np.linspace(CLAMP, LENGTH, 41)
    big_k, big_m = beam_matrices(nodes, profile_of(case), SHAFT_MASS / LENGTH)
    big_m[-2, -2] += CLAMPED_TIP_MASS
    square = eigh(big_k[2:, 2:], big_m[2:, 2:], eigvals_only=True, subset_by_index=(0, 0))[0]
    return float(60.0 * np.sqrt(square) / (2.0 * np.pi))


def beam_shapes(
    stiffness: Profile, head: SwungHead = REFERENCE_SWUNG_HEAD, *, modes: int = 2, moment: int = 1
) -> BeamShapes:
    """Return the lowest modes with a head on, and the deflection under a moment at the end."""
    nodes = np.linspace(HANDS, LENGTH - HOSEL, 41)
    density = SHAFT_MASS / LENGTH
    big_k, big_m = beam_matrices(nodes, stiffness, density)
    tip = np.array([[1.0, head.beyond], [head.beyond, head.beyond**2]]) * head.mass
    tip[1, 1] += head.inertia
    big_m[-2:, -2:] += tip
    held_k, held_m = big_k[2:, 2:], big_m[2:, 2:]
    shapes = list(eigh(held_k, held_m, subset_by_index=(0, modes - 1))[1].T)
    if moment:
        load = np.zeros(len(held_k))
        load[-1] = 1.0
        shapes.append(np.linalg.solve(held_k, load))
    stack = np.array(shapes)
    full = np.concatenate([np.zeros((len(stack), 2)), stack], axis=1)
    return BeamShapes(
        nodes=nodes,
        deflections=full[:, 0::2],
        slopes=full[:, 1::2],
        stiffness=stack @ held_k @ stack.T,
        mass=stack @ held_m @ stack.T,
        density=np.full(len(nodes), density),
    )


@cache
def shaft(case: str = "reference", *, damping: float = 0.02, places: int = 6) -> ShaftBasis:
    """Return the basis of a case: a section's letter, primed for the reference's frequency."""
    beam = beam_shapes(profile_of(case))
    return swing_basis(beam, REFERENCE_SWUNG_HEAD, damping=damping, places=places)
