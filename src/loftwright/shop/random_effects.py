"""Random effects at known spreads, and a figure averaged over spreads that are not known.

References
----------
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963, equations 3.1
to 3.3: estimates of random effects at known spreads.
Harville 1977, Maximum likelihood approaches to variance component estimation and to related
problems, J. Amer. Statist. Assoc. 72:320: the restricted likelihood of the spreads.
"""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A figure with the ranges that hold it.

    Attributes
    ----------
    mean, low80, high80, low95, high95 : float
    """

    mean: float
    low80: float
    high80: float
    low95: float
    high95: float

    @property
    def clear(self) -> bool:
        """Whether nought lies outside the wider range."""
        return self.low95 > 0.0 or self.high95 < 0.0

    def times(self, scale: float) -> "Range":
        """Return it in another unit, `scale` times as large a number."""
        return Range(
            mean=self.mean * scale,
            low80=self.low80 * scale,
            high80=self.high80 * scale,
            low95=self.low95 * scale,
            high95=self.high95 * scale,
        )


def random_effects(
    mean: FloatArray, error: FloatArray, level: FloatArray, effects: FloatArray, spread: FloatArray
) -> tuple[FloatArray, FloatArray, float]:
    """Return random effects at known spreads, their covariance, and how likely the spreads are.

    Parameters
    ----------
    mean : array (m,)
    error : array (m,)
        Standard error of each mean.
    level : array (m, p)
        Which free level each mean has; of full rank.
    effects : array (m, q)
        Which random effects it has.
    spread : array (q,)
        Standard deviation of each.

    Returns
    -------
    estimate : array (q,)
    covariance : array (q, q)
        Of the effects around them, the levels' error included.
    log_likelihood : float
        Restricted, up to a constant.

    References
    ----------
    Laird & Ware 1982, Biometrics 38:963, equations 3.1 to 3.3; Harville 1977, equation 4.2.
    """
    prior = spread**2
    whole = np.diag(error**2) + (effects * prior) @ effects.T
    factor = np.linalg.inv(whole)
    told = level.T @ factor @ level
    left = factor - factor @ level @ np.linalg.solve(told, level.T @ factor)
    pulled = prior[:, None] * effects.T
    estimate = pulled @ left @ mean
    covariance = np.diag(prior) - pulled @ left @ pulled.T
    log_likelihood = -0.5 * (
        float(np.linalg.slogdet(whole)[1])
        + float(np.linalg.slogdet(told)[1])
        + float(mean @ left @ mean)
    )
    return estimate, covariance, log_likelihood


def combined(weights: FloatArray, means: FloatArray, errors: FloatArray) -> Range:
    """Return mean and ranges of a mixture of normals.

    Parameters
    ----------
    weights, means, errors : array (k,)
        Of its members; weights add up to one, and means and errors share any unit.
    """
    from scipy.special import ndtr  # noqa: PLC0415 - scipy is slow to import

    def at(share: float) -> float:
        low, high = float((means - 9.0 * errors).min()), float((means + 9.0 * errors).max())
        for _ in range(60):
            middle = 0.5 * (low + high)
            below = float(weights @ ndtr((middle - means) / np.maximum(errors, 1e-12)))
            low, high = (middle, high) if below < share else (low, middle)
        return 0.5 * (low + high)

    return Range(
        mean=float(weights @ means),
        low80=at(0.1),
        high80=at(0.9),
        low95=at(0.025),
        high95=at(0.975),
    )
