"""The most probable shaft behind some readings, by Gauss and Newton, and what they leave open.

With readings y (logarithms), their model f, slopes J, errors R and the prior N(m, C), every step
goes to x = m + C J' S^-1 (y - f + J (x - m)), S = J C J' + R, which is the usual step
(J' R^-1 J + C^-1)^-1 written without the inverse of C. A step that overshoots, as one wrong
reading makes it do, is halved. The covariance is that of the last step.

References
----------
Rodgers 2000, Inverse methods for atmospheric sounding, section 5.3 (from memory).
Rasmussen and Williams 2006, Gaussian processes for machine learning, equations 2.23 and 5.12: what
the others say of a reading that was left out (from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.bench.beliefs import Unknowns
from loftwright.physics.bench.readings import Reading
from loftwright.physics.bench.rows import Row, row_of

MOST_STEPS: Final = 100
SETTLED: Final = 1e-3
SHARES: Final = (1.0, 0.5, 0.25, 0.125, 0.0625)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """What the readings make of the unknowns.

    Attributes
    ----------
    layout : Unknowns
    readings : tuple of Reading
        Those that were used.
    unknown : FloatArray
        The most probable values.
    covariance : FloatArray
        What is left open about them.
    slopes : FloatArray
        Of ln readings with the unknowns, shape (readings, unknowns).
    predicted : FloatArray
        What each reading should have been, shape (readings,) [its own unit].
    residuals : FloatArray
        Of ln readings, in each reading's own errors.
    reaches : FloatArray
        Between which stations each reading works on the shaft, shape (readings, 2) [m].
    surprises : FloatArray
        How far each reading lies from what all others say of it, in standard deviations of both.
    evidence : float
        The logarithm of how probable ln readings were before any was read.
    """

    layout: Unknowns
    readings: tuple[Reading, ...]
    unknown: FloatArray
    covariance: FloatArray
    slopes: FloatArray
    predicted: FloatArray
    residuals: FloatArray
    reaches: FloatArray
    surprises: FloatArray
    evidence: float

    def of_another(self, reading: Reading) -> float:
        """Return how far a reading that was not used lies from what is expected of it.

        In standard deviations of its own error and of what is left open.
        """
        value, slopes = row_of(reading, self.layout).says(self.unknown)
        variance = reading.sigma**2 + float(slopes @ self.covariance @ slopes)
        return (float(np.log(reading.value)) - value) / float(np.sqrt(variance))


def solve(layout: Unknowns, readings: Sequence[Reading]) -> Solution:
    """Return the most probable shaft behind some readings.

    Parameters
    ----------
    layout : Unknowns
        With the prior.
    readings : sequence of Reading
        May be none: then the prior comes back.

    Returns
    -------
    Solution

    Raises
    ------
    InputError
        If a set-up does not suit the shaft.
    ConvergenceError
        If the readings do not settle on one shaft.
    """
    rows = [_placed_row(place, reading, layout) for place, reading in enumerate(readings)]
    targets = np.log([reading.value for reading in readings])
    problem = _Problem(
        layout=layout,
        rows=tuple(rows),
        targets=targets,
        variances=np.array([reading.sigma for reading in readings]) ** 2,
    )
    weights, moved = np.zeros_like(layout.mean), np.inf
    for _ in range(MOST_STEPS):
        before = problem.at(weights)
        weights = problem.stepped(weights)
        moved = float(np.abs(problem.at(weights) - before)[_stiffness(layout)].max())
        if moved <= SETTLED:
            break
    unknown, prior = problem.at(weights), layout.covariance
    values, slopes = _said(rows, unknown)
    precision = np.linalg.inv(problem.spread(slopes))
    innovation = targets - values + slopes @ (unknown - layout.mean)
    surprises = precision @ innovation / np.sqrt(np.diag(precision))
    if moved > SETTLED:
        raise _unsettled(readings, surprises, moved)
    gain = prior @ slopes.T
    return Solution(
        layout=layout,
        readings=tuple(readings),
        unknown=frozen_array(unknown),
        covariance=frozen_array(prior - gain @ precision @ gain.T),
        slopes=frozen_array(slopes),
        predicted=frozen_array(np.exp(values)),
        residuals=frozen_array((targets - values) / np.sqrt(problem.variances)),
        reaches=frozen_array(np.array([row.reach for row in rows]).reshape(len(rows), 2)),
        surprises=frozen_array(surprises),
        evidence=log_density(innovation[None], problem.spread(slopes)[None]).item(),
    )


def log_density(off: FloatArray, covariance: FloatArray) -> FloatArray:
    """Return the logarithm of a normal density for each of some sets of differences.

    Parameters
    ----------
    off : FloatArray
        From the mean, shape (sets, size).
    covariance : FloatArray
        Shape (sets, size, size).
    """
    squares = (off * np.linalg.solve(covariance, off[..., None])[..., 0]).sum(axis=-1)
    spreads = np.linalg.slogdet(covariance)[1]
    return frozen_array(-0.5 * (squares + spreads + off.shape[-1] * np.log(2.0 * np.pi)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Problem:
    """Unknowns are mean + covariance times weights, so that nothing need be inverted."""

    layout: Unknowns
    rows: tuple[Row, ...]
    targets: FloatArray
    variances: FloatArray

    def at(self, weights: FloatArray) -> FloatArray:
        return frozen_array(self.layout.mean + self.layout.covariance @ weights)

    def spread(self, slopes: FloatArray) -> FloatArray:
        return slopes @ self.layout.covariance @ slopes.T + np.diag(self.variances)

    def cost(self, weights: FloatArray) -> float:
        values, _ = _said(self.rows, self.at(weights))
        off = (self.targets - values) ** 2 / self.variances
        return float(off.sum() + weights @ self.layout.covariance @ weights)

    def stepped(self, weights: FloatArray) -> FloatArray:
        """Return the weights after one step of Gauss and Newton, shorter where it overshoots."""
        unknown = self.at(weights)
        values, slopes = _said(self.rows, unknown)
        innovation = self.targets - values + slopes @ (unknown - self.layout.mean)
        step = slopes.T @ np.linalg.solve(self.spread(slopes), innovation) - weights
        dearest = self.cost(weights) * (1.0 + 1e-9)
        for share in SHARES:
            if self.cost(weights + share * step) <= dearest:
                break
        return weights + share * step


def _said(rows: Sequence[Row], unknown: FloatArray) -> tuple[FloatArray, FloatArray]:
    said = [row.says(unknown) for row in rows]
    slopes = np.array([one.slopes for one in said]).reshape(len(said), unknown.size)
    return np.array([one.value for one in said]), slopes


def _stiffness(layout: Unknowns) -> slice:
    return slice(0, 2 * layout.knots.size)


def _placed_row(place: int, reading: Reading, layout: Unknowns) -> Row:
    """Return a row; what is wrong with its set-up is told with the reading's number."""
    try:
        return row_of(reading, layout)
    except InputError as error:
        raise InputError(
            error.message, place=f"reading {place + 1}, {error.place}", mend=error.mend
        ) from error


def _unsettled(
    readings: Sequence[Reading], surprises: FloatArray, moved: float
) -> ConvergenceError:
    worst = int(np.abs(surprises).argmax()) if len(readings) else 0
    return ConvergenceError(
        f"after {MOST_STEPS} steps EI still moves by {100.0 * moved:.1f} %; "
        f"the strangest reading is number {worst + 1}",
        place=f"reading {worst + 1}",
        mend="Read it again, or leave it out.",
    )
