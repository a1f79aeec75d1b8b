"""One robust multivariate regression with effects per club, solved without chance.

For ball i with responses y, covariates x and club effects u

    y_i = B x_i + U z_i + e_i,    e_i ~ t_nu(0, Sigma_c(i)),    vec U ~ N(m, kappa K)

B has an independent normal prior, Sigma an inverse Wishart one, kappa lies on a short grid, and
there may be several views of K. Weights and Sigma are found under the widest view, so that an
effect which a narrow view cannot hold does not pass for noise.
Sigma_c adds to Sigma what is not known of the covariates of a noise class c. A ball whose
covariates are one of several candidates (marks of unknown order) is a mixture over them.

Expectation-maximisation gives B, U, Sigma and the weights; the covariance comes from the
information that a t sample and a mixture really hold.

References
----------
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963.
Lange, Little & Taylor 1989, Robust statistical modeling using the t distribution, JASA 84:881.
Louis 1982, Finding the observed information matrix when using the EM algorithm, JRSS-B 44:226.
Rue, Martino & Chopin 2009, Approximate Bayesian inference by nested Laplace, JRSS-B 71:319.
"""

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.model import Fit, Observations, Prior, State
from loftwright.evidence.positive import (
    cholesky,
    inverse,
    inverse_of_factor,
    log_determinant,
    solve,
)
from loftwright.evidence.problem import Problem, class_precisions

COLD_STEPS = 8
WARM_STEPS = 2
_NEGLIGIBLE = 1e-4


def fit(data: Observations, prior: Prior, start: State | None = None) -> Fit:
    """Fit the model to the balls.

    Parameters
    ----------
    data : Observations
    prior : Prior
    start : State, optional
        The state after the ball before; balls beyond it start at weight one. Without it, or
        where a ball brought a new club, visit or column, the fit starts cold.

    Returns
    -------
    Fit
    """
    problem = Problem(data, prior)
    if start is None or start.theta.shape != (problem.responses, problem.columns):
        theta = np.hstack([prior.coefficients, prior.effects])
        residual, scale, steps = prior.residual, 1.0, COLD_STEPS
        weights = np.ones(data.balls)
    else:
        theta, residual, scale, steps = start.theta, start.residual, start.scale, WARM_STEPS
        weights = np.ones(data.balls)
        known = min(data.balls, len(start.weights))
        weights[:known] = start.weights[:known]
    if len(prior.scale_grid) == 1:
        scale = float(prior.scale_grid[0])
    for _ in range(steps):
        coefficients = theta[:, : problem.covariate_columns]
        precisions, log_determinants = class_precisions(residual, coefficients, data.classes)
        row_weights = weights[data.ball] * problem.probability
        squares, products = problem.grams(row_weights)
        precision, pull = problem.prior_terms(scale)
        system = precision + problem.information(squares, precisions, np.ones(len(squares)))
        for product, class_precision in zip(products, precisions, strict=True):
            pull += (class_precision @ product).ravel()
        factor = cholesky(system)
        theta = solve(factor, pull).reshape(theta.shape)
        residuals = problem.residuals(theta)
        distances = problem.distances(residuals, precisions)
        problem.probability, _ = problem.order_probabilities(distances, log_determinants)
        weights = problem.ball_weights(distances, problem.probability)
        if prior.learn_residual:
            row_weights = weights[data.ball] * problem.probability
            residual = problem.update_residual(residuals, row_weights, inverse(factor))
    return _over_scales(problem, theta, residual, weights)


def _over_scales(
    problem: Problem, theta: FloatArray, residual: FloatArray, weights: FloatArray
) -> Fit:
    """Mix the solutions over scales and views of the effects by their first two moments."""
    data, prior = problem.data, problem.prior
    coefficients = theta[:, : problem.covariate_columns]
    precisions, log_determinants = class_precisions(residual, coefficients, data.classes)
    row_weights = weights[data.ball] * problem.probability
    squares, products = problem.grams(row_weights)
    ones = np.ones(len(squares))
    information = problem.information(squares, precisions, ones)
    honest = problem.information(squares, precisions, _information_factors(problem))
    lost = _lost_to_order(problem, theta, precisions, log_determinants, weights)
    pulls = sum(
        ((p @ h).ravel() for p, h in zip(precisions, products, strict=True)),
        start=np.zeros(problem.size),
    )
    cells = [
        (float(scale), view)
        for view in range(len(prior.effect_precisions))
        for scale in prior.scale_grid
    ]
    solutions, share = _solved(problem, cells, information, pulls)
    mean = share @ solutions
    spread = solutions - mean
    covariance = (spread.T * share) @ spread
    for cell, weight in zip(cells, share.tolist(), strict=True):
        if weight:
            precision, _ = problem.prior_terms(*cell)
            covariance += weight * _covariance(precision + honest, lost)
    return Fit(
        theta=mean.reshape(theta.shape),
        covariance=covariance,
        residual=residual,
        weights=weights,
        probability=problem.probability,
        scale=float(np.exp(share @ np.log([scale for scale, _ in cells]))),
        df=prior.residual_df + problem.complete_balls(),
        mean_scale=float(share @ np.array([scale for scale, _ in cells])),
    )


def _solved(
    problem: Problem, cells: list[tuple[float, int]], information: FloatArray, pulls: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Solve under every scale and view; return the solutions and how likely each is."""
    prior = problem.prior
    log_weight = np.empty(len(cells))
    solutions = np.empty((len(cells), problem.size))
    for index, (scale, view) in enumerate(cells):
        precision, pull = problem.prior_terms(scale, view)
        pull = pull + pulls
        factor = cholesky(precision + information)
        solutions[index] = solve(factor, pull)
        log_weight[index] = 0.5 * (
            problem.effect_log_determinants[view]
            - problem.effect_index.size * np.log(scale)
            - log_determinant(factor)
            + float(pull @ solutions[index])
            - problem.effect_energies[view] / scale
        )
        if len(prior.scale_grid) > 1:
            log_weight[index] -= 0.5 * (np.log(scale) / prior.scale_log_sd) ** 2
    share = np.exp(log_weight - log_weight.max())
    share[share < _NEGLIGIBLE * share.sum()] = 0.0
    share /= share.sum()
    return solutions, share


def _information_factors(problem: Problem) -> FloatArray:
    """Return the share of the weighted information that each class really holds.

    The weights of a t sample overstate its information by (nu + R + 2) / (nu + R); the second
    factor stands for what a small sample does not know of its own variances.
    """
    prior, data = problem.prior, problem.data
    seen = np.array([noise.observed.sum() for noise in data.classes], dtype=np.float64)
    tail = np.ones(len(seen))
    if not np.isinf(prior.tail_df):
        tail = (prior.tail_df + seen) / (prior.tail_df + seen + 2.0)
    balls = float(data.balls)
    return tail * balls / (balls + prior.small_sample) if balls else tail


def _lost_to_order(
    problem: Problem,
    theta: FloatArray,
    precisions: FloatArray,
    log_determinants: FloatArray,
    weights: FloatArray,
) -> FloatArray | None:
    """Information lost because the order of some marks is unknown (Louis 1982).

    It is the variance of the complete-data score over the orders of each set.
    """
    data = problem.data
    if not data.orders:
        return None
    residuals = problem.residuals(theta)
    distances = problem.distances(residuals, precisions)
    _, per_order = problem.order_probabilities(distances, log_determinants)
    pulls = np.einsum("nij,nj->ni", precisions[data.noise], residuals)
    pulls *= weights[data.ball][:, None]
    lost = np.zeros((problem.size, problem.size))
    for orders, share in zip(data.orders, per_order, strict=True):
        scores = np.einsum("oki,okj->oij", pulls[orders], problem.features[orders])
        scores = scores.reshape(len(orders), problem.size)
        scores -= share @ scores
        lost += (scores.T * share) @ scores
    return lost


def _covariance(information: FloatArray, lost: FloatArray | None) -> FloatArray:
    """Invert the information, less what unknown orders took from it.

    No direction may lose more than 95 %: beyond that the quadratic approximation has broken
    down and the prior must carry the direction anyway.
    """
    factor = cholesky(information)
    if lost is None:
        return inverse(factor)
    root = inverse_of_factor(factor)
    values, vectors = np.linalg.eigh(root @ lost @ root.T)
    kept = 1.0 - np.clip(values, 0.0, 0.95)
    half = root.T @ vectors
    return (half / kept) @ half.T
