"""What fittings teach is what they were made from."""

import numpy as np
import pytest

from loftwright.arrays import frozen_array
from loftwright.errors import EvidenceError
from loftwright.shop.grams import Gram
from loftwright.shop.population import Population, learn, posterior

P, R, S = 4, 3, 4
LEFT = np.array([[1.0, 0.3, 0.0], [0.3, 0.8, -0.2], [0.0, -0.2, 1.2]])
CLUBS = np.diag([0.5, 0.3, 0.4]) ** 2
SLOPES = np.array([[0.0, 1.0, -1.0], [2.0, -3.0, 0.5], [0.3, 0.1, 0.0], [-0.5, 1.5, 1.0]])
SPREAD = 0.3


def fitting(seed: int, balls: int = 40) -> Gram:
    """Return the sums of an invented fitting."""
    rng = np.random.default_rng(seed)
    slopes = SLOPES + SPREAD * rng.standard_normal((P, R))
    effects = rng.multivariate_normal(np.zeros(R), CLUBS, S)
    features = np.column_stack([np.ones(balls), rng.standard_normal((balls, P - 1))])
    hit = np.eye(S)[np.arange(balls) % S]
    noise = rng.multivariate_normal(np.zeros(R), LEFT, balls)
    said = features @ slopes + hit @ effects + noise
    whole = np.hstack([features, hit])
    return Gram(
        fitting=f"f{seed}",
        clubs=tuple("abcd"),
        balls=balls,
        gram=frozen_array(whole.T @ whole),
        cross=frozen_array(whole.T @ said),
        squares=frozen_array(said.T @ said),
    )


START = Population(
    slopes=frozen_array(np.zeros((P, R))),
    spread=frozen_array(np.array([np.eye(P) * 4.0] * R)),
    clubs=frozen_array(np.eye(R) * 0.5),
    left=frozen_array(np.eye(R) * 2.0),
)


def test_many_fittings_teach_what_they_were_made_from() -> None:
    found = learn([fitting(seed) for seed in range(250)], START)
    assert np.abs(found.slopes[1:] - SLOPES[1:]).max() < 0.06
    assert np.abs(np.sqrt(np.diag(found.clubs)) - [0.5, 0.3, 0.4]).max() < 0.06
    assert np.abs(found.left - LEFT).max() < 0.06
    spread = np.sqrt([np.diag(one)[1:] for one in found.spread])
    assert np.abs(spread - SPREAD).max() < 0.06


def test_a_posterior_is_that_of_the_whole_normal_equations() -> None:
    gram = fitting(7)
    means = np.zeros((S, R))
    found = posterior(gram, START, means)
    wanted = np.linalg.inv(np.diag([0.25] * P + [2.0] * S) + gram.gram / 2.0) @ gram.cross / 2.0
    assert np.vstack([found.slopes, found.effects]) == pytest.approx(wanted, abs=1e-10)


def test_few_fittings_teach_nothing() -> None:
    with pytest.raises(EvidenceError, match="3 fittings"):
        learn([fitting(seed) for seed in range(3)], START)
