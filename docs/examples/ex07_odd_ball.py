"""A ball that does not fit counts for less, and stays in the record.

    weight = (nu + R) / (nu + d^2),   nu = 6, R responses, d its distance in its own sigmas

Expected: nothing fits a spin read 1500 rpm too high, so it counts for less than half a ball.
"""

from dataclasses import replace

import numpy as np

from loftwright.constants import REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.domain.shot import ShotTable
from loftwright.evidence.compare import compare
from loftwright.evidence.odd import odd_balls
from loftwright.evidence.visit import Beliefs
from loftwright.services.read import balls_of
from loftwright.training.deal import DealOptions, deal

EXPECTED = 0.25
WITHIN = 0.25
SPOILT = 11


def main() -> float:
    """Return the weight of the spoilt ball as a share of an ordinary ball's."""
    shots = deal(DealOptions(seed=4, clubs=3, balls=24, misreads=0)).shots
    spin = (shots[SPOILT].spin or 0.0) + 1500.0 * REVOLUTION_PER_MINUTE
    shots = (*shots[:SPOILT], replace(shots[SPOILT], spin=spin), *shots[SPOILT + 1 :])
    balls = balls_of(ShotTable(read=len(shots), shots=shots), "right", "Own")
    visit = compare(balls, Home(), Beliefs()).visit
    found = {odd.row: odd.weight for odd in odd_balls(visit.setup, visit.launch)}
    return found.get(shots[SPOILT].row, np.inf)


if __name__ == "__main__":
    print(f"counts as {main():.2f} of a ball")  # noqa: T201 - the example's answer
