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

from loftwright.arrays import BoolArray, FloatArray, frozen_array
from loftwright.errors import EvidenceError
from loftwright.shop.grams import Gram

ROUNDS: Final = 25
PHYSICS_FITTINGS: Final = 20.0
"""Fittings that physics is worth in everything that is learned (judgement)."""
_CLUBS_A_FITTING: Final = 4.0
_BALLS_A_FITTING: Final = 40.0
_ANY: Final = 1e4
"""Variance of a level that may be anything [scaled units squared]."""
_LEAST: Final = 1e-6
"""No variance shrinks below this [scaled units squared]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Population:
    """What is believed of a fitting before its balls; in the units of the sums.

    Attributes
    ----------
    slopes : FloatArray, shape (P, R)
        Mean slope of each response on each feature; of what physics leaves out, where the sums
        are of that.
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
    covariance = _inverse(flat)
    best = (covariance @ pull.ravel()).reshape(responses, size)
    return Posterior(
        slopes=frozen_array(best[:, :features].T),
        effects=frozen_array(best[:, features:].T),
        covariance=frozen_array(covariance.reshape(responses, size, responses, size)),
    )


def _inverse(precision: FloatArray) -> FloatArray:
    """Return the inverse of a positive definite matrix, by half the work of a general one."""
    from scipy.linalg import lapack  # noqa: PLC0415 - scipy is slow to import

    root, wrong = lapack.dpotrf(precision, lower=1)
    half, wrong_too = lapack.dpotri(root, lower=1)
    if wrong or wrong_too:
        raise EvidenceError(
            "what is believed of a fitting cannot be turned into a covariance",
            place="shop record",
            mend="A column of the record has values far beyond any golf ball's: take it out.",
        )
    whole: FloatArray = half + half.T
    np.fill_diagonal(whole, half.diagonal())
    return whole


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Foreseen:
    """What is expected of a fitting's clubs from what is known of their parts.

    Attributes
    ----------
    means : FloatArray, shape (S, R)
    doubt : FloatArray, shape (S, R, S, R)
        How well that is known.
    known : BoolArray, shape (S,)
        Whether the shaft of each is known at all: of one that is not, what it does beyond what
        is known of it tells nothing of the others.
    """

    means: FloatArray
    doubt: FloatArray
    known: BoolArray


def of_any_level(belief: Population) -> Population:
    """Return the same belief of a fitting whose level may be anything: only contrasts then tell.

    Parameters
    ----------
    belief : Population
    """
    spread = belief.spread.copy()
    spread[:, 0, :] = spread[:, :, 0] = 0.0
    spread[:, 0, 0] = _ANY
    return replace(belief, spread=frozen_array(spread))


def physics_share(fittings: int) -> float:
    """Return how much of what is learned from so many fittings is still physics, from 1 to 0.

    Parameters
    ----------
    fittings : int
    """
    return PHYSICS_FITTINGS / (PHYSICS_FITTINGS + fittings)


def learn(
    grams: Sequence[Gram],
    physics: Population,
    foreseen: Mapping[str, Foreseen] | None = None,
    *,
    start: Population | None = None,
    rounds: int = ROUNDS,
    weight: float = PHYSICS_FITTINGS,
) -> Population:
    """Return what fittings teach, by expectation-maximisation.

    Parameters
    ----------
    grams : sequence of Gram
        None teach nothing: what physics says stands.
    physics : Population
        What is believed without them.
    foreseen : mapping of str to Foreseen, optional
        Of the clubs of a fitting, by its name; nothing is expected of others.
    start : Population, optional
        Where the first pass starts, if not at physics.
    rounds : int
    weight : float
        Fittings that physics counts as, in every pass.

    Notes
    -----
    Every pass maximises the expected likelihood of the fittings joined by as many pseudo
    fittings as physics is worth, each with four clubs and forty balls.
    """
    belief = physics if start is None else start
    expected = {} if foreseen is None else foreseen
    for _ in range(rounds if grams else 0):
        belief = _one_round(grams, belief, physics, expected, weight)
    return belief


def _one_round(
    grams: Sequence[Gram],
    belief: Population,
    physics: Population,
    foreseen: Mapping[str, Foreseen],
    weight: float,
) -> Population:
    responses = belief.slopes.shape[1]
    found = []
    clubs = weight * _CLUBS_A_FITTING * _told_by_physics(belief, physics)
    left = weight * _BALLS_A_FITTING * physics.left
    hit, balls = weight * _CLUBS_A_FITTING, weight * _BALLS_A_FITTING
    for gram in grams:
        ahead = foreseen.get(gram.fitting)
        means = np.zeros((len(gram.clubs), responses)) if ahead is None else ahead.means
        one = posterior(gram, belief, means)
        found.append(one)
        more, counted = _beyond(one, belief, means, ahead)
        clubs, hit = clubs + more, hit + counted
        left = left + _left_over(gram, one)
        balls += gram.balls
    slopes, spread = _slopes(found, physics, weight)
    return Population(
        slopes=frozen_array(slopes),
        spread=frozen_array(_whole(spread)),
        clubs=frozen_array(_whole(clubs / hit)),
        left=frozen_array(_whole(left / balls)),
    )


def _told_by_physics(belief: Population, physics: Population) -> FloatArray:
    """Return what fittings as physics sees them would tell of clubs' squares on average.

    Each knows its clubs as well as a real one, by the balls that were hit with them: counted as
    if they were known outright, physics would outweigh many times as many fittings.
    """
    noise = belief.left * _CLUBS_A_FITTING / _BALLS_A_FITTING
    gain = np.linalg.solve(belief.clubs + noise, belief.clubs).T
    seen = gain @ (physics.clubs + noise) @ gain.T
    return np.asarray(belief.clubs - gain @ belief.clubs + seen)


def _slopes(
    found: Sequence[Posterior], physics: Population, weight: float
) -> tuple[FloatArray, FloatArray]:
    """Return the mean slopes and how golfers differ in them."""
    features = len(physics.slopes)
    count = weight + len(found)
    slopes = (weight * physics.slopes + np.sum([one.slopes for one in found], axis=0)) / count
    off = physics.slopes - slopes
    spread = weight * (physics.spread + np.einsum("pr,qr->rpq", off, off))
    for one in found:
        away = one.slopes - slopes
        doubt = one.covariance[:, :features, :, :features]
        spread = spread + np.einsum("pr,qr->rpq", away, away) + np.einsum("rprq->rpq", doubt)
    return slopes, spread / count


def _beyond(
    one: Posterior, belief: Population, means: FloatArray, ahead: Foreseen | None
) -> tuple[FloatArray, int]:
    """Return the expected square of what clubs do beyond what was foreseen, and of how many."""
    features = len(one.slopes)
    doubt = one.covariance[:, features:, :, features:].transpose(1, 0, 3, 2)
    known = np.ones(len(means), dtype=bool)
    if ahead is not None:
        known = ahead.known
        doubt = doubt + _from_doubt(doubt, belief, ahead.doubt)
    away = (one.effects - means)[known]
    each = np.einsum("srst->rt", doubt[known][:, :, known])
    return np.asarray(away.T @ away + each), int(known.sum())


def _from_doubt(doubt: FloatArray, belief: Population, unsure: FloatArray) -> FloatArray:
    """Return what doubt of what was foreseen adds, shape (S, R, S, R).

    With T the covariance between clubs and C that of their effects, an expectation that moves
    by d moves what a club does beyond it by (C T^-1 - 1) d.
    """
    clubs, responses = doubt.shape[:2]
    size = clubs * responses
    between = np.kron(np.eye(clubs), np.linalg.inv(belief.clubs))
    moved = doubt.reshape(size, size) @ between - np.eye(size)
    more = moved @ unsure.reshape(size, size) @ moved.T
    return np.asarray(more.reshape(clubs, responses, clubs, responses))


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
