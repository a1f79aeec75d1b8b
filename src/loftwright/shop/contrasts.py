"""What models do against a reference, over golfers of whom each counts once.

References
----------
Liang & Zeger 1986, Longitudinal data analysis using generalized linear models, Biometrika 73:13
(the covariance from what golfers' own estimating equations leave, here never let below the
model's own).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.columns import Columns
from loftwright.evidence.priors import UNLEARNED_DOUBT, effect_covariance
from loftwright.evidence.slopes import slopes_at
from loftwright.evidence.spreads import Spreads
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.shop.cells import LAUNCH_FACTORS, FittingSums
from loftwright.shop.columns import FEATURES, SWING_FEATURES
from loftwright.shop.grams import Gram, gram_of, launch_gram
from loftwright.shop.physics import golfers_delivery, physics_at
from loftwright.shop.population import Population, posterior
from loftwright.shop.publishing import Chosen, Hit, Question

MOST_OF_ALL: Final = 0.25
"""Share of a comparison's balls up to which one golfer's count in full (judgement)."""
SAMPLE_VARIANCE: Final = 0.04
"""Between samples of a model [scaled units squared]: 0.2 mph, 0.16 degrees of launch, 40 rpm,
0.4 degrees of axis, 0.2 degrees of direction (judgement)."""
GOLFERS_DIFFER: Final = 0.5
"""Share of what clubs do that differs from golfer to golfer (judgement); where they differ more,
their own estimating equations widen the ranges."""
LEVEL_SD: Final = 100.0
"""Of a golfer's own level [scaled units]: so wide that it tells nothing of clubs."""
_ORDER: Final = [FEATURES.index(name) for name in SWING_FEATURES]
_LEFT_COUNT: Final = 10.0
"""Balls that the expected scatter is worth beside those that were hit."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Contrasts:
    """What models do to launch against the reference; M models, R launch numbers.

    Attributes
    ----------
    models : tuple of str
        Without the reference.
    means : FloatArray, shape (M, R)
        In units of the sums and the golfer's signs.
    covariance : FloatArray, shape (M, R, R)
    golfers : tuple of int
        Who hit each.
    """

    models: tuple[str, ...]
    means: FloatArray
    covariance: FloatArray
    golfers: tuple[int, ...]


def contrasts(
    grams: Sequence[Gram], chosen: Chosen, question: Question, belief: Population
) -> Contrasts:
    """Return what each model does against the reference, from the chosen clubs alone.

    Parameters
    ----------
    grams : sequence of Gram
        Of the chosen clubs.
    chosen : Chosen
        Without refusals.
    question : Question
    belief : Population
        Before the balls; its level is taken as unknown.

    Notes
    -----
    The models' effects are not shrunk. A fitting tells of them with information P - P C P, with P
    the precision of what clubs do and C its covariance after the balls; all fittings of a golfer
    count as one. What samples differ by is in the ranges. Each golfer's balls beyond a quarter of
    all count less.
    """
    hits = {(hit.fitting, hit.club): hit for hit in chosen.hits}
    models = tuple(one for one in question.models if one != question.reference)
    samples = sorted({hit.sample(question.kind) for hit in chosen.hits})
    responses = belief.clubs.shape[0]
    told = _told_by_golfer(grams, hits, question, (models, samples), _level_unknown(belief))
    own = np.concatenate([np.zeros(len(models)), np.full(len(samples), 1.0 / SAMPLE_VARIANCE)])
    information = sum(one for one, _ in told.values()) + np.diag(np.repeat(own, responses))
    covariance = np.linalg.inv(information)
    best = covariance @ sum(pull for _, pull in told.values())
    left = [pull - one @ best for one, pull in told.values()]
    robust = covariance @ sum(np.outer(one, one) for one in left) @ covariance
    robust *= len(told) / (len(told) - 1.0)
    size = len(models) * responses
    wider = np.sqrt(np.maximum(1.0, np.diag(robust)[:size] / np.diag(covariance)[:size]))
    whole = (covariance[:size, :size] * np.outer(wider, wider)).reshape(
        len(models), responses, len(models), responses
    )
    counted = {cell.model: cell.golfers for cell in chosen.cells}
    return Contrasts(
        models=models,
        means=frozen_array(best[:size].reshape(len(models), responses)),
        covariance=frozen_array(np.einsum("mrms->mrs", whole)),
        golfers=tuple(counted[model] for model in models),
    )


def bounded_weights(balls: Mapping[str, int]) -> dict[str, float]:
    """Return what each golfer's balls count, so that none is more than a quarter of all.

    Parameters
    ----------
    balls : mapping of str to int
        By golfer; five at least.
    """
    share = max(MOST_OF_ALL, 1.0 / len(balls))
    cap = float(max(balls.values()))
    for _ in range(200):
        most = share * sum(min(count, cap) for count in balls.values())
        if cap <= most * (1.0 + 1e-9):
            break
        cap = most
    return {name: min(1.0, cap / count) for name, count in balls.items()}


def same_swing(fittings: Sequence[FittingSums]) -> tuple[Gram, ...]:
    """Return what launch tells from the same swing, with nothing taken off that a club does.

    Parameters
    ----------
    fittings : sequence of FittingSums

    Notes
    -----
    What the shop learns is what physics leaves out of a club; what is published is all of it.
    """
    return tuple(
        launch_gram(_bare(one), physics_at(golfers_delivery(one.delivery))) for one in fittings
    )


def as_swung(fittings: Sequence[FittingSums]) -> tuple[Gram, ...]:
    """Return sums without strike and delivery: what a club does to them stays in its effect.

    Parameters
    ----------
    fittings : sequence of FittingSums
    """
    places = [*_ORDER, *range(len(FEATURES), len(LAUNCH_FACTORS))]
    return tuple(
        gram_of(one, lambda cell: cell.launch[np.ix_(places, places)], len(_ORDER))
        for one in fittings
    )


def as_swung_belief(grams: Sequence[Gram], belief: Population, delivery: FloatArray) -> Population:
    """Return what is believed of launch before the balls where nothing of the swing is read.

    Parameters
    ----------
    grams : sequence of Gram
        As `as_swung` returns them.
    belief : Population
        Of launch from the same swing.
    delivery : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad] at which slopes are taken.
    """
    slopes, spreads = slopes_at(delivery, REFERENCE_HEAD), Spreads(factor=1.0)
    nothing = Columns(responses=(0, 1, 2, 3, 4), delivery=(), marks=False)
    clubs = UNLEARNED_DOUBT * effect_covariance(slopes, nothing, spreads)
    features = len(_ORDER)
    squares, freedom = np.zeros_like(belief.left), 0.0
    for gram in grams:
        # The level and the clubs; with several visits the level is taken off already.
        kept = [0, *range(features, len(gram.gram))]
        whole, cross = gram.gram[np.ix_(kept, kept)], gram.cross[kept]
        squares = squares + gram.squares - cross.T @ np.linalg.pinv(whole, hermitian=True) @ cross
        freedom += gram.balls - len(gram.clubs)
    left = (squares + _LEFT_COUNT * belief.left) / (max(freedom, 0.0) + _LEFT_COUNT)
    return Population(
        slopes=frozen_array(np.zeros((features, len(clubs)))),
        spread=frozen_array(np.array([one[np.ix_(_ORDER, _ORDER)] for one in belief.spread])),
        clubs=frozen_array(clubs),
        left=frozen_array(left),
    )


def _bare(fitting: FittingSums) -> FittingSums:
    cells = (replace(one, shift=frozen_array(np.zeros(len(one.shift)))) for one in fitting.cells)
    return replace(fitting, cells=tuple(cells))


def _level_unknown(belief: Population) -> Population:
    spread = np.array(belief.spread)
    # The level's own correlations with slopes would tie it down again.
    spread[:, 0, :] = spread[:, :, 0] = 0.0
    spread[:, 0, 0] = LEVEL_SD**2
    return replace(belief, spread=frozen_array(spread))


def _told_by_golfer(
    grams: Sequence[Gram],
    hits: Mapping[tuple[str, str], Hit],
    question: Question,
    columns: tuple[Sequence[str], Sequence[str]],
    belief: Population,
) -> dict[str, tuple[FloatArray, FloatArray]]:
    """Return information on the columns and what it pulls them to, by golfer."""
    features, responses = belief.slopes.shape
    own = replace(belief, clubs=frozen_array(GOLFERS_DIFFER * belief.clubs))
    between = np.linalg.inv(own.clubs)
    owner = {gram.fitting: hits[gram.fitting, gram.clubs[0]].golfer for gram in grams}
    fittings = list(owner.values())
    balls: dict[str, int] = {}
    for hit in hits.values():
        balls[hit.golfer] = balls.get(hit.golfer, 0) + hit.balls
    weights = bounded_weights(balls)
    told: dict[str, tuple[FloatArray, FloatArray]] = {}
    for gram in grams:
        golfer, clubs = owner[gram.fitting], len(gram.clubs)
        weighed = _weighed(gram, weights[golfer])
        found = posterior(weighed, own, np.zeros((clubs, responses)))
        doubt = found.covariance[:, features:, :, features:].transpose(1, 0, 3, 2)
        flat = doubt.reshape(clubs * responses, clubs * responses)
        precision = np.kron(np.eye(clubs), between)
        ways = np.kron(_design(gram, hits, question, columns), np.eye(responses))
        information = ways.T @ (precision - precision @ flat @ precision) @ ways
        pull = ways.T @ (precision @ found.effects.ravel())
        voice = 1.0 / fittings.count(golfer)
        before = told.get(golfer, (0.0, 0.0))
        told[golfer] = before[0] + voice * information, before[1] + voice * pull
    return told


def _design(
    gram: Gram,
    hits: Mapping[tuple[str, str], Hit],
    question: Question,
    columns: tuple[Sequence[str], Sequence[str]],
) -> FloatArray:
    models, samples = columns
    chosen = np.zeros((len(gram.clubs), len(models) + len(samples)))
    for row, club in enumerate(gram.clubs):
        hit = hits[gram.fitting, club]
        if hit.shown(question.kind) != question.reference:
            chosen[row, models.index(hit.shown(question.kind))] = 1.0
        chosen[row, len(models) + samples.index(hit.sample(question.kind))] = 1.0
    return chosen


def _weighed(gram: Gram, weight: float) -> Gram:
    return replace(
        gram,
        gram=frozen_array(weight * gram.gram),
        cross=frozen_array(weight * gram.cross),
        squares=frozen_array(weight * gram.squares),
    )
