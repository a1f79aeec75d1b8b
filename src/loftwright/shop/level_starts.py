"""How much things of each level are believed to differ before anything was learned of them."""

from collections.abc import Collection, Sequence
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array

START: Final = 0.04
"""Variance at each level before anything was learned [scaled units squared]: 0.2 mph, 0.16
degrees of launch, 40 rpm (judgement)."""
START_OF_KINDS: Final = 0.01
"""The same of what a model does otherwise for a kind of golfers: half as much (judgement)."""


def level_starts(
    clubs: FloatArray, levels: Sequence[str], kinds: Collection[str], head: str
) -> FloatArray:
    """Return the variance of each level in each response.

    Parameters
    ----------
    clubs : FloatArray, shape (R, R)
        Covariance of what clubs of the same parts do [scaled units squared].
    levels : sequence of str
    kinds : collection of str
        Levels that are kinds of golfers.
    head : str
        The level of heads, which may differ in what shafts do not change.

    Returns
    -------
    FloatArray, shape (L, R)

    Notes
    -----
    No level of a shaft is believed to differ more than clubs of the same parts do in that number:
    0.2 units are little in speed and much in strike.
    """
    most = np.diag(clubs)
    shafts = np.minimum(START, most)
    of_kinds = np.minimum(START_OF_KINDS, most * START_OF_KINDS / START)
    heads = np.full_like(most, START)
    return frozen_array(
        [heads if one == head else of_kinds if one in kinds else shafts for one in levels]
    )
