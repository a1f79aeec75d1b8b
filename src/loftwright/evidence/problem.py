"""The sums, weights and residuals of one fit, prepared once and asked for at every step."""

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.model import NoiseClass, Observations, Prior


def class_precisions(
    residual: FloatArray, coefficients: FloatArray, classes: tuple[NoiseClass, ...]
) -> tuple[FloatArray, FloatArray]:
    """Precision of each class, zero-padded where a response is missing, and log determinant.

    Parameters
    ----------
    residual : FloatArray, shape (R, R)
        Residual scale matrix of complete rows.
    coefficients : FloatArray, shape (R, P)
    classes : tuple of NoiseClass
    """
    size = residual.shape[0]
    precisions = np.zeros((len(classes), size, size))
    log_determinants = np.zeros(len(classes))
    for index, noise in enumerate(classes):
        spread = coefficients @ noise.directions.T
        covariance = residual + (spread * noise.variances) @ spread.T
        if noise.response_variances is not None:
            covariance = covariance + np.diag(noise.response_variances)
        seen = np.flatnonzero(noise.observed)
        if seen.size == size:
            precisions[index] = np.linalg.inv(covariance)
            log_determinants[index] = np.linalg.slogdet(covariance)[1]
        elif seen.size:
            block = np.ix_(seen, seen)
            precisions[index][block] = np.linalg.inv(covariance[block])
            log_determinants[index] = np.linalg.slogdet(covariance[block])[1]
    return precisions, log_determinants


class Problem:
    """The fixed arrays of one fit, prepared once."""

    def __init__(self, data: Observations, prior: Prior) -> None:
        self.data = data
        self.prior = prior
        self.filled = np.nan_to_num(data.responses, nan=0.0)
        self.features = data.features
        self.responses = data.responses.shape[1]
        self.columns = self.features.shape[1]
        self.covariate_columns = data.covariates.shape[1]
        self.size = self.responses * self.columns
        self.rows = [np.flatnonzero(data.noise == c) for c in range(len(data.classes))]
        self.seen = np.array([noise.observed.sum() for noise in data.classes])[data.noise]
        complete = np.array([noise.complete for noise in data.classes])
        self.complete_rows = complete[data.noise]
        first = np.full(data.balls, len(data.ball), dtype=np.int64)
        np.minimum.at(first, data.ball, np.arange(len(data.ball)))
        self.ball_seen = self.seen[first]
        self.probability = self._even_orders()
        self._lay_prior()

    def _even_orders(self) -> FloatArray:
        probability = np.ones(len(self.data.ball))
        for orders in self.data.orders:
            probability[np.unique(orders)] = 0.0
        for orders in self.data.orders:
            np.add.at(probability, orders.ravel(), 1.0 / len(orders))
        return probability

    def _lay_prior(self) -> None:
        shape = (self.responses, self.columns)
        precision = np.zeros(shape)
        precision[:, : self.covariate_columns] = self.prior.coefficient_sd**-2.0
        pull = np.zeros(shape)
        pull[:, : self.covariate_columns] = (
            precision[:, : self.covariate_columns] * self.prior.coefficients
        )
        index = np.arange(self.size).reshape(shape)
        self.effect_index = index[:, self.covariate_columns :].ravel()
        self.coefficient_precision = np.diag(precision.ravel())
        self.coefficient_pull = pull.ravel()
        effects = self.prior.effects.ravel()
        self.effect_pulls = self.prior.effect_precisions @ effects
        self.effect_energies = self.effect_pulls @ effects
        self.effect_log_determinants = np.linalg.slogdet(self.prior.effect_precisions)[1]

    def prior_terms(self, scale: float, view: int = -1) -> tuple[FloatArray, FloatArray]:
        """Return precision and pull of the prior under a view of the effects, scaled."""
        precision = self.coefficient_precision.copy()
        precision[np.ix_(self.effect_index, self.effect_index)] = (
            self.prior.effect_precisions[view] / scale
        )
        pull = self.coefficient_pull.copy()
        pull[self.effect_index] = self.effect_pulls[view] / scale
        return precision, pull

    def grams(self, weights: FloatArray) -> tuple[list[FloatArray], list[FloatArray]]:
        """Weighted sums of squares and products per noise class."""
        squares = []
        products = []
        for rows in self.rows:
            features = self.features[rows]
            weighted = features * weights[rows, None]
            squares.append(features.T @ weighted)
            products.append(self.filled[rows].T @ weighted)
        return squares, products

    def information(
        self, squares: list[FloatArray], precisions: FloatArray, factors: FloatArray
    ) -> FloatArray:
        """Information of the balls on all unknowns."""
        shape = (self.responses, self.columns, self.responses, self.columns)
        total = np.zeros(shape)
        for square, precision, factor in zip(squares, precisions, factors, strict=True):
            total += (factor * precision)[:, None, :, None] * square[None, :, None, :]
        return total.reshape(self.size, self.size)

    def residuals(self, theta: FloatArray) -> FloatArray:
        """Residual of every row, zero where the response is missing."""
        residuals = self.data.responses - self.features @ theta.T
        return np.nan_to_num(residuals, nan=0.0)

    def distances(self, residuals: FloatArray, precisions: FloatArray) -> FloatArray:
        """Squared distance of every row in its class's own sigmas."""
        distances = np.empty(len(residuals))
        for rows, precision in zip(self.rows, precisions, strict=True):
            block = residuals[rows]
            distances[rows] = np.einsum("ni,ij,nj->n", block, precision, block)
        return distances

    def order_probabilities(
        self, distances: FloatArray, log_determinants: FloatArray
    ) -> tuple[FloatArray, list[FloatArray]]:
        """Probability of each candidate row and, per set, of each order.

        Parameters
        ----------
        distances : FloatArray, shape (n,)
            From `distances`.
        log_determinants : FloatArray, shape (classes,)
            From `class_precisions`.
        """
        probability = np.ones(len(distances))
        per_order: list[FloatArray] = []
        if not self.data.orders:
            return probability, per_order
        nu = self.prior.tail_df
        tail = (
            -0.5 * distances
            if np.isinf(nu)
            else -0.5 * (nu + self.seen) * np.log1p(distances / nu)
        )
        log_density = tail - 0.5 * log_determinants[self.data.noise]
        for orders in self.data.orders:
            score = log_density[orders].sum(axis=1)
            weight = np.exp(score - score.max())
            weight /= weight.sum()
            per_order.append(weight)
            probability[np.unique(orders)] = 0.0
            np.add.at(probability, orders.ravel(), np.repeat(weight, orders.shape[1]))
        return probability, per_order

    def ball_weights(self, distances: FloatArray, probability: FloatArray) -> FloatArray:
        """Weight of each ball under t errors, from its expected squared distance."""
        nu = self.prior.tail_df
        if np.isinf(nu):
            return np.ones(self.data.balls)
        distance = np.zeros(self.data.balls)
        np.add.at(distance, self.data.ball, probability * distances)
        return (nu + self.ball_seen) / (nu + distance)

    def update_residual(
        self, residuals: FloatArray, row_weights: FloatArray, covariance: FloatArray
    ) -> FloatArray:
        """Posterior mean of the residual scale matrix from the complete rows.

        Parameters
        ----------
        residuals : FloatArray, shape (n, R)
        row_weights : FloatArray, shape (n,)
        covariance : FloatArray, shape (R (P + S), R (P + S))
            Of the unknowns, for what the residuals do not show.
        """
        rows = self.complete_rows
        weights = row_weights[rows]
        block = residuals[rows]
        features = self.features[rows]
        square = features.T @ (features * weights[:, None])
        shape = (self.responses, self.columns, self.responses, self.columns)
        doubt = np.einsum("ajbk,jk->ab", covariance.reshape(shape), square)
        scatter = block.T @ (block * weights[:, None]) + doubt
        count = float(self.probability[rows].sum())
        df = self.prior.residual_df
        residual = (df * self.prior.residual + scatter) / (df + count)
        return 0.5 * (residual + residual.T)

    def complete_balls(self) -> float:
        """Return the expected number of balls that teach the residual scale matrix."""
        return float(self.probability[self.complete_rows].sum())
