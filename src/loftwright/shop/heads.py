"""How the slopes of launch with one head differ from those common to all.

A head is hit by many golfers and a golfer may hit several heads, so each fitting's own slopes
and clubs are integrated out before it tells anything of a head.

References
----------
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.cells import FittingSums
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.grams import gram_from, launch_moments, own_design, pooled
from loftwright.shop.learned import HeadSlopes
from loftwright.shop.physics import Physics
from loftwright.shop.population import Foreseen, Population, posterior

FEWEST: Final = 3
"""Fittings before a head has slopes of its own; until then they are borrowed (judgement)."""
MOST: Final = 30
"""Heads with slopes of their own: those that were hit in most fittings."""
_SHARE: Final = 0.1
_FLOOR: Final = 0.05
"""How heads differ before anything was learned: a share of physics' slope, and no less than this
[scaled units] (judgement)."""
_HEADS: Final = 4.0
"""Heads that this judgement is worth."""
_ROUNDS: Final = 15
_SLOPES: Final = slice(FEATURES.index("toe"), FEATURES.index("face") + 1)
_COUNT: Final = _SLOPES.stop - _SLOPES.start


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Told:
    """What fittings tell of heads: (head, response, slope) by the same."""

    information: FloatArray
    pull: FloatArray


def head_slopes(
    fittings: Sequence[FittingSums],
    physics: Sequence[Physics],
    belief: Population,
    foreseen: Mapping[str, Foreseen],
) -> tuple[HeadSlopes, ...]:
    """Return how slopes with each head that was hit often differ from the common ones.

    Parameters
    ----------
    fittings : sequence of FittingSums
    physics : sequence of Physics
        Of each.
    belief : Population
        Learned without heads of their own.
    foreseen : mapping of str to Foreseen
        Of the clubs of a fitting, by its name.
    """
    hit = Counter(
        head for one in fittings for head in {cell.head for cell in one.cells if cell.head}
    )
    heads = [head for head, count in hit.most_common(MOST) if count >= FEWEST]
    if not heads:
        return ()
    told = _told(fittings, physics, belief, foreseen, heads)
    means, variances = _shrunk(told, _judged(physics), len(heads))
    found = []
    for place, head in enumerate(heads):
        slopes, sd = (np.zeros((len(FEATURES), len(RESPONSES))) for _ in range(2))
        slopes[_SLOPES], sd[_SLOPES] = means[place].T, np.sqrt(variances[place]).T
        found.append(
            HeadSlopes(
                head=head, fittings=hit[head], slopes=frozen_array(slopes), sd=frozen_array(sd)
            )
        )
    return tuple(sorted(found, key=lambda one: one.head))


def _judged(physics: Sequence[Physics]) -> FloatArray:
    """Return variances between heads before anything was learned, shape (R, slopes)."""
    usual = np.mean([one.slopes[_SLOPES] for one in physics], axis=0).T
    return np.asarray((_SHARE * np.abs(usual) + _FLOOR) ** 2)


def _shrunk(told: _Told, judged: FloatArray, heads: int) -> tuple[FloatArray, FloatArray]:
    """Return means and variances, shapes (heads, R, slopes), under variances learned from them."""
    shape = (heads, *judged.shape)
    between = judged
    for _ in range(_ROUNDS):
        own = np.tile(1.0 / between.ravel(), heads)
        covariance = np.linalg.inv(told.information + np.diag(own))
        means = (covariance @ told.pull).reshape(shape)
        variances = np.diag(covariance).reshape(shape)
        between = (_HEADS * judged + (means**2 + variances).sum(axis=0)) / (_HEADS + heads)
    return means, variances


def _told(
    fittings: Sequence[FittingSums],
    physics: Sequence[Physics],
    belief: Population,
    foreseen: Mapping[str, Foreseen],
    heads: Sequence[str],
) -> _Told:
    responses = len(RESPONSES)
    block = responses * _COUNT
    information = np.zeros((len(heads) * block, len(heads) * block))
    pull = np.zeros(len(heads) * block)
    for fitting, at in zip(fittings, physics, strict=True):
        there = [head for head in heads if any(cell.head == head for cell in fitting.cells)]
        if not there:
            continue
        means = foreseen[fitting.fitting].means
        info, score = _of_fitting(fitting, at, belief, means, there)
        rows = np.concatenate([heads.index(head) * block + np.arange(block) for head in there])
        # By head, response, slope, where the fitting has response, head, slope.
        order = (
            np.arange(len(info)).reshape(responses, len(there), _COUNT).transpose(1, 0, 2).ravel()
        )
        information[np.ix_(rows, rows)] += info[np.ix_(order, order)]
        pull[rows] += score[order]
    return _Told(information=information, pull=pull)


def _of_fitting(
    fitting: FittingSums,
    physics: Physics,
    belief: Population,
    means: FloatArray,
    heads: Sequence[str],
) -> tuple[FloatArray, FloatArray]:
    """Return information on and pull of heads' slopes, by response, head and slope."""
    designs = []
    for cell, plain in zip(fitting.cells, own_design(fitting, len(FEATURES)), strict=True):
        more = np.zeros((len(heads) * _COUNT, len(FEATURES)))
        if cell.head in heads:
            first = heads.index(cell.head) * _COUNT
            more[first : first + _COUNT, _SLOPES] = np.eye(_COUNT)
        designs.append(np.vstack([plain, more]))
    whole, lost = pooled(fitting, launch_moments(fitting, physics), designs)
    size = len(FEATURES) + len(fitting.clubs)
    width = size + len(heads) * _COUNT
    gram = gram_from(fitting, whole, lost, np.arange(size), np.arange(width, len(whole)))
    one = posterior(gram, belief, means)
    noise = np.linalg.inv(belief.left)
    mixed, own = whole[size:width, :size], whole[size:width, size:width]
    explained = mixed @ np.vstack([one.slopes, one.effects])
    score = noise @ (whole[size:width, width:] - explained).T
    through = np.kron(noise, mixed)
    responses = len(noise)
    covariance = one.covariance.reshape(responses * size, responses * size)
    information = np.kron(noise, own) - through @ covariance @ through.T
    return np.asarray(information), np.asarray(score.ravel())
