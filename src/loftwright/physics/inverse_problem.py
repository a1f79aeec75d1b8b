"""Impact solved backwards as a least-squares problem with beliefs.

References
----------
Marquardt 1963, An algorithm for least-squares estimation of nonlinear parameters, SIAM Journal
on Applied Mathematics 11:431 (from memory).
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.errors import ConvergenceError
from loftwright.physics._impact_kernels import strike_rows
from loftwright.physics.ball_reading import BALL, MEASURED, BallReading, ReadingErrors
from loftwright.physics.delivery_belief import (
    CONSTANTS,
    DELIVERY,
    ConstantsBelief,
    DeliveryBelief,
)
from loftwright.physics.heads import Head
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.impulse import HeadNumbers, LawNumbers
from loftwright.physics.vectors import inverse

_SIZE: Final = len(DELIVERY)
_TOE: Final = DELIVERY.index("toe")
_STARTS: Final = (0.0, 10.0 * MILLIMETRE, -10.0 * MILLIMETRE)
_STEPS: Final = 40
_SETTLED: Final = 1e-9
_DIFFERENCE: Final = 1e-3
_RESTITUTIONS: Final = (0.3, 0.92)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """The whole of a solved ball: delivery and constants, and the information on both.

    Attributes
    ----------
    unknowns : FloatArray, shape (17,)
    slopes : FloatArray, shape (k, 17)
        Of the readings, in their own sigmas, per unit of each unknown.
    misfit : FloatArray, shape (k,)
        Of the readings, in their own sigmas.
    """

    unknowns: FloatArray
    slopes: FloatArray
    misfit: FloatArray


def solve(
    ball: BallReading,
    head: Head,
    law: ImpactLaw | None,
    *,
    errors: ReadingErrors,
    belief: DeliveryBelief,
    constants: ConstantsBelief,
) -> Solution:
    """Return the most probable delivery and constants of a ball.

    Parameters
    ----------
    ball, head, law, errors, belief, constants
        As for `delivery_from_ball`.

    Returns
    -------
    Solution

    Raises
    ------
    ConvergenceError
        If no delivery gives such a ball.

    Notes
    -----
    Without a mark three starts along the face, because toe and heel strikes can each explain a
    ball.
    """
    belief = with_speed(belief, ball)
    problem = Problem(ball, head, law or ImpactLaw(), errors, belief, constants)
    starts = _STARTS if ball.mark is None else (ball.mark[0],)
    found = [problem.descend(start) for start in starts]
    solved = [one for one in found if one is not None]
    if not solved:
        raise ConvergenceError(
            "no delivery of this head gives such a ball",
            place="ball",
            mend="Check the units and signs of its numbers, and the head.",
        )
    _, unknowns = min(solved, key=lambda one: one[0])
    misfit = problem.misfit(unknowns[None])[0]
    return Solution(unknowns=unknowns, slopes=problem.slopes(unknowns), misfit=misfit)


def with_speed(belief: DeliveryBelief, ball: BallReading) -> DeliveryBelief:
    """Return a belief whose head speed, if none was stated, is what the ball speed suggests."""
    if np.isfinite(belief.mean[0]):
        return belief
    mean = belief.mean.copy()
    mean[0] = ball.ball_speed / 1.44
    return DeliveryBelief(mean=mean, sd=belief.sd)


def prior_precision(belief: DeliveryBelief, constants: ConstantsBelief) -> FloatArray:
    """Return the inverse covariance of delivery and constants beforehand, shape (17, 17)."""
    size = _SIZE + len(CONSTANTS)
    precision = np.zeros((size, size))
    precision[:_SIZE, :_SIZE] = np.diag(belief.sd**-2.0)
    precision[_SIZE:, _SIZE:] = np.linalg.inv(constants.covariance)
    return precision


class Problem:
    """Readings and beliefs of one ball as a least-squares problem."""

    def __init__(
        self,
        ball: BallReading,
        head: Head,
        law: ImpactLaw,
        errors: ReadingErrors,
        belief: DeliveryBelief,
        constants: ConstantsBelief,
    ) -> None:
        self.head, self.law = head, law
        self.compliance = np.array(inverse(_symmetric(head.inertia)))
        self.prior_mean = np.concatenate([belief.mean, constants.mean])
        self.precision = prior_precision(belief, constants)
        spread = np.concatenate([belief.sd, np.sqrt(np.diag(constants.covariance))])
        self.steps = _DIFFERENCE * spread
        told = [
            ball.ball_speed,
            ball.launch,
            ball.direction,
            ball.spin * np.cos(ball.axis),
            ball.spin * np.sin(ball.axis),
        ]
        sigma = [getattr(errors, name) for name in BALL]
        self.measured = [name for name in MEASURED if getattr(ball, name) is not None]
        told += [getattr(ball, name) for name in self.measured]
        sigma += [getattr(errors, name) for name in self.measured]
        self.marked = ball.mark is not None
        if ball.mark is not None:
            told += list(ball.mark)
            sigma += [errors.mark, errors.mark]
        self.told, self.sigma = np.array(told), np.array(sigma)

    def misfit(self, unknowns: FloatArray) -> FloatArray:
        """Return readings as predicted less as read, in sigmas, shape (n, k); NaN if no ball."""
        balls = self._balls(unknowns)
        shown = [unknowns[:, DELIVERY.index(name)] for name in self.measured]
        if "head_speed" in self.measured:
            place = self.measured.index("head_speed")
            shown[place] = shown[place] * (1.0 + unknowns[:, -1])
        marks = [unknowns[:, _TOE], unknowns[:, _TOE + 1]] if self.marked else []
        predicted = np.column_stack([balls, *shown, *marks])
        return np.asarray((predicted - self.told) / self.sigma)

    def _balls(self, unknowns: FloatArray) -> FloatArray:
        launches = np.empty((len(unknowns), 5))
        for row, one in enumerate(unknowns):
            strike_rows(*self._numbers(one[_SIZE:]), one[None, :_SIZE], launches[row : row + 1])
        spin, axis = launches[:, 2], launches[:, 3]
        return np.column_stack(
            [
                launches[:, 0],
                launches[:, 1],
                launches[:, 4],
                spin * np.cos(axis),
                spin * np.sin(axis),
            ]
        )

    def _numbers(self, constants: FloatArray) -> tuple[HeadNumbers, LawNumbers]:
        by = dict(zip(CONSTANTS, constants.tolist(), strict=True))
        head, law = self.head, self.law
        depth, height, toe = (float(one) for one in head.cg)
        xx, yy, zz, xy, xz, yz = (self.compliance / (1.0 + by["inertia"])).tolist()
        restitution = min(
            max(head.restitution + by["restitution"], _RESTITUTIONS[0]), _RESTITUTIONS[1]
        )
        return HeadNumbers(
            mass=head.mass,
            cg=(depth + by["depth"], height + by["height"], toe + by["toe"]),
            compliance=(xx, yy, zz, xy, xz, yz),
            bulge_curvature=1.0 / (head.bulge + by["bulge"]),
            roll_curvature=1.0 / (head.roll + by["roll"]),
            restitution=restitution,
        ), LawNumbers(
            law.ball_mass,
            law.ball_radius,
            law.shaft_mass,
            law.restitution_speed,
            law.restitution_slope,
            law.restitution_toe,
            law.restitution_high,
            law.tangential_restitution + by["tangential_restitution"],
            law.spin_factor + by["spin_factor"],
            law.friction,
        )

    def slopes(self, unknowns: FloatArray) -> FloatArray:
        """Return how the readings follow the unknowns, by central differences, shape (k, 17)."""
        steps = np.diag(self.steps)
        both = self.misfit(np.vstack([unknowns + steps, unknowns - steps]))
        up, down = both[: len(steps)], both[len(steps) :]
        return np.asarray(((up - down) / (2.0 * self.steps[:, None])).T)

    def cost(self, unknowns: FloatArray) -> float:
        """Return half the squared distance of readings and beliefs; infinite if no ball."""
        misfit, away = self.misfit(unknowns[None])[0], unknowns - self.prior_mean
        found = float(misfit @ misfit + away @ self.precision @ away)
        return 0.5 * found if np.isfinite(found) else float("inf")

    def descend(self, toe: float) -> tuple[float, FloatArray] | None:
        """Return the lowest cost found from a start along the face, and where it is.

        Parameters
        ----------
        toe : float
            Where the strike starts [m].

        Returns
        -------
        (float, FloatArray) or None
            None if no ball leaves from there.
        """
        unknowns = self.prior_mean.copy()
        unknowns[_TOE] = toe
        cost, damping = self.cost(unknowns), 1e-3
        if not np.isfinite(cost):
            return None
        for _ in range(_STEPS):
            slopes = self.slopes(unknowns)
            if not np.isfinite(slopes).all():
                return None
            misfit = self.misfit(unknowns[None])[0]
            curvature = slopes.T @ slopes + self.precision
            pull = slopes.T @ misfit + self.precision @ (unknowns - self.prior_mean)
            while damping < 1e8:
                damped = curvature + damping * np.diag(np.diag(curvature))
                tried = unknowns - np.linalg.solve(damped, pull)
                lower = self.cost(tried)
                if lower <= cost:
                    break
                damping *= 10.0
            else:
                return cost, unknowns
            gained, cost, unknowns = cost - lower, lower, tried
            damping = max(damping / 10.0, 1e-9)
            if gained < _SETTLED * (1.0 + cost):
                break
        return cost, unknowns


def _symmetric(matrix: FloatArray) -> tuple[float, float, float, float, float, float]:
    xx, yy, zz = (float(matrix[i, i]) for i in range(3))
    return xx, yy, zz, float(matrix[0, 1]), float(matrix[0, 2]), float(matrix[1, 2])
