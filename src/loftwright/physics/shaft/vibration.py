"""How a clamped beam swings: its lowest frequencies and the shapes it swings in."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import (
    NOTHING,
    POINTS,
    WEIGHTS,
    Beam,
    TipBody,
    assembled,
    gauss_points,
    mass_elements,
    stiffness_elements,
    tension_elements,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Modes:
    """The lowest modes of a clamped beam.

    Attributes
    ----------
    rates : FloatArray
        Angular frequencies, rising, shape (modes,) [rad s^-1].
    shapes : FloatArray
        Deflection and slope of every node but the clamped one, of modal mass 1, shape
        (2 elements, modes); the free end's deflection is positive.
    """

    rates: FloatArray
    shapes: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """A beam that turns about an axis behind its clamp.

    Attributes
    ----------
    rate : float
        [rad s^-1]
    hub : float
        From the axis to the clamp [m].
    in_plane : bool
        Whether it swings in the plane in which it turns, else across it.
    """

    rate: float
    hub: float = 0.0
    in_plane: bool = False


def modes(
    beam: Beam, tip: TipBody = NOTHING, count: int = 1, turning: Turning | None = None
) -> Modes:
    """Return the lowest modes of a clamped beam with a body on its end.

    Parameters
    ----------
    beam : Beam
    tip : TipBody
    count : int
        How many, at most two an element.
    turning : Turning, optional
        The beam stands still without it.

    Returns
    -------
    Modes

    Raises
    ------
    InputError
        If the beam has no mass, or turns so fast that nothing holds it.

    Notes
    -----
    Euler and Bernoulli's slender beam; gravity off. Turning stiffens it by the pull of what
    lies beyond; in the plane of turning the same masses are flung outwards, which takes
    rate^2 M off. The body's own inertia turns with the plane and counts in M only. The problem
    is solved for 1/rate^2, so that the lowest modes are the most exact.
    """
    from scipy.linalg import LinAlgError, eigh  # noqa: PLC0415 - scipy is slow to import

    stiffness = stiffness_matrix(beam, tip, turning)
    mass = assembled(mass_elements(beam), tip.matrix)
    size = len(mass)
    if not 1 <= count <= size:
        raise InputError(f"a beam of {size // 2} elements has no {count} modes", place="count")
    try:
        values, vectors = eigh(mass, stiffness, subset_by_index=(size - count, size - 1))
    except LinAlgError as error:
        raise InputError(
            "nothing holds this beam: its stiffness is not positive",
            place="beam",
            mend="Check EI, and the rate at which it turns.",
        ) from error
    if not values[0] > 0.0:
        raise InputError("a beam without mass does not swing", place="beam")
    rates = 1.0 / np.sqrt(values[::-1])
    found = vectors[:, ::-1] * rates
    return Modes(
        rates=frozen_array(rates),
        shapes=frozen_array(found * np.where(found[-2] < 0.0, -1.0, 1.0)),
    )


def stiffness_matrix(
    beam: Beam, tip: TipBody = NOTHING, turning: Turning | None = None
) -> FloatArray:
    """Return the stiffness of a beam, with what turning adds to it and takes off it."""
    elements = stiffness_elements(beam)
    if turning is None:
        return assembled(elements)
    squared = turning.rate**2
    end_pull = tip.mass * squared * (turning.hub + beam.length + tip.reach)
    elements = elements + tension_elements(beam, end_pull + _pull(beam, turning))
    at_tip = np.array([[0.0, 0.0], [0.0, end_pull * tip.reach]])
    if turning.in_plane:
        elements = elements - squared * mass_elements(beam)
        at_tip -= squared * TipBody(mass=tip.mass, reach=tip.reach).matrix
    return assembled(elements, at_tip)


def ritz_basis(beam: Beam, tip: TipBody, count: int = 2) -> Modes:
    """Return the lowest loaded modes and the bend under a moment on the tip, as one basis.

    Parameters
    ----------
    beam : Beam
    tip : TipBody
        The head, whose pull bends the tip by a moment that few modes can follow.
    count : int
        How many modes; the basis has one vector more.

    Returns
    -------
    Modes
        Of modal mass 1 and free of each other.
    """
    from scipy.linalg import eigh  # noqa: PLC0415 - scipy is slow to import

    stiffness = stiffness_matrix(beam)
    mass = assembled(mass_elements(beam), tip.matrix)
    moment = np.zeros(len(mass))
    moment[-1] = 1.0
    bent = np.linalg.solve(stiffness, moment)
    kept = np.column_stack([modes(beam, tip, count).shapes, bent / np.sqrt(bent @ mass @ bent)])
    values, turned = eigh(kept.T @ stiffness @ kept, kept.T @ mass @ kept)
    found = kept @ turned
    return Modes(
        rates=frozen_array(np.sqrt(values)),
        shapes=frozen_array(found * np.where(found[-2] < 0.0, -1.0, 1.0)),
    )


def _pull(beam: Beam, turning: Turning) -> FloatArray:
    """Return the pull of the beam's own mass beyond each Gauss point [N]."""
    outward = turning.hub + gauss_points(beam.nodes)
    force = beam.line_density * outward * turning.rate**2
    by_element = (force * WEIGHTS).sum(axis=-1) * beam.steps
    beyond = np.cumsum(by_element[::-1])[::-1] - by_element
    found: FloatArray = beyond[:, None] + beam.steps[:, None] * (force @ _REST.T)
    return found


def _rest() -> FloatArray:
    """Return the weights that integrate a cubic from each Gauss point to the element's end."""
    powers = np.arange(4)
    vandermonde = POINTS[:, None] ** powers
    integrals = (1.0 - POINTS[:, None] ** (powers + 1)) / (powers + 1)
    return frozen_array(np.linalg.solve(vandermonde.T, integrals.T).T)


_REST = _rest()
