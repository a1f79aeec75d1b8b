"""Which readings of a table are strange beside the others, and how well the rest agrees."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log, pi
from typing import Final

import numpy as np

from loftwright.physics.bench.beliefs import Unknowns
from loftwright.physics.bench.fit import Solution, solve
from loftwright.physics.bench.readings import Reading

STRANGE: Final = 3.5
MOST_DOUBTED: Final = 3
WRONG: Final = 0.01
"""How often a reading goes wrong; a judgement."""
_A_WRONG_ONE: Final = log(WRONG) - 0.5 * log(2.0 * pi)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sifted:
    """A table with its strange readings set aside.

    Attributes
    ----------
    doubted : tuple of int
        Their places, from 0, in the order in which they were found.
    trusted : Solution
        Of the readings that are left.
    score : float
        The logarithm of how probable the table was; a wrong reading's logarithm may lie anywhere
        within one of the right one, standard deviation.
    """

    doubted: tuple[int, ...]
    trusted: Solution
    score: float


def sift(layout: Unknowns, readings: Sequence[Reading], whole: Solution) -> Sifted:
    """Return a table with its strange readings set aside.

    One after the other, the strangest first, because a wrong reading makes its neighbours look
    strange as well.

    Parameters
    ----------
    layout : Unknowns
    readings : sequence of Reading
    whole : Solution
        Of all of them.
    """
    doubted: list[int] = []
    left, trusted = list(range(len(readings))), whole
    while len(doubted) < min(MOST_DOUBTED, max(1, len(readings) // 3)):
        worst = int(np.abs(trusted.surprises).argmax())
        if abs(trusted.surprises[worst]) <= STRANGE:
            break
        doubted.append(left.pop(worst))
        trusted = solve(layout, [readings[place] for place in left])
    return Sifted(
        doubted=tuple(doubted),
        trusted=trusted,
        score=trusted.evidence + len(doubted) * _A_WRONG_ONE,
    )
