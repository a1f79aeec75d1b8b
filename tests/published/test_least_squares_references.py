"""The engine without priors, against certified least squares.

NIST Statistical Reference Datasets, linear regression: Longley (certified to 15 digits, 9 asked
for here), Norris (10 asked for) and NoInt1 (12 asked for). Certified values as published by NIST.
The rows of Longley come with statsmodels, those of Norris with scipy.
"""

from importlib.resources import files

import numpy as np
import pytest
from statsmodels.datasets import longley

from fittings import complete_rows
from loftwright.arrays import FloatArray
from loftwright.evidence.engine import fit
from loftwright.evidence.model import Fit, Observations, Prior

LONGLEY_COEFFICIENTS = (
    -3482258.63459582,
    15.0618722713733,
    -0.0358191792925910,
    -2.02022980381683,
    -1.03322686717359,
    -0.0511041056535807,
    1829.15146461355,
)
LONGLEY_ERRORS = (
    890420.383607373,
    84.9149257747669,
    0.0334910077722432,
    0.488399681651699,
    0.214274163161675,
    0.226073200069370,
    455.478499142212,
)
LONGLEY_RESIDUAL_SD = 304.854073561965
NORRIS_COEFFICIENTS = (-0.262323073774029, 1.00211681802045)
NORRIS_ERRORS = (0.232818234301152, 0.429796848199937e-3)
NORRIS_RESIDUAL_SD = 0.884796396144373
NORRIS_ROWS = slice(60, 96)


def flat_fit(response: FloatArray, covariates: FloatArray, variance: float) -> Fit:
    columns = covariates.shape[1]
    data = Observations(
        responses=response[:, None],
        covariates=covariates,
        membership=np.zeros((len(response), 0)),
        ball=np.arange(len(response)),
        noise=np.zeros(len(response), dtype=np.int64),
        classes=(complete_rows(1, columns),),
    )
    prior = Prior(
        coefficients=np.zeros((1, columns)),
        coefficient_sd=np.full((1, columns), 1e12),
        effects=np.zeros((1, 0)),
        effect_precisions=np.zeros((1, 0, 0)),
        residual=np.array([[variance]]),
        tail_df=np.inf,
        scale_grid=np.array([1.0]),
        small_sample=0.0,
        learn_residual=False,
    )
    return fit(data, prior)


def test_longley_coefficients_hold_nine_digits() -> None:
    table = longley.load_pandas()
    predictors = table.exog.to_numpy(dtype=float)
    response = table.endog.to_numpy(dtype=float)
    origin, scale = predictors.mean(axis=0), predictors.std(axis=0)
    shifted = np.column_stack([np.ones(16), (predictors - origin) / scale])
    level = response.mean()
    result = flat_fit(response - level, shifted, LONGLEY_RESIDUAL_SD**2)
    back = np.zeros((7, 7))
    back[0, 0] = 1.0
    back[0, 1:] = -origin / scale
    back[1:, 1:] = np.diag(1.0 / scale)
    coefficients = back @ result.theta[0]
    coefficients[0] += level
    errors = np.sqrt(np.diag(back @ result.covariance @ back.T))
    assert coefficients == pytest.approx(LONGLEY_COEFFICIENTS, rel=1e-9)
    assert errors == pytest.approx(LONGLEY_ERRORS, rel=1e-9)


def test_noint1_slope_holds_twelve_digits() -> None:
    x = np.arange(60.0, 71.0)
    y = np.arange(130.0, 141.0)
    result = flat_fit(y, x[:, None], 3.56753034006338**2)
    assert result.theta[0, 0] == pytest.approx(2.07438016528926, rel=1e-12)
    assert np.sqrt(result.covariance[0, 0]) == pytest.approx(0.0165289256198347, rel=1e-12)


def test_norris_line_holds_ten_digits() -> None:
    page = files("scipy.stats").joinpath("tests/data/nist_linregress/Norris.dat")
    rows = page.read_text(encoding="ascii").splitlines()[NORRIS_ROWS]
    y, x = np.array([row.split() for row in rows], dtype=float).T
    assert len(x) == 36
    centred = np.column_stack([np.ones(len(x)), x - x.mean()])
    result = flat_fit(y - y.mean(), centred, NORRIS_RESIDUAL_SD**2)
    back = np.array([[1.0, -x.mean()], [0.0, 1.0]])
    coefficients = back @ result.theta[0] + [y.mean(), 0.0]
    errors = np.sqrt(np.diag(back @ result.covariance @ back.T))
    assert coefficients == pytest.approx(NORRIS_COEFFICIENTS, rel=1e-10)
    assert errors == pytest.approx(NORRIS_ERRORS, rel=1e-10)
