"""All that is left to chance in a simulated fitting, drawn before the first ball.

It is kept by club and turn, so that the k-th ball with a club is one and the same swing, reading
and mark whatever the order in which clubs are hit.
"""

from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.training.device import GREATEST_MISREAD, LEAST_MISREAD

MOST_BALLS: Final = 60
"""With one club."""

HANDOVER_SHIFT: Final[FloatArray] = frozen_array(
    [
        0.3 * MILE_PER_HOUR,
        0.2 * DEGREE,
        60.0 * REVOLUTION_PER_MINUTE,
        0.4 * DEGREE,
        0.2 * DEGREE,
    ]
)
"""Hidden shift of launch from one hand-over to the next: sd of the five numbers (assumed)."""

_NOBODY: Final = -1

Places: TypeAlias = tuple[IntArray, IntArray]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chance:
    """Normal and uniform draws, by club and turn; hand-overs by their number."""

    swings: FloatArray
    mishit: FloatArray
    reading: FloatArray
    misread: FloatArray
    cell: FloatArray
    size: FloatArray
    delivery: FloatArray
    mark: FloatArray
    unmarked: FloatArray
    handover: FloatArray
    shuffle: FloatArray

    def noise(self, at: Places, misreads: float) -> FloatArray:
        """Return the noise of the launch numbers in their own standard deviations.

        Parameters
        ----------
        at : tuple of IntArray
            Club and turn of each ball.
        misreads : float
            Share of balls with one number far off.

        Returns
        -------
        FloatArray, shape (n, 5)
        """
        noise = self.reading[at].copy()
        wrong = np.flatnonzero(self.misread[at] < misreads)
        cells = (self.cell[at][wrong] * noise.shape[1]).astype(np.int64)
        noise[wrong, cells] = self.size[at][wrong]
        return noise

    def handed_over(self, sequence: IntArray) -> FloatArray:
        """Return the hidden shift of the hand-over before each ball, shape (n, 5)."""
        number = np.cumsum(np.diff(sequence, prepend=_NOBODY) != 0) - 1
        return np.asarray(HANDOVER_SHIFT * self.handover[number])


def places_of(sequence: IntArray) -> Places:
    """Return club and turn of each ball: how often its club was hit before."""
    turn = [int((sequence[:ball] == club).sum()) for ball, club in enumerate(sequence)]
    return sequence, np.array(turn, dtype=np.int64)


def draw_chance(clubs: int, rng: np.random.Generator, most: int = MOST_BALLS) -> Chance:
    """Draw all that is left to chance for so many clubs.

    Parameters
    ----------
    clubs : int
    rng : numpy.random.Generator
    most : int, optional
        Balls with one club, and hand-overs.

    Returns
    -------
    Chance
    """
    shape = (clubs, most)
    side = np.where(rng.random(shape) < 0.5, -1.0, 1.0)
    return Chance(
        swings=rng.standard_normal((*shape, 7)),
        mishit=rng.random(shape),
        reading=rng.standard_normal((*shape, 5)),
        misread=rng.random(shape),
        cell=rng.random(shape),
        size=side * rng.uniform(LEAST_MISREAD, GREATEST_MISREAD, shape),
        delivery=rng.standard_normal((*shape, 4)),
        mark=rng.standard_normal((*shape, 2)),
        unmarked=rng.random(shape),
        handover=rng.standard_normal((clubs * most + 1, 5)),
        shuffle=rng.random(shape),
    )
