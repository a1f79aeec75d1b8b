"""What many fittings teach together: slopes, how golfers differ, what clubs do, what is left.

References
----------
Dempster, Laird & Rubin 1977, Maximum likelihood from incomplete data via the EM algorithm,
JRSS-B 39:1.
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.errors import EvidenceError
from loftwright.shop.grams import Gram

ROUNDS: Final = 25
FEWEST_FITTINGS: Final = 20
"""Below this the physics teaches more than the shop (judgement)."""
_LEAST: Final = 1e-4
"""No variance shrinks below this [scaled units squared]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Population:
    """What is believed of a fitting before its balls; in the units of the sums.

    Attributes
    ----------
    slopes : FloatArray, shape (P, R)
        Mean slope of each response on each feature.
    spread : FloatArray, shape (R, P, P)
        How golfers' slopes differ, a response at a time.
    clubs : FloatArray, shape (R, R)
        Covariance of what a club does beyond what is known of its parts.
    left : FloatArray, shape (R, R)
        Of what no feature explains.
    """

    slopes: FloatArray
    spread: FloatArray
    clubs: FloatArray
    left: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """What is believed of one fitting after its balls.

    Attributes
    ----------
    slopes : FloatArray, shape (P, R)
    effects : FloatArray, shape (S, R)
        Of the clubs.
    covariance : FloatArray, shape (R, P + S, R, P + S)
    """

    slopes: FloatArray
    effects: FloatArray
    covariance: FloatArray


def posterior(gram: Gram, belief: Population, means: FloatArray) -> Posterior:
    """Return what a fitting's sums say of its golfer and clubs.

    Parameters
    ----------
    gram : Gram
    belief : Population
    means : FloatArray, shape (S, R)
        What is expected of each club from what is known of its parts.
    """
    features, responses = belief.slopes.shape
    clubs = len(gram.clubs)
    size = features + clubs
    precision = np.zeros((responses, size, responses, size))
    pull = np.zeros((responses, size))
    for response in range(responses):
        inverse = np.linalg.inv(belief.spread[response])
        precision[response, :features, response, :features] = inverse
        pull[response, :features] = inverse @ belief.slopes[:, response]
    between = np.linalg.inv(belief.clubs)
    for club in range(features, size):
        precision[:, club, :, club] = between
    pull[:, features:] = between @ means.T
    noise = np.linalg.inv(belief.left)
    precision += np.einsum("rs,jk->rjsk", noise, gram.gram)
    pull += noise @ gram.cross.T
    flat = precision.reshape(responses * size, responses * size)
    covariance = np.linalg.inv(flat)
    covariance = 0.5 * (covariance + covariance.T)
    best = (covariance @ pull.ravel()).reshape(responses, size)
    return Posterior(
        slopes=frozen_array(best[:, :features].T),
        effects=frozen_array(best[:, features:].T),
        covariance=frozen_array(covariance.reshape(responses, size, responses, size)),
    )


def learn(
    grams: Sequence[Gram],
    start: Population,
    means: Mapping[str, FloatArray] | None = None,
    rounds: int = ROUNDS,
) -> Population:
    """Return what fittings teach, by expectation-maximisation.

    Parameters
    ----------
    grams : sequence of Gram
    start : Population
        Usually what physics says.
    means : mapping of str to FloatArray, optional
        What is expected of the clubs of a fitting, by its name; nought without it.
    rounds : int

    Raises
    ------
    EvidenceError
        If there are too few fittings to learn from.
    """
    if len(grams) < FEWEST_FITTINGS:
        raise EvidenceError(
            f"{len(grams)} fittings teach no slopes",
            place="fittings",
            mend=f"Lean on the physics until there are {FEWEST_FITTINGS}.",
        )
    belief = start
    expected = {} if means is None else means
    for _ in range(rounds):
        belief = _one_round(grams, belief, expected)
    return belief


def _one_round(
    grams: Sequence[Gram], belief: Population, means: Mapping[str, FloatArray]
) -> Population:
    features, responses = belief.slopes.shape
    nothing = {gram.fitting: np.zeros((len(gram.clubs), responses)) for gram in grams}
    known = nothing | dict(means)
    told = [(gram, posterior(gram, belief, known[gram.fitting])) for gram in grams]
    slopes = np.mean([one.slopes for _, one in told], axis=0)
    spread = np.zeros((responses, features, features))
    clubs, left = np.zeros((responses, responses)), np.zeros((responses, responses))
    hit = balls = 0
    for gram, one in told:
        away = one.slopes - slopes
        for response in range(responses):
            doubt = one.covariance[response, :features, response, :features]
            spread[response] += np.outer(away[:, response], away[:, response]) + doubt
        beyond = one.effects - known[gram.fitting]
        clubs += beyond.T @ beyond
        clubs += np.einsum("rasa->rs", one.covariance[:, features:, :, features:])
        hit += len(gram.clubs)
        left += _left_over(gram, one)
        balls += gram.balls
    return replace(
        belief,
        slopes=frozen_array(slopes),
        spread=frozen_array(_whole(spread / len(told))),
        clubs=frozen_array(_whole(clubs / hit)),
        left=frozen_array(_whole(left / balls)),
    )


def _left_over(gram: Gram, one: Posterior) -> FloatArray:
    """Return the expected sum of squares of what nothing explains."""
    whole = np.vstack([one.slopes, one.effects])
    explained = whole.T @ gram.cross
    doubt = np.einsum("rjsk,jk->rs", one.covariance, gram.gram)
    square = gram.squares - explained - explained.T + whole.T @ gram.gram @ whole
    return np.asarray(square + doubt)


def _whole(covariance: FloatArray) -> FloatArray:
    """Return a covariance, or a stack of them, that can be inverted."""
    size = covariance.shape[-1]
    sound = 0.5 * (covariance + np.swapaxes(covariance, -1, -2))
    return np.asarray(sound + _LEAST * np.eye(size))
