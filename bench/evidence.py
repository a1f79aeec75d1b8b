"""Time of one update of the comparison: 8 clubs, 150 balls in all, both models, one core."""

import time

import numpy as np

from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.compare import compare
from loftwright.evidence.visit import Beliefs
from loftwright.training.balls import balls_of
from loftwright.training.clubs import make_clubs
from loftwright.training.golfer import make_golfer
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.visit import simulate_visit

CLUBS = 8
BALLS = 150
REPEATS = 60
LIMIT_MS = 15.0


def main() -> None:
    rng = np.random.default_rng(1)
    golfer = make_golfer("mid", rng)
    visit = simulate_visit(golfer, make_clubs(CLUBS, rng), shuffled_blocks(CLUBS, BALLS, rng), rng)
    balls = balls_of(visit, (OWN, *TREES)[:CLUBS])
    beliefs, home = Beliefs(), Home()
    before = compare(balls.take(np.arange(BALLS - 1)), home, beliefs)
    warm, cold = [], []
    for _ in range(REPEATS):
        start = time.perf_counter()
        compare(balls, home, beliefs, before.visit.state)
        middle = time.perf_counter()
        compare(balls, home, beliefs)
        warm.append(1e3 * (middle - start))
        cold.append(1e3 * (time.perf_counter() - middle))
    print(f"Comparison of {CLUBS} clubs and {BALLS} balls, both models and the flight home:")
    for name, times in (("warm update", warm), ("cold start", cold)):
        low, high = np.percentile(times, [50, 95])
        print(f"  {name}: median {low:.1f} ms, 95 % below {high:.1f} ms")
    print(
        f"  warm update against its limit of {LIMIT_MS:.0f} ms: {np.median(warm) / LIMIT_MS:.2f}"
    )
