"""Time of one swing of an invented shaft, of the shafts of a rack, and of a match with a golfer.

Every figure is the least processor time of several repeats, after compilation.
"""

import time
from collections.abc import Callable
from functools import partial

import numpy as np

from loftwright.physics.shaft_swing.basis import (
    HANDS,
    REFERENCE_SWUNG_HEAD,
    BeamShapes,
    ShaftBasis,
    swing_basis,
)
from loftwright.physics.shaft_swing.bracket import brackets
from loftwright.physics.shaft_swing.matching import matched
from loftwright.physics.shaft_swing.players import QUICK_LATE, SMOOTH_EARLY
from loftwright.physics.shaft_swing.swings import STEP, swing

LIMIT_MS = 10.0
RACK = 30
REPEATS = 15
HEAD_SPEED = 45.0


def main() -> None:
    shaft = _shaft(1.0)
    print("Swings of a club on a shaft that bends, one core:")
    for name, player in (("quick and late", QUICK_LATE), ("smooth and early", SMOOTH_EARLY)):
        for step in (STEP, STEP / 2.0):
            least = _least(partial(swing, shaft, player, step=step), REPEATS)
            print(
                f"  {name}, step {1e3 * step:.1f} ms: {least:.1f} ms, "
                f"against its limit of {LIMIT_MS:.0f} ms: {least / LIMIT_MS:.2f}"
            )
    match = _least(lambda: matched(QUICK_LATE, shaft, HEAD_SPEED), 3)
    rack = [_shaft(factor) for factor in np.linspace(0.8, 1.2, RACK)]
    every = _least(lambda: brackets(rack, shaft, QUICK_LATE), 3)
    print(f"  match with a golfer's head speed: {match:.0f} ms")
    print(f"  {RACK} shafts, with torques and with motion held: {every:.0f} ms")


def _least(act: Callable[[], object], repeats: int) -> float:
    act()
    times = []
    for _ in range(repeats):
        start = time.process_time()
        act()
        times.append(1e3 * (time.process_time() - start))
    return min(times)


def _shaft(factor: float) -> ShaftBasis:
    """Return an invented shaft, 70 to 22 N m^2 and 60 g, bent in three powers of its length."""
    length, density, head = 0.928, 0.054, REFERENCE_SWUNG_HEAD
    nodes, powers = np.linspace(0.0, length, 41), np.array([[2.0], [3.0], [4.0]])
    roots, weights = np.polynomial.legendre.leggauss(12)
    along, weights = 0.5 * length * (roots + 1.0), 0.5 * length * weights
    bending = factor * 70.0 * np.exp(np.log(22.0 / 70.0) * along / length)
    bends = powers * (powers - 1.0) * along ** (powers - 2.0)
    end, turn = length ** powers[:, 0], powers[:, 0] * length ** (powers[:, 0] - 1.0)
    centre = end + head.beyond * turn
    mass = (density * weights * along**powers) @ (along**powers).T
    mass += head.mass * np.outer(centre, centre) + head.inertia * np.outer(turn, turn)
    beam = BeamShapes(
        nodes=HANDS + nodes,
        deflections=nodes**powers,
        slopes=powers * nodes ** (powers - 1.0),
        stiffness=(bending * weights * bends) @ bends.T,
        mass=mass,
        density=np.full(len(nodes), density),
    )
    return swing_basis(beam, head)


if __name__ == "__main__":
    main()
