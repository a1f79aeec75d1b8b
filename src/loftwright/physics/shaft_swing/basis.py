"""A shaft with a head on it, as a swing needs it: few bending shapes, at few places."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft_swing.equations import ClubNumbers

WRIST: Final = 0.09
"""Distance of the wrist's axis from the butt [m]."""
HANDS: Final = 0.18
"""The hands hold the shaft straight from the butt to here [m]."""
HOSEL: Final = 35.0 * MILLIMETRE
"""The hosel holds the shaft straight over this length of its tip."""
PLACES: Final = 6

_GREATEST_HEAD: Final = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class SwungHead:
    """A head as a swing feels it, with the same inertia about every axis.

    Attributes
    ----------
    mass : float
        With what sits in and on the hosel [kg].
    inertia : float
        About its centre of gravity [kg m^2].
    back, toe, beyond : float
        Of the centre of gravity behind the shaft's line, from it to the toe, and along it beyond
        the top of the hosel [m].
    """

    mass: float
    inertia: float
    back: float
    toe: float
    beyond: float

    def __post_init__(self) -> None:
        numbers = (self.mass, self.inertia, self.back, self.toe, self.beyond)
        if not np.all(np.isfinite(numbers)):
            raise InputError(
                "a number of the head is missing or infinite.",
                place="head",
                mend="Give mass, inertia and the three distances of its centre of gravity.",
            )
        if not 0.0 < self.mass <= _GREATEST_HEAD:
            raise InputError(
                f"a head of {self.mass / GRAM:.1f} g cannot be: above 0 and at most 500 g.",
                place="head mass",
                mend="Look at its unit.",
            )
        if not self.inertia > 0.0:
            raise InputError(
                f"an inertia of {self.inertia:g} kg m² cannot be: above 0.",
                place="head inertia",
                mend="Give it about the centre of gravity.",
            )


REFERENCE_SWUNG_HEAD: Final = SwungHead(
    mass=0.200, inertia=3.2e-4, back=0.016, toe=0.036, beyond=0.042
)
"""A driver's head: 200 g, 3200 g cm², plausible distances (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShaftBasis:
    """How a shaft bends with its head on, held in the hands.

    The shapes make the mass of shaft and head the unit matrix and their stiffness diagonal. They
    serve both planes. Places are counted from the wrist.

    Attributes
    ----------
    places, masses : FloatArray, shape (m,)
        Where the shaft's mass is taken [m], and how much of it [kg].
    shapes : FloatArray, shape (m, n)
        Deflections there [kg^-1/2].
    shortening : FloatArray, shape (m, n, n)
        Products of slopes, summed from the hands to there [kg^-1 m^-1].
    end : float
        Top of the hosel [m].
    end_shapes, end_slopes : FloatArray, shape (n,)
        Deflections and slopes there.
    end_shortening : FloatArray, shape (n, n)
        As `shortening`, at the top of the hosel.
    frequencies : FloatArray, shape (n,)
        Of the shapes, with the head on [rad s^-1].
    head : SwungHead
        The head that is on it.
    damping : float
        Of every shape, relative to critical.
    """

    places: FloatArray
    masses: FloatArray
    shapes: FloatArray
    shortening: FloatArray
    end: float
    end_shapes: FloatArray
    end_slopes: FloatArray
    end_shortening: FloatArray
    frequencies: FloatArray
    head: SwungHead
    damping: float = 0.02

    def __post_init__(self) -> None:
        for name in ARRAYS:
            object.__setattr__(self, name, frozen_array(getattr(self, name)))
        m, n = len(self.places), len(self.frequencies)
        expected = ((m,), (m,), (m, n), (m, n, n), (n,), (n,), (n, n), (n,))
        for name, shape in zip(ARRAYS, expected, strict=True):
            array = getattr(self, name)
            if array.shape != shape or not np.all(np.isfinite(array)):
                raise InputError(
                    f"`{name}` must hold finite numbers in the shape {shape}, not {array.shape}.",
                    place="shaft basis",
                    mend="Make the basis from the beam's shapes.",
                )
        if not (m and n and np.all(self.masses > 0.0) and np.all(self.frequencies > 0.0)):
            raise InputError(
                "masses and frequencies of a shaft must be above zero, and there must be some.",
                place="shaft basis",
                mend="Look at the profile of the shaft.",
            )
        if not self.damping > 0.0:
            raise InputError(
                f"a damping of {self.damping:g} cannot be: above 0.",
                place="shaft damping",
                mend="Two hundredths of critical is usual.",
            )

    @property
    def numbers(self) -> ClubNumbers:
        """The same for the compiled loops."""
        head = self.head
        return ClubNumbers(
            *(self.places, self.masses, self.shapes, self.shortening, float(self.end)),
            *(self.end_shapes, self.end_slopes, self.end_shortening, self.frequencies),
            *(float(self.damping), float(head.mass), float(head.inertia)),
            *(-float(head.back), float(head.toe), float(head.beyond)),
        )


ARRAYS: Final = (
    *("places", "masses", "shapes", "shortening"),
    *("end_shapes", "end_slopes", "end_shortening", "frequencies"),
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamShapes:
    """Bending shapes of a clamped beam of cubic elements, from the hands to the hosel.

    For a swing: the two lowest modes with the head on, and the deflection under a moment at the
    end. The shapes need not be normalised, but must be independent.

    Attributes
    ----------
    nodes : FloatArray, shape (e + 1,)
        From the butt, rising [m].
    deflections, slopes : FloatArray, shape (k, e + 1)
        Of every shape at the nodes.
    stiffness, mass : FloatArray, shape (k, k)
        Of the beam with the head on it, between the shapes.
    density : FloatArray, shape (e + 1,)
        Mass per length of the shaft at the nodes, linear between [kg m^-1].
    """

    nodes: FloatArray
    deflections: FloatArray
    slopes: FloatArray
    stiffness: FloatArray
    mass: FloatArray
    density: FloatArray

    def __post_init__(self) -> None:
        for name in ("nodes", "deflections", "slopes", "stiffness", "mass", "density"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))
        if np.any(np.diff(self.nodes) <= 0.0):
            raise InputError(
                "the nodes of a beam must rise from the hands to the hosel.",
                place="beam shapes",
                mend="Sort the stations of the profile, each once.",
            )


def swing_basis(
    beam: BeamShapes, head: SwungHead, *, places: int = PLACES, damping: float = 0.02
) -> ShaftBasis:
    """Return the basis of a swing from the shapes of a beam.

    Parameters
    ----------
    beam : BeamShapes
        With `head` on it.
    head : SwungHead
    places : int
        At how many places of Gauss and Legendre the shaft's mass is taken.
    damping : float
        Relative to critical.

    Returns
    -------
    ShaftBasis

    Raises
    ------
    InputError
        If the shapes are not independent, or a number cannot be.

    References
    ----------
    Ritz 1909: the shapes are combined so that mass and stiffness become diagonal.
    """
    weights, frequencies = _ritz(beam.stiffness, beam.mass)
    deflections, slopes = weights.T @ beam.deflections, weights.T @ beam.slopes
    points, lengths = np.polynomial.legendre.leggauss(places)
    first, last = float(beam.nodes[0]), float(beam.nodes[-1])
    at = first + 0.5 * (points + 1.0) * (last - first)
    there, _ = _hermite(beam.nodes, deflections, slopes, at)
    shortening = _shortening(beam.nodes, deflections, slopes, np.append(at, last))
    return ShaftBasis(
        places=at - WRIST,
        masses=0.5 * lengths * (last - first) * np.interp(at, beam.nodes, beam.density),
        shapes=there,
        shortening=shortening[:-1],
        end=last - WRIST,
        end_shapes=deflections[:, -1],
        end_slopes=slopes[:, -1],
        end_shortening=shortening[-1],
        frequencies=frequencies,
        head=head,
        damping=damping,
    )


def _ritz(stiffness: FloatArray, mass: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the combinations of shapes with unit mass, and their frequencies."""
    scale = 1.0 / np.sqrt(np.diag(mass))
    try:
        root = np.linalg.inv(np.linalg.cholesky(mass * np.outer(scale, scale)))
    except np.linalg.LinAlgError:
        raise InputError(
            "the bending shapes of the shaft are not independent.",
            place="beam shapes",
            mend="Give two modes and the deflection under a moment at the end.",
        ) from None
    squares, vectors = np.linalg.eigh(root @ (stiffness * np.outer(scale, scale)) @ root.T)
    return scale[:, None] * (root.T @ vectors), np.sqrt(squares)


def _hermite(
    nodes: FloatArray, deflections: FloatArray, slopes: FloatArray, at: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return deflections and slopes of cubic elements at places, shape (len(at), k)."""
    element = np.clip(np.searchsorted(nodes, at, side="right") - 1, 0, len(nodes) - 2)
    length = nodes[element + 1] - nodes[element]
    u = (at - nodes[element]) / length
    here, there = deflections[:, element], deflections[:, element + 1]
    turn, turned = slopes[:, element] * length, slopes[:, element + 1] * length
    place = (
        (1.0 - 3.0 * u**2 + 2.0 * u**3) * here
        + (u - 2.0 * u**2 + u**3) * turn
        + (3.0 * u**2 - 2.0 * u**3) * there
        + (u**3 - u**2) * turned
    )
    slope = (
        6.0 * (u**2 - u) * (here - there)
        + (1.0 - 4.0 * u + 3.0 * u**2) * turn
        + (3.0 * u**2 - 2.0 * u) * turned
    ) / length
    return place.T, slope.T


def _shortening(
    nodes: FloatArray, deflections: FloatArray, slopes: FloatArray, at: FloatArray
) -> FloatArray:
    """Return the products of slopes summed up to places, exact for cubic elements."""
    ends = np.unique(np.concatenate([nodes, at]))
    points, weights = np.polynomial.legendre.leggauss(3)
    half = 0.5 * np.diff(ends)
    inside = (ends[:-1] + half)[:, None] + half[:, None] * points
    slope = _hermite(nodes, deflections, slopes, inside.ravel())[1]
    slope = slope.reshape(len(half), len(points), -1)
    pieces = np.einsum("e,g,egi,egj->eij", half, weights, slope, slope)
    summed = np.concatenate([np.zeros((1, *pieces.shape[1:])), np.cumsum(pieces, axis=0)])
    return np.asarray(summed[np.searchsorted(ends, at)])
