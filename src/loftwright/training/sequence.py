"""In which order the clubs of a virtual visit are hit."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import IntArray
from loftwright.constants import YARD
from loftwright.evidence.plan import PlanRequest, make_plan
from loftwright.evidence.power import SCATTER


def shuffled_sets(clubs: int, balls: int, rng: np.random.Generator) -> IntArray:
    """Return the order a plan gives: sets of two or three, the own club in the rotation.

    Parameters
    ----------
    clubs, balls : int
    rng : numpy.random.Generator

    Returns
    -------
    IntArray, shape (balls,)
        The club of each ball, 0 being the own one.

    Raises
    ------
    InputError
        If so many balls cannot be shared among so many clubs.
    """
    request = PlanRequest(clubs=clubs, balls=balls, difference=3.0 * YARD, scatter=SCATTER["mid"])
    plan = make_plan(request, rng)
    number = {name: index for index, name in enumerate(plan.clubs)}
    return np.repeat(
        np.array([number[one.club] for one in plan.sets], dtype=np.int64),
        [one.balls for one in plan.sets],
    )


def shuffled_blocks(clubs: int, balls: int, rng: np.random.Generator) -> IntArray:
    """Return an order in which every club is hit once before any is hit again.

    Parameters
    ----------
    clubs, balls : int
    rng : numpy.random.Generator

    Returns
    -------
    IntArray, shape (balls,)
        The club of each ball; the first balls of it are a visit of their own.
    """
    blocks = -(-balls // clubs)
    return np.concatenate([rng.permutation(clubs) for _ in range(blocks)])[:balls].astype(np.int64)


def one_after_the_other(clubs: int, balls: int, rng: np.random.Generator) -> IntArray:
    """Return an order in which each club gets all its balls before the next one's first."""
    return np.sort(shuffled_blocks(clubs, balls, rng))


ORDERS: Final[Mapping[str, Callable[[int, int, np.random.Generator], IntArray]]] = (
    MappingProxyType(
        {
            "blocks": shuffled_blocks,
            "sets": shuffled_sets,
            "one after the other": one_after_the_other,
        }
    )
)
