"""What the bench found of a shaft as the rack keeps it: a figure and an error a station."""

from datetime import date
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.domain.profile import MeasuredProfile
from loftwright.physics.bench.beliefs import Beliefs
from loftwright.physics.bench.fit import Solution
from loftwright.physics.bench.measure import Measured
from loftwright.physics.bench.piece import Estimate, Field, Piece
from loftwright.physics.bench.readings import Balance, Diameter, Mass, Reading, Torque

AT_AN_END: Final = 100.0 * MILLIMETRE
"""How near to an end a diameter is that end's."""


def kept_profile(
    found: Measured, *, piece: str, day: date, bench: str, conditions: str
) -> MeasuredProfile:
    """Return a measured shaft as the rack keeps it, with no id yet.

    Parameters
    ----------
    found : Measured
        All its readings count; take the doubted ones out first, or keep it as it is.
    piece : str
        Id of the sample.
    day : date
    bench : str
        Where it was measured.
    conditions : str
        How.

    Returns
    -------
    MeasuredProfile

    Raises
    ------
    InputError
        If a figure is outside what shafts have.

    Notes
    -----
    What every station shares, because load, span and clamp have one error, is kept apart as the
    bench's scale error, so that it drops out between two shafts of one bench. A place that was not
    read gets at least the error by which shafts differ from place to place, so that it counts as
    not seen. Twist, weight and balance point are kept where they were read.
    """
    return profile_of(
        found.piece, found.solution, piece=piece, day=day, bench=bench, conditions=conditions
    )


def profile_of(
    shaft: Piece, solution: Solution, *, piece: str, day: date, bench: str, conditions: str
) -> MeasuredProfile:
    """Return a shaft as the rack keeps it, from a solution in which no reading was doubted.

    Parameters
    ----------
    shaft : Piece
        Of the solution.
    solution : Solution
    piece, bench, conditions : str
    day : date
        As in `kept_profile`.

    Raises
    ------
    InputError
        If a figure is outside what shafts have.
    """
    read = solution.readings
    own, shared = _own_and_shared(solution, solution.layout.bending, shaft)
    figures: dict[str, Any] = {
        "bending": shaft.bending.values,
        "bending_error": _error(shaft.bending, own),
        "scale_error": shared,
    }
    if _among(read, Torque):
        own, _ = _own_and_shared(solution, solution.layout.torsion, shaft)
        figures |= {
            "twisting": shaft.torsion.values,
            "twisting_error": _error(shaft.torsion, own),
        }
    if _among(read, Mass):
        figures |= _weight(shaft, solution, balanced=_among(read, Balance))
    return MeasuredProfile(
        id="",
        piece=piece,
        day=day,
        bench=bench,
        conditions=conditions,
        station=shaft.stations,
        butt_diameter=_diameter(shaft.diameters, 0.0),
        tip_diameter=_diameter(shaft.diameters, shaft.length),
        **figures,
    )


def _among(readings: tuple[Reading, ...], kind: type) -> bool:
    return any(isinstance(one, kind) for one in readings)


def _own_and_shared(solution: Solution, part: slice, shaft: Piece) -> tuple[FloatArray, float]:
    """Return the errors of a logarithm with the bench's scales known, and what those add."""
    layout, covariance = solution.layout, solution.covariance
    scales = slice(layout.density.stop, None)
    among = covariance[scales, scales]
    gain = np.linalg.solve(among, covariance[scales, part]).T
    count = shaft.stations.size - 1
    by_scales = np.diag(gain @ among @ gain.T)
    own = np.sqrt(np.diag(covariance[part, part]) - by_scales)
    knots = layout.knots
    seen = shaft.bending.seen[:-1]
    shared = float(np.sqrt(np.mean(by_scales[:count][seen]))) if seen.any() else 0.0
    found: FloatArray = np.interp(shaft.stations, knots, own)
    return found, shared


def _error(field: Field, own: FloatArray) -> FloatArray:
    beliefs = Beliefs()
    unread = float(np.hypot(beliefs.smooth, beliefs.rough))
    found: FloatArray = field.values * np.where(field.seen, own, np.maximum(own, unread))
    return found


def _weight(shaft: Piece, solution: Solution, *, balanced: bool) -> dict[str, Any]:
    mass: Estimate = shaft.mass
    found: dict[str, Any] = {"mass": mass.value, "mass_error": mass.spread}
    if balanced:
        lean = shaft.stations / shaft.length - 0.5
        rows = np.stack([np.ones_like(lean), lean], axis=1)
        layout = solution.layout
        covariance = solution.covariance[layout.density, layout.density]
        found |= {
            "balance": shaft.balance.value,
            "balance_error": shaft.balance.spread,
            "density": shaft.line_density,
            "density_error": np.sqrt(np.einsum("ij,jk,ik->i", rows, covariance, rows)),
        }
    return found


def _diameter(read: tuple[Diameter, ...], end: float) -> float | None:
    near = [one for one in read if abs(one.station - end) <= AT_AN_END]
    return min(near, key=lambda one: abs(one.station - end)).value if near else None
