"""The engine's limits and symmetries."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls
from loftwright.errors import ConvergenceError
from loftwright.evidence.engine import fit
from loftwright.evidence.model import Fit, Observations, Prior
from loftwright.evidence.positive import cholesky, inverse, log_determinant, solve
from loftwright.evidence.visit import Beliefs, fit_visit, set_up

SETUP = set_up(made_balls(1, clubs=4, balls=32), Beliefs())
ROWS, PRIOR = SETUP.launch_rows, SETUP.launch_prior
CLUBS = 4


def effects(result: Fit) -> np.ndarray:
    return result.theta[:, -CLUBS:]


def contrast_sd(result: Fit, a: int, b: int) -> np.ndarray:
    responses, width = result.theta.shape
    tensor = result.covariance.reshape(responses, width, responses, width)
    first, second = width - CLUBS + a, width - CLUBS + b
    return np.array(
        [
            np.sqrt(
                tensor[r, first, r, first]
                + tensor[r, second, r, second]
                - 2.0 * tensor[r, first, r, second]
            )
            for r in range(responses)
        ]
    )


def test_a_constant_on_a_response_moves_only_the_intercept() -> None:
    """To 0.002 sd of a contrast for one scaled unit, because the intercept has a prior."""
    shifted = replace(ROWS, responses=ROWS.responses + np.array([0.0, 1.0, 0.0, 0.0, 0.0]))
    before, after = fit(ROWS, PRIOR), fit(shifted, PRIOR)
    moved = effects(after) - effects(before)
    change = np.abs((moved[:, 0] - moved[:, 1]) / contrast_sd(before, 0, 1))
    assert change.max() < 0.002
    assert after.theta[1, 0] - before.theta[1, 0] == pytest.approx(1.0, abs=0.02)


def test_permuting_clubs_permutes_their_effects() -> None:
    order = [2, 0, 3, 1]
    mixed = replace(ROWS, membership=ROWS.membership[:, order])
    assert effects(fit(mixed, PRIOR)) == pytest.approx(effects(fit(ROWS, PRIOR))[:, order])


def test_a_small_scale_gives_back_the_prior() -> None:
    narrow = replace(PRIOR, scale_grid=np.array([1e-8]))
    assert np.abs(effects(fit(ROWS, narrow))).max() < 1e-4


def test_many_balls_reproduce_least_squares() -> None:
    rng = np.random.default_rng(5)
    count = 40_000
    covariates = np.column_stack([np.ones(count), rng.normal(size=count)])
    club = rng.integers(0, 3, count)
    truth = np.array([0.0, 1.0, -1.0])
    response = covariates @ [2.0, 0.5] + truth[club] + rng.normal(size=count)
    data = Observations(
        responses=response[:, None],
        covariates=covariates,
        membership=np.eye(3)[club],
        ball=np.arange(count),
        noise=np.zeros(count, dtype=np.int64),
        classes=(
            replace(
                ROWS.classes[0],
                observed=np.ones(1, bool),
                directions=np.zeros((0, 2)),
                variances=np.zeros(0),
            ),
        ),
    )
    prior = Prior(
        coefficients=np.zeros((1, 2)),
        coefficient_sd=np.full((1, 2), 5.0),
        effects=np.zeros((1, 3)),
        effect_precisions=np.eye(3)[None],
        residual=np.ones((1, 1)),
        tail_df=np.inf,
    )
    found = fit(data, prior)
    design = np.column_stack([np.eye(3)[club], covariates[:, 1]])
    least = np.linalg.lstsq(design, response, rcond=None)[0]
    assert found.theta[0, 1] == pytest.approx(least[3], abs=1e-4)
    assert found.theta[0, 3] - found.theta[0, 2] == pytest.approx(least[1] - least[0], abs=1e-3)
    assert found.residual[0, 0] == pytest.approx(1.0, abs=0.03)


def test_a_warm_start_agrees_with_a_cold_one() -> None:
    """At most 0.02 posterior sd apart after the two steps of an update."""
    balls = made_balls(7, clubs=CLUBS, balls=40)
    earlier = fit_visit(set_up(balls.take(np.arange(39)), Beliefs()))
    setup = set_up(balls, Beliefs())
    cold, warm = fit_visit(setup), fit_visit(setup, earlier.state)
    gap = (effects(warm.launch) - effects(cold.launch))[:, 0] / contrast_sd(cold.launch, 0, 1)
    assert np.abs(gap).max() < 0.05


def test_a_mishit_counts_little() -> None:
    responses = ROWS.responses.copy()
    responses[5] += 12.0
    found = fit(replace(ROWS, responses=responses), PRIOR)
    assert found.weights[5] < 0.2
    assert np.median(found.weights) > 0.8


def test_normal_errors_give_every_ball_the_same_weight() -> None:
    assert (fit(ROWS, replace(PRIOR, tail_df=np.inf)).weights == 1.0).all()


def test_a_matrix_that_is_not_positive_definite_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="contradict"):
        cholesky(np.array([[1.0, 2.0], [2.0, 1.0]]))


def test_the_factor_solves_inverts_and_measures() -> None:
    rng = np.random.default_rng(3)
    half = rng.normal(size=(6, 6))
    matrix = half @ half.T + np.eye(6)
    factor = cholesky(matrix)
    assert inverse(factor) == pytest.approx(np.linalg.inv(matrix))
    assert solve(factor, np.ones(6)) == pytest.approx(np.linalg.solve(matrix, np.ones(6)))
    assert log_determinant(factor) == pytest.approx(np.linalg.slogdet(matrix)[1])
