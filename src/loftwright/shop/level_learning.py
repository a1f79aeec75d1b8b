"""Learn at once what members do, how much those of a level differ, and what each fitting counts.

References
----------
Dempster, Laird & Rubin 1977, Maximum likelihood from incomplete data via the EM algorithm,
JRSS-B 39:1.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.shop.bounded import weights_of
from loftwright.shop.told import Told

WORTH: Final = 2.0
"""Members that the variance before is worth beside those that were hit, since one head tells
nothing of how heads differ (judgement)."""
_PASSES: Final = 6
"""Over the weights at most: what counts less changes what is a surprise."""
_WHOLE: Final = 0.999
"""A weight above it counts whole."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Everything:
    """What fittings tell of all members, and of what level each is.

    Attributes
    ----------
    told : dict of str to Told
        By fitting, of all R responses together.
    alone : tuple of dict of str to Told
        Of each response by itself.
    level_of : IntArray, shape (M,)
    start : FloatArray, shape (L, R)
        Variances at each level before anything was learned.
    correlation : FloatArray, shape (M, M)
        How alike members are expected to do; members of different levels not at all.
    """

    told: Mapping[str, Told]
    alone: tuple[Mapping[str, Told], ...]
    level_of: IntArray
    start: FloatArray
    correlation: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Learned:
    """What members do.

    Attributes
    ----------
    means : FloatArray, shape (M, R)
    covariance : FloatArray, shape (M, R, M, R)
    variances : FloatArray, shape (L, R)
    counted : dict of str to float
        Of fittings that count less than whole.
    """

    means: FloatArray
    covariance: FloatArray
    variances: FloatArray
    counted: dict[str, float]


def learned_levels(everything: Everything, golfers: Mapping[str, str], rounds: int) -> Learned:
    """Return what members do and how much those of a level differ.

    Parameters
    ----------
    everything : Everything
    golfers : mapping of str to str
        Whose each fitting is.
    rounds : int
        Of expectation-maximisation.

    Notes
    -----
    How much members differ in a response is learned from that response by itself, which leaves
    out what the others tell of it by their common noise; what members do is then found from all
    responses together. Learning all at once would take 25 times as long.
    """
    told, level_of = everything.told, everything.level_of
    members, responses = len(level_of), len(everything.alone)
    closeness = np.asarray(np.linalg.inv(everything.correlation))
    weights = dict.fromkeys(told, 1.0)
    for _ in range(_PASSES):
        # From the start each time: what was too much has swollen them.
        variances = np.column_stack(
            [
                _differ(
                    _summed(alone, weights, members, 1),
                    everything.start[:, response],
                    level_of,
                    closeness,
                    rounds,
                )
                for response, alone in enumerate(everything.alone)
            ]
        )
        means, covariance = _believed(
            _summed(told, weights, members, responses), level_of, closeness, variances
        )
        before = weights
        weights = weights_of(told, golfers, means, covariance, before)
        if all(abs(weights[one] - before[one]) < 1.0 - _WHOLE for one in told):
            break
    return Learned(
        means=frozen_array(means),
        covariance=frozen_array(covariance),
        variances=frozen_array(variances),
        counted={name: one for name, one in before.items() if one < _WHOLE},
    )


def _summed(
    told: Mapping[str, Told], weights: Mapping[str, float], members: int, responses: int
) -> tuple[FloatArray, FloatArray]:
    size = members * responses
    information, pull = np.zeros((size, size)), np.zeros(size)
    for name, one in told.items():
        rows = one.among(responses)
        information[np.ix_(rows, rows)] += weights[name] * one.information
        pull[rows] += weights[name] * one.pull
    return information, pull


def _differ(
    summed: tuple[FloatArray, FloatArray],
    start: FloatArray,
    level_of: IntArray,
    closeness: FloatArray,
    rounds: int,
) -> FloatArray:
    """Return how much members of each level differ in one response, nought where none was hit."""
    variances = start[:, None]
    for _ in range(rounds):
        means, covariance = _believed(summed, level_of, closeness, variances)
        squares = _squares(means, covariance, closeness)
        variances = np.zeros_like(variances)
        for level in np.unique(level_of):
            there = squares[level_of == level]
            before = WORTH * start[level]
            variances[level] = (there.sum(axis=0) + before) / (len(there) + WORTH)
    return variances[:, 0] if len(level_of) else np.zeros(len(start))


def _believed(
    summed: tuple[FloatArray, FloatArray],
    level_of: IntArray,
    closeness: FloatArray,
    variances: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    information, pull = summed
    members, responses = len(level_of), variances.shape[1]
    precision = information.copy().reshape(members, responses, members, responses)
    for response in range(responses):
        scale = 1.0 / np.sqrt(variances[level_of, response])
        precision[:, response, :, response] += closeness * np.outer(scale, scale)
    covariance = np.linalg.inv(precision.reshape(information.shape))
    covariance = 0.5 * (covariance + covariance.T)
    means = (covariance @ pull).reshape(members, responses)
    return means, np.asarray(covariance.reshape(members, responses, members, responses))


def _squares(means: FloatArray, covariance: FloatArray, closeness: FloatArray) -> FloatArray:
    """Return each member's share of the expected squares, what is alike counted once."""
    whole = means * (closeness @ means)
    doubt = np.einsum("mn,mrnr->mr", closeness, covariance, optimize=True)
    return np.asarray(whole + doubt)
