"""How much things of each level differ, before a shop has learned it."""

from typing import Final

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.levels import KINDS, LEVELS, LINE

SHARES: Final = dict(zip(LINE, (0.15, 0.1, 0.2, 0.05), strict=True))
"""Of the variance of what clubs do, by what their shafts belong to: half goes with the shaft, as
in a comparison (judgement)."""
SHARE_OF_KINDS: Final = 0.02
"""Of it, what a model does otherwise for one kind of golfers (judgement)."""
HEADS_TO_SWINGS: Final = 0.1
"""Of it, what heads do to swings (judgement)."""


def starts(clubs: FloatArray, heads: FloatArray) -> FloatArray:
    """Return how much things of each level differ before anything was learned, shape (L, R).

    Parameters
    ----------
    clubs, heads : FloatArray, shape (R,)
        Variances of what clubs of one head do, and of what heads do.
    """
    shares = SHARES | dict.fromkeys(KINDS, SHARE_OF_KINDS)
    return frozen_array([heads if one == "head" else shares[one] * clubs for one in LEVELS])
