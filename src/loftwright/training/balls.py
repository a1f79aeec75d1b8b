"""Turns a virtual visit into the arrays that a comparison of clubs works on."""

import numpy as np

from loftwright.evidence.balls import Balls
from loftwright.training.visit import VisitArrays


def balls_of(visit: VisitArrays, names: tuple[str, ...], hand: str = "right") -> Balls:
    """Return the rows of a visit as balls in world signs.

    Parameters
    ----------
    visit : VisitArrays
    names : tuple of str
        Of the clubs; the first is the golfer's own.
    hand : str, optional
        `right` or `left`.

    Returns
    -------
    Balls
        Every row, ghosts among them; at full precision, where a table would print few digits.
    """
    side = 1.0 if hand == "right" else -1.0
    count = len(visit.club)
    return Balls(
        clubs=names,
        own=0,
        club=visit.club,
        row=np.arange(2, 2 + count),
        order=np.arange(count, dtype=np.float64),
        launch=visit.launch,
        delivery=visit.delivery * np.array([1.0, 1.0, side, side]),
        marks=visit.strike * np.array([side, 1.0]),
        mark_set=visit.mark_set,
        carry=visit.carry,
    )
