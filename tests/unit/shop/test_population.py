"""What fittings teach is what they were made from."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.arrays import frozen_array
from loftwright.shop.grams import Gram
from loftwright.shop.population import (
    Foreseen,
    Population,
    learn,
    of_any_level,
    physics_share,
    posterior,
)

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
    found = learn([fitting(seed) for seed in range(250)], START, weight=0.0)
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


def test_of_no_fitting_physics_stands() -> None:
    assert learn([], START) is START


def test_the_first_fittings_move_physics_a_little_and_many_move_it_most() -> None:
    """There is no number of fittings at which what is believed jumps."""
    grams = [fitting(seed) for seed in range(80)]
    start = np.sqrt(np.diag(START.clubs))
    moved = []
    for count in (1, 2, 5, 20, 80):
        found = learn(grams[:count], START, rounds=10)
        moved.append(np.abs(np.sqrt(np.diag(found.clubs)) - start).mean())
        assert physics_share(count) == pytest.approx(20.0 / (20.0 + count))
    assert moved == sorted(moved)
    assert moved[0] < 0.03
    assert moved[-1] > 0.1


def test_what_was_foreseen_of_clubs_is_not_learned_twice() -> None:
    """Clubs that do what was expected of them differ by nothing beyond it."""
    grams = [fitting(seed) for seed in range(120)]
    truth = {}
    for seed, gram in enumerate(grams):
        rng = np.random.default_rng(seed)
        rng.standard_normal((P, R))
        truth[gram.fitting] = Foreseen(
            means=frozen_array(rng.multivariate_normal(np.zeros(R), CLUBS, S)),
            doubt=frozen_array(np.zeros((S, R, S, R))),
            known=np.ones(S, dtype=bool),
        )
    found = learn(grams, START, truth, weight=0.0, rounds=60)
    assert (np.sqrt(np.diag(found.clubs)) < 0.4 * np.sqrt(np.diag(CLUBS))).all()


def test_doubt_of_what_was_foreseen_is_a_difference_between_clubs() -> None:
    """With all that is expected of clubs in doubt, they are learned to differ as without it."""
    grams = [fitting(seed) for seed in range(120)]
    plain = learn(grams, START, weight=0.0)
    unsure = {
        gram.fitting: Foreseen(
            means=frozen_array(
                posterior(gram, plain, np.zeros((S, R))).effects * 0.5,
            ),
            doubt=frozen_array(np.einsum("st,rq->srtq", np.eye(S), 0.5 * plain.clubs)),
            known=np.ones(S, dtype=bool),
        )
        for gram in grams
    }
    sure = {
        name: replace(one, doubt=frozen_array(np.zeros((S, R, S, R))))
        for name, one in unsure.items()
    }
    found = learn(grams, START, unsure, weight=0.0)
    blind = learn(grams, START, sure, weight=0.0)
    assert (np.diag(found.clubs) > 1.3 * np.diag(blind.clubs)).all()


def test_clubs_of_which_nobody_knows_the_shaft_say_nothing_of_those_that_are_known() -> None:
    grams = [fitting(seed) for seed in range(40)]
    ahead = {
        gram.fitting: Foreseen(
            means=frozen_array(np.zeros((S, R))),
            doubt=frozen_array(np.zeros((S, R, S, R))),
            known=np.zeros(S, dtype=bool),
        )
        for gram in grams
    }
    found = learn(grams, START, ahead)
    assert found.clubs == pytest.approx(START.clubs, abs=1e-5)


@given(order=st.permutations(range(S)), seed=st.integers(0, 50))
def test_clubs_in_another_order_are_the_same_clubs(order: list[int], seed: int) -> None:
    gram = fitting(seed)
    rows = np.concatenate([np.arange(P), P + np.array(order)])
    other = replace(
        gram,
        clubs=tuple(gram.clubs[one] for one in order),
        gram=frozen_array(gram.gram[np.ix_(rows, rows)]),
        cross=frozen_array(gram.cross[rows]),
    )
    one, moved = (posterior(each, START, np.zeros((S, R))) for each in (gram, other))
    assert moved.effects == pytest.approx(one.effects[order], abs=1e-9)
    assert moved.slopes == pytest.approx(one.slopes, abs=1e-9)
    told, again = (learn([each], START, rounds=2) for each in (gram, other))
    assert again.clubs == pytest.approx(told.clubs, abs=1e-9)


def test_a_level_that_may_be_anything_tells_nothing_of_clubs() -> None:
    """All balls of a fitting read otherwise: what clubs do against each other stays as it was."""
    gram = fitting(3)
    more = np.array([2.0, -1.0, 0.5])
    moved = replace(
        gram,
        cross=frozen_array(gram.cross + np.outer(gram.gram[:, 0], more)),
    )
    free = of_any_level(START)
    one, other = (posterior(each, free, np.zeros((S, R))).effects for each in (gram, moved))
    assert other - other.mean(axis=0) == pytest.approx(one - one.mean(axis=0), abs=1e-3)
    assert other.mean(axis=0) == pytest.approx(one.mean(axis=0), abs=1e-3)
