"""Things that are alike are expected to do alike: carry-over from what was hit to what was not.

References
----------
Rasmussen & Williams 2006, Gaussian Processes for Machine Learning, section 2.2 (prediction from
correlated neighbours) and equation 4.9 (squared exponential correlation).
"""

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray

MOST_ALIKE: Final = 0.95
"""No two things are expected to do more alike: a bench does not see everything (judgement)."""
FALLS_OVER: Final = 0.08
"""Root mean square difference in bending, of logarithms, at which likeness is 1/e (judgement):
labels next to each other lie about 10 of 250 cycles a minute, so 8 % of stiffness, apart (common
practice, no source)."""
_LEAST: Final = 0.02
"""Least eigenvalue of a correlation, so that it can be inverted."""

Alike = Mapping[tuple[tuple[str, str], tuple[str, str]], float]
"""Likeness in [0, 1] of two members of one level; pairs that are not in it have none."""


def likeness_at(distance: float, noise: float = 0.0) -> float:
    """Return how alike two shafts are expected to do, from how far apart they were measured.

    Parameters
    ----------
    distance : float
        Root mean square of their sections' differences in bending, as logarithms.
    noise : float
        What two looks at one shaft would show; taken off the distance.

    Returns
    -------
    float
        ``exp(-(d / d0)^2)`` with d0 of `FALLS_OVER`; at most `MOST_ALIKE`.

    Notes
    -----
    Noise makes alike shafts look apart, so its square is taken off the square of the distance.
    """
    square = max(distance**2 - noise**2, 0.0)
    return min(float(np.exp(-square / FALLS_OVER**2)), MOST_ALIKE)


def correlation_of(members: Sequence[tuple[str, str]], alike: Alike) -> FloatArray:
    """Return the prior correlation of members of any levels.

    Parameters
    ----------
    members : sequence of (str, str)
        Level and name.
    alike : mapping

    Returns
    -------
    FloatArray, shape (M, M)
        Likenesses that contradict each other (a like b, b like c, a unlike c) are shrunk
        until they can all be true.
    """
    place = {member: number for number, member in enumerate(members)}
    found = np.eye(len(members))
    for (one, other), likeness in alike.items():
        if one in place and other in place and one != other:
            found[place[one], place[other]] = found[place[other], place[one]] = min(
                likeness, MOST_ALIKE
            )
    least = float(np.linalg.eigvalsh(found).min()) if len(members) else 1.0
    if least < _LEAST:
        # Shrinking what is beside the diagonal lifts the least eigenvalue to just that.
        found = np.eye(len(members)) + (1.0 - _LEAST) / (1.0 - least) * (
            found - np.eye(len(members))
        )
    return found


def like_members(
    members: Sequence[tuple[str, str]], alike: Alike
) -> dict[tuple[str, str], tuple[str, float]]:
    """Return what was never hit but is like something that was, by its member.

    Returns
    -------
    dict of (str, str) to (str, float)
        Name and likeness of what it is most like, of the same level.
    """
    hit = set(members)
    found: dict[tuple[str, str], tuple[str, float]] = {}
    for pair, likeness in sorted(alike.items()):
        for new, old in (pair, pair[::-1]):
            if new in hit or old not in hit or likeness <= 0.0:
                continue
            if new not in found or likeness > found[new][1]:
                found[new] = old[1], likeness
    return found


def carried(
    means: FloatArray,
    covariance: FloatArray,
    variances: FloatArray,
    correlation: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Return what is believed of members that were hit and, behind them, of some that were not.

    Parameters
    ----------
    means : FloatArray, shape (M, R)
        Of those that were hit.
    covariance : FloatArray, shape (M, R, M, R)
    variances : FloatArray, shape (M + N, R)
        How much things of each member's level differ.
    correlation : FloatArray, shape (M + N, M + N)

    Returns
    -------
    FloatArray, shape (M + N, R)
    FloatArray, shape (M + N, R, M + N, R)
        A member is expected to do its likeness times what the one that was hit does, with the
        rest of how much such things differ as its doubt.
    """
    hit, responses = means.shape
    ways = np.linalg.solve(correlation[:hit, :hit], correlation[:hit, hit:]).T
    every = np.vstack([np.eye(hit), ways])
    whole = np.einsum("am,mrnq,bn->arbq", every, covariance, every, optimize=True)
    rest = correlation[hit:, hit:] - ways @ correlation[:hit, hit:]
    scale = np.sqrt(variances[hit:])
    for response in range(responses):
        whole[hit:, response, hit:, response] += rest * np.outer(
            scale[:, response], scale[:, response]
        )
    return every @ means, np.asarray(whole)
