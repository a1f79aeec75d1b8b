"""How much each fitting counts, so that no one golfer decides what a shop believes.

References
----------
Krasker & Welsch 1982, Efficient bounded-influence regression estimation, JASA 77:595 (the idea
of a bound on each one's influence, from memory).
Huber 1964, Robust estimation of a location parameter, Annals of Mathematical Statistics 35:73.
"""

from collections.abc import Mapping
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.shop.told import Told, together
from loftwright.shop.without import Without, without

FEWEST_GOLFERS: Final = 3
"""From so many on who hit a member, none may hold more than half of what is known of it."""
MOST_SHARE: Final = 0.5
"""Of what all golfers together tell of a member (judgement)."""
MOST_SURPRISE: Final = 4.0
"""A golfer moves no member further than so many times what chance would (judgement)."""
_NEAR: Final = 1e-3
_SHARINGS: Final = 8


def weights_of(
    told: Mapping[str, Told],
    golfers: Mapping[str, str],
    means: FloatArray,
    covariance: FloatArray,
    before: Mapping[str, float],
) -> dict[str, float]:
    """Return how much each fitting counts, in (0, 1]; one pass.

    Parameters
    ----------
    told : mapping of str to Told
        By fitting, at full weight.
    golfers : mapping of str to str
        Whose each fitting is.
    means : FloatArray, shape (M, R)
        As believed with the weights before.
    covariance : FloatArray, shape (M, R, M, R)
    before : mapping of str to float

    Notes
    -----
    A golfer's fittings count less when they move a member further than `MOST_SURPRISE` standard
    deviations of such a move (the doubt without them less the doubt with them), and when they
    hold more than `MOST_SHARE` of the information on a member that `FEWEST_GOLFERS` hit. With n
    golfers who tell as much as each other, one can then move a member by at most
    ``MOST_SURPRISE / sqrt(n - 1)`` standard errors.
    """
    of: dict[str, list[str]] = {}
    for fitting in sorted(told):
        of.setdefault(golfers.get(fitting, fitting), []).append(fitting)
    responses = means.shape[1]
    size = means.size
    flat = covariance.reshape(size, size)
    found: dict[str, float] = {}
    for fittings in of.values():
        whole = together([told[one] for one in fittings], [1.0] * len(fittings), responses)
        counted = together(
            [told[one] for one in fittings], [before[one] for one in fittings], responses
        )
        rows = whole.among(responses)
        left = without(means.ravel()[rows], flat[np.ix_(rows, rows)], counted, whole)
        found.update(dict.fromkeys(fittings, _bearable(left)))
    return _shared(told, of, found, len(means), responses)


def _bearable(left: Without) -> float:
    """Return the weight at which fittings move no member too far."""
    change, doubt = left.at(1.0)
    spread = np.sqrt(np.maximum(np.diag(left.covariance - doubt), 0.0))
    most = MOST_SURPRISE * spread + 1e-9 * np.sqrt(np.diag(left.covariance))
    if (np.abs(change) <= most).all():
        return 1.0
    low, high = 0.0, 1.0
    while high - low > _NEAR * high:
        half = 0.5 * (low + high)
        inside = bool((np.abs(left.at(half)[0]) <= most).all())
        low, high = (half, high) if inside else (low, half)
        if high < _NEAR**2:
            break
    return high


def _shared(
    told: Mapping[str, Told],
    of: Mapping[str, list[str]],
    weights: dict[str, float],
    members: int,
    responses: int,
) -> dict[str, float]:
    """Return weights under which no golfer holds too much of a member."""
    own = {
        name: np.diag(one.information).reshape(-1, responses).sum(axis=1)
        for name, one in told.items()
    }
    for _ in range(_SHARINGS):
        holds = np.zeros((len(of), members))
        for row, fittings in enumerate(of.values()):
            for one in fittings:
                holds[row, told[one].places] += weights[one] * own[one]
        most = MOST_SHARE / (1.0 - MOST_SHARE) * (holds.sum(axis=0) - holds)
        many = (holds > 0.0).sum(axis=0) >= FEWEST_GOLFERS
        too_much = many & (holds > (1.0 + _NEAR) * most)
        if not too_much.any():
            break
        factor = np.where(too_much, most / np.maximum(holds, 1e-300), 1.0)
        for row, fittings in enumerate(of.values()):
            for one in fittings:
                if len(told[one].places):
                    weights[one] *= float(factor[row, told[one].places].min())
    return weights
