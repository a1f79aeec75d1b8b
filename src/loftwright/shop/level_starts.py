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
SHARE_OF_CLUBS: Final = 0.2
"""Of a shaft neither is more than this share of the variance of what clubs of the same parts do,
a quarter of it for kinds of golfers (judgement): 0.2 units are little in speed, much in strike."""


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
    """
    share = SHARE_OF_CLUBS * np.diag(clubs)
    shafts = np.minimum(START, share)
    of_kinds = np.minimum(START_OF_KINDS, share * START_OF_KINDS / START)
    heads = np.full_like(share, START)
    return frozen_array(
        [heads if one == head else of_kinds if one in kinds else shafts for one in levels]
    )
