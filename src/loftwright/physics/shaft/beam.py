"""A slender beam in finite elements: cubic between nodes, clamped at its first node.

Every node carries a deflection and a slope. The functions take any stiffness and line density,
given at the Gauss points, so that they can be held against beams of which the answer is known.
Matrices come as element matrices (elements, 4, 4); a batch of beams adds leading axes.

References
----------
The cubic (Hermite) beam element and its consistent mass matrix: Archer 1963, Consistent mass
matrix for distributed mass systems, Journal of the Structural Division 89:161. Gauss-Legendre
rule of four points, exact for polynomials up to the seventh degree.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.errors import InputError

ELEMENTS: Final = 40
_ROOTS, _WEIGHTS = np.polynomial.legendre.leggauss(4)
POINTS: Final = frozen_array((1.0 + _ROOTS) / 2.0)
WEIGHTS: Final = frozen_array(_WEIGHTS / 2.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beam:
    """A beam from its clamp to its free end.

    Attributes
    ----------
    nodes : FloatArray
        Distances from the clamp, the first 0, increasing, shape (..., elements + 1) [m].
    bending : FloatArray
        EI at the Gauss points, shape (..., elements, 4) [N m^2].
    line_density : FloatArray
        Mass a length at the Gauss points, shape (..., elements, 4) [kg m^-1].
    """

    nodes: FloatArray
    bending: FloatArray
    line_density: FloatArray

    def __post_init__(self) -> None:
        for name in ("nodes", "bending", "line_density"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))
        expected = (*self.nodes.shape[:-1], self.nodes.shape[-1] - 1, len(POINTS))
        if self.bending.shape != expected or self.line_density.shape != expected:
            raise InputError(
                f"a beam of {self.nodes.shape[-1] - 1} elements needs figures of shape {expected}",
                place="beam",
                mend="Give them at the Gauss points of every element.",
            )

    @property
    def steps(self) -> FloatArray:
        """Return the lengths of the elements [m]."""
        return np.diff(self.nodes, axis=-1)

    @property
    def length(self) -> float:
        """Return the distance from the clamp to the free end of a single beam [m]."""
        return float(self.nodes[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class TipBody:
    """A rigid body on the free end.

    Attributes
    ----------
    mass : float
        [kg]
    inertia : float
        About its own centre of gravity, across the beam [kg m^2].
    reach : float
        How far its centre of gravity lies beyond the end [m].
    """

    mass: float = 0.0
    inertia: float = 0.0
    reach: float = 0.0

    @property
    def matrix(self) -> FloatArray:
        """Return its mass matrix for deflection and slope of the free end."""
        first = self.mass * self.reach
        return np.array([[self.mass, first], [first, self.inertia + first * self.reach]])


NOTHING: Final = TipBody()


def gauss_points(nodes: FloatArray) -> FloatArray:
    """Return where figures of a beam are taken, shape (..., elements, 4) [m]."""
    return nodes[..., :-1, None] + np.diff(nodes, axis=-1)[..., None] * POINTS


def shapes(steps: FloatArray) -> FloatArray:
    """Return the four cubics of every element at its Gauss points, (..., elements, 4, 4)."""
    x, h = POINTS, steps[..., None]
    one = np.ones_like(h)
    return np.stack(
        [
            one * (1.0 - 3.0 * x**2 + 2.0 * x**3),
            h * (x - 2.0 * x**2 + x**3),
            one * (3.0 * x**2 - 2.0 * x**3),
            h * (x**3 - x**2),
        ],
        axis=-1,
    )


def slopes(steps: FloatArray) -> FloatArray:
    """Return the first derivatives of the cubics at the Gauss points [m^-1, 1]."""
    x, h = POINTS, steps[..., None]
    one = np.ones_like(h)
    return np.stack(
        [
            (6.0 * x**2 - 6.0 * x) / h,
            one * (1.0 - 4.0 * x + 3.0 * x**2),
            (6.0 * x - 6.0 * x**2) / h,
            one * (3.0 * x**2 - 2.0 * x),
        ],
        axis=-1,
    )


def curvatures(steps: FloatArray) -> FloatArray:
    """Return the second derivatives of the cubics at the Gauss points [m^-2, m^-1]."""
    x, h = POINTS, steps[..., None]
    return np.stack(
        [
            (12.0 * x - 6.0) / h**2,
            (6.0 * x - 4.0) / h,
            (6.0 - 12.0 * x) / h**2,
            (6.0 * x - 2.0) / h,
        ],
        axis=-1,
    )


def stiffness_elements(beam: Beam) -> FloatArray:
    """Return the bending stiffness of every element."""
    return _products(curvatures(beam.steps), beam.bending, beam.steps)


def mass_elements(beam: Beam) -> FloatArray:
    """Return the consistent mass of every element."""
    return _products(shapes(beam.steps), beam.line_density, beam.steps)


def tension_elements(beam: Beam, tension: FloatArray) -> FloatArray:
    """Return what a pull along the beam adds to the stiffness.

    Parameters
    ----------
    beam : Beam
    tension : FloatArray
        At the Gauss points, positive where the beam is pulled [N].
    """
    return _products(slopes(beam.steps), tension, beam.steps)


def assembled(elements: FloatArray, tip: FloatArray | None = None) -> FloatArray:
    """Return the matrix of one beam with its clamped node struck out.

    Parameters
    ----------
    elements : FloatArray
        Element matrices, shape (elements, 4, 4).
    tip : FloatArray, optional
        Added for the free end, shape (2, 2).
    """
    count = len(elements)
    size = 2 * (count + 1)
    matrix = np.zeros((size, size))
    first = 2 * np.arange(count)[:, None]
    rows = first + np.arange(4)
    np.add.at(matrix, (rows[:, :, None], rows[:, None, :]), elements)
    if tip is not None:
        matrix[-2:, -2:] += tip
    return matrix[2:, 2:]


def at_gauss_points(beam: Beam, displacement: FloatArray, functions: FloatArray) -> FloatArray:
    """Return a field of one beam at its Gauss points, shape (elements, 4).

    Parameters
    ----------
    beam : Beam
    displacement : FloatArray
        Deflection and slope of every node but the clamped one, shape (2 elements,).
    functions : FloatArray
        `shapes`, `slopes` or `curvatures` of the beam's steps.
    """
    count = beam.nodes.shape[-1] - 1
    whole = np.concatenate([np.zeros(2), displacement])
    local = whole[2 * np.arange(count)[:, None] + np.arange(4)]
    found: FloatArray = np.einsum("egk,ek->eg", functions, local)
    return found


def joined(*bodies: TipBody) -> TipBody:
    """Return the one rigid body that several on the same end make."""
    mass = sum(body.mass for body in bodies)
    if mass == 0.0:
        return TipBody(inertia=sum(body.inertia for body in bodies))
    reach = sum(body.mass * body.reach for body in bodies) / mass
    inertia = sum(body.inertia + body.mass * (body.reach - reach) ** 2 for body in bodies)
    return TipBody(mass=mass, inertia=inertia, reach=reach)


def _products(functions: FloatArray, values: FloatArray, steps: FloatArray) -> FloatArray:
    weighted = functions * (values * WEIGHTS * steps[..., None])[..., None]
    return np.swapaxes(weighted, -1, -2) @ functions
