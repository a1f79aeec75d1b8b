"""What the engine is given and what it returns: rows, noise classes, priors and fits."""

from dataclasses import dataclass, field

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NoiseClass:
    """Rows that share what is not known of them.

    Attributes
    ----------
    observed : BoolArray, shape (R,)
        Responses that these rows have.
    directions : FloatArray, shape (K, P)
        Directions in covariate space along which their covariates are uncertain.
    variances : FloatArray, shape (K,)
        Variance along each direction.
    response_variances : FloatArray, shape (R,), optional
        Variance of further errors of the responses themselves.
    """

    observed: BoolArray
    directions: FloatArray
    variances: FloatArray
    response_variances: FloatArray | None = None

    @property
    def complete(self) -> bool:
        """Whether nothing is missing, so that the rows can teach the residual covariance."""
        known = self.variances.size == 0 and self.response_variances is None
        return bool(self.observed.all()) and known


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Observations:
    """Rows to be regressed; several rows of one ball are candidates for it.

    Attributes
    ----------
    responses : FloatArray, shape (n, R)
        Scaled responses, NaN where missing.
    covariates : FloatArray, shape (n, P)
    membership : FloatArray, shape (n, S)
        Design of the effects, one-hot for one effect a club.
    ball : IntArray, shape (n,)
        The ball a row is a candidate for, 0 to balls - 1.
    noise : IntArray, shape (n,)
        Index into `classes`.
    orders : tuple of IntArray, each shape (O, k)
        For each set of unknown order, the rows that each possible order selects.
    """

    responses: FloatArray
    covariates: FloatArray
    membership: FloatArray
    ball: IntArray
    noise: IntArray
    classes: tuple[NoiseClass, ...]
    orders: tuple[IntArray, ...] = ()

    @property
    def features(self) -> FloatArray:
        """Covariates, then membership, as the unknowns run, shape (n, P + S)."""
        return np.hstack([self.covariates, self.membership])

    @property
    def balls(self) -> int:
        """Number of balls."""
        return int(self.ball.max()) + 1 if self.ball.size else 0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Prior:
    """What is believed before the first ball, in scaled units.

    Attributes
    ----------
    coefficients, coefficient_sd : FloatArray, shape (R, P)
    effects : FloatArray, shape (R, S)
    effect_precisions : FloatArray, shape (M, R S, R S)
        Inverse of K under each of M views of how effects vary, the widest last; index
        (response, effect) with the effect running fastest.
    residual : FloatArray, shape (R, R)
        Mean of the residual scale matrix.
    residual_df : float
        Weight of that mean in balls.
    tail_df : float
        nu of the t distribution; infinite for normal errors.
    scale_grid : FloatArray, shape (G,)
        Values of kappa; one value fixes it.
    scale_log_sd : float
        Prior sd of log kappa.
    small_sample : float
        Balls by which the information is discounted; 0 for none.
    learn_residual : bool
        False keeps the residual scale matrix at its prior mean.
    """

    coefficients: FloatArray
    coefficient_sd: FloatArray
    effects: FloatArray
    effect_precisions: FloatArray
    residual: FloatArray
    residual_df: float = 12.0
    tail_df: float = 6.0
    scale_grid: FloatArray = field(default_factory=lambda: np.array([0.35, 0.6, 1.0, 1.7, 2.9]))
    scale_log_sd: float = 0.7
    small_sample: float = 5.0
    learn_residual: bool = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class State:
    """Where the next update starts."""

    theta: FloatArray
    residual: FloatArray
    weights: FloatArray
    scale: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """What the balls say.

    Attributes
    ----------
    theta : FloatArray, shape (R, P + S)
        Coefficients, then effects.
    covariance : FloatArray, shape (R (P + S), R (P + S))
        Index (response, column) with the column running fastest.
    residual : FloatArray, shape (R, R)
        Residual scale matrix of complete rows.
    weights : FloatArray, shape (balls,)
        t weights; up to (nu + R) / nu for an ordinary ball.
    probability : FloatArray, shape (n,)
        Probability of each candidate row.
    scale : float
        Geometric mean of kappa.
    df : float
        Degrees of freedom of the ranges.
    mean_scale : float
        Mean of kappa: what the effects of clubs without balls are spread by.
    """

    theta: FloatArray
    covariance: FloatArray
    residual: FloatArray
    weights: FloatArray
    probability: FloatArray
    scale: float
    df: float
    mean_scale: float

    @property
    def state(self) -> State:
        """The start for the next update."""
        return State(
            theta=self.theta, residual=self.residual, weights=self.weights, scale=self.scale
        )

    def fitted(self, data: Observations) -> FloatArray:
        """Return the response that is expected of every row, shape (n, R)."""
        return data.features @ self.theta.T
